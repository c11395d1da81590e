#pragma once

#include <filesystem>
#include <string>

#include "viewer/modes/green/green_mode.hpp"

namespace dewtrail {

/// Puts a green file in its place once it has been read back: what cannot be read is never put
/// there. InputError says what is wrong with it, OutsideError what failed.
void write_green(const std::filesystem::path& file, const std::string& text);

/// A surveyed green among the player's own, with its tables beside it, under a file name made of
/// its name. Another file of that name stays unless `replace` says so.
GreenStart::Saved save_draft(const std::filesystem::path& folder, const GreenDraft& draft,
                             bool replace);

}  // namespace dewtrail
