#include "physics/odds/rest_grid.hpp"

#include <algorithm>

#include "physics/numbers/cubic_rows.hpp"
#include "physics/numbers/in_parallel.hpp"
#include "physics/roll/lockstep_roll.hpp"

namespace dewtrail {

StrokeWindow joined(const StrokeWindow& a, const StrokeWindow& b) {
    const auto both = [](const Interval& x, const Interval& y) {
        return Interval{std::min(x.lo, y.lo), std::max(x.hi, y.hi)};
    };
    return {both(a.angle_rad, b.angle_rad), both(a.level_roll_m, b.level_roll_m)};
}

RestGrid::RestGrid(const StrokeRoller& roller, const StrokeWindow& window, Size size)
    : window_(window), size_(size), rests_(size.angles * size.rolls) {
    const auto [angles, levels] = window;
    std::vector<LevelStroke> strokes;
    for (int j = 0; j < size.rolls; ++j)
        for (int i = 0; i < size.angles; ++i)
            strokes.push_back(
                {angles.lo + (angles.hi - angles.lo) * (double(i) / (size.angles - 1)),
                 levels.lo + (levels.hi - levels.lo) * (double(j) / (size.rolls - 1))});
    const int rolls = static_cast<int>(strokes.size());
    in_parallel((rolls + lockstep_lanes - 1) / lockstep_lanes, [&](int part) {
        const std::size_t first = part * lockstep_lanes,
                          count = std::min<std::size_t>(lockstep_lanes, rolls - first);
        roller.rests(std::span(strokes).subspan(first, count),
                     std::span(rests_).subspan(first, count));
    });
}

Vec2 RestGrid::at(double angle_rad, double level_roll_m) const {
    const auto place = [](double x, const Interval& range, int rows) {
        const double share = (x - range.lo) / (range.hi - range.lo);
        return std::clamp(share, 0.0, 1.0) * (rows - 1);
    };
    const CubicCell across(place(angle_rad, window_.angle_rad, size_.angles), size_.angles);
    const CubicCell along(place(level_roll_m, window_.level_roll_m, size_.rolls), size_.rolls);
    const auto row = [&](int j) -> Vec2 {
        return blend([&](int i) -> Vec2 { return rests_[j * size_.angles + i]; }, across,
                     size_.angles);
    };
    return blend(row, along, size_.rolls);
}

}  // namespace dewtrail
