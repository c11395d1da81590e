#pragma once

#include <atomic>
#include <memory>
#include <utility>

#include "physics/surface/surface.hpp"

namespace dewtrail::oracle {

/// A surface that counts how often it is asked, by whichever threads.
class CountedSurface final : public Surface {
  public:
    explicit CountedSurface(std::shared_ptr<const Surface> surface)
        : surface_(std::move(surface)) {}

    SurfaceJet at(double x, double y) const override {
        ++asked_;
        return surface_->at(x, y);
    }
    SmoothPatch patch(const Vec2& at) const override { return surface_->patch(at); }

    long asked() const { return asked_; }
    void forget() const { asked_ = 0; }

  private:
    std::shared_ptr<const Surface> surface_;
    mutable std::atomic<long> asked_ = 0;
};

}  // namespace dewtrail::oracle
