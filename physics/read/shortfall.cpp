#include "physics/read/shortfall.hpp"

#include <Eigen/LU>

#include "physics/roll/sensitive_roll.hpp"

namespace dewtrail {
namespace {

using Columns = Eigen::Matrix<double, 1, 5>;
enum Row { x, y, bearing, log_speed, arc };

Columns along(const Vec2& direction, const Sensitivities& s) {
    return direction.x() * s.row(x) + direction.y() * s.row(y);
}

/// Dead weight, and strokes that stop short: where the ball rests, seen from the hole. The finish
/// asked for is subtracted in its own unit, so that only dead weight is met by dying at the hole.
Shortfall by_rest(const Putt& putt, const SensitiveRoll& rolled) {
    const Vec2 e = putt.line().normalized(), r = right_of(e);
    const Vec2 off = rolled.roll.last.at - putt.hole;
    Shortfall result{r.dot(off), e.dot(off) - putt.finish.value, {}};
    result.derivative.row(0) = along(r, rolled.at_end);
    result.derivative.row(1) = along(e, rolled.at_end);
    return result;
}

Shortfall by_pass(const Putt& putt, const SensitiveRoll& rolled) {
    const PathPoint& pass = *rolled.roll.pass;
    const double miss = right_of(along_bearing(pass.bearing_rad)).dot(pass.at - putt.hole);
    const double done = putt.finish.kind == Finish::Kind::past ? rolled.roll.last.arc_m - pass.arc_m
                                                               : pass.speed_m_s;
    return {miss, done - putt.finish.value, {}};
}

/// The pass lies where (q - hole) . e = 0, so it slides along the path when the stroke changes.
void differentiate_by_pass(const Putt& putt, const SensitiveRoll& rolled, Shortfall& result) {
    const PathPoint& pass = *rolled.roll.pass;
    const Sensitivities& s = rolled.at_pass;
    const auto& rate = rolled.rate_at_pass;
    const Vec2 e = along_bearing(pass.bearing_rad);
    const double advance = e.x() * rate[0] + e.y() * rate[1] + result.miss * rate[2];
    const Columns slide = -(along(e, s) + result.miss * s.row(bearing)) / advance;
    result.derivative.row(0) = along(right_of(e), s);
    result.derivative.row(1) = putt.finish.kind == Finish::Kind::past
                                   ? Columns(rolled.at_end.row(arc) - s.row(arc) - rate[4] * slide)
                                   : Columns(pass.speed_m_s * (s.row(log_speed) + rate[3] * slide));
}

SensitiveRoll rolled_for(const Putt& putt, const Stroke& stroke, double tolerance,
                         Derivatives derivatives) {
    RollOptions options;
    options.tolerance = tolerance;
    options.hole =
        putt.hole;  // no outline: strokes that overshoot the green still show the way back
    options.conditions = putt.conditions;
    const Launch launch = putt.launch(stroke);
    if (derivatives == Derivatives::none)
        return {.roll = roll(*putt.surface, putt.resistance, launch, options)};
    return roll_with_sensitivities(*putt.surface, putt.resistance, launch, options,
                                   derivatives == Derivatives::by_stroke_and_ground);
}

}  // namespace

std::optional<Shortfall> shortfall(const Putt& putt, const Stroke& stroke, double tolerance,
                                   Derivatives derivatives) {
    const SensitiveRoll rolled = rolled_for(putt, stroke, tolerance, derivatives);
    const bool rests = rolled.roll.end == RollEnd::at_rest;
    const bool past = putt.finish.kind == Finish::Kind::past;
    if (past && !rests) return std::nullopt;
    const bool dies = rests && putt.finish.dead_weight();
    if (rolled.roll.pass && !dies) {
        Shortfall result = by_pass(putt, rolled);
        if (derivatives != Derivatives::none) differentiate_by_pass(putt, rolled, result);
        return result;
    }
    if (!rests) return std::nullopt;
    return by_rest(putt, rolled);
}

std::optional<StrokeSensitivity> stroke_sensitivity(const Putt& putt, const Stroke& stroke,
                                                    double tolerance) {
    const auto here = shortfall(putt, stroke, tolerance, Derivatives::by_stroke_and_ground);
    if (!here) return std::nullopt;
    const Eigen::Matrix2d by_stroke = here->derivative.leftCols<2>();
    const StrokeSensitivity by_ground = here->derivative.rightCols<3>();
    const Eigen::FullPivLU<Eigen::Matrix2d> lu(by_stroke);
    if (!lu.isInvertible()) return std::nullopt;
    return -lu.solve(by_ground);
}

}  // namespace dewtrail
