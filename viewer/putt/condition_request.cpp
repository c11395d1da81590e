#include "viewer/putt/condition_request.hpp"

#include <fmt/format.h>

#include "greens/input_error.hpp"
#include "greens/measure.hpp"
#include "viewer/text/clock_and_angle.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {
namespace {

constexpr double m_s_per_mph = 0.44704;
constexpr double m_s_per_km_h = 1 / 3.6;
constexpr double usual_wind_height_m = 2;
constexpr double station_height_m = 10;

constexpr const char* directions =
    "Use left, right, hole or ball (as the player faces the hole), or a bearing: 90deg.";

/// Unit vector toward a side of the player, or along a bearing of the green frame.
Vec2 parse_direction(const std::string& text, const Vec2& line, const char* what) {
    const Vec2 along = line.normalized(), right(along.y(), -along.x());
    const std::string plain = plain_text(text);
    if (plain == "right") return right;
    if (plain == "left") return -right;
    if (plain == "hole") return along;
    if (plain == "ball") return -along;
    const Subject subject{what, "left, right, hole, ball or 90deg"};
    std::string number = plain;
    drop_ending(number, "deg");
    drop_ending(number, "°");
    const Term term = read_term(number, subject);
    if (term.unit != Unit::none || term.number > 360)
        refuse(subject, text, "is not a direction", directions);
    return along_bearing(term.number / degrees_per_rad);
}

/// A signed share: 0, -0.3, 50%.
double parse_launch_spin(const std::string& text) {
    const Subject subject{"launch spin", "0, 1 or -0.3"};
    std::string plain = plain_text(text);
    const bool back = drop_beginning(plain, "-") || drop_beginning(plain, "−");
    const Term term = read_term(plain, subject);
    double spin = term.unit == Unit::percent ? term.number / 100 : term.number;
    if (back) spin = -spin;
    if ((term.unit != Unit::none && term.unit != Unit::percent) || !(spin >= least_launch_spin) ||
        !(spin <= most_launch_spin))
        refuse(subject, text, "is outside -1 to 2",
               "0 is no spin off the face, 1 rolls at once, -0.3 is backspin.");
    return spin + 0.0;
}

double parse_wind_m_s(const std::string& text, const Units& units) {
    const Subject subject{"wind", "4m/s, 10mph or 15km/h"};
    std::string plain = plain_text(text);
    double factor = 0;
    if (drop_ending(plain, "mph")) factor = m_s_per_mph;
    if (drop_ending(plain, "km/h")) factor = m_s_per_km_h;
    const double speed = factor > 0 ? factor * read_term(plain, subject).number
                                    : parse_speed_m_s(plain, units, "wind");
    if (speed > 25) refuse(subject, text, "is outside 0-25 m/s (0-56 mph)");
    return speed;
}

double wind_height_m(const ConditionRequest& request, const Units& units) {
    if (!request.wind_at) return usual_wind_height_m;
    const std::string plain = plain_text(*request.wind_at);
    if (plain == "ball") return ball_radius_m;
    if (plain == "station") return station_height_m;
    const double height = parse_short_length_m(*request.wind_at, units, "wind-at");
    if (!(height >= 0.1 && height <= 40))
        throw InputError(fmt::format("wind-at {} is outside 0.1-40 m", *request.wind_at),
                         "Give the height of the reading: 2m, 10m, or ball.");
    return height;
}

Vec2 parse_wind(const ConditionRequest& request, const Units& units, const Vec2& line,
                std::vector<std::string>& notes) {
    if (!request.wind) {
        if (request.wind_from || request.wind_at)
            throw InputError("the wind's speed is missing", "Add it: --wind 4m/s.");
        return Vec2::Zero();
    }
    if (!request.wind_from)
        throw InputError("the wind's direction is missing",
                         fmt::format("Add --wind-from. {}", directions));
    const double height = wind_height_m(request, units);
    const double speed = wind_at_ball_m_s(parse_wind_m_s(*request.wind, units), height);
    if (speed > most_wind_m_s)
        throw InputError(fmt::format("a wind of {} at the ball is more than the model holds for",
                                     format_speed(speed, units)),
                         "Give the height it was read at with --wind-at.");
    const Vec2 from = parse_direction(*request.wind_from, line, "wind-from");
    notes.push_back(
        fmt::format("wind: {} at the ball's height, an estimate good to a factor of "
                    "1½ either way",
                    format_speed(speed, units)));
    return -speed * from;
}

}  // namespace

std::optional<GrainReading> parse_grain(const ConditionRequest& request) {
    if (!request.grain) {
        if (request.grain_toward)
            throw InputError("the grain's strength is missing",
                             "Add the stimp down and into it: --grain 11ft/9ft.");
        return std::nullopt;
    }
    const std::string& text = *request.grain;
    const auto slash = text.find('/');
    if (slash == std::string::npos)
        throw InputError(fmt::format("grain '{}' is not understood", text),
                         "Give the stimp down the grain and into it: --grain 11ft/9ft.");
    const double down = parse_stimp_ft(text.substr(0, slash), "grain, down"),
                 into = parse_stimp_ft(text.substr(slash + 1), "grain, into");
    if (down < into)
        throw InputError(fmt::format("grain '{}' is slower down than into it", text),
                         "Put the reading down the grain first: --grain 11ft/9ft.");
    const GrainReading grain = grain_from_stimps(down * metres_per_foot, into * metres_per_foot);
    if (grain.strength > most_grain)
        throw InputError(fmt::format("grain '{}' is stronger than the model holds for", text),
                         "The reading down the grain may be up to three times the one into it.");
    return grain;
}

Conditions parse_conditions(const ConditionRequest& request, const Units& units, const Vec2& line,
                            std::vector<std::string>& notes) {
    Conditions conditions;
    if (request.launch_spin) {
        conditions.launch_spin = parse_launch_spin(*request.launch_spin);
        notes.push_back("skid: speeds are those of the ball off the face");
    }
    conditions.wind_m_s = parse_wind(request, units, line, notes);
    if (const auto grain = parse_grain(request)) {
        if (!request.grain_toward)
            throw InputError("the grain's direction is missing",
                             fmt::format("Add --grain-toward. {}", directions));
        conditions.grain =
            grain->strength * parse_direction(*request.grain_toward, line, "grain-toward");
        notes.push_back("grain: an approximation, no coefficient is published");
    }
    if (request.slow_share) {
        const double share = parse_fraction(*request.slow_share, "slow-share");
        if (share < least_slow_share)
            throw InputError(fmt::format("slow-share {} is outside 50-100 %", *request.slow_share),
                             "75% fits what is seen on fast greens; 100% is constant resistance.");
        conditions.slow_share = share;
        notes.push_back("resistance near rest is lower than the stimp's average");
    }
    return conditions;
}

}  // namespace dewtrail
