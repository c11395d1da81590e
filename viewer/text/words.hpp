#pragma once

#include <string>

#include "greens/units.hpp"
#include "physics/roll/putt.hpp"
#include "viewer/text/figures.hpp"

/// The phrases of a read. Plain SI numbers in, right positive as seen from the ball; a number that
/// does not exist is passed as NaN. Figures come from figures.hpp, aims from aim.hpp, so all pages
/// agree.
namespace dewtrail {

/// First letter upper case.
std::string as_sentence(std::string words);

/// 'Right to left, slightly downhill', 'Straight, uphill', 'Left to right', 'Straight, level'. A
/// ball started right of the hole breaks right to left. Straight: the start line passes the hole by
/// less than ½ in. `up`: rise over run along the ball-hole line, positive uphill: level under ¼ %
/// (and then said only of a straight putt), slightly under 1 %, plain to 3 %, steeply above.
std::string direction_words(double start_angle_rad, double distance_m, double up);

/// 'Breaks both ways: left to right, then right to left, uphill', of a path that is first on this
/// side of the ball-hole line, then on the other; `up` as above.
std::string both_ways_words(double first_offset_m, double up);
/// 'left to right, then right to left'.
std::string both_sides_words(double first_offset_m);

/// Of a path that breaks both ways: '3 in left a third of the way', 'just left' where that rounds
/// to nothing; places as below.
std::string turn_words(const PlayerPoint& turn, double distance_m, const Units& units);

/// 'the first half costs most: 4 in of aim for ½ % misread, the second 1½ in'; 'both halves cost
/// alike' within a quarter. Sizes count. Empty where one does not exist.
std::string half_costs_words(double first_m, double second_m, const Units& units);

/// Whether a path that is this far from the line at its apex is told as straight.
bool runs_straight(double apex_offset_m, const Units& units);

/// 'just past halfway, 5 in high'; 'none, it runs straight' where there is none or it rounds to
/// nothing. Thresholds in fractions of the distance: near the ball to 0.20, a third of the way to
/// 0.40, just short of halfway to 0.47, halfway to 0.53, just past halfway to 0.62, two thirds of
/// the way to 0.71, three quarters to 0.82, else near the hole.
std::string apex_words(double along_m, double offset_m, double distance_m, const Units& units);

/// 'start line passes 4 in above it'; empty where there is no apex.
std::string apex_line_words(double line_above_m, const Units& units);

/// The finish asked for: 'dying' (under 1½ in past), 'a foot past' (10½ to 13½ in, imperial),
/// 'firm' (24 in, to ½ in), else '3 in past'.
std::string finish_words(double past_m, const Units& units);

/// Where it goes in, as the player faces the hole (6 = nearest the player, 3 = right): 'over the
/// front', within a quarter hour of 6; 'over the front, right of centre' to an hour and a half;
/// 'over the right side' to four and a half hours; else 'over the back'. Empty where there is no
/// entry.
std::string entry_words(double entry_clock_h);

/// 'a foot past, in over the front, right of centre'. Where the ball would not stop (past_m absent)
/// the speed at the hole stands in for the finish: '2.3 ft/s at the hole, in over the front'.
std::string arrival_words(double past_m, double speed_m_s, double entry_clock_h,
                          const Units& units);

/// 'play it as a straight level 12-footer', '9½-footer'; past 30 ft 'play it as a straight level
/// putt of 11 paces'; metric '3.7-metre putt'; too short to name: 'tap'.
std::string level_putt_words(double level_putt_m, const Units& units);

/// '1¾ in either side, 7 in short to 8 in long'; lopsided (one side more than a quarter larger
/// than the other) '1 in right to 2½ in left'. All four are sizes, metres: of aim at the hole's
/// depth, and of level roll. An en dash where the read does not drop.
std::string room_words(double right_m, double left_m, double short_m, double long_m,
                       const Units& units);

/// A hole of a green: 'hole front'; 'the hole' where it is called hole or nothing.
std::string hole_called(const std::string& name);

/// A chance, 0 to 1: 'about 1 in 7' under 0.37, 'about 6 in 10' to 0.95, 'nearly always', 'under 1
/// in 100'.
std::string chance_words(double chance);

/// Putts that nobody tries to hole: beyond 30 ft, or beyond 25 ft with less than 1 chance in 20.
bool lags(double holed, double distance_m);

/// 'about 1 in 7'; where the putt lags 'Lag: 6 in 10 finish inside 3 ft, usual leave 2½ ft'
/// (without the leave where it is absent; metric: 90 cm).
std::string odds_words(double holed, double inside_3ft, double usual_leave_m, double distance_m,
                       const Units& units);

/// '14 %, three-putt 12 %, 1.98 putts': coach detail of the odds.
std::string odds_detail_words(double holed, double three_putt, double putts);

/// What one choice costs against another, in strokes: 'one stroke in 83 such putts'; 'nothing'
/// under one in 500, which nobody would notice.
std::string strokes_words(double putts);

}  // namespace dewtrail
