#pragma once

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "greens/green.hpp"
#include "greens/number.hpp"
#include "physics/roll/putt.hpp"
#include "physics/surface/line_profile.hpp"
#include "viewer/putt/clock.hpp"
#include "viewer/putt/spread.hpp"

namespace dewtrail {

/// The three faces of the slope field, three views of the same ground: total and ball clock; along
/// and across as a level shows it; three readings along the line.
enum class SlopeFace { total, along_across, three_rows };

enum class BestKind { fewest_putts, most_holed };

/// A best choice that the player has taken into the read: its finish is the set-up's; its start
/// line lies this far right of the read for that finish.
struct TakenChoice {
    BestKind kind = BestKind::fewest_putts;
    double aim_shift_rad = 0;
    Finish plain;  ///< of the read that it was taken instead of
};

inline constexpr double usual_stimp_ft = 10;
inline constexpr double lag_distance_m = 30 * metres_per_foot;  ///< beyond, one putts to leave it
inline constexpr double lag_past_m = 3 * metres_per_inch;       ///< near, with this finish

/// Values as they were typed, to be told so and not rounded; each is empty again from the first
/// edit of its value on. A bare number has the unit of the system that it was typed in.
struct TypedWords {
    std::string distance{}, slope{}, clock{}, stimp{}, finish{};
    bool metric = false;
};

/// A putt as it was typed, dragged or dealt: the one account of it that is changed, and everything
/// that undo brings back. SI, clock in hours, stimp in feet.
///
/// Without a green the hole is the origin and the ground rises toward +y; the ball lies at
/// `distance_m` and `clock_h`. With `readings` the ground is a profile along the ball-hole line and
/// the clock follows from the slope at the hole. On a green the two places rule.
struct Setup {
    double distance_m = 12 * metres_per_foot;
    double clock_h = 3;
    double slope = 0.02;
    SlopeFace face = SlopeFace::total;
    std::vector<LineReading> readings{};  ///< places as fractions of the distance
    std::shared_ptr<const Green> green{};
    Vec2 ball = Vec2::Zero(), hole = Vec2::Zero();  ///< on the green
    std::string ball_name{}, hole_name{};           ///< where they have one
    double stimp_ft = usual_stimp_ft;
    Finish finish = Finish::past(usual_past_m);
    Conditions conditions{};
    std::optional<double> slope_sure{}, stimp_sure_ft{};  ///< known within this, 19 times in 20
    std::optional<TakenChoice> taken{};
    TypedWords typed{};
    Spread spread{};  ///< the player's
};

inline constexpr double least_distance_m = putt_range::distance_m.least,
                        most_distance_m = putt_range::distance_m.most,
                        most_slope = putt_range::slope.most,
                        least_stimp_ft = putt_range::stimp_ft.least,
                        most_stimp_ft = putt_range::stimp_ft.most;
inline constexpr double hole_inside_by_m = hole_radius_m;  ///< of a green's outline
inline constexpr double most_past_m = putt_range::past_m.most,
                        most_hole_speed_m_s = putt_range::hole_speed_m_s.most;

/// Stands the set-up on its ground. Surface and outline are made or shared.
Putt putt_of(const Setup& setup);

/// A set-up and the putt that it means.
struct PlacedPutt {
    Setup setup;
    Putt putt;
    std::vector<std::string> notes{};  ///< what was taken for granted, instruments' errors, …
};
PlacedPutt placed(Setup setup, std::vector<std::string> notes = {});

double distance_of(const Setup& setup);
double slope_at_hole(const Setup& setup);
/// None where the slope at the hole is under 0.1 %.
std::optional<double> clock_of(const Setup& setup);
/// The same with the bearing from +y to stand in where there is no clock.
double bearing_hours(const Setup& setup);

/// At the hole, as seen from the ball.
AlongAcross along_across(const Setup& setup);

// Edits. Each keeps everything inside the limits above. Those of the slope do nothing on a green.
void set_distance(Setup& setup, double distance_m);
void set_clock(Setup& setup, double clock_h);
void set_distance_and_clock(Setup& setup, double distance_m, double clock_h);
void set_slope(Setup& setup, double slope);
void set_along_across(Setup& setup, const AlongAcross& values);
/// Readings along the line, places in metres; the ground between is a profile.
void set_readings(Setup& setup, std::vector<LineReading> readings);
void set_face(Setup& setup, SlopeFace face);
/// 0 the ball, 1 halfway, 2 the hole.
AlongAcross row(const Setup& setup, int index);
void set_row(Setup& setup, int index, const AlongAcross& values);
void set_stimp(Setup& setup, double stimp_ft);
void set_finish(Setup& setup, const Finish& finish);
void place_ball(Setup& setup, const Vec2& at);
/// Only inside the outline, by the hole's radius; otherwise the nearest such place on the way.
void place_hole(Setup& setup, const Vec2& at);
void mirror(Setup& setup);
/// The green with its first hole and a ball about 12 ft from it, inside.
void put_on_green(Setup& setup, std::shared_ptr<const Green> green);

}  // namespace dewtrail
