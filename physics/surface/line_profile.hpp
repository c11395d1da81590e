#pragma once

#include <vector>

#include "physics/surface/surface.hpp"

namespace dewtrail {

/// A cubic spline through values at increasing places, flat (zero derivative) at both ends and
/// constant beyond them. C^2 between the ends, C^1 at them. One place alone: a constant.
class ClampedSpline {
  public:
    struct Value {
        double integral = 0;  ///< from the first place, in the places' unit
        double value = 0, d1 = 0, d2 = 0, d3 = 0;
    };

    /// std::invalid_argument unless the places increase strictly, all is finite, and there is one
    /// value for each place and at least one place.
    ClampedSpline(std::vector<double> places, std::vector<double> values);

    Value at(double place) const;
    bool operator==(const ClampedSpline&) const = default;

  private:
    Value in_piece(std::size_t piece, double place) const;

    std::vector<double> places_, values_, slopes_, integrals_;
};

/// One reading of the ground on the straight line from ball to hole. `along_m` counts from the ball
/// and may lie before it or past the hole. Slopes are rise over run: `up` positive uphill toward
/// the hole, `right_up` positive where the ground rises to the player's right (it falls left).
struct LineReading {
    double along_m = 0;
    double up = 0;
    double right_up = 0;
};

/// A surface from readings along the ball-hole line, when that is all that was measured.
///
/// With s metres from the ball along the line and c metres to the right of it,
///     h(s, c) = integral of U from 0 to s  +  c C(s),
/// U and C clamped splines through the grades and cross slopes read. The readings hold exactly on
/// the line; each cross-section is straight. One reading gives a plane, h = 0 at the ball. On the
/// line h is C^2 everywhere. Off it the second derivative along s jumps by c C'' at the first and
/// the last reading, where the cross slope levels out; with ordinary readings that is below
/// 0.005 per metre at half a metre from the line. Like any spline it can overshoot a little
/// between unlike neighbours.
class LineProfile final : public Surface {
  public:
    /// Ball and hole in the green frame, metres. std::invalid_argument if they coincide or are not
    /// finite, or the readings' places do not increase strictly, or there is none.
    LineProfile(const Vec2& ball, const Vec2& hole, const std::vector<LineReading>& readings);

    /// A step across the line, level before and after: in all `rise_m` (negative: a drop) over
    /// `width_m`, centred `centre_m` from the ball. Steepest in its middle, at twice the mean
    /// grade; the total is exact.
    static LineProfile step(const Vec2& ball, const Vec2& hole, double rise_m, double centre_m,
                            double width_m);

    SurfaceJet at(double x, double y) const override;
    bool operator==(const LineProfile& o) const;  ///< the same ground everywhere

    // What it was made of.
    const Vec2& ball() const { return ball_; }
    const Vec2& hole() const { return hole_; }
    const std::vector<LineReading>& readings() const { return readings_; }

  private:
    Vec2 ball_, hole_;
    std::vector<LineReading> readings_;
    Vec2 along_, right_;
    ClampedSpline up_, right_up_;
    double integral_at_ball_ = 0;
};

}  // namespace dewtrail
