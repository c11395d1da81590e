#pragma once

#include <filesystem>
#include <optional>

#include "viewer/files/state_file.hpp"
#include "viewer/survey/green_draft.hpp"

/// A survey that was not saved when the window closed, so that no reading is lost.
namespace dewtrail {

inline std::optional<std::filesystem::path> kept_green_path() {
    return state_path("survey.toml");
}

/// None removes what was kept.
void keep_green(const std::optional<std::filesystem::path>& path,
                const std::optional<GreenDraft>& draft);

/// None where nothing was kept, or what cannot be fitted.
std::optional<GreenDraft> kept_green(const std::optional<std::filesystem::path>& path,
                                     const Tell& tell = {});

}  // namespace dewtrail
