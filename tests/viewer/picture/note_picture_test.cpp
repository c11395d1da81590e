#include <fmt/format.h>

#include <catch2/catch.hpp>

#include "viewer/modes/drawn_mode.hpp"

using namespace dewtrail;

namespace {

OddsShown some_odds() {
    OddsShown shown;
    shown.odds = Odds{};
    shown.odds->holed = 0.04, shown.odds->three_putt = 0.31, shown.odds->putts = 2.3;
    shown.odds->inside_3ft = 0.31, shown.odds->usual_leave_m = 1.4;
    shown.choices = {0.2, 0.3, 0.4};
    shown.fresh = shown.choices_fresh = true;
    return shown;
}

double height_of(const Setup& setup, bool detail, const Layout& layout) {
    const Look look{palette(Theme::dew), layout, {}, type_width};
    const Solved s = solve(setup, usual_past_m, Effort::settled);
    NoteState state;
    state.detail = detail;
    Picture picture;
    Targets targets;
    return draw_note({picture, targets, {}, look}, note_of(setup, s, {}, some_odds()), state)
        .full_height;
}

}  // namespace

TEST_CASE("at the usual size of type the note does not scroll") {
    for (const auto& [w, h] : {std::pair(1280, 800), std::pair(1024, 640), std::pair(1920, 1080)})
        for (const double clock : {1.0, 3.0, 4.5, 6.0, 10.5})
            for (const double feet : {4.0, 8.0, 12.0, 25.0, 45.0})
                for (const bool detail : {false, true}) {
                    if (detail && feet < 10) continue;  // three finishes and all figures: scrolls
                    Setup setup;
                    setup.distance_m = feet * metres_per_foot;
                    setup.clock_h = clock;
                    setup.slope = feet < 10 ? 0.03 : 0.015;
                    const Layout layout = lay_out(w, h, 1, true);
                    INFO(fmt::format("{} ft at {}, {}x{}, detail {}", feet, clock, w, h, detail));
                    CHECK(height_of(setup, detail, layout) <= layout.note.h);
                }
}

TEST_CASE("nor does that of a putt that breaks both ways") {
    int told = 0;
    for (const double feet : {12.0, 20.0, 30.0, 45.0})
        for (const double up : {-0.02, 0.0, 0.03})
            for (const double side : {-1.0, 1.0}) {
                Setup setup;
                setup.distance_m = feet * metres_per_foot;
                if (feet > 30) setup.finish = Finish::past(lag_past_m);
                set_readings(setup, {{0, up, 0.03 * side},
                                     {0.5 * setup.distance_m, up, 0.005 * side},
                                     {setup.distance_m, 0.5 * up, -0.02 * side}});
                const Solved s = solve(setup, usual_past_m, Effort::settled);
                if (!s.read) continue;
                ++told;
                INFO(fmt::format("{} ft, {} up, {}", feet, up, side));
                REQUIRE(s.read->turns);
                for (const auto& [w, h] :
                     {std::pair(1280, 800), std::pair(1024, 640), std::pair(1920, 1080)}) {
                    INFO(w << "x" << h);
                    const Layout layout = lay_out(w, h, 1, true, true);
                    CHECK(height_of(setup, false, layout) <= layout.note.h);
                }
            }
    CHECK(told > 12);
}

TEST_CASE("larger type keeps its distances and scrolls") {
    Setup setup;
    const Layout layout = lay_out(1280, 800, 1.5, true);
    REQUIRE(height_of(setup, true, layout) > layout.note.h);
}

TEST_CASE("a note that has become short enough stands at its top again") {
    ReadStart start = quiet_start();
    start.text = 1.5;
    Drawn d(start);
    const auto hero_y = [&] {
        const Frame frame = d.draw();
        for (const Text& text : all_of<Text>(frame.picture))
            if (text.words == "coach detail") return text.at.y();
        return 0.0;
    };
    const double top = hero_y();
    d.shell.wheel(-40, d.shell.layout().note.centre(), {});
    REQUIRE(hero_y() < top - 100);
    d.shell.resize(1280, 2600);
    d.draw();
    d.shell.resize(1280, 800);
    d.draw();
    CHECK(hero_y() == top);
}

TEST_CASE("the note leads with what a player uses") {
    Setup side_hill;
    side_hill.distance_m = 12 * metres_per_foot;
    const Solved s = solve(side_hill, usual_past_m, Effort::settled);
    const Account account = note_of(side_hill, s, {}).account;
    CHECK(account.heading == "Right to left");
    REQUIRE(account.rows.size() == 6);
    CHECK(account.rows[0].words == "three cups out right");
    CHECK(account.rows[0].second == "15 in from the centre");
    CHECK(account.rows[1].words == "play it as a straight level 12-footer");
    CHECK(account.rows[1].detail == "leaves at 6.8 ft/s");
    CHECK(account.rows[2].words == "just past halfway, 5 in high");
    CHECK(
        read_as_text(side_hill, s, {}) ==
        "12 ft, 2 %, ball at 3:00, stimp 10, a foot past. Right to left. Aim three cups out right "
        "(15 in from the centre). Play it as a straight level 12-footer. Apex just past halfway, 5 "
        "in "
        "high; the start line passes 4 in above it.");
}
