#pragma once

#include <filesystem>
#include <optional>

#include "viewer/survey/green_draft.hpp"

/// A survey that was not saved when the window closed, so that no reading is lost.
namespace dewtrail {

/// "survey.toml" beside the window's own file; none where there is no folder for it.
std::optional<std::filesystem::path> kept_green_path();

/// Best effort. None removes what was kept.
void keep_green(const std::optional<std::filesystem::path>& path,
                const std::optional<GreenDraft>& draft);

/// None where nothing was kept or the file is damaged.
std::optional<GreenDraft> kept_green(const std::optional<std::filesystem::path>& path);

}  // namespace dewtrail
