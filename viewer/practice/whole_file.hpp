#pragma once

#include <filesystem>
#include <optional>
#include <stdexcept>
#include <string_view>

namespace dewtrail {

/// Something outside failed: disk, folder, rights. The program ends with exit code 3.
struct OutsideError : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// Where a file of the program's own lies: in the folder that an environment variable of the XDG
/// base directory specification names, else under the home folder; none where neither is set to an
/// absolute folder.
std::optional<std::filesystem::path> usual_file(const char* variable,
                                                const std::filesystem::path& under_home,
                                                const std::filesystem::path& name);

/// Writes a file beside the wanted one, then puts it in its place: at any moment there is the whole
/// old file or the whole new one. Makes missing folders; a symbolic link stays one. The old
/// file's rights stay. Refuses a path that is there and no regular file. Throws OutsideError with
/// the path and the system's reason.
void save_whole_file(const std::filesystem::path& path, std::string_view text);

}  // namespace dewtrail
