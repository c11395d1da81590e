#include "viewer/putt/clock.hpp"

#include <boost/math/special_functions/cos_pi.hpp>
#include <boost/math/special_functions/sin_pi.hpp>
#include <cmath>

namespace dewtrail {

double on_the_dial(double hours) {
    double wrapped = std::fmod(hours, 12);
    if (wrapped <= 0) wrapped += 12;
    return wrapped;
}

Vec2 clock_direction(double clock_h) {
    return {boost::math::sin_pi(clock_h / 6), boost::math::cos_pi(clock_h / 6)};
}

double clock_of_direction(const Vec2& from_hole) {
    return on_the_dial(6 * (bearing_of(from_hole) / M_PI));
}

Vec2 turned(const Vec2& v, double hours) {
    const Vec2 north = clock_direction(hours), east(north.y(), -north.x());
    return v.x() * east + v.y() * north;
}

double AlongAcross::slope() const {
    return std::hypot(up, falls_left);
}

AlongAcross along_across(double slope, double clock_h) {
    const Vec2 ball = clock_direction(clock_h);
    return {0 - slope * ball.y(), slope * ball.x()};
}

double clock_of(const AlongAcross& at_hole) {
    if (at_hole.slope() == 0) return 6;
    return clock_of_direction({at_hole.falls_left, -at_hole.up});
}

std::optional<double> clock_of(const Putt& putt, const Vec2& place) {
    const auto uphill = uphill_at_hole(putt);
    if (!uphill) return std::nullopt;
    return on_the_dial(clock_of_direction(place - putt.hole) - clock_of_direction(*uphill));
}

std::optional<double> clock_of(const Putt& putt) {
    return clock_of(putt, putt.ball);
}

}  // namespace dewtrail
