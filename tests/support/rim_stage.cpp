#include "tests/support/rim_stage.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "physics/base/ball_and_hole.hpp"

namespace dewtrail::oracle {

namespace {

constexpr double r = ball_radius_m, R = hole_radius_m, g = gravity_m_s2;
constexpr int steps = 20000;
constexpr double most_lean = 1.5;

double reach(double lean) {
    return R - r * std::sin(lean);
}

/// Turning round the hole and spin about the contact normal, per unit arrival speed (1/m).
struct Turning {
    double round, spin;
};

Turning rate(double lean, const Turning& y) {
    return {r / reach(lean) * (2 * y.round * std::cos(lean) - 2.0 / 7 * y.spin), y.round * R / r};
}

Turning plus(const Turning& y, double h, const Turning& k) {
    return {y.round + h * k.round, y.spin + h * k.spin};
}

Turning rk4(double lean, const Turning& y, double h) {
    const Turning a = rate(lean, y), b = rate(lean + h / 2, plus(y, h / 2, a)),
                  c = rate(lean + h / 2, plus(y, h / 2, b)), d = rate(lean + h, plus(y, h, c));
    return plus(plus(y, h / 6, plus(a, 2, b)), h / 6, plus(d, 2, c));
}

/// Lean rate squared = per_v2 v^2 + drop.
struct LeanRate2 {
    double per_v2, drop;
    double at(double v2) const { return per_v2 * v2 + drop; }
};

LeanRate2 lean_rate2(double q, double lean, const Turning& y) {
    const double round2 = std::pow(reach(lean) * y.round, 2), spin2 = std::pow(r * y.spin, 2);
    return {(1 - q * q + 10.0 / 7 * (0.7 * (q * q - round2) - 0.2 * spin2)) / (r * r),
            10.0 / 7 * g * (1 - std::cos(lean)) / r};
}

double force(double lean, const Turning& y, double v2, double rate2) {
    return (g * std::cos(lean) - r * rate2 +
            reach(lean) * y.round * y.round * v2 * std::sin(lean)) /
           g;
}

}  // namespace

RimStageLimit rim_stage_limit(double q) {
    const double h = most_lean / steps;
    const Turning start{q / R, 0};
    RimStageLimit limit{std::numeric_limits<double>::infinity(), 0, 1, 0};
    double v2 = limit.speed_m_s;
    Turning y = start;
    for (int i = 1; i <= steps; ++i) {
        y = rk4((i - 1) * h, y, h);
        const LeanRate2 rate2 = lean_rate2(q, i * h, y);
        if (rate2.per_v2 < 0 && -rate2.drop / rate2.per_v2 < v2) {
            v2 = -rate2.drop / rate2.per_v2;
            limit.lean_rad = i * h;
        }
    }
    limit.speed_m_s = std::sqrt(v2);
    y = start;
    for (int i = 1; i * h <= limit.lean_rad; ++i) {
        y = rk4((i - 1) * h, y, h);
        const double rate2 = std::max(0.0, lean_rate2(q, i * h, y).at(v2));
        const double n = force(i * h, y, v2, rate2);
        // 2/7 of gravity along the surface and of the spin's turning with the normal.
        const double round = 2.0 / 7 * r * y.spin * std::sqrt(rate2 * v2);
        const double down = 2.0 / 7 * std::sin(i * h) * (g + r * y.spin * y.round * v2);
        limit.least_force = std::min(limit.least_force, n);
        limit.friction = std::max(limit.friction, std::hypot(round, down) / (n * g));
    }
    return limit;
}

}  // namespace dewtrail::oracle
