#include "physics/odds/scatter.hpp"

#include <cmath>
#include <stdexcept>
#include <string>

#include "physics/numbers/squared.hpp"
#include "physics/odds/line_mean.hpp"
#include "physics/read/plane_line.hpp"
#include "physics/read/shortfall.hpp"
#include "physics/roll/green_speed.hpp"

namespace dewtrail {
namespace {

constexpr double least_deviation = 1e-6;

using Pair = Eigen::Vector2d;  // start angle, level roll

std::optional<Pair> read_on_plane(const Putt& putt, const Vec2& gradient) {
    const auto lines = lines_on_plane(gradient, putt.resistance, putt.line(), putt.finish);
    if (lines.strokes.empty()) return std::nullopt;
    const Stroke& stroke = lines.strokes.front();
    return Pair(stroke.angle_rad, level_roll_m(stroke.speed_m_s, putt.resistance));
}

/// On a plane the read costs so little that its derivative is taken by differences; their error,
/// of order step^2, stays below 1e-6 of the derivative except next to the steepest slope that
/// holds a ball.
std::optional<Pair> by_tilt_of_plane(const Putt& putt, const Plane& plane, const Vec2& tilt) {
    constexpr double step = 2e-4;
    const auto up = read_on_plane(putt, plane.gradient() + step * tilt);
    const auto down = read_on_plane(putt, plane.gradient() - step * tilt);
    if (up && down) return Pair((*up - *down) / (2 * step));
    const auto here = read_on_plane(putt, plane.gradient());
    if (here && down) return Pair((*here - *down) / step);
    if (here && up) return Pair((*up - *here) / step);
    return std::nullopt;
}

std::optional<Eigen::Matrix2d> on_plane(const Putt& putt, const Plane& plane) {
    Eigen::Matrix2d columns;
    const auto by_x = by_tilt_of_plane(putt, plane, {1, 0});
    const auto by_y = by_tilt_of_plane(putt, plane, {0, 1});
    if (!by_x || !by_y) return std::nullopt;
    columns << *by_x, *by_y;
    return columns;
}

/// Of the ground alone, whatever wind and grain do.
Vec2 mean_gradient_between(const Putt& putt) {
    return mean_on_line(
        putt, [&](const Vec2& at) { return putt.surface->at(at.x(), at.y()).gradient(); });
}

std::optional<Eigen::Matrix2d> by_variation(const Putt& putt, const Stroke& stroke) {
    constexpr double tolerance = 1e-8;
    const auto moved = stroke_sensitivity(putt, stroke, tolerance);
    if (!moved) return std::nullopt;
    Eigen::Matrix2d columns = moved->rightCols<2>();
    columns.row(1) *= level_roll_per_speed(stroke.speed_m_s, putt.resistance, putt.conditions);
    return columns;
}

void check(double value, const char* name) {
    if (!(value >= 0) || !std::isfinite(value))
        throw std::invalid_argument(std::string("scatter: ") + name +
                                    " must be finite and not negative, got " +
                                    std::to_string(value));
}

}  // namespace

std::optional<SlopeSensitivity> read_slope_sensitivity(const Putt& putt, const Stroke& stroke) {
    const auto* plane = dynamic_cast<const Plane*>(putt.surface.get());
    const auto by_gradient =
        plane && putt.conditions.plain() ? on_plane(putt, *plane) : by_variation(putt, stroke);
    if (!by_gradient) return std::nullopt;
    const Vec2 mean = mean_gradient_between(putt);
    SlopeSensitivity columns;
    columns << *by_gradient, *by_gradient * Eigen::Vector2d(-mean.y(), mean.x());
    return columns;
}

StrokeSpread stroke_spread(double angle_rad, double level_roll_m, const Scatter& scatter,
                           const SlopeSensitivity& sensitivity) {
    check(scatter.line_rad, "line_rad");
    check(scatter.pace, "pace");
    check(scatter.pace_floor_m, "pace_floor_m");
    check(scatter.slope_read, "slope_read");
    check(scatter.fall_read_rad, "fall_read_rad");
    StrokeSpread spread{angle_rad, level_roll_m, Eigen::Matrix2d::Zero()};
    spread.covariance(0, 0) = squared(scatter.line_rad) + squared(least_deviation);
    spread.covariance(1, 1) = squared(scatter.pace * level_roll_m) + squared(scatter.pace_floor_m) +
                              squared(least_deviation * level_roll_m);
    const Eigen::Vector3d seen(scatter.slope_read, scatter.slope_read, scatter.fall_read_rad);
    const SlopeSensitivity misread = sensitivity * seen.asDiagonal();
    spread.covariance += misread * misread.transpose();
    return spread;
}

}  // namespace dewtrail
