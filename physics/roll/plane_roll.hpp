#pragma once

#include <optional>
#include <utility>

#include "physics/roll/roll.hpp"

namespace dewtrail {

/// What acts on a ball along a plane. `gradient`: of the plane, green frame.
struct PlaneForces {
    PlaneForces(const Vec2& gradient, double resistance);

    double slope, cosine;   ///< rise over run; cosine of the slope angle
    double pull, friction;  ///< g' and f of MODEL.md section 3, m/s^2; pull 0 on the level
    Vec2 uphill, across;    ///< plan unit vectors; any, on the level
};

/// A plane on which a ball comes to rest wherever it is sent: friction over slope k > 1. Throws
/// std::invalid_argument unless resistance > |gradient|, both finite.
struct PlaneGround : PlaneForces {
    PlaneGround(const Vec2& gradient, double resistance);
};

/// E of MODEL.md section 3: the integral of e^(-rate sigma) from 0.
double decay(double rate, double sigma);

/// One whole roll on a plane in closed form (MODEL.md section 3), the hole covered.
///
/// Written over sigma = tau / g', the path variable of the integrator (dt = v dsigma): then nothing
/// divides by the slope, and level, straight up and straight down are no special cases. A roll ends
/// at sigma = infinity. Agrees with `roll` to 1e-8 in metres, m/s and seconds; well under a
/// microsecond to the rim.
class PlaneRoll {
  public:
    PlaneRoll(const PlaneGround& ground, const Launch& launch);
    /// Where the heading on the plan is known already, of any length but 0.
    PlaneRoll(const PlaneGround& ground, const Launch& launch, const Vec2& heading);

    PathPoint at(double sigma) const;
    PathPoint rest() const;
    Vec2 rest_at() const;

    /// First point within the hole's radius of `hole`; none if it never comes so near, or starts
    /// there.
    std::optional<PathPoint> rim(const Vec2& hole) const;

    /// Where it turns away from `hole`, the nearest such point; none if it comes nearer until it
    /// rests, or never does. Away from the hole a pass from which it turns back within the last
    /// hundredths of its path may be left out.
    std::optional<PathPoint> pass(const Vec2& hole) const;

  private:
    /// What the search for the hole needs of a point: cheaper than a PathPoint.
    struct Place {
        Vec2 at, heading;            ///< heading has length 1
        double rate, foreshortened;  ///< plan length per sigma, and per length on the surface
        double off2(const Vec2& hole) const { return (at - hole).squaredNorm(); }
    };
    Place place(double sigma) const;
    Vec2 plan(double down, double across) const;
    double speed(double sigma) const;

    /// Calls found(sigma) for every point from sigma = `from` on where the ball turns away from
    /// `hole`, in order, until it returns true.
    template <class Found>
    void each_pass(const Vec2& hole, double from, Found found) const;
    bool may_return(const Place& passing, const Vec2& hole) const;
    double end_of_path() const;
    double earliest(double arc) const;
    double rim_before(double pass, double from, const Vec2& hole) const;
    std::pair<double, double> receding(const Place& place, const Vec2& hole) const;

    const PlaneGround& ground_;
    Launch launch_;
    double c_, s_, root_;  ///< cos^2 and sin^2 of phi0/2, and their mean sin(phi0)/2 with its sign
};

}  // namespace dewtrail
