#include <fmt/format.h>

#include <catch2/catch.hpp>

#include "tests/support/temporary_folder.hpp"
#include "viewer/practice/drill/drill_session.hpp"
#include "viewer/practice/habits/practice_words.hpp"
#include "viewer/practice/habits/progress.hpp"
#include "viewer/practice/measure/measure_words.hpp"

using namespace dewtrail;
using Catch::Matchers::Contains;

namespace {

/// Ten putts, each aimed at so much of the break and hit so much as hard as it should be.
struct PlayedSession : TemporaryFolder {
    PlayedSession(double aim, double pace, Drill drill = Drill::read)
        : memory(path()),
          session({.drill = drill, .seed = 7, .date = "2026-05-01"}, memory, {}, usual_past_m, {}) {
        while (const Question* q = session.next())
            session.answer(aim * *q->best.aim_offset_m, pace * q->best.level_roll_m - usual_past_m,
                           true);
    }
    EndWords end() const { return end_words(session, Units{}); }

    Memory memory;
    DrillSession session;
};

void add_balls(Memory& memory, double bias) {
    Measures measures;
    int i = 0;
    for (const double called : called_lengths_m(2, 6, 20, 3))
        measures.balls.push_back({.at = "2026-05-01T10:00:00",
                                  .called_m = called,
                                  .stopped_m = called * (1 + bias + 0.03 * (i++ % 3 - 1))});
    memory.add(measures);
}

/// Half of them through the gate; the others left of it, or as many left as right.
void add_strokes(Memory& memory, int count, bool biased) {
    Measures measures;
    for (int i = 0; i < count; ++i)
        measures.strokes.push_back({.at = biased ? "2026-05-02" : "2026-05-01",
                                    .gate = {0.08, 1},
                                    .passed = i % 2 == 0             ? Passed::through
                                              : biased || i % 4 == 1 ? Passed::left
                                                                     : Passed::right});
    memory.add(measures);
}

}  // namespace

TEST_CASE("where the advice is about the aim and the pace cost more, the end says so", "[end]") {
    const PlayedSession firm(0, 1.35);
    REQUIRE(firm.session.finding().of == Fault::aim);
    REQUIRE(firm.session.end().pace_lost > firm.session.end().aim_lost + 0.01);
    CHECK(firm.session.end().next.drill == Drill::line);
    REQUIRE(firm.session.end().for_dearer);
    CHECK(firm.session.end().for_dearer->drill == Drill::pace);
    CHECK(firm.end().dearer == "This time the pace cost more. For that: Pace drill, five putts.");
}

TEST_CASE("where the advice is about the dearer part, or about none, nothing is added", "[end]") {
    const PlayedSession low(0.2, 1);
    REQUIRE(low.session.finding().of == Fault::aim);
    REQUIRE(low.session.end().aim_lost > low.session.end().pace_lost);
    CHECK(low.end().dearer.empty());
    CHECK(PlayedSession(1, 1).end().dearer.empty());
    CHECK(PlayedSession(0.2, 1, Drill::line).end().dearer.empty());  // the pace was given
}

TEST_CASE("the end of a session names the drill at home where a bias was measured", "[end]") {
    PlayedSession s(0.2, 1);
    CHECK_FALSE(s.end().home);
    add_balls(s.memory, 0);
    add_strokes(s.memory, 20, false);
    s.session.forget_home();
    CHECK_FALSE(s.end().home);  // measured, but even

    add_balls(s.memory, 0.2);
    s.session.forget_home();
    REQUIRE(s.end().home);
    CHECK(s.end().home->test() == "pace");
    CHECK(s.end().home->command() == "dewtrail measure pace --drill");
    CHECK(s.end().home->words ==
          "At home: " + drill_words(*measured(s.memory.measures()).pace, Units{}));
    CHECK_THAT(s.end().home->words, Contains("where yours stop long."));

    // Both stand out: the aim cost more in this session, so the line's.
    add_strokes(s.memory, 40, true);
    s.session.forget_home();
    REQUIRE(s.end().home);
    CHECK(s.end().home->test() == "line");
    CHECK_THAT(s.end().home->words, Contains("strokes through a gate ") && Contains("start left."));

    const Progress progress =
        progress_of(s.memory.answers(), s.memory.putts(), s.memory.measures(), {});
    REQUIRE(progress.at_home);
    CHECK(progress.at_home->words == s.end().home->words);
}

TEST_CASE("the end tells this session's figure, and then that of all putts", "[end]") {
    PlayedSession first(0.6, 1);
    CHECK(first.end().counts.back() == '.');
    CHECK(first.end().counts.find('%') == std::string::npos);  // all there is: the finding tells it
    CHECK(first.end().finding == finding_words(first.session.finding()));

    DrillSession second({.seed = 8, .date = "2026-05-02"}, first.memory, {}, usual_past_m, {});
    while (const Question* q = second.next())
        second.answer(*q->best.aim_offset_m, q->best.level_putt_m, true);
    const EndWords words = end_words(second, Units{});
    const Finding& finding = second.finding();
    REQUIRE(finding.of == Fault::aim);
    INFO(words.counts << " / " << words.finding);
    CHECK(words.counts.substr(words.counts.find(':')) == ": 100 % of the break.");
    CHECK_THAT(words.finding,
               Contains(fmt::format("Over {} putts that break: you play ", finding.putts)) &&
                   Contains(share_words(*finding.share)));
}
