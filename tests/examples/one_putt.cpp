/// A 12-foot putt across a 2 % slope on a green of stimp 10: where to aim, how hard, and why not.

#include <cstdio>
#include <memory>

#include "physics/read/read.hpp"
#include "physics/roll/green_speed.hpp"
#include "physics/surface/surface.hpp"

int main() {
    using namespace dewtrail;
    constexpr double foot_m = 0.3048;

    Putt putt;
    putt.surface = std::make_shared<Plane>(Vec2(0, 0.02));  // rises toward +y
    putt.resistance = resistance_of_stimp(10 * foot_m);
    putt.ball = Vec2(12 * foot_m, 0);  // the hole is the origin: 3 o'clock
    putt.finish = Finish::past(foot_m);

    const ReadResult result = read(putt);
    if (result.none) {
        std::printf("no line\n");
        return 1;
    }
    const Read& line = result.lines.front();
    std::printf("aim %.2f m right of the hole, leave at %.2f m/s\n", *line.aim_offset_m,
                line.stroke.speed_m_s);
    std::printf("at the hole after %.1f s at %.2f m/s\n", line.arrival_time_s,
                line.arrival_speed_m_s);
    return 0;
}
