#pragma once

#include <optional>

#include "physics/roll/forces.hpp"
#include "physics/roll/plane_roll.hpp"

namespace dewtrail {

/// The longest last piece of a roll that is left to the closed form.
inline constexpr double longest_closing_roll_m = 1e-3;

/// What acts on a ball that hardly moves: a pull, as a slope, and the slope that resistance holds.
struct Hold {
    Hold(const SurfaceJet& ground, double resistance, const Forces* forces)
        : pull(forces ? forces->pull(ground, resistance) : -ground.gradient()),
          resting(forces ? forces->resting(resistance) : resistance),
          W(std::sqrt(1 + ground.gradient().squaredNorm())) {}

    double grip() const { return resting - pull.norm(); }
    /// The least that can slow it down.
    double slowing_m_s2() const { return rolling_share * gravity_m_s2 * grip() / W; }
    PlaneGround plane() const { return {-pull, resting}; }

    Vec2 pull;
    double resting, W;
};

/// The last piece of a roll, by the closed form on the plane that the ground makes halfway between
/// here and rest: friction and slope act on such a ball on average as they do there (MODEL.md
/// section 2).
class ClosingRoll {
  public:
    /// `here`: where `from` lies; `heading`: of its velocity, on the plan.
    ClosingRoll(const Surface& surface, double resistance, const Forces* forces, const Hold& here,
                const PathPoint& from, const Vec2& heading);

    ClosingRoll(const ClosingRoll&) = delete;  // the roll refers to the ground

    PathPoint rest() const { return rest_; }
    std::optional<PathPoint> rim(const Vec2& hole) const;
    std::optional<PathPoint> pass(const Vec2& hole) const;
    /// Where it moves along `line` for a moment; none if it does not.
    std::optional<PathPoint> along(const Vec2& line) const;
    /// At a share of the time, 0 to 1, about.
    PathPoint at_share(double share) const;

  private:
    PathPoint later(PathPoint point) const;
    PathPoint at(double sigma) const { return later(roll_.at(sigma)); }

    PathPoint from_;
    PlaneGround ground_;
    PlaneRoll roll_;
    PathPoint rest_;
    double last_sigma_;
};

/// How far the closed form leads on the plane at one place, x, y and arc: what sensitivities need.
std::array<double, 3> closing_way(const Hold& here, const Vec2& heading, double speed_m_s);

}  // namespace dewtrail
