#pragma once

#include <array>
#include <string_view>

namespace dewtrail {

/// The columns of a table of real putts, one row a putt: what the blank result form asks for, and
/// what is read back from a CSV file with these names in its header line. Lengths carry their unit
/// in the name, so a form in feet and one in metres cannot be mixed up.
///
///     date            2027-05-14
///     green           a name, or empty
///     distance_ft     ball to hole (metric: distance_m)
///     slope_percent   at the hole, steepest way
///     clock           where the ball lay: 12 straight above the hole, 3 right of it
///     stimp_ft        green speed, feet in both systems
///     aim             as meant: '2 cups right', '8in left', 'centre'
///     level_putt_ft   pace as meant: a level putt of so much (metric: level_putt_m)
///     result          holed, or how it missed: low, high, short, long, or two of them: 'low short'
///     leave_in        what was left, ball to hole; empty if holed (metric: leave_cm)
struct LogColumn {
    std::string_view imperial, metric;  ///< name in the header line
    std::string_view heading;           ///< on the form
    double share;                       ///< of the form's width

    std::string_view name(bool in_metric) const { return in_metric ? metric : imperial; }
};

inline constexpr std::array<LogColumn, 10> log_columns{{
    {"date", "date", "date", 0.10},
    {"green", "green", "green", 0.11},
    {"distance_ft", "distance_m", "length", 0.105},
    {"slope_percent", "slope_percent", "slope", 0.125},
    {"clock", "clock", "ball at", 0.075},
    {"stimp_ft", "stimp_ft", "stimp", 0.08},
    {"aim", "aim", "aim meant", 0.12},
    {"level_putt_ft", "level_putt_m", "pace meant", 0.12},
    {"result", "result", "result", 0.085},
    {"leave_in", "leave_cm", "left", 0.08},
}};

}  // namespace dewtrail
