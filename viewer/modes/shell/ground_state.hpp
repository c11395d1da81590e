#pragma once

#include <optional>
#include <vector>

#include "viewer/picture/camera.hpp"
#include "viewer/picture/layout.hpp"
#include "viewer/putt/setup.hpp"

namespace dewtrail {

/// All that the painted ground of a putt depends on. Equal: the texture is still good.
struct GroundState {
    Rect pane;
    double scale = 1, text = 1, dusk = 0;
    bool metric = false, numbers = true, contours = true;
    const Green* green = nullptr;
    Vec2 hole{0, 0};
    double distance_m = 0, clock_h = 0, slope = 0;
    std::vector<double> readings{};
    PlanCamera plan{};
    std::optional<EyeCamera> eye{};
    std::vector<Rect> clear{};  ///< where it leaves room for words, once they rest

    bool operator==(const GroundState&) const = default;
};

/// But for the camera and the words.
inline GroundState ground_state(const Setup& setup, const Vec2& hole, double dusk,
                                const Look& look) {
    GroundState g;
    g.pane = look.layout.green;
    g.scale = look.layout.scale;
    g.text = look.layout.text;
    g.dusk = dusk;
    g.metric = look.units.metric;
    g.numbers = look.numbers;
    g.green = setup.green.get();
    g.hole = hole;
    g.slope = setup.slope;
    if (setup.readings.empty()) return g;
    g.distance_m = setup.distance_m;
    g.clock_h = setup.clock_h;
    for (const LineReading& r : setup.readings)
        g.readings.insert(g.readings.end(), {r.up, r.right_up});
    return g;
}

}  // namespace dewtrail
