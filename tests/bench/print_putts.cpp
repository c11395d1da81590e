/// The plane putts of the benchmark with their true strokes, for the SciPy script. With `greens`:
/// the verified strokes of the others, so that a run can tell whether answers have changed.

#include <cstdio>
#include <string_view>

#include "physics/read/plane_line.hpp"
#include "tests/bench/known_putts.hpp"
#include "tests/support/putts.hpp"

int main(int count, char** arguments) {
    using namespace dewtrail;
    if (count > 1 && std::string_view(arguments[1]) == "greens") {
        for (const Putt& putt : bench::green_putts()) {
            const Stroke stroke = read(putt, oracle::line_only()).lines.front().stroke;
            std::printf("%.9f %.9f\n", stroke.angle_rad, stroke.speed_m_s);
        }
        return 0;
    }
    for (const Putt& putt : bench::plane_putts()) {
        const Vec2 gradient = static_cast<const Plane&>(*putt.surface).gradient();
        const Stroke stroke =
            lines_on_plane(gradient, putt.resistance, putt.line(), putt.finish).strokes.front();
        std::printf("%.17g %.17g %.17g %.17g %.17g %.17g %.17g\n", gradient.y(), putt.resistance,
                    putt.ball.x(), putt.ball.y(), putt.finish.value, stroke.angle_rad,
                    stroke.speed_m_s);
    }
}
