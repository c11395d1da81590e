#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <tuple>

#include "viewer/modes/drawn_mode.hpp"
#include "viewer/picture/filled.hpp"
#include "viewer/picture/widgets/room_chart.hpp"
#include "viewer/putt/account.hpp"

using namespace dewtrail;
using Catch::WithinAbs;

namespace {

/// What the letters of our faces are wide on average, and a little more.
double usual_width(Face, double size, std::string_view words) {
    const auto letters = std::count_if(words.begin(), words.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    });
    return 0.45 * size * static_cast<double>(letters);
}

constexpr Spread tour{1.09, 0.094, 0.05, 0.0035};

ReadStart start_in_room() {
    ReadStart start;
    start.less_motion = true;
    start.room = true;
    start.presets = {{"tour", tour}, {"middle", Spread()}};
    return start;
}

/// A mode whose odds are known.
struct Known : InShell<ReadMode> {
    explicit Known(const ReadStart& start = start_in_room()) : InShell(start, start) { wait(); }
    void wait() {
        for (int i = 0; i < 10; ++i) shell.advance(0.05);
        mode.wait_for_outlook();
        shell.frame(usual_width);
    }
    void click(What what, int index) {
        const auto target = find_target(shell.targets(), what, index);
        REQUIRE(target);
        shell.pointer_pressed(target->hit.centre(), Button::left, {});
        shell.pointer_released(target->hit.centre());
        shell.frame(usual_width);
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
    k.wait();
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
    k.wait();
    REQUIRE(k.mode.setup().taken);
    CHECK(k.mode.setup().taken->kind == BestKind::fewest_putts);
    CHECK_THAT(k.mode.setup().taken->plain.value, WithinAbs(firm_past_m, 1e-12));
    k.wait();
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
    k.wait();
    CHECK(k.mode.odds_shown().fresh);
    CHECK(k.mode.odds_shown().odds->putts != before);
}

TEST_CASE("the spread is chosen, dragged, stepped and typed, undone, and remembered") {
    Known k;
    k.click(What::preset, 0);
    CHECK(k.mode.setup().spread == tour);
    k.wait();
    CHECK(k.wishes_to_remember() == 1);
    const Target line =
        *find_target(k.shell.targets(), What::field, static_cast<int>(Field::spread_line));
    const Vec2 at(line.hit.x + 20, line.hit.bottom() - 12);
    k.shell.pointer_pressed(at, Button::left, {});
    k.shell.pointer_moved(at + Vec2(40, 0), {});
    k.shell.pointer_released(at + Vec2(40, 0));
    CHECK(k.mode.setup().spread.line_deg > 2);
    k.shell.press({key::up});
    k.shell.press({key::enter});
    REQUIRE(k.shell.typing());
    k.shell.typed("2.5deg");
    CHECK_THAT(k.mode.setup().spread.line_deg, WithinAbs(2.5, 1e-12));
    for (int i = 0; i < 4; ++i) k.shell.press({'z', true});
    CHECK(k.mode.setup().spread == Spread());
    k.wait();
    CHECK(k.wishes_to_remember() > 0);
    k.wait();
    CHECK(k.wishes_to_remember() == 0);
}

TEST_CASE("the words 'for your spread' open the spread on a sheet, Esc closes it") {
    ReadStart start = start_in_room();
    start.room = false;
    Known k(start);
    CHECK_FALSE(find_target(k.shell.targets(), What::preset, 0));
    k.click(What::spread, 0);
    REQUIRE(find_target(k.shell.targets(), What::preset, 0));
    k.shell.press({key::escape});
    k.shell.frame(usual_width);
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
                const Picture picture = k.shell.frame(usual_width).picture;
                std::vector<std::pair<Rect, std::string>> seen;
                const Layout& layout = k.shell.layout();
                for (const Shape& shape : picture) {
                    const auto* words = std::get_if<Text>(&shape);
                    if (!words || words->words.empty()) continue;
                    const Rect box = rect_of(*words, usual_width);
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

TEST_CASE("a filled polygon has its area, and holds what lies inside") {
    // An L: 3 of 4 quarters of a square.
    const std::vector<Vec2> corners{{0, 0}, {2, 0}, {2, 1}, {1, 1}, {1, 2}, {0, 2}};
    const auto triangles = filled(corners);
    REQUIRE(triangles.size() == 4);
    double area = 0;
    for (const auto& [a, b, c] : triangles) {
        const Vec2 u = corners[b] - corners[a], v = corners[c] - corners[a];
        area += 0.5 * std::abs(u.x() * v.y() - u.y() * v.x());
    }
    CHECK_THAT(area, WithinAbs(3, 1e-12));
    CHECK(holds(corners, {0.5, 1.5}));
    CHECK_FALSE(holds(corners, {1.5, 1.5}));
    CHECK(filled({corners.rbegin(), corners.rend()}).size() == 4);
}

TEST_CASE("the ellipse holds the share of strokes that it says") {
    StrokeSpread spread;
    spread.level_roll_m = 4;
    spread.covariance << 1e-3, 2e-3, 2e-3, 0.3;
    const auto ring = spread_ellipse(spread, 1);
    double widest = 0;
    for (const StrokeOff& off : ring) widest = std::max(widest, off.angle_rad);
    CHECK_THAT(widest, WithinAbs(std::sqrt(1e-3), 1e-4));  // 96 points: 1 - cos(pi/96) at most
    std::vector<Vec2> polygon;
    for (const StrokeOff& off : ring) polygon.emplace_back(off.angle_rad, off.pace);
    int inside = 0;
    for (const StrokeOff& off : some_strokes(spread))
        inside += holds(polygon, {off.angle_rad, off.pace});
    // 1 - exp(-1/2) = 39 in 100; the standard error of a hundred strokes is 5.
    CHECK_THAT(inside, WithinAbs(39, 11));
}
