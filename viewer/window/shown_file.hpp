#pragma once

#include <filesystem>
#include <string>

namespace dewtrail {

/// Has the desktop show a file or folder by its usual program, beside this one, by way of
/// `xdg-open`. Returns what went wrong, in a sentence; of what happens later nothing is heard.
std::string show_file(const std::filesystem::path& path);

}  // namespace dewtrail
