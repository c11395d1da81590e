#pragma once

#include <Eigen/Core>
#include <cmath>

#include "physics/base/vec2.hpp"

namespace dewtrail {

inline Eigen::Vector2d as_eigen(const Vec2& v) {
    return {v.x(), v.y()};
}

template <class Two>
Vec2 as_vec2(const Eigen::MatrixBase<Two>& v) {
    return {v[0], v[1]};
}

/// Turned about the origin, from x toward y.
inline Vec2 turned(const Vec2& v, double by_rad) {
    const double c = std::cos(by_rad), s = std::sin(by_rad);
    return {c * v.x() - s * v.y(), s * v.x() + c * v.y()};
}

}  // namespace dewtrail
