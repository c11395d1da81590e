#include "viewer/window/shown_file.hpp"

#include <fmt/format.h>
#include <spawn.h>
#include <sys/wait.h>

#include <cstring>
#include <thread>

extern char** environ;

namespace dewtrail {

std::string show_file(const std::filesystem::path& path) {
    std::string name = "xdg-open", file = std::filesystem::absolute(path).string();
    char* const arguments[] = {name.data(), file.data(), nullptr};
    pid_t process = 0;
    const int error = posix_spawnp(&process, arguments[0], nullptr, nullptr, arguments, environ);
    if (error == ENOENT) return "Nothing here opens files (package xdg-utils does). It is " + file;
    if (error) return fmt::format("{} could not be opened: {}", file, std::strerror(error));
    std::thread([process] { waitpid(process, nullptr, 0); }).detach();
    return "";
}

}  // namespace dewtrail
