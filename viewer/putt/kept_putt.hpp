#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "viewer/files/state_file.hpp"
#include "viewer/putt/setup.hpp"

/// The last putt of the window, so that it opens on it again. The spread is not kept, since it
/// belongs to the player; of a choice that was taken, only the finish is.
namespace dewtrail {

/// Reads a green by its file; throws InputError.
using GreenLoader = std::function<std::shared_ptr<const Green>(const std::string& file)>;

inline std::optional<std::filesystem::path> kept_putt_path() {
    return state_path("putt.toml");
}

/// As it is kept: the file's text.
std::string kept_text(const Setup& setup);
void keep_putt(const std::optional<std::filesystem::path>& path, const Setup& setup);

/// None where nothing was kept, the file is damaged, or its green is gone.
std::optional<Setup> kept_putt(const std::optional<std::filesystem::path>& path,
                               const GreenLoader& load, const Tell& tell = {});

}  // namespace dewtrail
