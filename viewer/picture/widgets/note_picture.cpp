#include "viewer/picture/widgets/note_picture.hpp"

#include <algorithm>
#include <cmath>

#include "viewer/picture/symbols.hpp"
#include "viewer/picture/widgets/note_pen.hpp"
#include "viewer/picture/wrapping.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

/// A distance down the note, in units: the usual one, and the one where rows stand closest.
struct NoteStep {
    double usual, closest;
};
constexpr NoteStep second_u = {23, 21};
constexpr double pending_share = 0.45;
constexpr NoteStep row_h_u = {95, 84};  // of a usual row
constexpr NoteStep label_u = {23, 21}, words_u = {28, 26}, line_u = {28, 26}, table_u = {25, 20};
constexpr NoteStep one_line_u = {31, 28}, below_row_u = {16, 4}, above_column_u = {14, 6};
constexpr NoteStep above_hero_u = {14, 10}, below_hero_u = {15, 11}, below_choices_u = {14, 10};
constexpr double below_note_u = 9;  // from the last baseline
// Beyond 1 a smaller hero too, and at last smaller words.
constexpr double closer_by = 0.25, small_words_from = 1.5, most_closeness = 1.75;
constexpr double words_size = 25, small_words_size = 22, smallest_words_size = 20;

/// Aim of a finish, the side left out: '2½ cups out'.
std::string choice_words(const FinishChoice& choice, const Units& units) {
    if (!choice.aim_offset_m) return absent;
    const std::string words = aim_short(*choice.aim_offset_m, units);
    return words.find("cup") == words.npos ? words : words + " out";
}

class NotePainter : private NotePen {
  public:
    /// `measured`: only how high it is counts, and little is drawn.
    NotePainter(const Canvas& canvas, const NoteState& state, double closeness, bool measured,
                std::vector<std::string>& lines)
        : NotePen(canvas, state.scrolled_px),
          state_(state),
          measured_(measured),
          lines_(lines),
          closeness_(std::min(closeness, 1.0)),
          small_hero_(closeness > 1),
          words_size_(closeness < small_words_from ? words_size
                      : closeness < most_closeness ? small_words_size
                                                   : smallest_words_size) {
        ink_share_ = state.figures_share;
    }

    double paint(const Note& note) {
        open_panel();
        heading(note.account.heading);
        hero(note);
        const double top = panel_.y - state_.scrolled_px;
        double deepest = y_;
        if (!note.choices.empty()) choices(note);
        bool first = note.choices.empty();
        for (const AccountRow* shown : rows_below(note)) {
            if (look_.layout.note_below && !look_.layout.portrait &&
                y_ + step(row_h_u) > top + panel_.h && x_ < panel_.centre().x()) {
                deepest = std::max(deepest, y_);
                x_ = std::round(x_ + width_ + look_.layout.margin());
                y_ = top + step(above_column_u);
            }
            if (shown->glyph == Glyph::odds)
                odds_row(*shown, note, first);
            else
                row(*shown, first);
            first = false;
        }
        picture_.push_back(Clip{});
        return std::max(deepest, y_) - step(below_row_u) - top + type(below_note_u);
    }

  private:
    using Lines = std::vector<std::string>;

    /// Valid until others are set.
    const Lines& set(const std::string& words, Face face, double size, double room) {
        wrap_into(lines_, words, face, type(size), room, look_.width);
        return lines_;
    }
    const Lines& set_evenly(const std::string& words, double size, double room) {
        wrap_evenly_into(lines_, words, Face::book, type(size), room, look_.width);
        return lines_;
    }
    void write(const std::string& words, Face face, double size, double x, double baseline,
               Colour colour, Align align = Align::left) {
        if (!measured_) NotePen::write(words, face, size, x, baseline, colour, align);
    }

    /// The aim stands above as the hero.
    std::vector<const AccountRow*> rows_below(const Note& note) const {
        std::vector<const AccountRow*> rows;
        rows.reserve(note.account.rows.size());
        for (const AccountRow& r : note.account.rows) {
            const bool told_above =
                r.glyph == Glyph::aim ||
                (r.glyph == Glyph::odds && note.finishes_tell_odds() && !state_.detail);
            if (!told_above && !(r.words.empty() && r.table.empty())) rows.push_back(&r);
        }
        return rows;
    }

    void heading(const std::string& words) {
        y_ += type(41);
        const Word detail{"coach detail", What::detail, 0, state_.detail, 16, Align::right};
        const Rect box = word(detail, right(), y_ - u(2));
        const auto colon = words.find(": ");  // what follows it has the whole width
        heading_lines(words.substr(0, colon == words.npos ? colon : colon + 1),
                      width_ - box.w - u(12));
        if (colon != words.npos) y_ += type(30), heading_lines(words.substr(colon + 2), width_);
        at_work();
    }

    /// A little smaller, where that saves a line.
    void heading_lines(const std::string& words, double room) {
        constexpr double usual = 27, least = 24;
        const double fits = usual * room / width(words, Face::book, usual);
        const double size = fits >= least ? std::min(usual, std::floor(fits)) : usual;
        const auto& lines = set_evenly(words, size, room);
        for (std::size_t i = 0; i < lines.size(); ++i)
            write(lines[i], Face::book, size, x_, i > 0 ? y_ += type(30) : y_, c_.ink);
    }

    /// A drop that travels along a line, and after a while the word.
    void at_work() {
        if (!state_.travelled) return;
        const double y = std::round(y_ + type(9));
        add_rect(picture_, {x_, y, width_, std::max(1.0, std::round(u(2)))}, c_.rule);
        const double x = x_ + u(4) + *state_.travelled * (width_ - u(8));
        picture_.push_back(Disc{{x, y + u(1)}, u(4), c_.wet_green});
        if (state_.solving) write("Solving …", Face::sans, 16, x_, y_ + type(25), c_.ink2);
    }

    void hero(const Note& note) {
        const AccountRow* aim = note.account.row(Glyph::aim);
        const AccountRow* odds = note.account.row(Glyph::odds);
        const std::string spread =
            odds && note.finishes_tell_odds() && !state_.detail ? odds->second : "";
        const double size = small_hero_ ? 30 : state_.detail ? 36 : 40;
        y_ += type(size) + step(above_hero_u);
        const double top = y_;
        const auto& lines = set_evenly(aim ? aim->words : absent, size, text_w());
        glyph(Glyph::aim, y_ - type(0.33 * size));
        for (std::size_t i = 0; i < lines.size(); ++i) {
            if (i > 0) y_ += type(size * 1.055);
            write(lines[i], Face::book, size, text_x(), y_, c_.ink);
        }
        if (aim) hero_second(*aim);
        const double spread_y = spread.empty() ? y_ : spread_line(aim->second, spread);
        if (aim && state_.detail) small_lines(aim->more, c_.ink);
        small_lines(note.taken, c_.heather);
        row_target(Glyph::aim, top - type(30), y_ + u(6));
        if (!spread.empty()) spread_words(spread, spread_y);
        y_ += step(below_hero_u);
    }

    void hero_second(const AccountRow& aim) {
        y_ += type(27);
        const std::string detail = state_.detail ? aim.detail : "";
        const double figure = width(detail, Face::sans, 17);
        const double beside = detail.empty() ? 0 : figure + u(8);
        for (const auto& line : set(aim.second, Face::sans, 17, text_w() - beside)) {
            write(line, Face::sans, 17, text_x(), y_, c_.ink2);
            y_ += type(22);
        }
        y_ -= type(22);
        write(detail, Face::sans, 17, right(), y_, c_.ink, Align::right);
    }

    /// The words that open the spread, beside the distance from the centre if there is room.
    double spread_line(const std::string& beside, const std::string& spread) {
        const double both = width(beside, Face::sans, 17) + width(spread, Face::sans, 16);
        if (both + u(4) > text_w()) y_ += step(second_u);
        return y_;
    }

    /// Words and caption on one line, where they fit; a lag putt has a label like any other row.
    void odds_row(const AccountRow& r, const Note& note, bool first) {
        const double top = y_;
        rule(first);
        const bool lag = r.name == "Lag";
        const double words_w = width(r.words, Face::book, words_size_);
        const double spread_w = width(r.second, Face::sans, 16);
        const bool one_line = !lag && words_w + spread_w + u(6) < text_w();
        y_ += step(one_line ? one_line_u : label_u);
        glyph(r.glyph, y_ - type(one_line ? 8 : 5));
        if (lag) write(r.name, Face::sans, 16, text_x(), y_, c_.ink2);
        const std::size_t targets = targets_.size();
        spread_words(r.second, y_);
        const Target word = targets_.back();
        targets_.resize(targets);
        if (!one_line) y_ += step(words_u);
        for (const auto& line : set_evenly(r.words, words_size_, text_w())) {
            write(line, Face::book, words_size_, text_x(), y_, dimmed(c_.ink, note.odds_pending));
            y_ += line_step();
        }
        y_ -= line_step();
        if (state_.detail) small_lines(r.detail, dimmed(c_.ink, note.odds_detail_pending));
        y_ += step(below_row_u);
        row_target(r.glyph, top, y_);
        targets_.push_back(word);
    }

    void row(const AccountRow& r, bool first) {
        const double top = y_;
        rule(first);
        y_ += step(label_u);
        glyph(r.glyph, y_ - type(5));
        write(r.name, Face::sans, 16, text_x(), y_, c_.ink2);
        if (state_.detail) detail(r);
        if (!r.words.empty()) y_ += step(words_u);
        for (const auto& line : set_evenly(r.words, words_size_, text_w())) {
            if (line.empty()) continue;
            write(line, Face::book, words_size_, text_x(), y_, c_.ink);
            y_ += line_step();
        }
        if (!r.words.empty()) y_ -= line_step();
        for (const auto& line : set(r.second, Face::sans, 16, text_w())) {
            if (line.empty()) continue;
            y_ += step(second_u);
            write(line, Face::sans, 16, text_x(), y_, c_.ink2);
        }
        table(r);
        y_ += step(below_row_u);
        row_target(r.glyph, top, y_);
    }

    /// What and value on one line each: all values of one size, smaller where one would not fit,
    /// and at last from below the glyph on.
    void table(const AccountRow& r) {
        constexpr double usual = 22, least = 16, label = 16, apart_u = 10;
        double fits = usual;
        for (const auto& [left, value] : r.table) {
            const double room = text_w() - u(apart_u) - width(left, Face::sans, label);
            fits = std::min(fits, std::floor(usual * room / width(value, Face::book, usual)));
        }
        const double size = std::max(fits, least), x = fits < least ? x_ : text_x();
        for (const auto& [left, value] : r.table) {
            y_ += step(table_u);
            write(left, Face::sans, label, x, y_, c_.ink2);
            const double both = width(left, Face::sans, label) + width(value, Face::book, size);
            if (x + both + u(apart_u) > right()) y_ += type(size + 4);
            write(value, Face::book, size, right(), y_, c_.ink, Align::right);
        }
    }

    /// Coach detail, on the label's line; below it where it would run into the label.
    void detail(const AccountRow& r) {
        if (r.detail.empty()) return;
        const double both = width(r.name, Face::sans, 16) + width(r.detail, Face::sans, 16);
        if (both + u(10) > text_w()) y_ += type(20);
        write(r.detail, Face::sans, 16, right(), y_, c_.ink, Align::right);
    }

    /// Three finishes side by side: hole and aim as a small picture, name, aim in words.
    void choices(const Note& note) {
        const std::vector<FinishChoice>& all = note.choices;
        rule(true);
        const double top = y_, column = width_ / 3;
        double deepest = y_;
        for (std::size_t i = 0; i < all.size(); ++i) {
            const FinishChoice& choice = all[i];
            const double x = std::round(x_ + static_cast<double>(i) * column);
            small_picture(choice, x, top + u(24));
            double y = top + u(36) + type(20);
            const bool on = choice.chosen;
            const Face face = on ? Face::sans_bold : Face::sans;
            write(choice.name, face, 16, x, y, on ? c_.ink : c_.ink2);
            const double w = width(choice.name, face, 16);
            if (on) add_rounded_rect(picture_, {x, y + u(7), w, u(4)}, u(2), c_.wet_green);
            focus_bar(What::choice, static_cast<int>(i), {x, y + u(13), w, 0});
            y += type(12);
            for (const auto& line :
                 set(choice_words(choice, look_.units), Face::book, 21, column - u(10))) {
                y += type(24);
                write(line, Face::book, 21, x, y, c_.ink);
            }
            if (i < note.choice_odds.size())
                write(note.choice_odds[i], Face::sans, 16, x, y += type(22),
                      dimmed(c_.heather, note.choice_odds_pending));
            deepest = std::max(deepest, y);
            targets_.push_back({What::choice,
                                static_cast<int>(i),
                                {x - u(4), top + u(6), column - u(4), y - top}});
        }
        y_ = deepest + step(below_choices_u);
    }

    void small_picture(const FinishChoice& choice, double x, double y) {
        const Vec2 hole(x + u(34), y);
        const double r = u(12);
        draw_hole(picture_, hole, r, look_);
        if (!choice.aim_offset_m) return;
        const double away = std::clamp(*choice.aim_offset_m / hole_radius_m, -2.6, 2.6) * r;
        draw_diamond(picture_, hole + Vec2(away, 0), 6, look_, c_.copper, c_.paper);
    }

    double line_step() const { return step(line_u) * words_size_ / words_size; }

    double step(const NoteStep& units) const {
        return type(std::lerp(units.usual, units.closest, closeness_));
    }

    /// Lines below the last one; none for no words.
    void small_lines(const std::string& words, Colour colour) {
        if (words.empty()) return;
        for (const auto& line : set(words, Face::sans, 16, text_w())) {
            y_ += step(second_u);
            write(line, Face::sans, 16, text_x(), y_, colour);
        }
    }

    /// Figures of the putt before, while this one's are being computed.
    Colour dimmed(Colour colour, bool pending) const {
        return pending ? faded(colour, pending_share) : colour;
    }

    void glyph(Glyph glyph, double y) {
        if (measured_) return;
        if (hot(What::row, static_cast<int>(glyph)) || state_.pinned == glyph)
            picture_.push_back(Disc{
                {x_ + u(8), y}, u(16), faded(c_.copper, state_.pinned == glyph ? 0.22 : 0.12)});
        draw_glyph(picture_, glyph, {x_ + u(8), y}, look_);
        if (focused(What::row, static_cast<int>(glyph)))
            add_ring(picture_, {x_ + u(8), y}, u(16), u(1.8), c_.copper);
    }

    void row_target(Glyph glyph, double from, double to) {
        targets_.push_back(
            {What::row, static_cast<int>(glyph), {x_ - u(10), from, width_ + u(10), to - from}});
    }

    void spread_words(const std::string& words, double baseline) {
        const double w = look_.width(Face::sans, type(16), words);
        const bool open = hot(What::spread) || state_.spread_open;
        write(words, Face::sans, 16, right(), baseline, c_.heather, Align::right);
        const Rect word{right() - w, baseline - type(18), w, type(26)};
        const bool on = focused(What::spread);
        if (open || on)
            add_rect(picture_, {word.x, baseline + u(5), w, u(on ? 3 : 1.5)},
                     on ? c_.copper : c_.heather);
        targets_.push_back({What::spread, 0, word.grown(u(6))});
    }

    const NoteState& state_;
    bool measured_;
    Lines& lines_;  ///< set last
    double closeness_;
    bool small_hero_;
    double words_size_;  ///< of the rows
};

}  // namespace

/// Rows stand as close as they have to, usually at their usual distances. Where even the closest do
/// not fit, larger type scrolls at its usual distances, and usual type scrolls as little as
/// possible.
NotePicture draw_note(const Canvas& canvas, const Note& note, const NoteState& state) {
    const auto shapes = static_cast<std::ptrdiff_t>(canvas.picture.size());
    const std::size_t targets = canvas.targets.size();
    std::vector<std::string> lines;
    const auto height = [&](double closeness, bool measured) {
        canvas.picture.erase(canvas.picture.begin() + shapes, canvas.picture.end());
        canvas.targets.resize(targets);
        return NotePainter(canvas, state, closeness, measured, lines).paint(note);
    };
    for (double closeness = 0; closeness <= most_closeness; closeness += closer_by)
        if (height(closeness, true) <= canvas.look.layout.note.h) return {height(closeness, false)};
    return {height(canvas.look.layout.text > 1 ? 0 : most_closeness, false)};
}

}  // namespace dewtrail
