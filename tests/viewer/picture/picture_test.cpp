#include "viewer/picture/picture.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/support/random.hpp"

using namespace dewtrail;

namespace {

using Path = std::vector<Vec2>;

double length(const Path& line) {
    double sum = 0;
    for (std::size_t i = 1; i < line.size(); ++i) sum += (line[i] - line[i - 1]).norm();
    return sum;
}

}  // namespace

TEST_CASE("a line stops at a box and goes on behind it", "[picture]") {
    const Path line{{0, 5}, {10, 5}};
    const auto pieces = outside(line, {{2, 0, 3, 10}, {4, 4, 2, 2}});
    REQUIRE(pieces.size() == 2);
    CHECK(pieces[0] == Path{{0, 5}, {2, 5}});
    CHECK(pieces[1] == Path{{6, 5}, {10, 5}});
    CHECK(outside(line, {}) == std::vector<Path>{line});
    CHECK(outside(line, {{0, 5, 10, 3}}) == std::vector<Path>{line});  // along an edge
    CHECK(outside(line, {{-1, 4, 12, 2}}).empty());
    CHECK(outside({{3, 3}}, {}).empty());
}

TEST_CASE("what is left of a line is what lies in no box", "[picture]") {
    oracle::Random random(20260628);
    const auto number = [&] { return random.between(0, 100); };
    for (int trial = 0; trial < 300; ++trial) {
        Path line;
        for (int i = 0; i < 6; ++i) line.emplace_back(number(), number());
        std::vector<Rect> boxes;
        for (int i = 0; i < 4; ++i)
            boxes.push_back({number(), number(), number() / 2, number() / 2});
        double left = 0;
        for (const Path& piece : outside(line, boxes)) left += length(piece);
        constexpr int samples = 4000;  // a segment
        double free = 0;
        for (std::size_t i = 1; i < line.size(); ++i) {
            const Vec2 step = (line[i] - line[i - 1]) / samples;
            for (int k = 0; k < samples; ++k) {
                const Vec2 at = line[i - 1] + (k + 0.5) * step;
                const bool covered = std::any_of(boxes.begin(), boxes.end(),
                                                 [&](const Rect& b) { return b.contains(at); });
                free += covered ? 0 : step.norm();
            }
        }
        // Every one of at most 8 ends on a segment is half a sample off.
        CHECK(std::abs(left - free) < 5 * 8 * 0.5 * 142 / samples);
    }
}
