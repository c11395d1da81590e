#include "viewer/picture/widgets/note_pen.hpp"

#include <algorithm>
#include <cmath>

#include "viewer/picture/symbols.hpp"

namespace dewtrail {
namespace {

constexpr double text_from_u = 34;
constexpr double pending_share = 0.45;

}  // namespace

NotePen::NotePen(Picture& picture, Targets& targets, const NoteState& state,
                 const Attention& attention, const Look& look, double closeness)
    : picture_(picture),
      targets_(targets),
      state_(state),
      attention_(attention),
      look_(look),
      c_(look.colours),
      panel_(look.layout.note),
      closeness_(closeness) {
    const double half = look.layout.note_below ? (panel_.w - look.u(3 * margin_u)) / 2 : 0;
    x_ = std::round(panel_.x + look.u(margin_u));
    width_ = half > 0 ? half : panel_.w - look.u(2 * margin_u);
    y_ = panel_.y - state.scrolled_px;
}

void NotePen::open_panel() {
    picture_.push_back(Clip{panel_});
    add_rect(picture_, panel_, c_.paper);
    if (!look_.layout.note_below) add_rect(picture_, {panel_.x, panel_.y, 1, panel_.h}, c_.rule);
    targets_.push_back({What::note, 0, panel_});
}

double NotePen::button_height() const {
    return std::round(look_.type(50));
}

Rect NotePen::button_at(double top, const std::string& words, const std::string& key, bool lit) {
    const Rect box{x_, std::round(top), width_, button_height()};
    const bool hot = attention_.on(attention_.hovered, What::button, 0);
    const Colour green = hot ? lightened(c_.wet_green, 0.08) : c_.wet_green;
    add_rounded_rect(picture_, box, look_.u(8), lit ? green : c_.rule);
    if (attention_.on(attention_.focused, What::button, 0))
        add_rect(picture_, {box.x, box.bottom() + look_.u(3), box.w, look_.u(3)}, c_.copper);
    write(words, Face::sans_bold, 22, box.centre().x(), box.centre().y() + look_.type(7.5),
          lit ? c_.on_button : c_.ink2, Align::centre);
    write(key, Face::sans, 16, box.centre().x(), box.bottom() + look_.type(22), c_.ink2,
          Align::centre);
    targets_.push_back({What::button, 0, box});
    return box;
}

double NotePen::text_x() const {
    return std::round(x_ + look_.u(text_from_u));
}
double NotePen::text_w() const {
    return width_ - look_.u(text_from_u);
}
double NotePen::right() const {
    return std::round(x_ + width_);
}
double NotePen::step(const NoteStep& units) const {
    return look_.type(std::lerp(units.usual, units.closest, closeness_));
}

void NotePen::write(const std::string& words, Face face, double size_u, double x, double baseline,
                    Colour colour, Align align) {
    picture_.push_back(Text{words,
                            face,
                            look_.type(size_u),
                            {x, std::round(baseline)},
                            faded(colour, state_.figures_share),
                            align});
}

void NotePen::small_lines(const std::string& words, Colour colour) {
    if (words.empty()) return;
    for (const auto& line : wrapped(words, Face::sans, look_.type(16), text_w(), look_.width)) {
        y_ += step(second_u);
        write(line, Face::sans, 16, text_x(), y_, colour);
    }
}

Colour NotePen::dimmed(Colour colour, bool pending) const {
    return pending ? faded(colour, pending_share) : colour;
}

void NotePen::rule(bool strong) {
    const double h = std::max(1.0, std::round(look_.u(strong ? 1.6 : 1.2)));
    add_rect(picture_, {x_, std::round(y_), width_, h}, strong ? c_.ink2 : c_.rule);
}

void NotePen::glyph(Glyph glyph, double y) {
    if (attention_.on(attention_.hovered, What::row, static_cast<int>(glyph)) ||
        state_.pinned == glyph)
        picture_.push_back(Disc{{x_ + look_.u(8), y},
                                look_.u(16),
                                faded(c_.copper, state_.pinned == glyph ? 0.22 : 0.12)});
    draw_glyph(picture_, glyph, {x_ + look_.u(8), y}, look_);
    if (attention_.on(attention_.focused, What::row, static_cast<int>(glyph)))
        add_ring(picture_, {x_ + look_.u(8), y}, look_.u(16), look_.u(1.8), c_.copper);
}

void NotePen::row_target(Glyph glyph, double from, double to) {
    targets_.push_back({What::row,
                        static_cast<int>(glyph),
                        {x_ - look_.u(10), from, width_ + look_.u(10), to - from}});
}

void NotePen::spread_words(const std::string& words, double baseline) {
    const double w = look_.width(Face::sans, look_.type(16), words);
    const bool hot = attention_.on(attention_.hovered, What::spread, 0) || state_.spread_open;
    write(words, Face::sans, 16, right(), baseline, c_.heather, Align::right);
    const Rect word{right() - w, baseline - look_.type(18), w, look_.type(26)};
    const bool focused = attention_.on(attention_.focused, What::spread, 0);
    if (hot || focused)
        add_rect(picture_, {word.x, baseline + look_.u(5), w, look_.u(focused ? 3 : 1.5)},
                 focused ? c_.copper : c_.heather);
    targets_.push_back({What::spread, 0, word.grown(look_.u(6))});
}

}  // namespace dewtrail
