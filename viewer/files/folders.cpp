#include "viewer/files/folders.hpp"

#include <cstdlib>

namespace dewtrail {
namespace fs = std::filesystem;
namespace {

std::optional<fs::path> folder_from(const char* variable) {
    const char* value = std::getenv(variable);
    if (!value || !fs::path(value).is_absolute()) return std::nullopt;
    return fs::path(value);
}

std::optional<fs::path> folder(const char* variable, const char* below_home) {
    if (const auto named = folder_from(variable)) return *named / "dewtrail";
    if (const auto home = folder_from("HOME")) return *home / below_home / "dewtrail";
    return std::nullopt;
}

}  // namespace

std::optional<fs::path> config_folder() {
    return folder("XDG_CONFIG_HOME", ".config");
}

std::optional<fs::path> data_folder() {
    return folder("XDG_DATA_HOME", ".local/share");
}

std::optional<fs::path> state_folder() {
    return folder("XDG_STATE_HOME", ".local/state");
}

}  // namespace dewtrail
