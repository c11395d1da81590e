#pragma once

#include <filesystem>
#include <optional>

#include "viewer/files/state_file.hpp"

/// What the window remembers about itself between sessions.
namespace dewtrail {

struct WindowState {
    std::optional<double> scale;  ///< the last one asked for, 0.8 to 4
    bool hints_seen = false;
};
inline constexpr double least_window_scale = 0.8, most_window_scale = 4;

inline std::optional<std::filesystem::path> window_state_path() {
    return state_path("window.toml");
}

/// What the file holds, and defaults for the rest. A missing or damaged file counts as empty.
WindowState load_window_state(const std::optional<std::filesystem::path>& path,
                              const Tell& tell = {});

/// The first hints are not shown again.
void remember_hints(const std::optional<std::filesystem::path>& path);

void save_window_state(const std::optional<std::filesystem::path>& path, const WindowState& state);

}  // namespace dewtrail
