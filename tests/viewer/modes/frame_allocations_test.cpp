/// How often a frame asks for memory while a ball is dragged: times are for the benchmark, counts
/// do not wobble. A number here may fall; if it rises, every frame became slower.

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <string>

#include "tests/support/allocations.hpp"
#include "tests/viewer/modes/drawn_mode.hpp"

using namespace dewtrail;

namespace {

/// The most that a frame takes while the ball swings round the hole.
long most_in_a_frame(const std::string& green) {
    ReadStart start;
    start.outlook = false;  // has a thread of its own
    if (!green.empty()) put_on_green(start.setup, shipped_green(green));
    const auto shell = Shell::with<ReadMode>(start, start);
    long for_widths = 0;  // which are cairo's here, and the window's own there
    const TextWidth width = [&](Face face, double size, std::string_view words) {
        const long before = oracle::allocations();
        const double wide = type_width(face, size, words);
        for_widths += oracle::allocations() - before;
        return wide;
    };
    const auto& mode = static_cast<const ReadMode&>(shell->mode());
    shell->frame(width);
    const Vec2 hole = *mode.marks().hole, from = *mode.marks().ball - hole;
    shell->pointer_pressed(hole + from, Button::left, {});
    double swung = 0;
    long most = 0;
    for (int step = 0; step < 60; ++step) {
        swung += 5 * std::numbers::pi / 180;
        for_widths = 0;
        const long before = oracle::allocations();
        shell->pointer_moved(hole + turned(from, 0.3 * std::sin(swung)), {});
        shell->advance(1.0 / 60);
        const Frame frame = shell->frame(width);
        if (step >= 10) most = std::max(most, oracle::allocations() - before - for_widths);
        shell->take_actions();
        REQUIRE(frame.picture.size() > 200);
    }
    return most;
}

TEST_CASE("a frame of a drag asks for little memory, on a green and on a plane") {
    CHECK(most_in_a_frame("meadow") <= 200);
    CHECK(most_in_a_frame("") <= 215);
}

}  // namespace
