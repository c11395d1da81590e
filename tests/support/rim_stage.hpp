#pragma once

/// The ball rolling on the rim of a level hole, without slip: one equation, exact. An oracle for
/// the full simulation where the rim alone decides whether the ball drops; not used by the library.
namespace dewtrail::oracle {

struct RimStageLimit {
    double speed_m_s;    ///< least arrival speed at which the ball climbs back out
    double lean_rad;     ///< how far it then leans over the hole
    double least_force;  ///< least normal force on the way there, in weights: positive if it never
                         ///< hops
    double friction;     ///< most friction needed on the way there, over the normal force
};

/// q = offset/R in (0, 1). The lean as independent variable makes spin and circulation linear in
/// the arrival speed v, so lean rate^2 = a(lean) v^2 + b(lean): the limit is the least v^2 for
/// which it has a zero, the minimum of -b/a. A change of sign would miss it: at the limit the zero
/// is double.
RimStageLimit rim_stage_limit(double q);

}  // namespace dewtrail::oracle
