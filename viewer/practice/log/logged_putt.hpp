#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "greens/units.hpp"
#include "viewer/files/record.hpp"
#include "viewer/practice/drill/category.hpp"
#include "viewer/practice/log/leave.hpp"
#include "viewer/practice/player.hpp"
#include "viewer/putt/setup.hpp"

/// Real putts, as a player logs them.
///
/// The CSV file and the printed result form have these columns, in this order:
///
///     date,green,hole,distance,slope,clock,stimp,aim,pace,result,left,missed,side,grade
///
/// Every cell is written as on the command line and may carry its unit; all but the distance may be
/// left empty. On import a column may be missing, and their order does not matter.
///
///     date      2026-05-01
///     green     name of the green or course
///     hole      name or number of the hole
///     distance  12ft, 3.6m, 4½paces                 bare: ft or m
///     slope     2%                                  bare: percent
///     clock     3:30                                where the ball lay; 12 straight above the hole
///     stimp     10                                  feet
///     aim       15in right, 2 cups left, centre     what was meant, from the hole's centre
///     pace      12ft                                what was meant, as a level putt
///     result    holed or missed
///     left      2ft past 6in left                   where it stopped, seen from the ball; or 2ft
///     missed    low, high, left, right, short, long a side, a length, or both
///     side      left-to-right, right-to-left, both-ways or straight
///     grade     uphill, level or downhill
namespace dewtrail {

struct LoggedPutt {
    std::int64_t id = 0;  ///< 0: not remembered yet
    std::string date;     ///< 2026-05-01
    std::string green, hole;
    double distance_m = 0;
    std::optional<double> slope, clock_h, stimp_ft;
    std::optional<double> aim_m;         ///< right positive, from the hole's centre
    std::optional<double> level_putt_m;  ///< the pace
    bool holed = false;
    std::optional<double> past_m, right_m;  ///< where it stopped, from the hole's centre: beyond it
                                            ///< along the ball-hole line, and to its right
    std::optional<double> left_m;           ///< how far that is, if only that is known
    std::string missed;                     ///< words, in the order 'low short'
    std::string side, grade;                ///< names of category.hpp

    bool missed_in(std::string_view word) const;
};

/// The putt on a plane, with what this player does where the log does not say.
Setup setup_of(const LoggedPutt& putt, const Player& player);

/// What about it could not have been typed, or nothing.
std::string out_of_range(const LoggedPutt& putt);

std::span<const RecordField<LoggedPutt>> putt_fields();  ///< columns of the table `putt`
std::span<const char* const> putt_columns();  ///< columns of its CSV and of the printed form

/// One row by the names of its columns, as typed. Throws InputError naming what is wrong.
LoggedPutt parse_putt(const std::vector<std::pair<std::string, std::string>>& cells,
                      const Units& units);

/// The whole file, all or nothing; InputError with file, line and column.
std::vector<LoggedPutt> read_putts_csv(const std::string& name, std::string_view text,
                                       const Units& units);
/// With units in every cell and all digits: what is read back is the same to the last bits.
std::string write_putts_csv(const std::vector<LoggedPutt>& putts);

}  // namespace dewtrail
