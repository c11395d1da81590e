#pragma once

#include <sys/wait.h>

#include <cstdio>
#include <string>

namespace dewtrail {

/// What a command writes to stdout, and its exit code; 128 and the signal if one ended it.
struct ShellOutcome {
    int code = -1;
    std::string written;
};
inline ShellOutcome run_in_shell(const std::string& command) {
    ShellOutcome outcome;
    FILE* pipe = popen(command.c_str(), "r");
    if (!pipe) return outcome;
    char some[4096];
    while (const std::size_t n = fread(some, 1, sizeof some, pipe)) outcome.written.append(some, n);
    const int status = pclose(pipe);
    outcome.code = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
    return outcome;
}

inline bool installed(const std::string& program) {
    return run_in_shell("command -v " + program).code == 0;
}

}  // namespace dewtrail
