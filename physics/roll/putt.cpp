#include "physics/roll/putt.hpp"

namespace dewtrail {

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
