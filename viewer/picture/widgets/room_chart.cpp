#include "viewer/picture/widgets/room_chart.hpp"

#include <fmt/format.h>

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <random>

#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr double deg = 180 / std::numbers::pi;
constexpr double shown_deviations = 2.15;
constexpr double most_beyond = 1.2;  ///< of the region's size, shown of the spread on either side
constexpr double near_square_rad = 80 / deg;

/// 1, 2 or 5 times a power of ten; at least `least` and no less than `smallest`.
double round_step(double least, double smallest) {
    double step = 0.01;
    for (double power = 0.01; power < 1e5; power *= 10)
        for (const double times : {1, 2, 5}) {
            step = times * power;
            if (step > 0.999 * smallest && step >= least) return step;
        }
    return step;
}

std::string signed_words(double value, const std::string& size) {
    if (std::abs(value) < 1e-9) return "0";
    return (value < 0 ? "−" : "+") + size;
}

/// Values on a round step between two ends, and where each lies.
template <class Words>
std::vector<RoomTick> ticks_between(double lo, double hi, double step,
                                    const std::function<double(double)>& place, Words words) {
    std::vector<RoomTick> ticks;
    const int first = static_cast<int>(std::ceil(lo / step - 1e-9)),
              last = static_cast<int>(std::floor(hi / step + 1e-9));
    for (int i = first; i <= last && i < first + 60; ++i) {
        const double value = i * step;
        ticks.push_back({place(value), words(value, i == first || i == last)});
    }
    return ticks;
}

std::string sided(double value, const std::string& size, bool end) {
    if (std::abs(value) < 1e-9) return "0";
    return end ? size + (value < 0 ? " left" : " right") : size;
}

std::vector<RoomTick> degree_ticks(const RoomChart& chart, double least_share) {
    const auto [lo, hi] = chart.angle_rad;
    const double step = round_step(least_share * (hi - lo) * deg, 0.1);
    return ticks_between(
        lo * deg, hi * deg, step, [](double value) { return value / deg; },
        [&](double value, bool end) {
            return sided(value, fmt::format("{:g}°", std::abs(value)), end);
        });
}

/// Aim at the hole's depth against the read's.
std::vector<RoomTick> aim_ticks(const Solved& s, const Read& read, const RoomChart& chart,
                                double least_share, const Units& units) {
    const double a = read.stroke.angle_rad, d = s.putt.distance_m();
    const double unit = units.metric ? 0.01 : metres_per_inch;
    const auto aim = [&](double off) { return d * (std::tan(a + off) - std::tan(a)) / unit; };
    const auto off = [&](double value) { return std::atan(std::tan(a) + value * unit / d) - a; };
    const double lo = aim(chart.angle_rad.lo), hi = aim(chart.angle_rad.hi);
    const char* name = units.metric ? "cm" : "in";
    return ticks_between(
        lo, hi, round_step(least_share * (hi - lo), 1), off, [&](double value, bool end) {
            return sided(value, fmt::format("{:g} {}", std::abs(value), name), end);
        });
}

std::vector<RoomTick> percent_ticks(const RoomChart& chart, double least_share) {
    const auto [lo, hi] = chart.pace;
    const double step = round_step(100 * least_share * (hi - lo), 1);
    return ticks_between(
        100 * lo, 100 * hi, step, [](double value) { return value / 100; },
        [](double value, bool) {
            return signed_words(value, fmt::format("{:g} %", std::abs(value)));
        });
}

std::vector<RoomTick> level_putt_ticks(const Read& read, const RoomChart& chart, double least_share,
                                       const Units& units) {
    const double unit = units.metric ? 0.01 : metres_per_foot, level = read.level_roll_m;
    const double lo = chart.pace.lo * level / unit, hi = chart.pace.hi * level / unit;
    const double step = round_step(least_share * (hi - lo), units.metric ? 5 : 0.5);
    const char* name = units.metric ? "cm" : "ft";
    return ticks_between(
        lo, hi, step, [&](double value) { return value * unit / level; },
        [&](double value, bool) {
            return signed_words(value, format_halves(std::abs(value)) + " " + name);
        });
}

Interval joined(const Interval& a, const Interval& b) {
    return {std::min(a.lo, b.lo), std::max(a.hi, b.hi)};
}

/// The region, and of the spread what does not make it too small to be seen.
Interval shown(const Interval& region, double deviation) {
    const double size = region.hi - region.lo, spread = shown_deviations * deviation;
    if (!(size > 0)) return {-spread, spread};
    const double most = std::max(most_beyond * size, 0.6 * deviation);
    const Interval own{std::max(-spread, region.lo - most), std::min(spread, region.hi + most)};
    const Interval both = joined(region, own);
    const double margin = 0.04 * (both.hi - both.lo);
    return {both.lo - margin, both.hi + margin};
}

}  // namespace

Vec2 RoomChart::px(const StrokeOff& off) const {
    return {plot.x + plot.w * (off.angle_rad - angle_rad.lo) / (angle_rad.hi - angle_rad.lo),
            plot.bottom() - plot.h * (off.pace - pace.lo) / (pace.hi - pace.lo)};
}

RoomChart room_chart(const Solved& s, const Outlook& outlook, const Rect& plot, bool detail,
                     const Look& look) {
    RoomChart chart;
    chart.plot = plot;
    Interval angle{0, 0}, pace{0, 0};
    for (const StrokeOff& off : outlook.outline) {
        angle = joined(angle, {off.angle_rad, off.angle_rad});
        pace = joined(pace, {off.pace, off.pace});
    }
    const double angle_sd = outlook.spread ? std::sqrt(outlook.spread->covariance(0, 0)) : 0.01;
    const double pace_sd =
        outlook.spread ? std::sqrt(outlook.spread->covariance(1, 1)) / outlook.spread->level_roll_m
                       : 0.1;
    chart.angle_rad = shown(angle, angle_sd);
    chart.pace = shown(pace, pace_sd);
    chart.pace.lo = std::max(chart.pace.lo, -1.0);
    const Read& read = *s.shown();
    const double across = look.type(80) / plot.w, up = look.type(50) / plot.h;
    const double a =
        std::abs(read.stroke.angle_rad) + std::max(-chart.angle_rad.lo, chart.angle_rad.hi);
    chart.angle_ticks = detail || a > near_square_rad
                            ? degree_ticks(chart, across)
                            : aim_ticks(s, read, chart, across, look.units);
    chart.pace_ticks =
        detail ? percent_ticks(chart, up) : level_putt_ticks(read, chart, up, look.units);
    return chart;
}

std::vector<StrokeOff> spread_ellipse(const StrokeSpread& spread, double deviations) {
    constexpr int points = 96;
    const Eigen::Matrix2d root = spread.covariance.llt().matrixL();
    std::vector<StrokeOff> ellipse;
    for (int i = 0; i <= points; ++i) {
        const double t = 2 * std::numbers::pi * i / points;
        const Eigen::Vector2d off = deviations * root * Eigen::Vector2d(std::cos(t), std::sin(t));
        ellipse.push_back({off(0), off(1) / spread.level_roll_m});
    }
    return ellipse;
}

std::vector<StrokeOff> some_strokes(const StrokeSpread& spread) {
    constexpr int strokes = 100;
    const Eigen::Matrix2d root = spread.covariance.llt().matrixL();
    std::mt19937_64 engine(20260502);
    const auto next = [&] { return (static_cast<double>(engine() >> 11) + 0.5) * 0x1p-53; };
    std::vector<StrokeOff> made;
    for (int i = 0; i < strokes; ++i) {
        const double r = std::sqrt(-2 * std::log(next())), t = 2 * std::numbers::pi * next();
        const Eigen::Vector2d off = r * root * Eigen::Vector2d(std::cos(t), std::sin(t));
        made.push_back({off(0), off(1) / spread.level_roll_m});
    }
    return made;
}

}  // namespace dewtrail
