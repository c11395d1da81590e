#pragma once

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "greens/green.hpp"
#include "greens/number.hpp"
#include "physics/read/read.hpp"
#include "physics/surface/line_profile.hpp"
#include "viewer/putt/putt_request.hpp"
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

/// A putt as the window sets it up: everything that undo restores. SI, clock in hours.
///
/// Without a green the hole is the origin and the ground rises toward +y; the ball lies at
/// `distance_m` and `clock_h`. With `readings` the ground is a profile along the ball-hole line and
/// the clock follows from the reading at the hole. On a green the two positions decide.
struct Setup {
    double distance_m = 12 * metres_per_foot;
    double clock_h = 3;
    double slope = 0.02;
    SlopeFace face = SlopeFace::total;
    std::vector<LineReading> readings{};  ///< places as fractions of the distance
    std::shared_ptr<const Green> green{};
    Vec2 ball = Vec2::Zero(), hole = Vec2::Zero();  ///< on the green
    std::string ball_name{}, hole_name{};
    double stimp_ft = usual_stimp_ft;
    Finish finish = Finish::past(usual_past_m);
    std::optional<TakenChoice> taken{};
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

Setup setup_of(const PlannedPutt& plan);

/// The putt that the setup means. Surface and outline are made or shared.
Putt putt_of(const Setup& setup);

double distance_of(const Setup& setup);
/// None on a green that is level at the hole.
std::optional<double> clock_of(const Setup& setup);
double slope_at_hole(const Setup& setup);
/// Ball's plan bearing from the hole minus the uphill (or +y) bearing, as clock hours; always
/// there.
double bearing_hours(const Setup& setup);

/// Grade along the line and across it at the hole (falls left positive), rise over run.
struct AlongAcross {
    double up = 0, falls_left = 0;
};
AlongAcross along_across(const Setup& setup);

// Edits. Each keeps everything inside the limits above. Those of the slope do nothing on a green.
void set_distance(Setup& setup, double distance_m);
void set_clock(Setup& setup, double clock_h);
void set_slope(Setup& setup, double slope);
void set_along_across(Setup& setup, const AlongAcross& values);
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

bool ball_on_green(const Setup& setup);

/// Clock hours brought into (0, 12].
double on_the_dial(double hours);

}  // namespace dewtrail
