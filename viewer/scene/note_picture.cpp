#include "viewer/scene/note_picture.hpp"

#include <algorithm>
#include <cmath>

#include "viewer/scene/figures.hpp"
#include "viewer/scene/symbols.hpp"

namespace dewtrail {
namespace {

constexpr double margin_u = 40, text_from_u = 34;
constexpr double row_h_u = 95;  // of a usual row

class NotePainter {
  public:
    NotePainter(Picture& picture, Targets& targets, const NoteState& state,
                const Attention& attention, const Look& look)
        : picture_(picture),
          targets_(targets),
          state_(state),
          attention_(attention),
          look_(look),
          c_(look.colours),
          panel_(look.layout.note) {
        const double half = look.layout.note_below ? (panel_.w - look.u(3 * margin_u)) / 2 : 0;
        x_ = std::round(panel_.x + look.u(margin_u));
        width_ = half > 0 ? half : panel_.w - look.u(2 * margin_u);
        y_ = panel_.y - state.scrolled_px;
    }

    double paint(const Note& note) {
        picture_.push_back(Clip{panel_});
        add_rect(picture_, panel_, c_.paper);
        if (!look_.layout.note_below)
            add_rect(picture_, {panel_.x, panel_.y, 1, panel_.h}, c_.rule);
        targets_.push_back({What::note, 0, panel_});
        heading(note);
        hero(note);
        const double top = panel_.y - state_.scrolled_px;
        double deepest = y_;
        if (!note.choices.empty()) choices(note.choices);
        for (std::size_t i = 0; i < note.rows.size(); ++i) {
            if (look_.layout.note_below && y_ + look_.type(row_h_u) > top + panel_.h &&
                x_ < panel_.centre().x()) {
                deepest = std::max(deepest, y_);
                x_ = std::round(x_ + width_ + look_.u(margin_u));
                y_ = top + look_.u(14);
            }
            row(note.rows[i], i == 0 && note.choices.empty());
        }
        picture_.push_back(Clip{});
        return std::max(deepest, y_) - top + look_.u(16);
    }

  private:
    double text_x() const { return std::round(x_ + look_.u(text_from_u)); }
    double text_w() const { return width_ - look_.u(text_from_u); }
    double right() const { return std::round(x_ + width_); }

    void write(const std::string& words, Face face, double size_u, double x, double baseline,
               Colour colour, Align align = Align::left) {
        picture_.push_back(Text{words,
                                face,
                                look_.type(size_u),
                                {x, std::round(baseline)},
                                faded(colour, state_.figures_share),
                                align});
    }

    void heading(const Note& note) {
        y_ += look_.type(41);
        const bool on = state_.detail;
        const Face face = on ? Face::sans_bold : Face::sans;
        const double detail_w = look_.width(face, look_.type(16), "coach detail");
        const double room = width_ - detail_w - look_.u(12);
        const auto lines =
            wrapped_evenly(note.heading, Face::book, look_.type(27), room, look_.width);
        const bool hot = attention_.on(attention_.hovered, What::detail, 0);
        write("coach detail", face, 16, right(), y_ - look_.u(2), on || hot ? c_.ink : c_.ink2,
              Align::right);
        const Rect word{right() - detail_w, y_ - look_.type(20), detail_w, look_.type(26)};
        if (on)
            add_rounded_rect(picture_, {word.x, y_ + look_.u(6), word.w, look_.u(4)}, look_.u(2),
                             c_.wet_green);
        if (attention_.on(attention_.focused, What::detail, 0))
            add_rounded_rect(picture_, {word.x, y_ + look_.u(12), word.w, look_.u(3)}, look_.u(1.5),
                             c_.copper);
        targets_.push_back({What::detail, 0, word.grown(look_.u(6))});
        for (std::size_t i = 0; i < lines.size(); ++i) {
            if (i > 0) y_ += look_.type(30);
            write(lines[i], Face::book, 27, x_, y_, c_.ink);
        }
        at_work();
    }

    /// A drop that travels along a line, and after a while the word.
    void at_work() {
        if (!state_.travelled) return;
        const double y = std::round(y_ + look_.type(9));
        add_rect(picture_, {x_, y, width_, std::max(1.0, std::round(look_.u(2)))}, c_.rule);
        const double x = x_ + look_.u(4) + *state_.travelled * (width_ - look_.u(8));
        picture_.push_back(Disc{{x, y + look_.u(1)}, look_.u(4), c_.wet_green});
        if (state_.solving) write("Solving …", Face::sans, 16, x_, y_ + look_.type(25), c_.ink2);
    }

    void hero(const Note& note) {
        const double size = state_.detail ? 36 : 40;
        y_ += look_.type(size + 14);
        const double top = y_;
        const auto lines =
            wrapped_evenly(note.hero, Face::book, look_.type(size), text_w(), look_.width);
        glyph(Glyph::aim, y_ - look_.type(0.33 * size));
        for (std::size_t i = 0; i < lines.size(); ++i) {
            if (i > 0) y_ += look_.type(size * 1.055);
            write(lines[i], Face::book, size, text_x(), y_, c_.ink);
        }
        if (!note.hero_second.empty()) {
            y_ += look_.type(27);
            for (const auto& line :
                 wrapped(note.hero_second, Face::sans, look_.type(17),
                         text_w() - (note.hero_figure.empty() ? 0 : look_.type(80)), look_.width)) {
                write(line, Face::sans, 17, text_x(), y_, c_.ink2);
                y_ += look_.type(22);
            }
            y_ -= look_.type(22);
            write(note.hero_figure, Face::sans, 17, right(), y_, c_.ink, Align::right);
        }
        for (const auto& line :
             wrapped(note.hero_detail, Face::sans, look_.type(16), text_w(), look_.width)) {
            if (line.empty()) continue;
            y_ += look_.type(24);
            write(line, Face::sans, 16, text_x(), y_, c_.ink);
        }
        row_target(Glyph::aim, top - look_.type(30), y_ + look_.u(6));
        y_ += look_.type(15);
    }

    void rule(bool strong) {
        const double h = std::max(1.0, std::round(look_.u(strong ? 1.6 : 1.2)));
        add_rect(picture_, {x_, std::round(y_), width_, h}, strong ? c_.ink2 : c_.rule);
    }

    void glyph(Glyph glyph, double y) {
        if (attention_.on(attention_.hovered, What::row, static_cast<int>(glyph)) ||
            state_.pinned == glyph)
            picture_.push_back(Disc{{x_ + look_.u(8), y},
                                    look_.u(16),
                                    faded(c_.copper, state_.pinned == glyph ? 0.22 : 0.12)});
        draw_glyph(picture_, glyph, {x_ + look_.u(8), y}, look_);
        if (attention_.on(attention_.focused, What::row, static_cast<int>(glyph)))
            add_ring(picture_, {x_ + look_.u(8), y}, look_.u(16), look_.u(1.8), c_.copper);
    }

    void row_target(Glyph glyph, double from, double to) {
        targets_.push_back({What::row,
                            static_cast<int>(glyph),
                            {x_ - look_.u(10), from, width_ + look_.u(10), to - from}});
    }

    void row(const NoteRow& r, bool first) {
        const double top = y_;
        rule(first);
        y_ += look_.type(state_.detail ? 22 : 23);
        glyph(r.glyph, y_ - look_.type(5));
        write(r.label, Face::sans, 16, text_x(), y_, c_.ink2);
        const double label_w = look_.width(Face::sans, look_.type(16), r.label);
        figure(r, label_w);
        double line_h = state_.detail ? 27 : 28;
        y_ += look_.type(r.words.empty() ? 0 : 28);
        for (const auto& line :
             wrapped_evenly(r.words, Face::book, look_.type(25), text_w(), look_.width)) {
            if (line.empty()) continue;
            write(line, Face::book, 25, text_x(), y_, c_.ink);
            y_ += look_.type(line_h);
        }
        if (!r.words.empty()) y_ -= look_.type(line_h);
        for (const auto& line :
             wrapped(r.second, Face::sans, look_.type(16), text_w(), look_.width)) {
            if (line.empty()) continue;
            y_ += look_.type(23);
            write(line, Face::sans, 16, text_x(), y_, c_.ink2);
        }
        for (const auto& [left, value] : r.table) {
            y_ += look_.type(25);
            write(left, Face::sans, 16, text_x(), y_, c_.ink2);
            const double both = look_.width(Face::sans, look_.type(16), left) +
                                look_.width(Face::book, look_.type(22), value);
            if (both + look_.u(10) > text_w()) y_ += look_.type(26);
            write(value, Face::book, 22, right(), y_, c_.ink, Align::right);
        }
        y_ += look_.type(state_.detail ? 13 : 16);
        row_target(r.glyph, top, y_);
    }

    /// Coach detail, on the label's line; below it where it would run into the label.
    void figure(const NoteRow& r, double label_w) {
        if (r.figure.empty()) return;
        const double w = look_.width(Face::sans, look_.type(16), r.figure);
        if (label_w + w + look_.u(10) > text_w()) y_ += look_.type(20);
        write(r.figure, Face::sans, 16, right(), y_, c_.ink, Align::right);
    }

    /// Three finishes side by side: hole and aim as a small picture, name, aim in words.
    void choices(const std::vector<FinishChoice>& all) {
        rule(true);
        const double top = y_, column = width_ / 3;
        double deepest = y_;
        for (std::size_t i = 0; i < all.size(); ++i) {
            const FinishChoice& choice = all[i];
            const double x = std::round(x_ + static_cast<double>(i) * column);
            small_picture(choice, x, top + look_.u(28));
            double y = top + look_.u(42) + look_.type(20);
            const Face face = choice.chosen ? Face::sans_bold : Face::sans;
            write(choice.name, face, 16, x, y, choice.chosen ? c_.ink : c_.ink2);
            const double w = look_.width(face, look_.type(16), choice.name);
            if (choice.chosen)
                add_rounded_rect(picture_, {x, y + look_.u(7), w, look_.u(4)}, look_.u(2),
                                 c_.wet_green);
            if (attention_.on(attention_.focused, What::choice, static_cast<int>(i)))
                add_rounded_rect(picture_, {x, y + look_.u(13), w, look_.u(3)}, look_.u(1.5),
                                 c_.copper);
            y += look_.type(12);
            for (const auto& line : wrapped(choice_words(choice, look_.units), Face::book,
                                            look_.type(21), column - look_.u(10), look_.width)) {
                y += look_.type(24);
                write(line, Face::book, 21, x, y, c_.ink);
            }
            deepest = std::max(deepest, y);
            targets_.push_back({What::choice,
                                static_cast<int>(i),
                                {x - look_.u(4), top + look_.u(6), column - look_.u(4), y - top}});
        }
        y_ = deepest + look_.type(16);
    }

    void small_picture(const FinishChoice& choice, double x, double y) {
        const Vec2 hole(x + look_.u(34), y);
        const double r = look_.u(12);
        draw_hole(picture_, hole, r, look_);
        if (!choice.aim_offset_m) return;
        const double away = std::clamp(*choice.aim_offset_m / hole_radius_m, -2.6, 2.6) * r;
        draw_diamond(picture_, hole + Vec2(away, 0), 6, look_, c_.copper, c_.paper);
    }

    Picture& picture_;
    Targets& targets_;
    const NoteState& state_;
    const Attention& attention_;
    const Look& look_;
    const Palette& c_;
    const Rect& panel_;
    double x_ = 0, width_ = 0, y_ = 0;
};

}  // namespace

NotePicture draw_note(Picture& picture, Targets& targets, const Note& note, const NoteState& state,
                      const Attention& attention, const Look& look) {
    return {NotePainter(picture, targets, state, attention, look).paint(note)};
}

}  // namespace dewtrail
