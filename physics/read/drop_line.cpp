#include "physics/read/drop_line.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "physics/base/ball_and_hole.hpp"
#include "physics/hole/hole_capture.hpp"
#include "physics/roll/closing_roll.hpp"

namespace dewtrail {
namespace {

constexpr double R2 = hole_radius_m * hole_radius_m;
constexpr double fastest_drop2 = 1.63 * 1.63;  ///< m^2/s^2, on the level, over the centre
// Of a stroke: shares of its distance from the read, and distances.
constexpr double little = 3e-3, rough_slack = 3e-2;
constexpr double close_enough = 8e-7, both_sides = 1.5e-7, rounding = 3e-8;
constexpr int most_told = 10, most_strokes = 100;

/// By which the square of the speed falls over a metre of level ground.
double slowing(const Putt& putt) {
    return 2 * rolling_share * gravity_m_s2 * putt.holding();
}

/// From the ball's place abreast of the hole's centre back to the rim.
double half_chord(double offset_m) {
    return std::sqrt(std::max(0.0, R2 - offset_m * offset_m));
}

Vec2 rest_on_plane(const Putt& putt, const SurfaceJet& ground, const PathPoint& from) {
    std::optional<Forces> forces;
    if (!putt.conditions.plain()) forces.emplace(putt.conditions);
    const Hold hold(ground, putt.resistance, forces ? &*forces : nullptr);
    if (!(from.speed_m_s > 0 && hold.grip() > 0)) return from.at;
    const PlaneGround plane = hold.plane();
    return PlaneRoll(plane, {from.at, from.bearing_rad, from.speed_m_s}).rest_at();
}

/// By the secant method, f being of order 1; none where it leads nowhere.
template <class F>
std::optional<double> secant(F f, double a, double b) {
    constexpr double anywhere = 100, last_digits = 1e-9;
    double fa = f(a), fb = f(b);
    const double astray = 10 * std::abs(fa) + 0.1;
    for (int i = 0; i < 12 && std::abs(fb) < astray && fb != fa; ++i) {
        const double next = b - fb * (b - a) / (fb - fa);
        if (!(std::abs(next) < anywhere)) break;
        if (std::abs(next - b) <= last_digits * std::abs(next)) return next;
        a = b;
        fa = fb;
        b = next;
        fb = f(b);
    }
    return std::nullopt;
}

}  // namespace

Arrival::Arrival(const Putt& putt, double stroke_off, const Approach& approach) : off(stroke_off) {
    using How = Approach::How;
    const PathPoint& at = approach.at;
    const SurfaceJet ground = putt.surface->at(at.at.x(), at.at.y());
    const Vec2 along = along_bearing(at.bearing_rad), right = right_of(along);
    const Vec2 from_hole = at.at - putt.hole;
    const Vec2 rest = rest_on_plane(putt, ground, at) - putt.hole;
    const double offset_m = right.dot(from_hole);
    const double ahead = approach.how == How::at_rim  ? half_chord(offset_m)
                         : approach.how == How::rests ? -along.dot(from_hole)
                                                      : 0;
    figures = {offset_m, at.speed_m_s * at.speed_m_s - slowing(putt) * ahead, rest.x(), rest.y()};
    slope_along = ground.gradient().dot(along);
    slope_right = ground.gradient().dot(right);
    drops = approach.how == How::at_rim &&
            at.speed_m_s < capture_limit_m_s(offset_m, slope_along, slope_right);
    constexpr double hardly_m = 0.1 * hole_radius_m, slow_m_s = 0.25;
    stops_short = (rest - from_hole).norm() < hardly_m;
    grazes = at.speed_m_s < slow_m_s && std::abs(offset_m) > 0.9 * hole_radius_m;
}

/// Cubics through the figures of four strokes, by Newton's divided differences.
struct DropLine::Curves {
    std::array<double, 4> at{};
    std::array<Arrival::Figures, 4> by{};
    int count = 0;

    Arrival::Figures operator()(double off) const {
        Arrival::Figures sum = by[count - 1];
        for (int i = count - 2; i >= 0; --i) sum = by[i] + (off - at[i]) * sum;
        return sum;
    }
};

DropLine::DropLine(const Putt& putt, const Arrival& read, const Arrival::Figures& rate,
                   bool roughly, RollAt roll_at)
    : putt_(putt), rate_(rate), roughly_(roughly), roll_at_(std::move(roll_at)), strokes_{read} {
    strokes_.reserve(4 * most_told);
}

/// Of the nearest strokes; from the read by its rate where there are no others.
DropLine::Curves DropLine::curves(double about) const {
    Curves c;
    std::array<const Arrival*, 4> nearest{};
    for (const Arrival& stroke : strokes_) {
        const auto far = [&](const Arrival* s) { return std::abs(s->off - about); };
        int place = c.count;
        while (place > 0 && far(nearest[place - 1]) > far(&stroke)) --place;
        if (place == 4) continue;
        c.count = std::min(c.count + 1, 4);
        for (int i = c.count - 1; i > place; --i) nearest[i] = nearest[i - 1];
        nearest[place] = &stroke;
    }
    for (int i = 0; i < c.count; ++i) {
        c.at[i] = nearest[i]->off;
        c.by[i] = nearest[i]->figures;
    }
    for (int k = 1; k < c.count; ++k)
        for (int i = c.count - 1; i >= k; --i)
            c.by[i] = (c.by[i] - c.by[i - 1]) / (c.at[i] - c.at[i - k]);
    if (c.count == 1) c.by[c.count++] = rate_;
    c.by[0] += exact_by_;
    return c;
}

/// Where the ball is too fast for its offset; short of it, where it would rest on the rim. Squares
/// of speeds and distances run straight across the edge, also where the limit falls to 0.
std::optional<double> DropLine::edge_on(const Curves& curves, const Arrival& near, double guess,
                                        bool short_of_it) const {
    using enum Arrival::Figure;
    const auto inside_rim = [&](double off) {
        const Arrival::Figures f = curves(off);
        return 1 - (f[rest_x] * f[rest_x] + f[rest_y] * f[rest_y]) / R2;
    };
    const double slowed = slowing(putt_);
    const auto held = [&](double off) {
        const Arrival::Figures f = curves(off);
        const double inside = R2 - f[offset] * f[offset];
        if (inside <= 0)
            return 2 - 2 * std::abs(f[offset]) / hole_radius_m - f[energy] / fastest_drop2;
        const double limit = capture_limit_m_s(f[offset], near.slope_along, near.slope_right);
        return (limit * limit - f[energy] - slowed * std::sqrt(inside)) / fastest_drop2;
    };
    const double beside = guess * (1 + 0.1 * little);
    return short_of_it ? secant(inside_rim, guess, beside) : secant(held, guess, beside);
}

/// For one edge. Between a stroke that drops and one that does not; past `most` where there is none
/// such yet.
class DropLine::Search {
  public:
    Search(DropLine& line, double first, double most, bool short_of_it)
        : line_(line),
          side_(std::copysign(1.0, most)),
          most_(most),
          outside_(2 * most),
          at_(first),
          far_short_(first),
          stride_(0.5 * std::abs(first)),
          short_of_it_(short_of_it),
          exactly_(!line.roughly_) {}

    double run() {
        for (int i = 0; i < most_strokes; ++i) {
            at_ = side_ * std::min(std::abs(at_), std::abs(most_));
            const Arrival stroke = rolled();
            if (stroke.drops && at_ == most_) return most_;
            const std::optional<double> told = told_by(stroke);
            if (!told || i > most_told) {
                if (exactly_ && near(inside_, outside_, both_sides)) return middle();
                at_ = farther(stroke.drops);
                if (i > most_told && !exactly_) roll_exactly();
            } else if (!exactly_) {
                if (near_a_stroke(*told)) roll_exactly();
                at_ = *told;
            } else if (!short_of_it_ && !stroke.grazes) {
                if (near(*told, at_, close_enough)) return *told;
                at_ = *told;
            } else {
                if (near(inside_, outside_, 3 * both_sides)) return *told;
                const double to_side = near(*told, outside_, both_sides) ? -0.5 : 0.5;
                at_ = *told + to_side * side_ * both_sides;
            }
        }
        return middle();
    }

  private:
    static bool near(double a, double b, double by) { return std::abs(a - b) < by; }
    double middle() const { return 0.5 * (inside_ + outside_); }

    Arrival rolled() {
        const Rolled how = exactly_ ? Rolled::exactly : Rolled::roughly;
        const Arrival stroke(line_.putt_, at_, line_.roll_at_(at_, how));
        (stroke.drops ? inside_ : outside_) = at_;
        if (!stroke.drops) short_of_it_ = stroke.stops_short;
        if (!stroke.drops && short_of_it_) far_short_ = at_;
        const auto here = [this](const Arrival& other) { return other.off == at_; };
        auto& strokes = line_.strokes_;
        if (exactly_ && line_.roughly_)
            line_.exact_by_ += stroke.figures - line_.curves(at_)(at_);
        else if (std::none_of(strokes.begin(), strokes.end(), here))
            strokes.push_back(stroke);
        return stroke;
    }

    /// By how the last stroke that did not drop missed; if that cannot be, by the other way.
    std::optional<double> told_by(const Arrival& stroke) {
        const Curves curves = line_.curves(stroke.off);
        for (const bool other_way : {false, true}) {
            if (other_way) short_of_it_ = !short_of_it_;
            const double from = short_of_it_ ? far_short_ : stroke.off;
            const auto told = line_.edge_on(curves, stroke, from, short_of_it_);
            if (told && possible(*told)) return told;
        }
        return std::nullopt;
    }

    bool possible(double off) const {
        const double slack = exactly_ ? rounding : rough_slack * std::abs(off);
        return (off - inside_) * side_ > -slack && (outside_ - off) * side_ > -slack;
    }

    bool near_a_stroke(double told) const {
        const double by = little * std::abs(told);
        return near(told, at_, by) || near(told, inside_, by) || near(told, outside_, by);
    }

    /// What was rolled roughly may lie on the wrong side.
    void roll_exactly() {
        exactly_ = true;
        inside_ = 0;
        outside_ = 2 * most_;
        stride_ = little * std::abs(at_);
    }

    /// Nothing tells where: past the last stroke by longer and longer strides, or halfway.
    double farther(bool outward) {
        const double next = at_ + (outward ? side_ : -side_) * stride_;
        stride_ *= 4;
        const bool open = outward ? std::abs(outside_) > std::abs(most_)
                                  : inside_ == 0 && (next - middle()) * side_ > 0;
        return open ? next : middle();
    }

    DropLine& line_;
    double side_, most_;
    double inside_ = 0, outside_, at_;
    double far_short_;  ///< a stroke that rests short, to come from
    double stride_;
    bool short_of_it_;  ///< outside they rest short; else they are too fast, or wide
    bool exactly_;
};

double DropLine::edge(double first, double most, bool short_of_it) {
    if (short_of_it || strokes_.size() > 1) {
        const auto told = edge_on(curves(first), strokes_.front(), first, short_of_it);
        if (told && *told * most > 0 && std::abs(*told) < std::abs(most)) first = *told;
    }
    return Search(*this, first, most, short_of_it).run();
}

}  // namespace dewtrail
