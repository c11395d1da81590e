#pragma once

#include <algorithm>
#include <vector>

#include "viewer/picture/labels.hpp"
#include "viewer/picture/layout.hpp"
#include "viewer/picture/map/marks.hpp"

namespace dewtrail {

/// What a person can take hold of, or point at, on the green.
enum class MarkId { none, ball, hole, aim, stand_in, start_spot, apex, drop, bar, rolling };

/// A ball that drops shrinks and darkens for `drop_s`, while the hole's ring pulses for `pulse_s`.
inline constexpr double drop_s = 0.12, pulse_s = 0.24;

/// What comes into sight one after another when the first ball has stopped.
enum class Appearing { apex, line, aim };
inline constexpr int appearing = 3;

/// How the green is viewed now.
struct MapView {
    double time_s = 0;        ///< of the roll
    double marks_share = 1;   ///< how much of the marks' coming into sight is over
    bool marks_shown = true;  ///< commit view: the stand-in hole only
    MarkId hovered = MarkId::none, focused = MarkId::none, pinned = MarkId::none;
    Rect covered{};                  ///< by a message: nothing is placed there
    std::vector<Rect> dry{};         ///< no dew here: figures of the ground
    std::vector<Rect> avoid{};       ///< what else the names keep clear of
    bool taught = true;              ///< halfway and the last yard are marked
    bool fall_told = true;           ///< the fall line is drawn
    bool slope_told = true;          ///< and has its figure
    std::string slope{};             ///< that, as it stands elsewhere; empty: worked out
    std::string aim{};               ///< the aim as it was typed; empty: in words
    double since_drop_s = -1;        ///< since the ball fell; below 0: it did not just now
    const Solved* before = nullptr;  ///< the putt that the marks come from, while they move,
    double eased = 1;                ///< and how far along they are

    /// Opacity of one of them.
    double appeared(Appearing which) const {
        return std::clamp(appearing * marks_share - static_cast<int>(which), 0.0, 1.0);
    }
};

/// A mark of the trail with its place in the window.
struct PlacedBreakMark {
    BreakMark mark;
    Vec2 at, along;  ///< pixels; unit direction of the trail there
};
std::vector<PlacedBreakMark> placed_break_marks(const Solved& solved, const Trail& trail,
                                                const Projection& project, const Units& units);

/// All labels of a read, the ones that must show first.
std::vector<Label> labels_for(const Solved& solved, const Marks& marks,
                              const std::vector<PlacedBreakMark>& breaks, bool one_line,
                              const MapView& view, const Look& look);

/// The four sides, the one most toward `way` first.
Sides sides_toward(const Vec2& way);

/// Draws placed labels with their leaders.
void draw_labels(Picture& picture, const std::vector<PlacedLabel>& labels, const Look& look,
                 Colour surface);

/// How large a triangle may be there without meeting ball, hole, aim spot or start spot, units.
double room_beside_marks_u(const Marks& marks, const Vec2& at, const Look& look);

/// Boxes of the marks themselves, so that labels keep clear.
std::vector<Rect> mark_boxes(const Marks& marks, const Look& look);

/// The marks of the read: start line, cups, start spot, aim spot, stand-in hole, apex.
void draw_start_line(Picture& picture, const Solved& solved, const Marks& marks, const Look& look);
void draw_start_spot(Picture& picture, const Marks& marks, const Look& look, Colour surface);
void draw_aim_marks(Picture& picture, const Marks& marks, double hole_px, const Look& look,
                    Colour surface);

/// The ring round a mark that is pointed at or has the focus.
void draw_attention(Picture& picture, const Marks& marks, const MapView& view, const Look& look);
std::optional<Vec2> place_of(const Marks& marks, MarkId id);

}  // namespace dewtrail
