#pragma once

namespace dewtrail {

/// Penner's parabola: the fastest a ball may be at the rim and still drop,
/// 1.63 (1 - (offset/R)^2) m/s; 0 from the rim's edge outward (A. R. Penner, Can. J. Phys. 80,
/// 83-96, 2002; from memory). Level green; made for the middle of the hole, too strict at its edge.
///
/// `offset_m`: how far the ball's line at the rim passes from the hole centre; its sign is ignored.
double penner_limit_m_s(double offset_m);

}  // namespace dewtrail
