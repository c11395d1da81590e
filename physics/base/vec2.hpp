#pragma once

#include <algorithm>
#include <cmath>

namespace dewtrail {

/// A point or vector of the plane: of the green frame in metres (x east, right on the plan; y
/// north, up the plan), or of the window in pixels. Two doubles and no more: nearly every file
/// needs this, hardly any needs a library for it. Where something is solved, Eigen does it. Its
/// words are kept (`x()`, `norm()`, `Zero()`), so both read alike.
class Vec2 {
  public:
    Vec2() = default;
    constexpr Vec2(double x, double y) : x_(x), y_(y) {}

    static constexpr Vec2 Zero() { return {0, 0}; }

    constexpr double x() const { return x_; }
    constexpr double y() const { return y_; }
    constexpr double& x() { return x_; }
    constexpr double& y() { return y_; }

    constexpr double dot(const Vec2& b) const { return x_ * b.x_ + y_ * b.y_; }
    constexpr double squaredNorm() const { return dot(*this); }
    double norm() const { return std::sqrt(squaredNorm()); }
    /// Of length one; what has no length stays as it is.
    Vec2 normalized() const {
        const double squared = squaredNorm();
        return squared > 0 ? *this / std::sqrt(squared) : *this;
    }
    bool allFinite() const { return std::isfinite(x_) && std::isfinite(y_); }

    // Element by element.
    constexpr Vec2 cwiseProduct(const Vec2& b) const { return {x_ * b.x_, y_ * b.y_}; }
    constexpr Vec2 cwiseQuotient(const Vec2& b) const { return {x_ / b.x_, y_ / b.y_}; }
    constexpr Vec2 cwiseMin(const Vec2& b) const {
        return {std::min(x_, b.x_), std::min(y_, b.y_)};
    }
    constexpr Vec2 cwiseMax(const Vec2& b) const {
        return {std::max(x_, b.x_), std::max(y_, b.y_)};
    }
    Vec2 cwiseAbs() const { return {std::abs(x_), std::abs(y_)}; }
    constexpr double minCoeff() const { return std::min(x_, y_); }
    constexpr double maxCoeff() const { return std::max(x_, y_); }

    constexpr Vec2 operator-() const { return {-x_, -y_}; }
    constexpr Vec2& operator+=(const Vec2& b) { return *this = *this + b; }
    constexpr Vec2& operator-=(const Vec2& b) { return *this = *this - b; }
    constexpr Vec2& operator*=(double s) { return *this = *this * s; }
    constexpr Vec2& operator/=(double s) { return *this = *this / s; }

    friend constexpr Vec2 operator+(const Vec2& a, const Vec2& b) {
        return {a.x_ + b.x_, a.y_ + b.y_};
    }
    friend constexpr Vec2 operator-(const Vec2& a, const Vec2& b) {
        return {a.x_ - b.x_, a.y_ - b.y_};
    }
    friend constexpr Vec2 operator*(const Vec2& a, double s) { return {a.x_ * s, a.y_ * s}; }
    friend constexpr Vec2 operator*(double s, const Vec2& a) { return a * s; }
    friend constexpr Vec2 operator/(const Vec2& a, double s) { return {a.x_ / s, a.y_ / s}; }
    friend constexpr bool operator==(const Vec2&, const Vec2&) = default;

  private:
    double x_ = 0, y_ = 0;
};

/// Bearings are clockwise from +y, radians: bearing b points along (sin b, cos b).
inline Vec2 along_bearing(double bearing_rad) {
    return {std::sin(bearing_rad), std::cos(bearing_rad)};
}

inline double bearing_of(const Vec2& v) {
    return std::atan2(v.x(), v.y());
}

/// A quarter turn clockwise.
constexpr Vec2 right_of(const Vec2& v) {
    return {v.y(), -v.x()};
}

}  // namespace dewtrail
