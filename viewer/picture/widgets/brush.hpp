#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "viewer/picture/layout.hpp"
#include "viewer/picture/targets.hpp"

/// The widgets: each paints itself and registers what can be clicked.
namespace dewtrail {

/// What has the pointer or the focus.
struct Attention {
    std::optional<Target> hovered, focused;
    bool enter_types = false;  ///< a value has the focus: Enter does not do what the button says

    bool on(const std::optional<Target>& which, What what, int index) const {
        return which && which->what == what && which->index == index;
    }
};

/// What a screen is painted on.
struct Canvas {
    Picture& picture;
    Targets& targets;
    const Attention& attention;
    const Look& look;
};

/// Paper that lies over something: its edge is told from both sides in either theme, over a
/// darkened window too.
void add_edged_paper(const Canvas& canvas, const Rect& box, double radius_u);

/// A word that can be clicked.
struct Word {
    std::string words;
    What what;
    int index = 0;
    bool on = false;  ///< bold, with an underline
    double size = 17;
    Align align = Align::left;
    bool players_own = false;  ///< underlined in heather
    double below = 7;          ///< the baseline, u: its underline
};

/// Writes and draws on a canvas. Sizes are units of type, places pixels.
class Brush {
  public:
    explicit Brush(const Canvas& canvas);

    double u(double units) const { return look_.u(units); }
    double type(double units) const { return look_.type(units); }
    double width(std::string_view words, Face face, double size) const;
    /// The size, at most this, at which the words go into so much room.
    double fitting(std::string_view words, Face face, double size, double room) const;

    void write(std::string words, Face face, double size, double x, double baseline, Colour colour,
               Align align = Align::left);
    /// At the size, at most this, at which it goes into so much room.
    void write_within(double room, const std::string& words, Face face, double size, double x,
                      double baseline, Colour colour, Align align = Align::left) {
        write(words, face, fitting(words, face, size, room), x, baseline, colour, align);
    }
    /// Lines from the baseline `y` plus one line on, none below `foot`; returns the last baseline.
    double paragraph(const std::string& words, Face face, double size, double x, double y,
                     double wide, double line_h, Colour colour, double foot = 1e9);
    /// From `x` on or, aligned so, up to it. Returns its box.
    Rect word(const Word& word, double x, double baseline);
    void button(const std::string& words, const Rect& box, Target target, double size = 22,
                bool lit = true);
    void rule(double x, double y, double w, bool strong = false);
    /// Beneath what has the focus.
    void focus_bar(What what, int index, const Rect& line);

    bool hot(What what, int index = 0) const {
        return attention_.on(attention_.hovered, what, index);
    }
    bool focused(What what, int index = 0) const {
        return attention_.on(attention_.focused, what, index);
    }
    void target(What what, int index, const Rect& hit) { targets_.push_back({what, index, hit}); }

  protected:
    Canvas canvas() const { return {picture_, targets_, attention_, look_}; }

    Picture& picture_;
    Targets& targets_;
    const Attention& attention_;
    const Look& look_;
    const Palette& c_;
    double ink_share_ = 1;  ///< opacity of what is written
};

}  // namespace dewtrail
