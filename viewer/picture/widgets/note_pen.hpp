#pragma once

#include "viewer/picture/widgets/note_picture.hpp"

namespace dewtrail {

/// A distance down the note, in units: the usual one, and the one where rows stand closest.
struct NoteStep {
    double usual, closest;
};

/// Writes one column of the note from `y_` downward; what its parts have in common.
class NotePen {
  protected:
    /// `closeness`: 0 usual, 1 closest.
    NotePen(Picture& picture, Targets& targets, const NoteState& state, const Attention& attention,
            const Look& look, double closeness);

    /// The panel's paper, and nothing drawn beyond it until the next Clip.
    void open_panel();
    /// The button that goes on, over the column's width, its top at `top`; its key below it.
    /// Returns its box. Not lit: there is nothing to go on to yet.
    Rect button_at(double top, const std::string& words, const std::string& key, bool lit = true);
    double button_height() const;
    double text_x() const;
    double text_w() const;
    double right() const;
    double step(const NoteStep& units) const;

    void write(const std::string& words, Face face, double size_u, double x, double baseline,
               Colour colour, Align align = Align::left);
    /// Lines below the last one; none for no words.
    void small_lines(const std::string& words, Colour colour);
    void rule(bool strong);
    void glyph(Glyph glyph, double y);
    void row_target(Glyph glyph, double from, double to);
    /// 'for your spread', which opens it.
    void spread_words(const std::string& words, double baseline);
    /// Figures of the putt before, while this one's are being computed.
    Colour dimmed(Colour colour, bool pending) const;

    static constexpr double margin_u = 40;
    static constexpr NoteStep second_u = {23, 21};

    Picture& picture_;
    Targets& targets_;
    const NoteState& state_;
    const Attention& attention_;
    const Look& look_;
    const Palette& c_;
    const Rect& panel_;
    double x_ = 0, width_ = 0, y_ = 0;
    double closeness_;
};

}  // namespace dewtrail
