#pragma once

#include "viewer/picture/widgets/bars.hpp"

/// The strip of fields below the green, and one field by itself.
namespace dewtrail {

/// `typed`: a field that is being typed into shows no figure.
void draw_setup_strip(const Canvas& canvas, const Setup& setup, bool finish_stops,
                      std::optional<Field> typed);

/// One ruled field in its cell, label to ruler 80 u high.
void draw_field(const Canvas& canvas, const FieldState& state, Field field, const Rect& cell,
                std::optional<Field> typed);
/// How high that is in this look, pixels.
double field_height(const Look& look);

/// The three readings of the slope's third face, in their strip below its field.
void draw_slope_rows(const Canvas& canvas, const Setup& setup, std::optional<Field> typed);

/// How wide the ruler of a field is, whose target is `field`.
double ruler_width(const Target& field, const Layout& layout);

/// Where a ruler runs inside a field's cell.
Rect ruler_of(const Rect& cell, const Look& look);

}  // namespace dewtrail
