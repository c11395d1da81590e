/// The same putt for a player who scatters: chance to hole it, and what it takes on average.

#include <cstdio>
#include <memory>
#include <numbers>

#include "physics/odds/odds.hpp"
#include "physics/roll/green_speed.hpp"
#include "physics/surface/surface.hpp"

int main() {
    using namespace dewtrail;
    Putt putt;
    putt.surface = std::make_shared<Plane>(Vec2(0, 0.02));
    putt.resistance = resistance_of_stimp(3.05);
    putt.ball = Vec2(3.66, 0);
    putt.finish = Finish::past(0.3);
    const ReadResult result = read(putt);
    if (result.none) return 1;

    Scatter scatter;
    scatter.line_rad = 1.6 * std::numbers::pi / 180;
    scatter.pace = 0.14;
    scatter.slope_read = 0.005;
    scatter.fall_read_rad = 6 * std::numbers::pi / 180;
    const auto odds = odds_of(putt, result.lines.front(), scatter);
    if (!odds) return 1;
    std::printf("holed %.0f %%, three putts or more %.0f %%, %.2f putts\n", 100 * odds->holed,
                100 * odds->three_putt, odds->putts);
    return 0;
}
