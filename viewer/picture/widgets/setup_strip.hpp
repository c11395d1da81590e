#pragma once

#include "viewer/picture/widgets/bars.hpp"

/// The strip of fields below the green, and one field by itself.
namespace dewtrail {

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

/// The share of a field's ruler at a pixel; `field` is the target of the whole field.
double share_on_ruler(const Target& field, double x, const Layout& layout);

/// Where a ruler runs inside a field's cell.
Rect ruler_of(const Rect& cell, const Look& look);

}  // namespace dewtrail
