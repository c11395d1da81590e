#pragma once

#include <algorithm>
#include <cmath>

#include "physics/surface/surface.hpp"

namespace dewtrail {

/// Keeps steps from straddling an edge of a surface's smooth patches, where they would lose their
/// order: each ends just across it, so near that what it skips of the other patch does not matter.
class PatchEdge {
  public:
    /// How a place on the plan moves, per path parameter: its rate, and the rate of that.
    struct Motion {
        Vec2 at, rate, bend;
    };

    void forget() {
        known_ = 0;
        patch_ = {};
    }

    /// Path parameter until the place is just across the next edge; infinite if it meets none.
    /// `last`: the parameter since this was asked before. `slack_m`: so much beyond an edge is on
    /// it.
    double next(const Surface& surface, const Motion& motion, double last, double slack_m) {
        from_ = motion.at;
        const double pace = motion.rate.norm();
        patch_ = pace > 0 ? surface.patch(from_ + slack_m / pace * motion.rate) : SmoothPatch{};
        beyond_ = 0.5 * slack_m;
        foresee(motion.bend, last);
        double nearest = HUGE_VAL;
        for (const double side : {-1.0, 1.0}) {
            const Vec2 edge = side < 0 ? patch_.low : patch_.high;
            const Vec2 far = edge + side * Vec2(beyond_, beyond_) - from_;
            if (std::isfinite(far.x()))
                nearest = std::min(nearest, until(far.x(), motion.rate.x(), motion.bend.x(),
                                                  jolt_.x(), snap_.x()));
            if (std::isfinite(far.y()))
                nearest = std::min(nearest, until(far.y(), motion.rate.y(), motion.bend.y(),
                                                  jolt_.y(), snap_.y()));
        }
        return nearest;
    }

    /// The share of a step to `to` after which to end it; 1 where it ends within the patch.
    double share(const Vec2& to) const {
        return std::min({share(patch_.low.x() - from_.x(), to.x() - from_.x()),
                         share(patch_.low.y() - from_.y(), to.y() - from_.y()),
                         share(patch_.high.x() - from_.x(), to.x() - from_.x()),
                         share(patch_.high.y() - from_.y(), to.y() - from_.y())});
    }

  private:
    /// The third and fourth derivatives, from how the second changed in the last steps.
    void foresee(const Vec2& bend, double last) {
        const Vec2 mean = known_ > 0 ? (bend - bend_) / last : Vec2();
        snap_ = known_ > 1 ? 2 / (last + last_) * (mean - mean_) : Vec2();
        jolt_ = mean + 0.5 * last * snap_;
        bend_ = bend;
        mean_ = mean;
        last_ = last;
        ++known_;
    }

    /// By the parabola, then Newton with the higher derivatives.
    static double until(double far, double rate, double bend, double jolt, double snap) {
        const double square = rate * rate + 2 * bend * far;
        if (!(square >= 0)) return HUGE_VAL;
        const double sum = rate + std::copysign(std::sqrt(square), rate);
        constexpr double no_step = 1e3;  // so long
        if (!(far * sum > 0) || 2 * std::abs(far) > no_step * std::abs(sum)) return HUGE_VAL;
        double h = 2 * far / sum;
        for (int i = 0; i < 3; ++i) {
            const double speed = rate + h * (bend + h * (jolt / 2 + h * snap / 6));
            if (!(speed * rate > 0)) break;
            h -= (h * (rate + h * (bend / 2 + h * (jolt / 6 + h * snap / 24))) - far) / speed;
        }
        return h > 0 ? h : HUGE_VAL;
    }

    double share(double edge, double way) const {
        if (!std::isfinite(edge)) return 1;
        const bool crossed = edge * way > 0 && std::abs(way) > std::abs(edge) + 2 * beyond_;
        return crossed ? (std::abs(edge) + beyond_) / std::abs(way) : 1;
    }

    SmoothPatch patch_;
    Vec2 from_, bend_, mean_, jolt_, snap_;
    double beyond_ = 0, last_ = 0;
    int known_ = 0;
};

}  // namespace dewtrail
