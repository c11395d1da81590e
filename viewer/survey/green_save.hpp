#pragma once

#include <filesystem>
#include <string>

#include "viewer/modes/green/green_mode.hpp"

namespace dewtrail {

/// Saves a green file after reading it back: a file that cannot be read never takes the place of
/// one that can. InputError says what is wrong with it, OutsideError what failed.
void write_green(const std::filesystem::path& file, const std::string& text);

/// A surveyed green among the player's own, with its tables beside it, under a file name made of
/// its name. Another file of that name stays unless `replace` says so.
GreenStart::Saved save_draft(const std::filesystem::path& folder, const GreenDraft& draft,
                             bool replace);

}  // namespace dewtrail
