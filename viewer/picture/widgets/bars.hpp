#pragma once

#include <optional>
#include <string>

#include "viewer/picture/layout.hpp"
#include "viewer/picture/targets.hpp"
#include "viewer/putt/fields.hpp"
#include "viewer/putt/playback.hpp"
#include "viewer/putt/trail.hpp"

/// The top bar and the two strips below the green.
namespace dewtrail {

/// What has the pointer or the focus.
struct Attention {
    std::optional<Target> hovered, focused;

    bool on(const std::optional<Target>& which, What what, int index) const {
        return which && which->what == what && which->index == index;
    }
};

struct TopBarState {
    int mode = 0;                      ///< see ModeName
    std::vector<int> modes{};          ///< that there are to choose from
    std::vector<std::string> views{};  ///< none where the mode has but one
    int view = 0;
    bool help = false;
    std::string name{};  ///< of the green, beside the modes where there is room; or empty
};

void draw_top_bar(Picture& picture, Targets& targets, const TopBarState& state,
                  const Attention& attention, const Look& look);

void draw_roll_strip(Picture& picture, Targets& targets, const Playback& playback,
                     const Trail& trail, const Attention& attention, const Look& look);

/// `typed`: a field that is being typed into shows no figure.
void draw_setup_strip(Picture& picture, Targets& targets, const Setup& setup, bool finish_stops,
                      std::optional<Field> typed, const Attention& attention, const Look& look);

/// One ruled field in its cell, label to ruler 80 u high.
void draw_field(Picture& picture, Targets& targets, const FieldState& state, Field field,
                const Rect& cell, std::optional<Field> typed, const Attention& attention,
                const Look& look);
/// How high that is in this look, pixels.
double field_height(const Look& look);

/// The three readings of the slope's third face, in their strip below its field.
void draw_slope_rows(Picture& picture, Targets& targets, const Setup& setup,
                     std::optional<Field> typed, const Attention& attention, const Look& look);

/// Where the figure of a field is set, so that typing can take its place.
std::optional<Rect> figure_place(const Targets& targets, Field field);

/// Where the time line runs, and the time of the roll at a pixel of it.
Rect time_line_of(const Layout& layout);
double time_at(const Layout& layout, const Playback& playback, double x);

/// The share of a field's ruler at a pixel; `field` is the target of the whole field.
double share_on_ruler(const Target& field, double x, const Layout& layout);

/// Where a ruler runs inside a field's cell.
Rect ruler_of(const Rect& cell, const Look& look);

}  // namespace dewtrail
