#include "physics/roll/putt.hpp"

#include <algorithm>
#include <cmath>

#include "physics/roll/forces.hpp"

namespace dewtrail {

Vec2 Putt::pull_at(const Vec2& place) const {
    const SurfaceJet jet = surface->at(place.x(), place.y());
    if (conditions.plain()) return -jet.gradient();
    return Forces(conditions).pull(jet, resistance);
}

double Putt::least_friction_over_pull() const {
    double strongest = 0;
    for (const double share : {0.0, 0.25, 0.5, 0.75, 1.0})
        strongest = std::max(strongest, pull_at(ball + share * line()).norm());
    return strongest > 0 ? holding() / strongest : HUGE_VAL;
}

PlayerPoint in_player_frame(const Putt& putt, const Vec2& green) {
    const Vec2 e = putt.line().normalized(), d = green - putt.ball;
    return {e.dot(d), e.y() * d.x() - e.x() * d.y()};
}

Vec2 on_green(const Putt& putt, const PlayerPoint& player) {
    const Vec2 e = putt.line().normalized();
    return putt.ball + player.along_m * e + player.offset_m * Vec2(e.y(), -e.x());
}

std::optional<Vec2> uphill_at_hole(const Putt& putt) {
    const Vec2 gradient = putt.gradient_at_hole();
    if (gradient.norm() < least_told_slope) return std::nullopt;
    return gradient.normalized();
}

double rises_right_at_hole(const Putt& putt) {
    const Vec2 e = putt.line().normalized();
    return putt.gradient_at_hole().dot(Vec2(e.y(), -e.x()));
}

}  // namespace dewtrail
