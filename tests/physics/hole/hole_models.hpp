#pragma once

#include "physics/hole/hole.hpp"

/// What the tests of the hole say in MODEL.md's symbols.
namespace dewtrail {

inline constexpr double R = hole_radius_m;

inline HoleModel with_friction(double friction) {
    HoleModel model;
    model.friction = friction;
    return model;
}

inline HoleModel no_slip() {
    return with_friction(HoleModel::no_slip);
}

}  // namespace dewtrail
