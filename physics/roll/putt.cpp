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

}  // namespace dewtrail
