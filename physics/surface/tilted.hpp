#pragma once

#include <memory>
#include <utility>

#include "physics/surface/surface.hpp"

namespace dewtrail {

/// A surface tilted a little more: `tilt` is what its gradient gains; heights stay at `about`.
class Tilted final : public Surface {
  public:
    Tilted(std::shared_ptr<const Surface> surface, const Vec2& tilt, const Vec2& about)
        : surface_(std::move(surface)), tilt_(tilt), about_(about) {}

    SurfaceJet at(double x, double y) const override {
        SurfaceJet jet = surface_->at(x, y);
        jet.h += tilt_.dot(Vec2(x, y) - about_);
        jet.hx += tilt_.x();
        jet.hy += tilt_.y();
        return jet;
    }
    SmoothPatch patch(const Vec2& at) const override { return surface_->patch(at); }

  private:
    std::shared_ptr<const Surface> surface_;
    Vec2 tilt_, about_;
};

}  // namespace dewtrail
