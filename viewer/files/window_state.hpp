#pragma once

#include <filesystem>
#include <optional>

/// What the window remembers about itself between sessions.
namespace dewtrail {

struct WindowState {
    std::optional<double> scale;  ///< the last one asked for, 0.8 to 4
    bool hints_seen = false;
};
inline constexpr double least_window_scale = 0.8, most_window_scale = 4;

/// $XDG_STATE_HOME/dewtrail/window.toml, else $HOME/.local/state/dewtrail/window.toml; none where
/// neither is set to a folder from the root.
std::optional<std::filesystem::path> window_state_path();

/// What the file holds, and defaults for the rest. A missing or damaged file counts as empty.
WindowState load_window_state(const std::optional<std::filesystem::path>& path);

/// Best effort: what cannot be saved is asked or shown again.
void save_window_state(const std::optional<std::filesystem::path>& path, const WindowState& state);

}  // namespace dewtrail
