#include "greens/units.hpp"

#include <array>

namespace dewtrail {
namespace {

struct Spelling {
    std::string_view text;
    Unit unit;
};

// clang-format off
constexpr std::array<Spelling, 38> spellings = {{
    {"", Unit::none},
    {"ft", Unit::foot}, {"foot", Unit::foot}, {"feet", Unit::foot}, {"'", Unit::foot},
    {"in", Unit::inch}, {"inch", Unit::inch}, {"inches", Unit::inch}, {"\"", Unit::inch},
    {"yd", Unit::yard}, {"yard", Unit::yard}, {"yards", Unit::yard},
    {"m", Unit::metre}, {"metre", Unit::metre}, {"metres", Unit::metre}, {"meter", Unit::metre}, {"meters", Unit::metre},
    {"cm", Unit::centimetre}, {"mm", Unit::millimetre},
    {"pace", Unit::pace}, {"paces", Unit::pace},
    {"%", Unit::percent}, {"percent", Unit::percent},
    {"deg", Unit::degree}, {"degs", Unit::degree}, {"degree", Unit::degree}, {"degrees", Unit::degree},
    {"rad", Unit::radian}, {"radian", Unit::radian}, {"radians", Unit::radian},
    {"m/s", Unit::metre_per_second}, {"ft/s", Unit::foot_per_second}, {"fps", Unit::foot_per_second},
    {"s", Unit::second}, {"sec", Unit::second}, {"secs", Unit::second}, {"second", Unit::second}, {"seconds", Unit::second},
}};
// clang-format on

}  // namespace

std::optional<Unit> find_unit(std::string_view spelling) {
    for (const auto& [text, unit] : spellings) {
        if (text == spelling) return unit;
    }
    return std::nullopt;
}

std::string_view unit_name(Unit unit) {
    switch (unit) {
        case Unit::foot:
            return "ft";
        case Unit::inch:
            return "in";
        case Unit::yard:
            return "yards";
        case Unit::metre:
            return "m";
        case Unit::centimetre:
            return "cm";
        case Unit::millimetre:
            return "mm";
        case Unit::pace:
            return "paces";
        case Unit::percent:
            return "%";
        case Unit::degree:
            return "°";
        case Unit::radian:
            return "rad";
        case Unit::metre_per_second:
            return "m/s";
        case Unit::foot_per_second:
            return "ft/s";
        case Unit::second:
            return "s";
        case Unit::none:
            break;
    }
    return "";
}

std::optional<double> to_metres(double number, Unit unit, double pace_m) {
    // A whole numerator keeps the product exact, so only the division rounds.
    switch (unit) {
        case Unit::foot:
            return number * 3048.0 / 10000.0;
        case Unit::inch:
            return number * 254.0 / 10000.0;
        case Unit::yard:
            return number * 9144.0 / 10000.0;
        case Unit::metre:
            return number;
        case Unit::centimetre:
            return number / 100.0;
        case Unit::millimetre:
            return number / 1000.0;
        case Unit::pace:
            break;
        default:
            return std::nullopt;
    }
    if (pace_m == 0.0) return std::nullopt;
    return number * pace_m;
}

}  // namespace dewtrail
