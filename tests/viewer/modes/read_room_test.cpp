#include <algorithm>
#include <catch2/catch.hpp>
#include <tuple>

#include "viewer/modes/drawn_mode.hpp"
#include "viewer/putt/account.hpp"

using namespace dewtrail;
using Catch::WithinAbs;

namespace {

constexpr Spread tour{1.09, 0.094, 0.05, 0.0035};

ReadStart start_in_room() {
    ReadStart start;
    start.less_motion = true;
    start.room = true;
    start.presets = {{"tour", tour}, {"middle", Spread()}};
    return start;
}

/// A mode whose odds are known.
struct Known : DrawnMode<ReadMode> {
    explicit Known(const ReadStart& start = start_in_room()) : DrawnMode(start, start) { answer(); }
    void answer() {
        wait(0.5);
        mode.wait_for_outlook();
        draw();
    }
    int wishes_to_remember() {
        int n = 0;
        for (const Wish& wish : shell.take_wishes()) n += wish.kind == Wish::Kind::remember_spread;
        return n;
    }
};

}  // namespace

TEST_CASE("a click on a diamond takes its line and finish into the read, undo takes it back") {
    Known k;
    const PlayedChoice most = k.mode.outlook().best->most_holed;
    const double plain_angle = k.mode.solved().read->stroke.angle_rad;
    k.click(What::best, static_cast<int>(BestKind::most_holed));
    REQUIRE(k.mode.setup().taken);
    const Read& taken = *k.mode.solved().read;
    // The read is solved again for the same finish: to its own accuracy.
    CHECK_THAT(taken.stroke.angle_rad, WithinAbs(most.stroke.angle_rad, 1e-9));
    CHECK_THAT(taken.stroke.speed_m_s, WithinAbs(most.stroke.speed_m_s, 1e-9));
    k.answer();
    const OddsShown odds = k.mode.odds_shown();
    REQUIRE(odds.fresh);
    // Two maps of the same strokes.
    CHECK_THAT(odds.odds->holed, WithinAbs(most.odds.holed, 1e-3));
    CHECK(odds.taken.rfind("most holed, ", 0) == 0);
    k.shell.press({'z', true});
    CHECK_FALSE(k.mode.setup().taken);
    CHECK_THAT(k.mode.solved().read->stroke.angle_rad, WithinAbs(plain_angle, 1e-12));
}

TEST_CASE("B takes the choice with the fewest putts, as soon as it is known") {
    ReadStart start = start_in_room();
    start.setup.distance_m = 20 * metres_per_foot;
    start.setup.clock_h = 1;
    start.setup.finish = Finish::past(firm_past_m);
    Known k(start);
    k.shell.press({'.'});  // other odds: not known yet
    k.shell.press({'b'});
    k.answer();
    REQUIRE(k.mode.setup().taken);
    CHECK(k.mode.setup().taken->kind == BestKind::fewest_putts);
    CHECK_THAT(k.mode.setup().taken->plain.value, WithinAbs(firm_past_m, 1e-12));
    k.answer();
    CHECK(k.mode.odds_shown().taken.find("saves one stroke in") != std::string::npos);
    CHECK(k.mode.outlook().best->plain->odds.putts > k.mode.odds_shown().odds->putts);
    k.shell.press({','});
    CHECK_FALSE(k.mode.setup().taken);  // another putt has another best choice
}

TEST_CASE("while a putt changes, its chance is live and the rest is dimmed") {
    Known k;
    const double before = k.mode.odds_shown().odds->putts;
    k.shell.press({','});
    const OddsShown live = k.mode.odds_shown();
    CHECK_FALSE(live.fresh);
    REQUIRE(live.holed);
    CHECK(live.odds->putts == before);
    const Note note = note_of(k.mode.setup(), k.mode.solved(), {}, live);
    REQUIRE(note.account.row(Glyph::odds));
    CHECK_FALSE(note.odds_pending);
    CHECK(note.odds_detail_pending);
    k.answer();
    CHECK(k.mode.odds_shown().fresh);
    CHECK(k.mode.odds_shown().odds->putts != before);
}

TEST_CASE("the spread is chosen, dragged, stepped and typed, undone, and remembered") {
    Known k;
    k.click(What::preset, 0);
    CHECK(k.mode.setup().spread == tour);
    k.answer();
    CHECK(k.wishes_to_remember() == 1);
    const Target line =
        *find_target(k.shell.targets(), What::field, static_cast<int>(Field::spread_line));
    const Vec2 at(line.hit.x + 20, line.hit.bottom() - 12);
    k.drag(at, at + Vec2(40, 0));
    CHECK(k.mode.setup().spread.line_deg > 2);
    k.press({{key::up}, {key::enter}});
    k.type("2.5deg");
    CHECK_THAT(k.mode.setup().spread.line_deg, WithinAbs(2.5, 1e-12));
    for (int i = 0; i < 4; ++i) k.shell.press({'z', true});
    CHECK(k.mode.setup().spread == Spread());
    k.answer();
    CHECK(k.wishes_to_remember() > 0);
    k.answer();
    CHECK(k.wishes_to_remember() == 0);
}

TEST_CASE("the words 'for your spread' open the spread on a sheet, Esc closes it") {
    ReadStart start = start_in_room();
    start.room = false;
    Known k(start);
    CHECK_FALSE(find_target(k.shell.targets(), What::preset, 0));
    k.click(What::spread, 0);
    REQUIRE(find_target(k.shell.targets(), What::preset, 0));
    k.press({{key::escape}});
    CHECK_FALSE(find_target(k.shell.targets(), What::preset, 0));
}

TEST_CASE("Room at any size: no text leaves the window or lies on another") {
    for (const auto& [w, h, text] : {std::tuple(1280, 800, 1.0),
                                     {1024, 640, 1.0},
                                     {1920, 1080, 1.25},
                                     {1280, 800, 1.5},
                                     {900, 1100, 1.0}})
        for (const bool detail : {false, true})
            for (const double feet : {4.0, 12.0, 40.0}) {
                ReadStart start = start_in_room();
                start.width = w, start.height = h, start.text = text, start.detail = detail;
                start.setup.distance_m = feet * metres_per_foot;
                Known k(start);
                const Picture picture = k.draw().picture;
                std::vector<std::pair<Rect, std::string>> seen;
                const Layout& layout = k.shell.layout();
                for (const Shape& shape : picture) {
                    const auto* words = std::get_if<Text>(&shape);
                    if (!words || words->words.empty()) continue;
                    const Rect box = rect_of(*words, type_width);
                    INFO(w << "x" << h << ", " << text << ", " << feet << " ft: " << words->words);
                    CHECK((box.x >= 0 && box.right() <= layout.width));
                    const Rect core{box.x, box.y + 0.2 * box.h, box.w, 0.6 * box.h};
                    for (const auto& [other, what] : seen) {
                        INFO("on " << what);
                        CHECK_FALSE(core.meets(other));
                    }
                    seen.emplace_back(core, words->words);
                }
            }
}
