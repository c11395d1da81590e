#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>

#include "tests/support/random.hpp"
#include "tests/support/temporary_folder.hpp"
#include "viewer/practice/memory.hpp"

using namespace dewtrail;

// Every number that came through the pipe was said to be remembered before the program was killed.
TEST_CASE("A program killed at any moment has kept all it said it had", "[memory]") {
    const TemporaryFolder folder;
    oracle::Random random(20260501);
    constexpr int kills = 200;
    std::int64_t last_said = 0;
    for (int i = 0; i < kills; ++i) {
        int channel[2];
        REQUIRE(pipe(channel) == 0);
        const pid_t child = fork();
        if (child == 0) {
            close(channel[0]);
            Memory memory(folder.path());
            Answer answer;
            answer.at = "2026-05-01T18:30:00";
            answer.putt = plane_putt(3, -0.013, 0.021, 10.3, 0.3048);
            while (true) {
                const std::int64_t ball =
                    memory.remember(PaceBall{.at = "2026-05-01", .called_m = 3, .stopped_m = 3});
                const std::int64_t stroke =
                    memory.remember(GateStroke{.at = "2026-05-01", .gate = {0.08, 1}});
                const std::int64_t id = memory.remember(answer);
                if (ball < id || stroke < id || write(channel[1], &id, sizeof id) != sizeof id)
                    _exit(1);
            }
        }
        close(channel[1]);
        // Half of them while the file is being opened, half once it is written to, however busy the
        // machine is.
        std::int64_t first = 0;
        if (i % 2 == 1 && read(channel[0], &first, sizeof first) == sizeof first) last_said = first;
        usleep(static_cast<useconds_t>(random.between(0, 25'000)));
        kill(child, SIGKILL);
        waitpid(child, nullptr, 0);
        for (std::int64_t id = 0; read(channel[0], &id, sizeof id) == sizeof id;) last_said = id;
        close(channel[0]);
        if (i % 20 == 19)
            REQUIRE(Memory(folder.path()).answers().size() >= static_cast<std::size_t>(last_said));
    }
    const auto answers = Memory(folder.path()).answers();
    const Measures measures = Memory(folder.path()).measures();
    // Each came before its answer.
    REQUIRE(measures.balls.size() >= static_cast<std::size_t>(last_said));
    REQUIRE(measures.strokes.size() >= static_cast<std::size_t>(last_said));
    REQUIRE(last_said > 20);  // some did get through
    REQUIRE(answers.size() >= static_cast<std::size_t>(last_said));
    for (std::size_t k = 0; k < answers.size(); ++k)
        REQUIRE(answers[k].id == static_cast<std::int64_t>(k) + 1);  // no gaps: none was lost
}
