#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/comparison/compare_words.hpp"
#include "viewer/comparison/demonstrations.hpp"
#include "viewer/modes/compare/compare_mode.hpp"
#include "viewer/modes/compare/compare_style.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/picture/widgets/setup_strip.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/outcome.hpp"

namespace dewtrail {
namespace {

/// One row of the table.
struct CompareRow {
    std::string name, putt, guess, aim, pace, last;
    std::optional<double> clock_h;
};

/// All that the panel shows.
struct ComparePanel {
    std::vector<CompareRow> rows;
    std::vector<std::string> sentences;
    std::string last_head, button;
    std::size_t chosen = 0;
    int step = 0;
    bool may_swap = false, swapped = false, chances = false, graphs = false;
    std::string show;                        ///< the demonstration, or empty
    std::vector<std::vector<Vec2>> offsets;  ///< of each roll: time, offset to the right
    std::optional<Setup> edited;             ///< the chosen putt, where it is one's own
    std::optional<int> typing;               ///< the putt whose guess is typed
    std::optional<Field> typed;              ///< or the field of the chosen one
};

class PanelPainter {
  public:
    PanelPainter(Picture& picture, Targets& targets, const ComparePanel& panel, const Rect& box,
                 const Attention& attention, const Look& look)
        : picture_(picture),
          targets_(targets),
          p_(panel),
          box_(box),
          attention_(attention),
          look_(look),
          c_(look.colours),
          x_(box.x),
          w_(box.w),
          y_(box.y) {}

    void paint() {
        steps();
        table();
        sentences();
        buttons();
        if (p_.graphs) return graph();
        if (p_.edited) fields();
        demonstrations();
    }

  private:
    void write(const std::string& words, Face face, double size, double x, double y, Colour colour,
               Align align = Align::left) {
        picture_.push_back(
            Text{words, face, look_.type(size), {std::round(x), std::round(y)}, colour, align});
    }
    double width(const std::string& words, Face face, double size) const {
        return look_.width(face, look_.type(size), words);
    }
    double fitting(const std::string& words, Face face, double size, double room) const {
        const double w = width(words, face, size);
        return w > room ? size * room / w : size;
    }
    bool room_for(double units) const { return y_ + look_.type(units) <= box_.bottom(); }
    void rule(Colour colour) {
        add_rect(picture_, {x_, std::round(y_), w_, std::max(1.0, look_.u(1.2))}, colour);
    }

    /// Guess, roll and freeze, release, swap.
    void steps() {
        constexpr const char* words[] = {"guess the aims", "roll, freeze", "release",
                                         "swap the aims"};
        y_ += look_.type(34);
        double needed = 0;
        for (const char* word : words) needed += look_.type(30 + 26) + width(word, Face::sans, 17);
        if (needed > w_) return;
        double x = x_;
        for (int i = 0; i < 4; ++i) {
            const bool now = i == p_.step;
            const Vec2 at(x + look_.type(12), y_ - look_.type(6));
            if (now)
                picture_.push_back(Disc{at, look_.type(12), c_.wet_green});
            else
                add_ring(picture_, at, look_.type(11), look_.u(1.4),
                         i < p_.step ? c_.wet_green : c_.ink2);
            write(std::to_string(i + 1), Face::sans_bold, 16, at.x(), at.y() + look_.type(5.5),
                  now ? c_.on_button : c_.ink2, Align::centre);
            x += look_.type(30);
            write(words[i], now ? Face::sans_bold : Face::sans, 17, x, y_, now ? c_.ink : c_.ink2);
            x += width(words[i], Face::sans_bold, 17) + look_.type(26);
        }
    }

    double column(int i) const {
        constexpr double shares[] = {0.0, 0.37, 0.55, 0.72, 1.0};
        return x_ + shares[i] * w_;
    }

    void table() {
        y_ += look_.type(38);
        write("guess", Face::sans_bold, 16, column(1), y_, c_.heather);
        write("aim", Face::sans, 16, column(2), y_, c_.ink2);
        const double head_room = column(4) - column(3) - width(p_.last_head, Face::sans, 16);
        write("play it as", Face::sans,
              fitting("play it as", Face::sans, 16, head_room - look_.u(10)), column(3), y_,
              c_.ink2);
        write(p_.last_head, Face::sans, 16, column(4), y_, c_.ink2, Align::right);
        y_ += look_.type(14);
        const double row_h = look_.type(p_.rows.size() > 2 ? 58 : 78);
        for (std::size_t i = 0; i < p_.rows.size(); ++i) row(i, row_h);
        rule(c_.rule);
    }

    void row(std::size_t i, double h) {
        const CompareRow& r = p_.rows[i];
        rule(c_.rule);
        const Rect hit{x_, y_, w_, h};
        const int index = static_cast<int>(i);
        if (i == p_.chosen)
            add_rounded_rect(picture_,
                             {x_ - look_.u(12), y_ + look_.u(3), look_.u(4), h - look_.u(6)},
                             look_.u(2), compare_colour(i, c_));
        if (attention_.on(attention_.focused, What::putt, index))
            add_rect(picture_, {x_, y_ + h - look_.u(4), w_, look_.u(3)}, c_.copper);
        clock(r, {x_ + look_.type(24), y_ + h / 2}, look_.type(h > look_.type(70) ? 22 : 18), i);
        const double name_x = x_ + look_.type(60), room = column(1) - name_x - look_.u(12);
        const double middle = y_ + h / 2;
        write(r.name, Face::book_bold, fitting(r.name, Face::book_bold, 22, room), name_x,
              middle - look_.type(1), compare_colour(i, c_));
        write(r.putt, Face::sans, fitting(r.putt, Face::sans, 16, room), name_x,
              middle + look_.type(20), c_.ink2);
        const double base = middle + look_.type(8);
        cell(p_.typing == index ? ""
             : r.guess.empty()  ? "–"
                                : r.guess,
             1, base, r.guess.empty() ? c_.ink2 : c_.heather);
        cell(r.aim, 2, base, c_.ink);
        cell(r.pace, 3, base, c_.ink);
        const double last_room = column(4) - column(3) - width(r.pace, Face::book, 23) - look_.u(8);
        write(r.last, Face::book, fitting(r.last, Face::book, 23, last_room), column(4), base,
              c_.ink, Align::right);
        targets_.push_back({What::putt, index, hit});
        y_ += h;
    }

    void cell(const std::string& words, int i, double base, Colour colour) {
        const double room = (column(i + 1) - column(i)) * (i == 3 ? 0.6 : 1) - look_.u(10);
        write(words, Face::book, fitting(words, Face::book, 23, room), column(i), base, colour);
    }

    /// Where the ball lies round the hole, the drop at its foot.
    void clock(const CompareRow& r, const Vec2& at, double radius, std::size_t i) {
        add_ring(picture_, at, radius, look_.u(1.3), c_.ink2);
        picture_.push_back(Disc{at, look_.u(4), c_.hole});
        draw_drop(picture_, at + Vec2(0, radius + look_.u(7)), {0, -1}, look_.u(3.5), c_.ink);
        if (!r.clock_h) return;
        const double bearing = *r.clock_h * M_PI / 6;
        const Vec2 ball = at + radius * Vec2(std::sin(bearing), -std::cos(bearing));
        const CompareStyle& s = compare_style(i);
        add_dashes(picture_, {ball, at}, look_.u(s.dash / 2), look_.u(s.gap / 2), look_.u(2),
                   compare_colour(i, c_));
        picture_.push_back(Disc{ball, look_.u(5.5), c_.ink});
        picture_.push_back(Disc{ball, look_.u(4), rgb(0xFFFFFF)});
    }

    void sentences() {
        y_ += look_.type(14);
        // The buttons stay where they are while the sentences come and go.
        const double least = y_ + look_.type(92);
        for (const std::string& sentence : p_.sentences) {
            const double size = p_.sentences.size() > 1 ? 22 : 26;
            for (const auto& line :
                 wrapped(sentence, Face::book, look_.type(size), w_, look_.width)) {
                if (!room_for(size * 1.25 + 74)) return;
                y_ += look_.type(size * 1.25);
                write(line, Face::book, size, x_, y_, c_.ink);
            }
            y_ += look_.type(6);
        }
        if (least + look_.type(80) <= box_.bottom()) y_ = std::max(y_, least);
    }

    void buttons() {
        y_ += look_.type(14);
        const double h = look_.type(48);
        const double first_w = look_.type(150), second_w = look_.type(200);
        const Rect first{x_, std::round(y_), first_w, std::round(h)};
        const bool hot = attention_.on(attention_.hovered, What::button, 0);
        add_rounded_rect(picture_, first, look_.u(8),
                         hot ? lightened(c_.wet_green, 0.08) : c_.wet_green);
        write(p_.button, Face::sans_bold, 21, first.centre().x(),
              first.centre().y() + look_.type(7), c_.on_button, Align::centre);
        focus_bar(What::button, first);
        targets_.push_back({What::button, 0, first});
        double x = first.right() + look_.type(18);
        if (p_.may_swap) {
            const Rect second{x, first.y, second_w, first.h};
            add_rounded_rect(picture_, second, look_.u(8), c_.wet_green);
            add_rounded_rect(picture_, second.grown(-look_.u(2)), look_.u(6.5), c_.paper);
            write(p_.swapped ? "Swap them back" : "Swap the aims", Face::sans_bold, 21,
                  second.centre().x(), second.centre().y() + look_.type(7), c_.wet_green,
                  Align::centre);
            focus_bar(What::swap, second);
            targets_.push_back({What::swap, 0, second});
            x = second.right() + look_.type(24);
        }
        const double base = first.centre().y() + look_.type(6);
        x = word("chance to hole", What::chances, p_.chances, x, base);
        x = word("graphs", What::graphs, p_.graphs, x, base);
        if (p_.rows.size() < most_compared) word("add a putt", What::offer, false, x, base);
        y_ = first.bottom() + look_.type(18);
    }

    void focus_bar(What what, const Rect& box) {
        if (attention_.on(attention_.focused, what, 0))
            add_rect(picture_, {box.x, box.bottom() + look_.u(3), box.w, look_.u(3)}, c_.copper);
    }

    /// A word to click where there is room for it; returns where the next begins.
    double word(const std::string& words, What what, bool on, double x, double base,
                int index = 0) {
        const Face face = on ? Face::sans_bold : Face::sans;
        const double w = width(words, Face::sans_bold, 17);
        if (x + w > box_.right()) return x;
        const bool hot = attention_.on(attention_.hovered, what, index);
        write(words, face, 17, x, base, on || hot ? c_.ink : c_.ink2);
        const Rect box{x, base - look_.type(22), w, look_.type(34)};
        if (on)
            add_rounded_rect(picture_, {x, base + look_.u(7), w, look_.u(4)}, look_.u(2),
                             c_.wet_green);
        if (attention_.on(attention_.focused, what, index))
            add_rect(picture_, {x, base + look_.u(12), w, look_.u(3)}, c_.copper);
        targets_.push_back({what, index, box.grown(look_.u(3))});
        return x + w + look_.type(24);
    }

    /// The chosen putt in fields, as in Read.
    void fields() {
        if (!room_for(96)) return;
        const std::vector<Field> all = {Field::distance, Field::slope, Field::ball_at, Field::stimp,
                                        Field::finish};
        const double pitch = w_ / static_cast<double>(all.size());
        for (std::size_t i = 0; i < all.size(); ++i)
            draw_field(
                picture_, targets_, field_state(*p_.edited, all[i], look_.units), all[i],
                {x_ + static_cast<double>(i) * pitch, y_, pitch - look_.u(26), field_height(look_)},
                p_.typed, attention_, look_);
        y_ += field_height(look_) + look_.type(8);
    }

    void demonstrations() {
        if (!room_for(60)) return;
        rule(c_.rule);
        y_ += look_.type(26);
        write("Ready demonstrations", Face::sans, 16, x_, y_, c_.ink2);
        y_ += look_.type(32);
        double x = x_;
        const auto& names = demonstration_names();
        for (std::size_t i = 0; i < names.size(); ++i) {
            const std::string title(names[i].title);
            const double w = width(title, Face::sans_bold, 17);
            if (x > x_ && x + w > box_.right()) x = x_, y_ += look_.type(36);
            if (y_ + look_.type(10) > box_.bottom()) return;
            x = word(title, What::session, p_.show == names[i].key, x, y_, static_cast<int>(i));
        }
    }

    /// How far to the side of the straight line each is, over time.
    void graph() {
        if (!room_for(110)) return;
        write("to the side of the straight line, over time", Face::sans, 16, x_, y_ + look_.type(8),
              c_.ink2);
        const Rect box{x_ + look_.type(64), y_ + look_.type(24), w_ - look_.type(64),
                       box_.bottom() - y_ - look_.type(52)};
        double end = 0.1, most = 0.01, least = 0;
        for (const auto& line : p_.offsets)
            for (const Vec2& p : line)
                end = std::max(end, p.x()), most = std::max(most, p.y()),
                least = std::min(least, p.y());
        const auto at = [&](const Vec2& p) {
            return Vec2(box.x + box.w * p.x() / end,
                        box.bottom() - box.h * (p.y() - least) / (most - least));
        };
        for (const double v : {least, 0.0, most}) {
            if (v != 0 && std::abs(v) < 0.2 * (most - least)) continue;
            const double y = std::round(at({0, v}).y());
            picture_.push_back(Line{{{box.x, y}, {box.right(), y}}, look_.u(1.2), c_.rule});
            write(v == 0 ? "line" : format_length(v, look_.units), Face::sans, 16,
                  box.x - look_.u(8), y + look_.type(5), c_.ink2, Align::right);
        }
        for (int second = 0; second <= end; ++second)
            write(fmt::format("{} s", second), Face::sans, 16, at({double(second), least}).x(),
                  box.bottom() + look_.type(22), c_.ink2,
                  second == 0 ? Align::left : Align::centre);
        for (std::size_t i = 0; i < p_.offsets.size(); ++i) {
            std::vector<Vec2> line;
            for (const Vec2& p : p_.offsets[i]) line.push_back(at(p));
            const CompareStyle& s = compare_style(i);
            if (line.size() > 1)
                add_dashes(picture_, line, look_.u(s.dash), look_.u(s.gap), look_.u(2.6),
                           compare_colour(i, c_));
        }
    }

    Picture& picture_;
    Targets& targets_;
    const ComparePanel& p_;
    Rect box_;
    const Attention& attention_;
    const Look& look_;
    const Palette& c_;
    double x_, w_, y_;
};

}  // namespace

Rect CompareMode::panel() const {
    const double x = map().right() + layout_.u(48);
    return {std::round(x), layout_.top_bar.bottom(), layout_.width - layout_.u(40) - x,
            layout_.roll_strip.y - layout_.top_bar.bottom() - layout_.u(10)};
}

void CompareMode::draw_panel(Picture& picture, const Look& look) {
    ComparePanel p;
    p.last_head = chances_ ? "chance to hole" : "on the way";
    for (std::size_t i = 0; i < comparison_.putts.size(); ++i) {
        const ComparedPutt& putt = shown_putt(i);
        const Read* stroke = putt.shown();
        CompareRow row;
        row.name = as_sentence(putt.name);
        const Setup& setup = putt.plan.setup;
        row.clock_h = clock_of(setup);
        row.putt = distance_figure(setup, units()) +
                   (row.clock_h ? ", ball at " + clock_figure(setup) : "");
        if (compared_.guesses[i]) row.guess = aim_short(*compared_.guesses[i], units());
        if (stroke && told()) {
            if (stroke->aim_offset_m) row.aim = aim_short(*stroke->aim_offset_m, units());
            row.pace = format_level_putt(stroke->level_putt_m, units());
        }
        if (!stroke) row.last = "no line";
        if (stroke && putt.rolled)
            row.last = outcome_words(outcome_of(putt.plan.putt, *putt.rolled), units());
        else if (stroke && told())
            row.last = format_time(putt.time_on_the_way_s());
        if (chances_) row.last = chance_[i] ? format_percent(*chance_[i]) : absent;
        p.rows.push_back(row);
        std::vector<Vec2> offsets;
        if (graphs_ && !trails_[i].empty()) {
            constexpr int pieces = 120;
            for (int k = 0; k <= pieces; ++k) {
                const double t = trails_[i].end_s() * k / pieces;
                offsets.emplace_back(t, from_hole(i, trails_[i].at(t).at).offset_m);
            }
        }
        p.offsets.push_back(std::move(offsets));
    }
    p.sentences = sentences();
    p.button = frozen() ? "Release" : playback_.running ? "Pause" : rolled_ ? "Roll again" : "Roll";
    p.chosen = chosen_;
    p.step = step();
    p.may_swap = swapped_putts_.has_value() && told();
    p.swapped = swapped_;
    p.chances = chances_;
    p.graphs = graphs_;
    p.show = compared_.show;
    if (!compared_.putts.empty()) p.edited = compared_.putts[chosen_];
    p.typing = typing_;
    p.typed = typed_field();
    PanelPainter(picture, targets_, p, panel(), attention(), look).paint();
}

Frame CompareMode::frame(const TextWidth& width) {
    const Look look = this->look(width);
    Frame frame;
    frame.ground_key = 1;
    targets_.clear();
    Picture& picture = frame.picture;
    add_rect(picture, {0, 0, layout_.width, layout_.height}, look.colours.paper);
    draw_map(picture, look);
    draw_panel(picture, look);
    const auto longest =
        std::max_element(trails_.begin(), trails_.end(),
                         [](const Trail& a, const Trail& b) { return a.end_s() < b.end_s(); });
    draw_roll_strip(picture, targets_, playback_, *longest, attention(), look);
    TopBarState top = top_bar_of_mode();
    top.name = title_;
    draw_top_bar(picture, targets_, top, attention(), look);
    draw_message_bar(picture, targets_, {message_, "Close"},
                     {0, layout_.top_bar.bottom(), layout_.width, 0}, attention(), look);
    draw_sheet(picture, look);
    return frame;
}

}  // namespace dewtrail
