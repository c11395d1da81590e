#pragma once

#include <string>
#include <string_view>

#include "greens/units.hpp"

/// Where a player aims, in the words of the trade, both ways. Offsets are metres from the hole
/// centre on the perpendicular to the ball-hole line, right positive as seen from the ball.
namespace dewtrail {

/// Reads an aim. A length is measured from the centre: '15in right', '38cm left'; bare: in or cm.
/// Cups, balls and putter heads (4 in) are counted outside the edge, as people say them: '1 cup
/// right' is R + 4.25 in = 6.375 in, 'half a ball out left' R + 0.84 in. Also 'centre' or
/// 'straight', 'inside right', 'inside right edge', 'right edge', and whatever aim_words says. r
/// and l stand for right and left. Up to 40 m. Throws InputError.
double parse_aim_offset_m(std::string_view text, const Units& units, std::string_view what = "aim");

/// What a coach counts an aim in. `words` tells every aim of one size in one way: under ½ in the
/// centre, under 5 in inches from the centre (metric: cm), from there cups outside the edge in
/// halves, over 30 in feet to the half foot (metric: to 10 cm).
enum class AimUnit { words, cups, balls, putter_heads, inches, centimetres };

/// 'three cups out right', '3¼ in left', 'centre'. With a unit chosen: 'inside right', 'inside
/// right edge', 'right edge', and outside it halves of that unit; inches and centimetres are
/// figures from the centre: '15 in right'. Not finite: an en dash.
std::string aim_words(double offset_m, const Units& units, AimUnit unit = AimUnit::words);

/// An aim as it was typed: in these words where they mean just that, else '5 in left', '2 balls
/// left', 'left edge'. Throws InputError.
std::string aim_echo(std::string_view text, const Units& units);

/// An aim as a player said it: told as it was typed, until it is moved.
struct SaidAim {
    double offset_m = 0;
    std::string typed{};  ///< its `aim_echo`; empty: moved, stepped or given

    std::string words(const Units& units) const;
    std::string in_short(const Units& units) const;  ///< `aim_short`, or as it was typed
    std::string to_edit(const Units& units) const;   ///< what an editor begins with
    bool operator==(const SaidAim&) const = default;
};

/// Throws InputError.
SaidAim parse_said_aim(std::string_view text, const Units& units);

/// The figure that stands beside these words: '15 in from the centre', 'of the centre' where they
/// begin with it, nothing beside 'centre'.
std::string aim_beside(double offset_m, const Units& units);

/// Both: 'three cups out right (15 in from the centre)', '3¼ in left of the centre', 'centre'.
std::string aim_with_figure(double offset_m, const Units& units);

/// Without the side, short, for a sheet: '3 cups', '1½ cups', '2¼ in', 'straight'; with a unit
/// chosen also '½ ball', 'edge', 'in edge', 'inside'.
std::string aim_short(double offset_m, const Units& units, AimUnit unit = AimUnit::words);

}  // namespace dewtrail
