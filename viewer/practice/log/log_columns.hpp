#pragma once

#include <array>
#include <string_view>

namespace dewtrail {

/// A column of the blank result form: one of those of the CSV of real putts (logged_putt.hpp), so
/// that a filled form can be typed in and imported as it stands. Bare numbers are in the unit of
/// the heading.
struct LogColumn {
    std::string_view name;              ///< in the CSV's header line
    std::string_view imperial, metric;  ///< heading on the form, a unit behind a comma
    double share;                       ///< of the form's width
};

inline constexpr std::array<LogColumn, 13> log_columns{{
    {"date", "date", "date", 0.085},
    {"green", "green", "green", 0.085},
    {"distance", "length, ft", "length, m", 0.09},
    {"slope", "slope, %", "slope, %", 0.07},
    {"clock", "ball at", "ball at", 0.075},
    {"stimp", "stimp", "stimp", 0.065},
    {"aim", "aim, meant", "aim, meant", 0.09},
    {"pace", "pace, ft", "pace, m", 0.07},
    {"result", "holed?", "holed?", 0.075},
    {"left", "left, in", "left, cm", 0.08},
    {"missed", "missed", "missed", 0.08},
    {"side", "breaks", "breaks", 0.07},
    {"grade", "runs", "runs", 0.065},
}};

}  // namespace dewtrail
