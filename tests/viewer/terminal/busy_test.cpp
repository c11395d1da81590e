#include "viewer/terminal/busy.hpp"

#include <fcntl.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <sstream>

using namespace dewtrail;
using Catch::Matchers::Contains;

namespace {

/// What a terminal gets while a program is busy for so long.
std::string on_terminal(useconds_t long_us, double share = 0) {
    const int terminal = posix_openpt(O_RDWR | O_NOCTTY);
    REQUIRE(terminal >= 0);
    REQUIRE(grantpt(terminal) == 0);
    REQUIRE(unlockpt(terminal) == 0);
    const std::string name = ptsname(terminal);
    const pid_t child = fork();
    if (child == 0) {
        const int shown = open(name.c_str(), O_RDWR | O_NOCTTY);
        dup2(shown, STDERR_FILENO);
        close(shown);
        std::ostringstream out;
        const Session session(out, std::cerr);
        {
            Busy busy(session, "Reading the putt …");
            if (share > 0) busy.at(share);
            usleep(long_us);
        }
        std::cerr << "done" << std::endl;
        _exit(0);
    }
    // The child's end closes with it; until it is open here too, the terminal may hang up early.
    std::string got;
    char some[256];
    while (got.find("done") == got.npos) {
        const ssize_t n = read(terminal, some, sizeof some);
        if (n > 0) got.append(some, static_cast<std::size_t>(n));
        if (n <= 0 && waitpid(child, nullptr, WNOHANG) == child) break;
    }
    waitpid(child, nullptr, 0);
    close(terminal);
    return got;
}

}  // namespace

TEST_CASE("A terminal that waits for half a second is told for what, and the line is wiped away",
          "[busy]") {
    CHECK_THAT(on_terminal(900'000), Contains("Reading the putt …\r\033[K"));
    CHECK_THAT(on_terminal(900'000, 0.5),
               Contains("[###############...............] 50 %\r\033[K"));
}

TEST_CASE("What takes less is not talked about", "[busy]") {
    CHECK_THAT(on_terminal(0), !Contains("Reading"));
}
