#pragma once

#include <array>
#include <string_view>

namespace dewtrail {

/// A column of the blank result form: one of those of the CSV of real putts (logged_putt.hpp), so
/// that a filled form can be typed in and imported as it stands. Bare numbers are in the unit of
/// the heading.
struct LogColumn {
    std::string_view name;              ///< in the CSV's header line
    std::string_view imperial, metric;  ///< heading on the form
    double share;                       ///< of the form's width
};

inline constexpr std::array<LogColumn, 11> log_columns{{
    {"date", "date", "date", 0.10},
    {"green", "green", "green", 0.10},
    {"distance", "length, ft", "length, m", 0.10},
    {"slope", "slope, %", "slope, %", 0.085},
    {"clock", "ball at", "ball at", 0.075},
    {"stimp", "stimp", "stimp", 0.065},
    {"aim", "aim meant", "aim meant", 0.105},
    {"pace", "pace, ft", "pace, m", 0.085},
    {"result", "holed", "holed", 0.07},
    {"left", "left, in", "left, cm", 0.105},
    {"missed", "missed", "missed", 0.11},
}};

}  // namespace dewtrail
