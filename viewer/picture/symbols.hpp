#pragma once

#include "viewer/picture/layout.hpp"
#include "viewer/picture/picture.hpp"
#include "viewer/putt/account.hpp"

/// The symbols: shape first, colour second. Places in pixels, sizes in units of the design; `ring`
/// is the colour of the surface, drawn round each so that lines beneath never touch it.
namespace dewtrail {

void draw_diamond(Picture& picture, const Vec2& at, double half_diagonal, const Look& look,
                  Colour colour, Colour ring);
/// How much of a hole a mark of the usual size hides whose middle lies so far from the hole's on
/// the screen: 0 to 1. Of a large hole enough is seen in any case.
double share_hidden(double from_hole_px, double hole_px, const Look& look);
/// Half the diagonal of a diamond there, units: the usual, or more, to lie round what it would
/// hide.
double diamond_half_u(double from_hole_px, double hole_px, double usual_u, const Look& look);
void draw_start_bar(Picture& picture, const Vec2& at, const Vec2& along, const Look& look,
                    Colour ring);
void draw_apex(Picture& picture, const Vec2& at, const Vec2& away, double radius, const Look& look,
               Colour ring);
void draw_ball(Picture& picture, const Vec2& at, double radius_px, const Look& look,
               bool dashed = false, double dark = 0);
/// `pulse`: of its pale ring, 1 at rest.
void draw_hole(Picture& picture, const Vec2& at, double radius_px, const Look& look,
               double pulse = 1);
void draw_dashed_ring(Picture& picture, const Vec2& at, double radius_px, const Look& look,
                      Colour ring);
/// A drop of water whose point looks along `up`.
void draw_drop(Picture& picture, const Vec2& at, const Vec2& up, double radius_px, Colour colour);
/// The fall line: a hairline from its bar (the high end) to its drop.
void draw_fall_line(Picture& picture, const Vec2& bar, const Vec2& drop, const Look& look);
/// The trail: soft edges and core, or core and rims at dusk; `width` of the core in pixels.
void draw_trail(Picture& picture, const std::vector<Vec2>& line, double width, const Look& look);
/// The same for a line that fades toward the edge of the pane.
void draw_fading_trail(Picture& picture, const std::vector<Vec2>& line, double width,
                       const Rect& pane, const Look& look);
/// Over this many units a trail that leaves the pane fades.
inline constexpr double fading_u = 90;
/// The small sign before a row of the note.
void draw_glyph(Picture& picture, Glyph glyph, const Vec2& centre, const Look& look);
/// A text with the outline that keeps it clear of lines.
void draw_map_text(Picture& picture, Text text, const Look& look, Colour surface);

}  // namespace dewtrail
