#pragma once

#include <filesystem>
#include <string>

#include "viewer/survey/green_draft.hpp"

namespace dewtrail {

/// Saves a green file after reading it back: a file that cannot be read never takes the place of
/// one that can. InputError says what is wrong with it, OutsideError what failed.
void write_green(const std::filesystem::path& file, const std::string& text);

struct SavedGreen {
    std::string words;  ///< where it is now, or why not
    bool done = false;
};

/// A surveyed green among the player's own, with its tables beside it, under a file name made of
/// its name. Another file of that name stays unless `replace` says so.
SavedGreen save_draft(const std::filesystem::path& folder, const GreenDraft& draft, bool replace);

}  // namespace dewtrail
