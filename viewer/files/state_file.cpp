#include "viewer/files/state_file.hpp"

#include <fmt/format.h>

#include "viewer/files/folders.hpp"
#include "viewer/files/whole_file.hpp"

namespace dewtrail {
namespace fs = std::filesystem;

std::optional<fs::path> state_path(const char* name) {
    const auto folder = state_folder();
    return folder ? std::optional(*folder / name) : std::nullopt;
}

void keep_state(const std::optional<fs::path>& path, const std::string& text) {
    if (!path) return;
    try {
        make_folder_of(*path);
        save_whole_file(*path, text);
    } catch (const OutsideError&) {
    }
}

void set_aside(const fs::path& path, const std::string& why, const Tell& tell) {
    std::error_code error;
    fs::path beside = path.string() + ".damaged";
    for (int i = 2; fs::exists(beside, error); ++i)
        beside = fmt::format("{}.damaged-{}", path.string(), i);
    fs::rename(path, beside, error);
    if (tell)
        tell(fmt::format("{} cannot be used: {}. {}", path.string(), why,
                         error ? "It is left as it is." : "It is now " + beside.string() + "."));
}

}  // namespace dewtrail
