#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "greens/units.hpp"
#include "viewer/putt/setup.hpp"
#include "viewer/putt/solved.hpp"

/// The ruled fields of the set-up strip: each is dragged, stepped and typed. Values are SI (clock
/// in hours, stimp in feet); grades along and across are signed.
namespace dewtrail {

enum class Field {
    distance,
    slope,
    up,          ///< face two: grade along the line, uphill positive
    falls_left,  ///< face two: across, falling left positive
    ball_at,
    stimp,
    finish,
    spread_line,  ///< the player's spread, see Spread
    spread_pace,
    spread_floor,
    spread_slope,
    spread_fall,
    row0_up,
    row0_left,  ///< face three: ball, halfway, hole
    row1_up,
    row1_left,
    row2_up,
    row2_left,
};

/// How a field looks now.
struct FieldState {
    std::string label, figure, unit;
    double value = 0;
    double least = 0, most = 1;  ///< the ends of the ruler; typing may go further
    double step = 1, fine_step = 1;
    bool enabled = true;
    bool players_own = false;  ///< drawn in heather

    double share() const;  ///< where the handle stands, 0 to 1
};
FieldState field_state(const Setup& setup, Field field, const Units& units);

/// The fields of the strip, in order: the slope as one or two.
std::vector<Field> strip_fields(SlopeFace face);
/// The six of face three, row by row.
std::vector<Field> row_fields();
/// The five of the player's spread.
std::vector<Field> spread_fields();

void set_field(Setup& setup, Field field, double value);

/// Steps the field on to a whole step. False where the field is fixed just now.
bool step_field(Setup& setup, Field field, double steps, bool fine, const Units& units);

/// To this share of its ruler, 0 to 1, on whole steps.
void move_field(Setup& setup, Field field, double share, const Units& units);

/// As typed; throws InputError. Grades take 'up', 'down', 'left', 'right' and a minus sign.
void type_field(Setup& setup, Field field, std::string_view text, const Units& units);

/// What the field holds, as it would be typed.
std::string typed_value(const Setup& setup, Field field, const Units& units);

/// Snaps a dragged value to the field's step.
double snapped(double value, double step);

const char* field_name(Field field);

}  // namespace dewtrail
