#pragma once

#include <optional>
#include <vector>

#include "physics/base/ball_and_hole.hpp"
#include "physics/hole/open_hole.hpp"
#include "physics/read/turns.hpp"
#include "physics/roll/putt.hpp"

namespace dewtrail {

/// How far start angle alone (rad, right positive) and level roll alone (fraction of the level
/// roll) may be off and the ball still drop: the connected interval round the read.
struct Room {
    double angle_lo_rad, angle_hi_rad;
    double pace_lo, pace_hi;
};

/// Where the ball crosses the rim, and whether it drops there: by the table of limits, or by the
/// simulation where that was asked for (`ReadOptions::open_hole`), which then has the last word.
struct Entry {
    double speed_m_s = 0;
    double offset_m = 0;  ///< of the ball's line from the hole centre, right positive
    double time_s = 0;
    double clock_rad =
        0;  ///< round the rim as the player faces the hole: pi = nearest, pi/2 = right
    double limit_m_s = 0;  ///< the fastest that would drop at this offset, by the table
    bool holed = false;
};

/// Derivatives of the read: what a misread costs. The green is tilted about the hole: `slope` up
/// the fall line there, `cross_slope` so that it rises more to the right of someone who looks up
/// the fall line; along and across the putt where there is none. Null where the quantity does not
/// exist.
struct Costs {
    std::optional<double> aim_m_per_slope, aim_m_per_cross_slope, aim_m_per_stimp_m;
    std::optional<double> level_putt_m_per_slope, level_putt_m_per_cross_slope,
        level_putt_m_per_stimp_m;
    std::optional<HalfCosts> halves;  ///< of a path that breaks both ways
};

/// The solved stroke, rolled again by a tighter integration.
struct Check {
    double miss_m = 0;
    std::optional<double> finish_error_m, finish_error_m_s;
};
inline constexpr double most_miss_m = 1e-4;
inline constexpr double most_finish_error_m = 1e-3;
inline constexpr double most_finish_error_m_s = 1e-4;

/// A verified read. Words as in the glossary of the README.
struct Read {
    Stroke stroke;
    double level_roll_m = 0;
    double level_putt_m = 0;  ///< level roll minus the usual past; may be negative
    /// Where the skid ends and the roll begins; none where the conditions ask for no skid.
    std::optional<PathPoint> rolls_from;
    PlayerPoint start_spot;
    std::optional<double> aim_offset_m;        ///< none from 90 deg on, or beyond ten distances
    std::optional<PlayerPoint> stand_in_hole;  ///< none where the level putt is not positive
    std::optional<PlayerPoint> apex;           ///< none within 0.1 mm of the ball-hole line
    std::optional<double> line_above_apex_m;   ///< the start line passes this far above the apex
    std::optional<Turns> turns;                ///< of a path that breaks both ways
    double arrival_speed_m_s = 0;
    std::optional<double> arrival_angle_rad;  ///< against the ball-hole line; none for dead weight
    double arrival_time_s = 0;
    std::optional<double> past_m;  ///< none where the ball does not stop on the green
    Entry entry;
    std::optional<Room> room;  ///< none where the read itself does not drop
    Costs costs;
    Check check;
    Roll roll;                     ///< of the check, the hole covered; its path is kept on request
    std::optional<OpenRoll> open;  ///< the same roll with the hole open, if it was asked for
};

/// Why there is no read, with the numbers that say so.
struct NoLine {
    enum class Why {
        never_stops,       ///< plane, k <= 1, asked for a distance past
        always_faster,     ///< plane, k <= 1, asked for a hole speed below the least arrival
        leaves_the_green,  ///< the line runs off the green on its way
        none_found,        ///< curved green: the search found none
        check_failed,      ///< found, but the check rolled elsewhere: too delicate to trust
    };
    Why why = Why::none_found;
    double holds_up_to_slope = 0;
    std::optional<double> friction_over_slope;  ///< plane
    std::optional<double> least_arrival_m_s;    ///< plane, k <= 1
    std::optional<double> nearest_finish;       ///< curved: the nearest finish that has a line
    std::optional<double> check_miss_m;
};

struct ReadOptions {
    double usual_past_m = metres_per_foot;
    bool every_line = false;      ///< all lines in detail; otherwise only the one nearest straight
    bool look_for_others = true;  ///< curved green: search the whole fan, not just the direct line
    bool room = true;
    bool costs = true;
    bool open_hole = false;  ///< roll on through the hole: 0.1 ms a line, more if it lips out
    bool keep_path = false;
    double tolerance = 1e-9;  ///< of the check; curved greens are solved ten times looser
};

struct ReadResult {
    std::vector<Read> lines;  ///< smallest start angle first; empty if and only if `none` is set
    int other_lines = 0;      ///< lines known beside the first
    std::optional<NoLine> none;
};

/// Start line and pace for a putt, each verified: passes the hole centre within 0.1 mm and meets
/// the finish within 1 mm (0.1 mm/s). Planes by the closed form, other surfaces by shooting. Throws
/// std::invalid_argument if the ball lies within the hole's radius, or for a missing surface, a
/// resistance that is not positive or a negative finish.
ReadResult read(const Putt& putt, const ReadOptions& options = {});

/// The same description of any stroke: what a given line and pace do. `check` is left at zero.
Read describe_stroke(const Putt& putt, const Stroke& stroke, const ReadOptions& options = {});

}  // namespace dewtrail
