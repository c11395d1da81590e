#pragma once

#include <limits>

#include "physics/base/vec2.hpp"

namespace dewtrail {

/// Height of a surface z = h(x, y) and its derivatives at one point. Heights in metres, z up.
/// The third derivatives feed the sensitivities only; a surface that is merely C^2 may let them
/// jump.
struct SurfaceJet {
    double h = 0;
    double hx = 0, hy = 0;
    double hxx = 0, hxy = 0, hyy = 0;
    double hxxx = 0, hxxy = 0, hxyy = 0, hyyy = 0;

    Vec2 gradient() const { return {hx, hy}; }
};

/// A rectangle of the green frame on which a surface has all derivatives; the whole plane where
/// none is known.
struct SmoothPatch {
    static constexpr double endless = std::numeric_limits<double>::infinity();
    Vec2 low{-endless, -endless}, high{endless, endless};
};

/// A green's surface. Defined for every x, y; evaluation is const, does not throw and does not
/// allocate.
class Surface {
  public:
    virtual ~Surface() = default;

    /// Height and derivatives up to the third at (x, y) in metres, green frame.
    virtual SurfaceJet at(double x, double y) const = 0;

    /// The smooth patch about (x, y): whoever steps along the surface does best to end a step on
    /// its edge.
    virtual SmoothPatch patch(const Vec2&) const { return {}; }
};

/// z = gradient . (x, y). The closed form of a putt exists on this surface only.
class Plane final : public Surface {
  public:
    explicit Plane(const Vec2& gradient) : gradient_(gradient) {}

    SurfaceJet at(double x, double y) const override {
        SurfaceJet jet;
        jet.h = gradient_.x() * x + gradient_.y() * y;
        jet.hx = gradient_.x();
        jet.hy = gradient_.y();
        return jet;
    }

    const Vec2& gradient() const { return gradient_; }

  private:
    Vec2 gradient_;
};

}  // namespace dewtrail
