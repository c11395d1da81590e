#include "physics/surface/line_profile.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <stdexcept>
#include <string>

namespace dewtrail {
namespace {

bool all_finite(const std::vector<double>& v) {
    return std::all_of(v.begin(), v.end(), [](double x) { return std::isfinite(x); });
}

void check(const std::vector<double>& places, const std::vector<double>& values) {
    if (places.empty() || places.size() != values.size())
        throw std::invalid_argument("readings: needs at least one, a value for each place");
    if (!all_finite(places) || !all_finite(values))
        throw std::invalid_argument("readings: places and slopes must be finite");
    const auto late =
        std::adjacent_find(places.begin(), places.end(), std::greater_equal<double>());
    if (late != places.end())
        throw std::invalid_argument("readings: places must increase, but " +
                                    std::to_string(*(late + 1)) + " m follows " +
                                    std::to_string(*late) + " m");
}

/// Slopes at the places that make the second derivative continuous, 0 at both ends: a tridiagonal,
/// diagonally dominant system, solved by elimination downward and substitution upward.
std::vector<double> clamped_slopes(const std::vector<double>& x, const std::vector<double>& y) {
    const std::size_t n = x.size();
    std::vector<double> slope(n, 0.0), factor(n, 0.0);
    for (std::size_t i = 1; i + 1 < n; ++i) {
        const double before = 1 / (x[i] - x[i - 1]), after = 1 / (x[i + 1] - x[i]);
        const double pull =
            3 * ((y[i] - y[i - 1]) * before * before + (y[i + 1] - y[i]) * after * after);
        const double pivot = 2 * (before + after) - before * factor[i - 1];
        factor[i] = after / pivot;
        slope[i] = (pull - before * slope[i - 1]) / pivot;
    }
    for (std::size_t i = n - 1; i-- > 1;) slope[i] -= factor[i] * slope[i + 1];
    return slope;
}

Vec2 direction(const Vec2& ball, const Vec2& hole) {
    const double distance = (hole - ball).norm();
    if (!std::isfinite(distance) || distance == 0)
        throw std::invalid_argument("ball and hole: must be two finite points");
    return (hole - ball) / distance;
}

template <typename Member>
ClampedSpline spline_of(const std::vector<LineReading>& readings, Member member) {
    std::vector<double> places, values;
    for (const LineReading& reading : readings) {
        places.push_back(reading.along_m);
        values.push_back(reading.*member);
    }
    return {std::move(places), std::move(values)};
}

}  // namespace

ClampedSpline::ClampedSpline(std::vector<double> places, std::vector<double> values)
    : places_(std::move(places)), values_(std::move(values)) {
    check(places_, values_);
    slopes_ = clamped_slopes(places_, values_);
    integrals_.assign(places_.size(), 0.0);
    for (std::size_t i = 0; i + 1 < places_.size(); ++i)
        integrals_[i + 1] = in_piece(i, places_[i + 1]).integral;
}

ClampedSpline::Value ClampedSpline::in_piece(std::size_t i, double place) const {
    const double s = place - places_[i], width = places_[i + 1] - places_[i];
    const double chord = (values_[i + 1] - values_[i]) / width;
    const double bend = (3 * chord - 2 * slopes_[i] - slopes_[i + 1]) / width;
    const double twist = (slopes_[i] + slopes_[i + 1] - 2 * chord) / (width * width);
    Value v;
    v.integral =
        integrals_[i] + s * (values_[i] + s * (slopes_[i] / 2 + s * (bend / 3 + s * twist / 4)));
    v.value = values_[i] + s * (slopes_[i] + s * (bend + s * twist));
    v.d1 = slopes_[i] + s * (2 * bend + 3 * s * twist);
    v.d2 = 2 * bend + 6 * s * twist;
    v.d3 = 6 * twist;
    return v;
}

ClampedSpline::Value ClampedSpline::at(double place) const {
    const std::size_t after = static_cast<std::size_t>(
        std::upper_bound(places_.begin(), places_.end(), place) - places_.begin());
    if (after > 0 && after < places_.size()) return in_piece(after - 1, place);
    const std::size_t end = after == 0 ? 0 : places_.size() - 1;
    return {integrals_[end] + (place - places_[end]) * values_[end], values_[end], 0, 0, 0};
}

LineProfile::LineProfile(const Vec2& ball, const Vec2& hole,
                         const std::vector<LineReading>& readings)
    : ball_(ball),
      hole_(hole),
      readings_(readings),
      along_(direction(ball, hole)),
      right_(along_.y(), -along_.x()),
      up_(spline_of(readings, &LineReading::up)),
      right_up_(spline_of(readings, &LineReading::right_up)),
      integral_at_ball_(up_.at(0).integral) {}

LineProfile LineProfile::step(const Vec2& ball, const Vec2& hole, double rise_m, double centre_m,
                              double width_m) {
    if (!(width_m > 0) || !std::isfinite(width_m))
        throw std::invalid_argument("step: width_m must be finite and above 0");
    const double half = width_m / 2;
    return {ball,
            hole,
            {{centre_m - half, 0, 0}, {centre_m, rise_m / half, 0}, {centre_m + half, 0, 0}}};
}

SurfaceJet LineProfile::at(double x, double y) const {
    const Vec2 p = Vec2(x, y) - ball_;
    const double s = p.dot(along_), c = p.dot(right_);
    const ClampedSpline::Value up = up_.at(s), cross = right_up_.at(s);

    // Derivatives in the line's own frame; those with two c's vanish.
    const double h_s = up.value + c * cross.d1, h_c = cross.value;
    const double h_ss = up.d1 + c * cross.d2, h_sc = cross.d1;
    const double h_sss = up.d2 + c * cross.d3, h_ssc = cross.d2;

    const double ax = along_.x(), ay = along_.y(), rx = right_.x(), ry = right_.y();
    SurfaceJet jet;
    jet.h = up.integral - integral_at_ball_ + c * cross.value;
    jet.hx = h_s * ax + h_c * rx;
    jet.hy = h_s * ay + h_c * ry;
    jet.hxx = h_ss * ax * ax + 2 * h_sc * ax * rx;
    jet.hxy = h_ss * ax * ay + h_sc * (ax * ry + ay * rx);
    jet.hyy = h_ss * ay * ay + 2 * h_sc * ay * ry;
    jet.hxxx = h_sss * ax * ax * ax + 3 * h_ssc * ax * ax * rx;
    jet.hxxy = h_sss * ax * ax * ay + h_ssc * (ax * ax * ry + 2 * ax * ay * rx);
    jet.hxyy = h_sss * ax * ay * ay + h_ssc * (ay * ay * rx + 2 * ax * ay * ry);
    jet.hyyy = h_sss * ay * ay * ay + 3 * h_ssc * ay * ay * ry;
    return jet;
}

bool LineProfile::operator==(const LineProfile& o) const {
    return ball_ == o.ball_ && along_ == o.along_ && up_ == o.up_ && right_up_ == o.right_up_;
}

}  // namespace dewtrail
