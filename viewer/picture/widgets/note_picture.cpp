#include "viewer/picture/widgets/note_picture.hpp"

#include <algorithm>
#include <cmath>

#include "viewer/picture/symbols.hpp"
#include "viewer/picture/widgets/note_pen.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

constexpr NoteStep row_h_u = {95, 84};  // of a usual row
constexpr NoteStep label_u = {23, 21}, words_u = {28, 26}, line_u = {28, 26}, table_u = {25, 23};
constexpr NoteStep one_line_u = {31, 28}, below_row_u = {16, 6}, above_column_u = {14, 6};
constexpr NoteStep above_hero_u = {14, 10}, below_hero_u = {15, 11}, below_choices_u = {14, 10};
constexpr double below_note_u = 9;                         // from the last baseline
constexpr double closer_by = 0.25, most_closeness = 1.25;  // beyond 1 a smaller hero too

/// Aim of a finish, the side left out: '2½ cups out'.
std::string choice_words(const FinishChoice& choice, const Units& units) {
    if (!choice.aim_offset_m) return absent;
    const std::string words = aim_short(*choice.aim_offset_m, units);
    return words.find("cup") == words.npos ? words : words + " out";
}

std::vector<std::string> choice_chances(const Note& note, const OddsShown& shown) {
    constexpr std::string_view about = "about ";
    std::vector<std::string> chances;
    for (const auto& chance : shown.choices) {
        std::string words = chance ? chance_words(*chance) : "";
        if (words.starts_with(about)) words.erase(0, about.size());
        chances.push_back(words);
    }
    chances.resize(note.choices.size());
    return chances;
}

/// Of the putt itself where that is known, the rest as it was told last.
std::optional<OddsKnown> odds_of(const OddsShown& shown, const Spread& spread) {
    if (!shown.holed && !shown.odds && !shown.awaited) return std::nullopt;
    OddsKnown odds{.spread = spread};
    if (shown.odds) odds = known_odds(spread, *shown.odds);
    if (shown.holed) odds.holed = shown.holed;
    return odds;
}

class NotePainter : private NotePen {
  public:
    NotePainter(Picture& picture, Targets& targets, const NoteState& state,
                const Attention& attention, const Look& look, double closeness)
        : NotePen(picture, targets, state, attention, look, std::min(closeness, 1.0)),
          small_hero_(closeness > 1) {}

    double paint(const Note& note) {
        open_panel();
        heading(note.account.heading);
        hero(note);
        const double top = panel_.y - state_.scrolled_px;
        double deepest = y_;
        if (!note.choices.empty()) choices(note);
        bool first = note.choices.empty();
        for (const AccountRow* shown : rows_below(note)) {
            if (look_.layout.note_below && y_ + step(row_h_u) > top + panel_.h &&
                x_ < panel_.centre().x()) {
                deepest = std::max(deepest, y_);
                x_ = std::round(x_ + width_ + look_.u(margin_u));
                y_ = top + step(above_column_u);
            }
            if (shown->glyph == Glyph::odds)
                odds_row(*shown, note, first);
            else
                row(*shown, first);
            first = false;
        }
        picture_.push_back(Clip{});
        return std::max(deepest, y_) - step(below_row_u) - top + look_.type(below_note_u);
    }

  private:
    /// A little smaller, where that saves a line.
    double heading_size(const std::string& words, double room) const {
        constexpr double usual = 27, least = 24;
        const double fits = usual * room / look_.width(Face::book, look_.type(usual), words);
        return fits >= least ? std::min(usual, std::floor(fits)) : usual;
    }

    /// The aim stands above as the hero.
    std::vector<const AccountRow*> rows_below(const Note& note) const {
        std::vector<const AccountRow*> rows;
        for (const AccountRow& r : note.account.rows) {
            const bool told_above =
                r.glyph == Glyph::aim ||
                (r.glyph == Glyph::odds && note.finishes_tell_odds() && !state_.detail);
            if (!told_above && !(r.words.empty() && r.table.empty())) rows.push_back(&r);
        }
        return rows;
    }

    void heading(const std::string& words) {
        y_ += look_.type(41);
        const bool on = state_.detail;
        const Face face = on ? Face::sans_bold : Face::sans;
        const double detail_w = look_.width(face, look_.type(16), "coach detail");
        const double room = width_ - detail_w - look_.u(12);
        const double size = heading_size(words, room);
        const auto lines = wrapped_evenly(words, Face::book, look_.type(size), room, look_.width);
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
            write(lines[i], Face::book, size, x_, y_, c_.ink);
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
        const AccountRow* aim = note.account.row(Glyph::aim);
        const AccountRow* odds = note.account.row(Glyph::odds);
        const std::string spread =
            odds && note.finishes_tell_odds() && !state_.detail ? odds->second : "";
        const double size = small_hero_ ? 30 : state_.detail ? 36 : 40;
        y_ += look_.type(size) + step(above_hero_u);
        const double top = y_;
        const auto lines = wrapped_evenly(aim ? aim->words : absent, Face::book, look_.type(size),
                                          text_w(), look_.width);
        glyph(Glyph::aim, y_ - look_.type(0.33 * size));
        for (std::size_t i = 0; i < lines.size(); ++i) {
            if (i > 0) y_ += look_.type(size * 1.055);
            write(lines[i], Face::book, size, text_x(), y_, c_.ink);
        }
        if (aim) hero_second(*aim);
        const double spread_y = spread.empty() ? y_ : spread_line(aim->second, spread);
        if (aim && state_.detail) small_lines(aim->more, c_.ink);
        small_lines(note.taken, c_.heather);
        row_target(Glyph::aim, top - look_.type(30), y_ + look_.u(6));
        if (!spread.empty()) spread_words(spread, spread_y);
        y_ += step(below_hero_u);
    }

    void hero_second(const AccountRow& aim) {
        y_ += look_.type(27);
        const std::string detail = state_.detail ? aim.detail : "";
        const double figure = look_.width(Face::sans, look_.type(17), detail);
        const double beside = detail.empty() ? 0 : figure + look_.u(8);
        for (const auto& line :
             wrapped(aim.second, Face::sans, look_.type(17), text_w() - beside, look_.width)) {
            write(line, Face::sans, 17, text_x(), y_, c_.ink2);
            y_ += look_.type(22);
        }
        y_ -= look_.type(22);
        write(detail, Face::sans, 17, right(), y_, c_.ink, Align::right);
    }

    /// The words that open the spread, beside the distance from the centre if there is room.
    double spread_line(const std::string& beside, const std::string& spread) {
        const double both = look_.width(Face::sans, look_.type(17), beside) +
                            look_.width(Face::sans, look_.type(16), spread);
        if (both + look_.u(4) > text_w()) y_ += step(second_u);
        return y_;
    }

    /// Words and caption on one line, where they fit; a lag putt has a label like any other row.
    void odds_row(const AccountRow& r, const Note& note, bool first) {
        const double top = y_;
        rule(first);
        const bool lag = r.name == "Lag";
        const double words_w = look_.width(Face::book, look_.type(25), r.words);
        const double spread_w = look_.width(Face::sans, look_.type(16), r.second);
        const bool one_line = !lag && words_w + spread_w + look_.u(6) < text_w();
        y_ += step(one_line ? one_line_u : label_u);
        glyph(r.glyph, y_ - look_.type(one_line ? 8 : 5));
        if (lag) write(r.name, Face::sans, 16, text_x(), y_, c_.ink2);
        const std::size_t targets = targets_.size();
        spread_words(r.second, y_);
        const Target word = targets_.back();
        targets_.resize(targets);
        if (!one_line) y_ += step(words_u);
        for (const auto& line :
             wrapped_evenly(r.words, Face::book, look_.type(25), text_w(), look_.width)) {
            write(line, Face::book, 25, text_x(), y_, dimmed(c_.ink, note.odds_pending));
            y_ += step(line_u);
        }
        y_ -= step(line_u);
        if (state_.detail) small_lines(r.detail, dimmed(c_.ink, note.odds_detail_pending));
        y_ += step(below_row_u);
        row_target(r.glyph, top, y_);
        targets_.push_back(word);
    }

    void row(const AccountRow& r, bool first) {
        const double top = y_;
        rule(first);
        y_ += step(label_u);
        glyph(r.glyph, y_ - look_.type(5));
        write(r.name, Face::sans, 16, text_x(), y_, c_.ink2);
        if (state_.detail) detail(r);
        if (!r.words.empty()) y_ += step(words_u);
        for (const auto& line :
             wrapped_evenly(r.words, Face::book, look_.type(25), text_w(), look_.width)) {
            if (line.empty()) continue;
            write(line, Face::book, 25, text_x(), y_, c_.ink);
            y_ += step(line_u);
        }
        if (!r.words.empty()) y_ -= step(line_u);
        for (const auto& line :
             wrapped(r.second, Face::sans, look_.type(16), text_w(), look_.width)) {
            if (line.empty()) continue;
            y_ += step(second_u);
            write(line, Face::sans, 16, text_x(), y_, c_.ink2);
        }
        for (const auto& [left, value] : r.table) {
            y_ += step(table_u);
            write(left, Face::sans, 16, text_x(), y_, c_.ink2);
            const double both = look_.width(Face::sans, look_.type(16), left) +
                                look_.width(Face::book, look_.type(22), value);
            if (both + look_.u(10) > text_w()) y_ += look_.type(26);
            write(value, Face::book, 22, right(), y_, c_.ink, Align::right);
        }
        y_ += step(below_row_u);
        row_target(r.glyph, top, y_);
    }

    /// Coach detail, on the label's line; below it where it would run into the label.
    void detail(const AccountRow& r) {
        if (r.detail.empty()) return;
        const double both = look_.width(Face::sans, look_.type(16), r.name) +
                            look_.width(Face::sans, look_.type(16), r.detail);
        if (both + look_.u(10) > text_w()) y_ += look_.type(20);
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
            small_picture(choice, x, top + look_.u(24));
            double y = top + look_.u(36) + look_.type(20);
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
            if (i < note.choice_odds.size())
                write(note.choice_odds[i], Face::sans, 16, x, y += look_.type(22),
                      dimmed(c_.heather, note.choice_odds_pending));
            deepest = std::max(deepest, y);
            targets_.push_back({What::choice,
                                static_cast<int>(i),
                                {x - look_.u(4), top + look_.u(6), column - look_.u(4), y - top}});
        }
        y_ = deepest + step(below_choices_u);
    }

    void small_picture(const FinishChoice& choice, double x, double y) {
        const Vec2 hole(x + look_.u(34), y);
        const double r = look_.u(12);
        draw_hole(picture_, hole, r, look_);
        if (!choice.aim_offset_m) return;
        const double away = std::clamp(*choice.aim_offset_m / hole_radius_m, -2.6, 2.6) * r;
        draw_diamond(picture_, hole + Vec2(away, 0), 6, look_, c_.copper, c_.paper);
    }

    bool small_hero_;  ///< the last resort
};

/// How close the rows have to stand, usually 0. Where even the closest do not fit, larger type
/// scrolls at its usual distances, and usual type scrolls as little as possible.
double closeness_that_fits(const Note& note, const NoteState& state, const Attention& attention,
                           const Look& look) {
    for (double closeness = 0; closeness <= most_closeness; closeness += closer_by) {
        Picture tried;
        Targets touched;
        NotePainter painter(tried, touched, state, attention, look, closeness);
        if (painter.paint(note) <= look.layout.note.h) return closeness;
    }
    return look.layout.text > 1 ? 0 : most_closeness;
}

}  // namespace

bool Note::finishes_tell_odds() const {
    return std::any_of(choices.begin(), choices.end(),
                       [](const FinishChoice& choice) { return choice.chosen; });
}

Note note_of(const Setup& setup, const Solved& s, const Units& units, const OddsShown& shown) {
    Note note;
    const Read* read = s.shown();
    note.account.heading = read ? heading_of(s.putt, *read) : absent;
    if (!s.read) return note;
    note.account =
        account_of(s.putt, *s.read, units, known_of(setup, odds_of(shown, setup.spread)));
    note.choices = s.choices;
    note.choice_odds = choice_chances(note, shown);
    note.choice_odds_pending = !shown.choices_fresh;
    note.taken = shown.taken;
    const AccountRow* odds = note.account.row(Glyph::odds);
    note.odds_pending = !shown.fresh && odds && (odds->name == "Lag" || !shown.holed);
    note.odds_detail_pending = !shown.fresh;
    return note;
}

NotePicture draw_note(Picture& picture, Targets& targets, const Note& note, const NoteState& state,
                      const Attention& attention, const Look& look) {
    const double closeness = closeness_that_fits(note, state, attention, look);
    return {NotePainter(picture, targets, state, attention, look, closeness).paint(note)};
}

}  // namespace dewtrail