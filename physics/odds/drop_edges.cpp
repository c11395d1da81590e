#include "physics/odds/drop_edges.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "physics/base/ball_and_hole.hpp"
#include "physics/numbers/root.hpp"

namespace dewtrail {
namespace {

// In units of the hole's radius.
constexpr double edge_error = 2e-4;
constexpr double root_error = 1e-7;  ///< on a plane costs a stroke more, and mirrors to rounding
constexpr double secant_step = 0.02, four_step = 0.01, most_stray = 0.3;
constexpr double first_stride = 0.7, fan_margin = 0.6;

constexpr int most_tries = 5;
constexpr double most_steps = 8;  ///< of four_step, in one go

using Eight = std::array<LevelStroke, 8>;
using EightMargins = std::array<double, 8>;

EightMargins margins_of(const StrokeRoller& roller, const Eight& strokes) {
    EightMargins margins;
    roller.margins(strokes, margins);
    return margins;
}

/// An edge lies between a stroke that does not drop and one that does.
struct Bracket {
    double outside, inside;

    double width() const { return std::abs(inside - outside); }
    double middle() const { return 0.5 * (outside + inside); }

    void cut_in_five(LevelStroke* strokes, double level) const {
        for (int k = 0; k < 4; ++k)
            strokes[k] = {outside + (k + 1) / 5.0 * (inside - outside), level};
    }
    /// From inside outward to the first that does not drop.
    void narrow(const LevelStroke* strokes, const double* margins) {
        for (int k = 3; k >= 0; --k) {
            if (margins[k] <= 0) {
                outside = strokes[k].angle_rad;
                return;
            }
            inside = strokes[k].angle_rad;
        }
    }
};

/// Where, counted in steps inward from the middle of four strokes, the edge seems to lie.
struct EdgeGuess {
    double steps;
    bool among_them;
};

/// From the margins of four strokes a step apart, from outside inward: the place of no margin on
/// the cubic through them (the place as a function of the margin), or on the line through the outer
/// two. None if the margins do not rise, or the cubic is bent out of shape by a kink.
std::optional<EdgeGuess> edge_among(const double* m) {
    if (!(m[0] < m[1] && m[1] < m[2] && m[2] < m[3])) return std::nullopt;
    if (m[0] > 0 || m[3] <= 0) {
        const int i = m[0] > 0 ? 0 : 2;
        const double steps = i - 1.5 - m[i] / (m[i + 1] - m[i]);
        return EdgeGuess{std::clamp(steps, -most_steps, most_steps), false};
    }
    double steps = 0;
    for (int i = 0; i < 4; ++i) {
        double weight = i - 1.5;
        for (int j = 0; j < 4; ++j)
            if (j != i) weight *= -m[j] / (m[i] - m[j]);
        steps += weight;
    }
    const double outside = (m[1] > 0 ? 0 : m[2] > 0 ? 1 : 2) - 1.5;
    if (steps < outside || steps > outside + 1) return std::nullopt;
    return EdgeGuess{steps, true};
}

}  // namespace

DropEdges::DropEdges(const StrokeRoller& roller)
    : roller_(roller), radius_rad_(hole_radius_m / roller.putt().distance_m()) {}

std::optional<Interval> DropEdges::near(const Interval& guess, double level_roll_m) const {
    if (!(guess.lo < guess.hi)) return std::nullopt;
    return roller_.on_plane() ? by_secant(guess, level_roll_m) : by_eights(guess, level_roll_m);
}

std::optional<Interval> DropEdges::by_eights(Interval guess, double level) const {
    const double step = four_step * radius_rad_, stray = most_stray * radius_rad_;
    const Interval first = guess;
    for (int i = 0; i < most_tries; ++i) {
        Eight strokes;
        for (int k = 0; k < 4; ++k) {
            strokes[k] = {guess.lo + (k - 1.5) * step, level};
            strokes[4 + k] = {guess.hi - (k - 1.5) * step, level};
        }
        const EightMargins margins = margins_of(roller_, strokes);
        const auto lo = edge_among(&margins[0]), hi = edge_among(&margins[4]);
        if (!lo || !hi) return std::nullopt;
        guess = {guess.lo + lo->steps * step, guess.hi - hi->steps * step};
        if (!(guess.lo < guess.hi) || std::abs(guess.lo - first.lo) > stray ||
            std::abs(guess.hi - first.hi) > stray)
            return std::nullopt;
        if (lo->among_them && hi->among_them) return guess;
    }
    return std::nullopt;
}

std::optional<Interval> DropEdges::by_secant(const Interval& guess, double level) const {
    const double middle = 0.5 * (guess.lo + guess.hi);
    if (roller_.margin(middle, level) <= 0) return std::nullopt;
    return Interval{one_by_secant(guess.lo, middle, level), one_by_secant(guess.hi, middle, level)};
}

/// From a guess near it by the secant method; where that strays, from the middle, which drops.
double DropEdges::one_by_secant(double guess, double middle, double level) const {
    const double outward = guess < middle ? -1 : 1;
    const auto f = [&](double angle) { return roller_.margin(angle, level); };
    double a = guess, fa = f(a);
    double b = a + (fa > 0 ? outward : -outward) * secant_step * radius_rad_, fb = f(b);
    for (int i = 0; i < 4; ++i) {
        if ((fb - fa) * (b - a) * outward >= 0) break;  // not on the flank
        const double step = -fb * (b - a) / (fb - fa);
        if (!(std::abs(b + step - guess) < most_stray * radius_rad_) ||
            (b + step - middle) * outward <= 0)
            break;
        a = b;
        fa = fb;
        b += step;
        if (std::abs(step) < edge_error * radius_rad_ ||
            (i > 0 && std::abs(step) < secant_step * secant_step * radius_rad_))
            return b;
        fb = f(b);
    }
    return one_outward(middle, level, first_stride * outward * radius_rad_);
}

std::optional<Interval> DropEdges::about(const Interval& guess, double level_roll_m) const {
    if (roller_.on_plane()) return std::nullopt;
    const double middle = 0.5 * (guess.lo + guess.hi);
    const double half = 0.5 * std::abs(guess.hi - guess.lo) + fan_margin * radius_rad_;
    Eight strokes;
    for (int k = 0; k < 8; ++k) strokes[k] = {middle + half * (k / 3.5 - 1), level_roll_m};
    EightMargins margins = margins_of(roller_, strokes);
    int lo = 0;
    for (const int k : {3, 4, 2, 5, 1, 6})
        if (lo == 0 && margins[k] > 0) lo = k;
    if (lo == 0) return std::nullopt;
    int hi = lo;
    while (lo >= 0 && margins[lo] > 0) --lo;
    while (hi < 8 && margins[hi] > 0) ++hi;
    if (lo < 0 || hi == 8) return std::nullopt;
    Bracket left{strokes[lo].angle_rad, strokes[lo + 1].angle_rad};
    Bracket right{strokes[hi].angle_rad, strokes[hi - 1].angle_rad};
    // By fifths: a soft ball's margin jumps where it no longer reaches the rim.
    while (std::max(left.width(), right.width()) > edge_error * radius_rad_) {
        left.cut_in_five(&strokes[0], level_roll_m);
        right.cut_in_five(&strokes[4], level_roll_m);
        margins = margins_of(roller_, strokes);
        left.narrow(&strokes[0], &margins[0]);
        right.narrow(&strokes[4], &margins[4]);
    }
    return Interval{left.middle(), right.middle()};
}

Interval DropEdges::around(double angle_rad, double level_roll_m) const {
    const double stride = first_stride * radius_rad_;
    return {one_outward(angle_rad, level_roll_m, -stride),
            one_outward(angle_rad, level_roll_m, stride)};
}

double DropEdges::one_outward(double inside, double level, double step) const {
    const auto f = [&](double angle) { return roller_.margin(angle, level); };
    double f_inside = f(inside);
    if (f_inside <= 0) return inside;
    for (int i = 0; i < 40; ++i) {
        const double next = inside + step, f_next = f(next);
        if (f_next <= 0) {
            const double close = (roller_.on_plane() ? root_error : edge_error) * radius_rad_;
            return inside < next ? root(f, inside, next, f_inside, f_next, close)
                                 : root(f, next, inside, f_next, f_inside, close);
        }
        inside = next;
        f_inside = f_next;
        step *= 1.5;
    }
    return inside;
}

}  // namespace dewtrail
