#include <Eigen/LU>

#include "physics/surface_line.hpp"

namespace dewtrail {
namespace {

using Columns = Eigen::Matrix<double, 1, 4>;
enum Row { x, y, bearing, log_speed, arc };

Vec2 right_of(const Vec2& e) {
    return {e.y(), -e.x()};
}

Columns along(const Vec2& direction, const Sensitivities& s) {
    return direction.x() * s.row(x) + direction.y() * s.row(y);
}

/// Dead weight, and strokes that stop short: where the ball rests, against the hole. What was asked
/// is taken off in either unit, so that nothing but dead weight is satisfied by dying at the hole.
Shortfall by_rest(const Putt& putt, const SensitiveRoll& rolled) {
    const Vec2 e = putt.line().normalized(), r = right_of(e);
    const Vec2 off = rolled.roll.last.at - putt.hole;
    Shortfall result{r.dot(off), e.dot(off) - putt.finish.value, {}};
    result.derivative.row(0) = along(r, rolled.at_end);
    result.derivative.row(1) = along(e, rolled.at_end);
    return result;
}

/// The pass lies where (q - hole) . e = 0, so it slides along the path when the stroke changes.
Shortfall by_pass(const Putt& putt, const SensitiveRoll& rolled) {
    const PathPoint& pass = *rolled.roll.pass;
    const Sensitivities& s = rolled.at_pass;
    const Vec2 e = along_bearing(pass.bearing_rad), r = right_of(e);
    const double miss = r.dot(pass.at - putt.hole);

    const auto& rate = rolled.rate_at_pass;
    const double advance = e.x() * rate[0] + e.y() * rate[1] + miss * rate[2];
    const Columns slide = -(along(e, s) + miss * s.row(bearing)) / advance;

    Shortfall result{miss, 0, {}};
    result.derivative.row(0) = along(r, s);
    if (putt.finish.kind == Finish::Kind::past) {
        result.finish = rolled.roll.last.arc_m - pass.arc_m - putt.finish.value;
        result.derivative.row(1) = rolled.at_end.row(arc) - s.row(arc) - rate[4] * slide;
    } else {
        result.finish = pass.speed_m_s - putt.finish.value;
        result.derivative.row(1) = pass.speed_m_s * (s.row(log_speed) + rate[3] * slide);
    }
    return result;
}

SensitiveRoll rolled_for(const Putt& putt, const Stroke& stroke, double tolerance,
                         Derivatives derivatives, const Vec2& tilt) {
    RollOptions options;
    options.tolerance = tolerance;
    options.hole =
        putt.hole;  // no outline: strokes that overshoot the green still show the way back
    options.conditions = putt.conditions;
    const Launch launch = putt.launch(stroke);
    if (derivatives == Derivatives::none)
        return {.roll = roll(*putt.surface, putt.resistance, launch, options)};
    return roll_with_sensitivities(*putt.surface, putt.resistance, launch, options,
                                   derivatives == Derivatives::by_stroke_and_ground, tilt);
}

}  // namespace

std::optional<Shortfall> shortfall(const Putt& putt, const Stroke& stroke, double tolerance,
                                   Derivatives derivatives, const Vec2& tilt) {
    const SensitiveRoll rolled = rolled_for(putt, stroke, tolerance, derivatives, tilt);
    const bool rests = rolled.roll.end == RollEnd::at_rest;
    const bool past = putt.finish.kind == Finish::Kind::past;
    if (past && !rests) return std::nullopt;
    const bool dies = rests && putt.finish.dead_weight();
    if (rolled.roll.pass && !dies) return by_pass(putt, rolled);
    if (!rests) return std::nullopt;
    return by_rest(putt, rolled);
}

std::optional<Eigen::Matrix2d> stroke_sensitivity(const Putt& putt, const Stroke& stroke,
                                                  double tolerance, const Vec2& tilt) {
    const auto here = shortfall(putt, stroke, tolerance, Derivatives::by_stroke_and_ground, tilt);
    if (!here) return std::nullopt;
    const Eigen::Matrix2d by_stroke = here->derivative.leftCols<2>();
    const Eigen::Matrix2d by_ground = here->derivative.rightCols<2>();
    const Eigen::FullPivLU<Eigen::Matrix2d> lu(by_stroke);
    if (!lu.isInvertible()) return std::nullopt;
    return -lu.solve(by_ground);
}

}  // namespace dewtrail
