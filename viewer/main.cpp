#include <unistd.h>

#include <atomic>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <exception>
#include <filesystem>
#include <iostream>
#include <new>
#include <optional>

#include "viewer/terminal/folded.hpp"
#include "viewer/terminal/session.hpp"

#ifdef DEWTRAIL_HAS_WINDOW
#include "viewer/window/window.hpp"
#include "viewer/window/window_command.hpp"
#endif

namespace {

#ifdef DEWTRAIL_HAS_WINDOW

void add_more_commands(const dewtrail::Command& app, dewtrail::Session& session) {
    dewtrail::add_window_command(app, session);
}

/// Without a word the window opens, where there is a display to open it on.
std::vector<std::string> unasked() {
    const char* display = std::getenv("DISPLAY");
    return display && *display ? std::vector<std::string>{"window"} : std::vector<std::string>{};
}

#ifndef DEWTRAIL_IS_WINDOW

/// The window is a program of its own beside this one. Returns where it is not there.
void become_window(int argc, char** argv) {
    const bool asked = argc > 1 ? std::strcmp(argv[1], "window") == 0 : !unasked().empty();
    if (!asked) return;
    std::error_code unknown;
    const auto program = std::filesystem::read_symlink("/proc/self/exe", unknown);
    execv((program.parent_path() / "dewtrail-window").c_str(), argv);
}

#endif

#else

void add_more_commands(const dewtrail::Command& app, dewtrail::Session& session) {
    const dewtrail::Command command = app.add_subcommand("window", "Not in this build");
    command.allow_extras();
    command.callback([&session] {
        session.run = []() -> dewtrail::Exit {
            throw dewtrail::OutsideError("this build has no window; use the other commands");
        };
    });
}

std::vector<std::string> unasked() {
    return {};
}

#endif

int end_without_memory() {
    std::fputs("not enough memory\n", stderr);
    return static_cast<int>(dewtrail::Exit::outside_failed);
}

/// Some destructors of libraries ask for memory (of a JSON, of a transaction), where nothing may be
/// thrown: C++ ends the program there and then, and cannot always tell what for.
std::atomic<bool> memory_ran_out{false};
const std::terminate_handler usual_end = std::get_terminate();

void end_told_of_memory() {
    if (memory_ran_out) std::_Exit(end_without_memory());
    usual_end();
}

void tell_of_memory() {
    std::set_new_handler([] {
        memory_ran_out = true;
        throw std::bad_alloc();
    });
    std::set_terminate(end_told_of_memory);
}

}  // namespace

#if defined(DEWTRAIL_HAS_WINDOW) && !defined(DEWTRAIL_IS_WINDOW)
dewtrail::Exit dewtrail::run_window(WindowOptions /*options*/) {
    throw OutsideError("the window's own program is missing: dewtrail-window, beside this one");
}
#endif

int main(int argc, char** argv) try {
    tell_of_memory();
#if defined(DEWTRAIL_HAS_WINDOW) && !defined(DEWTRAIL_IS_WINDOW)
    become_window(argc, argv);
#endif
    std::optional<dewtrail::Folded> out, err;
    if (const auto columns = dewtrail::terminal_columns(STDOUT_FILENO))
        out.emplace(std::cout, *columns);
    if (const auto columns = dewtrail::terminal_columns(STDERR_FILENO))
        err.emplace(std::cerr, *columns);
    return static_cast<int>(dewtrail::run_dewtrail({argv + 1, argv + argc}, std::cout, std::cerr,
                                                   add_more_commands, unasked()));
} catch (const std::bad_alloc&) {  // before a command could say so
    return end_without_memory();
}
