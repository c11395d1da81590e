#pragma once

#include <filesystem>
#include <stdexcept>
#include <string_view>

namespace dewtrail {

/// Something outside failed: disk, folder, rights. The program ends with exit code 3.
struct OutsideError : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// OutsideError for a path that is a folder or a device; save_whole_file says so too, but later.
void check_may_be_file(const std::filesystem::path& path);

/// Writes a file beside the wanted one, then puts it in its place: at any moment there is the whole
/// old file or the whole new one. Makes missing folders; a symbolic link stays one. The old
/// file's rights stay. Refuses a path that is there and no regular file. Throws OutsideError with
/// the path and the system's reason.
void save_whole_file(const std::filesystem::path& path, std::string_view text);

}  // namespace dewtrail
