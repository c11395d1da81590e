/// The plane putts of the benchmark with their true strokes, for the SciPy script.

#include <cstdio>

#include "tests/bench/known_putts.hpp"

int main() {
    using namespace dewtrail;
    for (const Putt& putt : bench::plane_putts()) {
        const Vec2 gradient = static_cast<const Plane&>(*putt.surface).gradient();
        const Stroke stroke =
            lines_on_plane(gradient, putt.resistance, putt.line(), putt.finish).strokes.front();
        std::printf("%.17g %.17g %.17g %.17g %.17g %.17g %.17g\n", gradient.y(), putt.resistance,
                    putt.ball.x(), putt.ball.y(), putt.finish.value, stroke.angle_rad,
                    stroke.speed_m_s);
    }
}
