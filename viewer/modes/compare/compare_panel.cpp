#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/comparison/compare_words.hpp"
#include "viewer/comparison/demonstrations.hpp"
#include "viewer/modes/compare/compare_mode.hpp"
#include "viewer/modes/compare/compare_style.hpp"
#include "viewer/picture/portrait.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/picture/widgets/setup_strip.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/outcome.hpp"

namespace dewtrail {

class CompareMode::Panel : private Brush {
  public:
    Panel(const Canvas& canvas, const CompareMode& mode, double from_px)
        : Brush(canvas),
          m_(mode),
          box_(mode.panel()),
          x_(box_.x),
          w_(box_.w),
          y_(box_.y - from_px),
          scrolled_px_(from_px) {}

    /// Returns where it ends.
    double paint() {
        steps();
        table();
        const double with_buttons = y_ + scrolled_px_ + type(sentences_u + 62);
        buttons_first_ = upright() || with_buttons > box_.bottom();  // they stay in sight
        if (!buttons_first_) outcome();
        buttons();
        if (buttons_first_) outcome();
        if (m_.graphs_) graph();
        if (!m_.graphs_ && !m_.compared_.putts.empty()) fields();
        if (!m_.graphs_) demonstrations();
        return y_ + type(12);
    }

  private:
    void outcome() {
        sentences();
        share_bar();
        if (m_.told()) legend();
    }

    void rule() { add_rect(picture_, {x_, std::round(y_), w_, std::max(1.0, u(1.2))}, c_.rule); }

    /// Guess, roll and freeze, release, swap.
    void steps() {
        constexpr const char* words[] = {"guess the aims", "roll, freeze", "release",
                                         "swap the aims"};
        y_ += type(34);
        double x = x_;
        for (int i = 0; i < 4; ++i) {
            const bool now = i == m_.step();
            const double wide = type(30) + width(words[i], Face::sans_bold, 17);
            if (x > x_ && x + wide > box_.right()) x = x_, y_ += type(32);
            const Vec2 at(x + type(12), y_ - type(6));
            if (now)
                picture_.push_back(Disc{at, type(12), c_.wet_green});
            else
                add_ring(picture_, at, type(11), u(1.4), i < m_.step() ? c_.wet_green : c_.ink2);
            write(std::to_string(i + 1), Face::sans_bold, 16, at.x(), at.y() + type(5.5),
                  now ? c_.on_button : c_.ink2, Align::centre);
            x += type(30);
            write(words[i], now ? Face::sans_bold : Face::sans, 17, x, y_, now ? c_.ink : c_.ink2);
            x += width(words[i], Face::sans_bold, 17) + type(26);
        }
    }

    /// Where it is narrow the name stands on a line above the figures.
    double column(int i) const {
        constexpr double beside[] = {0.0, 0.37, 0.55, 0.72, 1.0};
        constexpr double below[] = {0.0, 0.17, 0.42, 0.66, 1.0};
        return x_ + (upright() ? below : beside)[i] * w_;
    }

    bool upright() const { return is_small(look_.layout); }

    void table() {
        const std::string last = m_.chances_ ? upright() ? "to hole" : "chance to hole"
                                 : upright() ? "time"
                                             : "on the way";
        y_ += type(38);
        write("guess", Face::sans_bold, 16, column(1), y_, c_.heather);
        write("aim", Face::sans, 16, column(2), y_, c_.ink2);
        write_within(column(4) - column(3) - width(last, Face::sans, 16) - u(10), "play it as",
                     Face::sans, 16, column(3), y_, c_.ink2);
        write(last, Face::sans, 16, column(4), y_, c_.ink2, Align::right);
        y_ += type(14);
        const double row_h = type(rows() > 2 ? 58 : 78);
        for (std::size_t i = 0; i < rows(); ++i) row(i, row_h);
        rule();
    }

    std::size_t rows() const { return m_.comparison_.putts.size(); }

    void row(std::size_t i, double h) {
        const ComparedPutt& putt = m_.shown_putt(i);
        const Setup& setup = putt.plan.setup;
        const auto clock_h = clock_of(setup);
        const Colour own = colour_on_paper(i, c_);
        rule();
        const int index = static_cast<int>(i);
        if (i == m_.chosen_)
            add_rounded_rect(picture_, {x_ - u(12), y_ + u(3), u(4), h - u(6)}, u(2), own);
        focus_bar(What::putt, index, {x_, y_ + h - u(4), w_, 0});
        const double middle = y_ + h / 2, base = middle + type(upright() ? 22 : 8);
        clock(clock_h, {x_ + type(24), middle}, type(h > type(70) ? 22 : 18), i);
        const double name_x = x_ + type(60);
        const std::string place = distance_figure(setup, look_.units) +
                                  (clock_h ? ", ball at " + clock_figure(setup) : "");
        name(as_sentence(putt.name), place, name_x, middle, own);
        const auto& guess = m_.compared_.guesses[i];
        if (m_.shell_.typed_index(What::putt) != index)
            cell(guess ? guess->in_short(look_.units) : absent, 1, base,
                 guess ? c_.heather : c_.ink2);
        const Read* stroke = m_.told() ? putt.shown() : nullptr;
        const std::string pace = stroke ? format_level_putt(stroke->level_putt_m, look_.units) : "";
        if (stroke && stroke->aim_offset_m)
            cell(aim_short(*stroke->aim_offset_m, look_.units), 2, base, c_.ink);
        cell(pace, 3, base, c_.ink);
        write_within(column(4) - column(3) - width(pace, Face::book, 23) - u(8), last(i, putt),
                     Face::book, 23, column(4), base, c_.ink, Align::right);
        target(What::putt, index, {x_, y_, w_, h});
        y_ += h;
    }

    /// A name and where the putt is: one above the other or, where it is narrow, side by side.
    void name(const std::string& words, const std::string& place, double x, double middle,
              Colour own) {
        const double room = upright() ? x_ + w_ - x : column(1) - x - u(12);
        if (!upright()) {
            write_within(room, words, Face::book_bold, 22, x, middle - type(1), own);
            return write_within(room, place, Face::sans, 16, x, middle + type(20), c_.ink2);
        }
        const double place_w = width(place, Face::sans, 16), base = middle - type(9);
        write_within(room - place_w - u(10), words, Face::book_bold, 22, x, base, own);
        write(place, Face::sans, 16, x_ + w_, base, c_.ink2, Align::right);
    }

    /// What becomes of it: the chance, where it is asked for, the outcome of a stroke, the time.
    std::string last(std::size_t i, const ComparedPutt& putt) const {
        if (m_.chances_) return m_.chance_[i] ? format_percent(*m_.chance_[i]) : absent;
        if (!putt.shown()) return "no line";
        if (!m_.told()) return "";
        if (putt.rolled)
            return outcome_words(outcome_of(putt.plan.putt, *putt.rolled), look_.units);
        return format_time(putt.time_on_the_way_s());
    }

    void cell(const std::string& words, int i, double base, Colour colour) {
        const double room = (column(i + 1) - column(i)) * (i == 3 ? 0.6 : 1) - u(10);
        write_within(room, words, Face::book, 23, column(i), base, colour);
    }

    /// Where the ball lies round the hole, the drop at its foot.
    void clock(const std::optional<double>& clock_h, const Vec2& at, double radius, std::size_t i) {
        add_ring(picture_, at, radius, u(1.3), c_.ink2);
        picture_.push_back(Disc{at, u(4), c_.hole});
        draw_drop(picture_, at + Vec2(0, radius + u(7)), {0, -1}, u(3.5), c_.ink);
        if (!clock_h) return;
        const double bearing = *clock_h * M_PI / 6;
        const Vec2 ball = at + radius * Vec2(std::sin(bearing), -std::cos(bearing));
        const CompareStyle& s = compare_style(i);
        add_dashes(picture_, {ball, at}, u(s.dash / 2), u(s.gap / 2), u(2), colour_on_paper(i, c_));
        picture_.push_back(Disc{ball, u(5.5), c_.ink});
        picture_.push_back(Disc{ball, u(4), rgb(0xFFFFFF)});
    }

    void sentences() {
        y_ += type(14);
        // The buttons stay where they are while the sentences come and go.
        const double least = y_ + (buttons_first_ ? 0 : type(sentences_u));
        const std::vector<std::string> all = m_.sentences();
        const double size = all.size() > 1 ? 22 : 26;
        for (const std::string& sentence : all) {
            for (const auto& line : wrapped(sentence, Face::book, type(size), w_, look_.width)) {
                y_ += type(size * 1.25);
                write(line, Face::book, size, x_, y_, c_.ink);
            }
            y_ += type(6);
        }
        y_ = std::max(y_, least);
    }

    /// How much of its break is played by a putt that is struck otherwise than it is read.
    void share_bar() {
        if (!m_.told() || m_.swapped_) return;
        for (std::size_t i = 0; i < rows(); ++i)
            if (const auto part = m_.shown_putt(i).part_of_break())
                return share_bar(*part, compare_colour(i, c_));
    }

    void share_bar(double share, Colour colour) {
        y_ += type(22);
        const double x = std::round(x_ + share * w_), h = type(16), words_y = y_ + h + type(20);
        add_rounded_rect(picture_, {x_, y_ + 0.3 * h, w_, 0.4 * h}, 0.2 * h, c_.rule);
        add_rect(picture_, {x_, y_ + 0.35 * h, x - x_, 0.3 * h}, colour);
        for (const auto& [at, ink] : {std::pair(x_, c_.ink2), {x_ + w_, c_.copper}})
            picture_.push_back(Line{{{at, y_}, {at, y_ + h}}, u(1.6), ink});
        add_rounded_rect(picture_, {x - u(3.5), y_, u(7), h}, u(2), colour);
        const std::string none = "none", played = format_percent(share) + ", played",
                          whole = "the whole break";
        const double half = width(played, Face::sans_bold, 16) / 2,
                     from = x_ + width(none, Face::sans, 16) + u(12) + half,
                     to = x_ + w_ - width(whole, Face::sans_bold, 16) - u(12) - half;
        write(none, Face::sans, 16, x_, words_y, c_.ink2);
        write(played, Face::sans_bold, 16, std::clamp(x, std::min(from, to), to), words_y, colour,
              Align::centre);
        write(whole, Face::sans_bold, 16, x_ + w_, words_y, c_.copper, Align::right);
        y_ = words_y + type(4);
    }

    /// Whose misses the dots on the map are.
    void legend() {
        if (m_.played_.empty()) return;
        y_ += type(30);
        double x = x_;
        for (const PlayedPutts& played : m_.played_) {
            const Colour colour = played_colour(played.share_of_break, c_);
            const std::string words = fmt::format(
                "missed, seeing {} of the break",
                played.share_of_break < 1 ? format_percent(played.share_of_break) : "all");
            const double wide = type(16) + width(words, Face::sans, 16);
            if (x > x_ && x + wide > box_.right()) x = x_, y_ += type(26);
            picture_.push_back(Disc{{x + type(5), y_ - type(5)}, u(4.5), colour});
            write(words, Face::sans, 16, x + type(16), y_, colour);
            x += wide + type(28);
        }
        y_ += type(4);
    }

    const char* button_words() const {
        if (m_.frozen()) return "Release";
        if (!m_.told() && !m_.guessed()) return "Show me";
        return m_.shell_.playback.running ? "Pause" : m_.rolled_ ? "Roll again" : "Roll";
    }

    void buttons() {
        y_ += type(14);
        const double h = type(48);
        const double first_w = type(150), second_w = type(200);
        const Rect first{x_, std::round(y_), first_w, std::round(h)};
        button(button_words(), first, {What::button, 0, {}}, 21);
        double x = first.right() + type(18);
        if (m_.swapped_putts_ && m_.told()) {
            const Rect second{x, first.y, second_w, first.h};
            add_rounded_rect(picture_, second, u(8), c_.wet_green);
            add_rounded_rect(picture_, second.grown(-u(2)), u(6.5), c_.paper);
            write(m_.swapped_ ? "Swap them back" : "Swap the aims", Face::sans_bold, 21,
                  second.centre().x(), second.centre().y() + type(7), c_.wet_green, Align::centre);
            focus_bar(What::swap, 0, {second.x, second.bottom() + u(3), second.w, 0});
            target(What::swap, 0, second);
            x = second.right() + type(24);
        }
        double base = first.centre().y() + type(6);
        word_after({"chance to hole", What::chances, 0, m_.chances_}, x, base);
        if (m_.told()) word_after({"graphs", What::graphs, 0, m_.graphs_}, x, base);
        if (m_.told() && m_.comparison_.difference)
            word_after({"coach detail", What::detail, 0, m_.detail_}, x, base);
        if (rows() < most_compared) word_after({"add a putt", What::add}, x, base);
        y_ = std::max(first.bottom(), base) + type(18);
    }

    /// A word to click at x, or below where there is no room beside; moves on to where the next
    /// begins.
    void word_after(const Word& w, double& x, double& base) {
        const double wide = width(w.words, Face::sans_bold, 17);
        if (x > x_ && x + wide > box_.right()) x = x_, base += type(upright() ? 51 : 40);
        word(w, x, base);
        x += wide + type(24);
    }

    /// The chosen putt in fields, as in Read.
    void fields() {
        const std::vector<Field> all = {Field::distance, Field::slope, Field::ball_at, Field::stimp,
                                        Field::finish};
        const double pitch = w_ / static_cast<double>(all.size());
        for (std::size_t i = 0; i < all.size(); ++i)
            draw_field(
                canvas(), field_state(m_.compared_.putts[m_.chosen_], all[i], look_.units), all[i],
                {x_ + static_cast<double>(i) * pitch, y_, pitch - u(26), field_height(look_)},
                m_.shell_.typed_field());
        y_ += field_height(look_) + type(8);
    }

    void demonstrations() {
        rule();
        y_ += type(26);
        write("Ready demonstrations", Face::sans, 16, x_, y_, c_.ink2);
        y_ += type(32);
        double x = x_;
        const auto& names = demonstration_names();
        for (std::size_t i = 0; i < names.size(); ++i) {
            const std::string title(names[i].title);
            word_after({title, What::demonstration, static_cast<int>(i),
                        m_.compared_.show == names[i].key},
                       x, y_);
        }
    }

    /// Time, offset to the right.
    std::vector<Vec2> offsets(std::size_t i) const {
        constexpr int pieces = 120;
        std::vector<Vec2> line;
        const Trail& trail = m_.trails_[i];
        for (int k = 0; k <= pieces && !trail.empty(); ++k) {
            const double t = trail.end_s() * k / pieces;
            line.emplace_back(t, m_.from_hole(i, trail.at(t).at).offset_m);
        }
        return line;
    }

    /// How far to the side of the straight line each is, over time.
    void graph() {
        write("to the side of the straight line, over time", Face::sans, 16, x_, y_ + type(8),
              c_.ink2);
        const Rect box{x_ + type(64), y_ + type(24), w_ - type(64),
                       std::max(type(180), box_.bottom() - (y_ + scrolled_px_) - type(52))};
        y_ = box.bottom() + type(24);
        std::vector<std::vector<Vec2>> lines;
        for (std::size_t i = 0; i < rows(); ++i) lines.push_back(offsets(i));
        double end = 0.1, most = 0.01, least = 0;
        for (const auto& line : lines)
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
            picture_.push_back(Line{{{box.x, y}, {box.right(), y}}, u(1.2), c_.rule});
            write(v == 0 ? "line" : format_length(v, look_.units), Face::sans, 16, box.x - u(8),
                  y + type(5), c_.ink2, Align::right);
        }
        for (int second = 0; second <= end; ++second)
            write(fmt::format("{} s", second), Face::sans, 16, at({double(second), least}).x(),
                  box.bottom() + type(22), c_.ink2, second == 0 ? Align::left : Align::centre);
        for (std::size_t i = 0; i < lines.size(); ++i) {
            std::vector<Vec2> line;
            for (const Vec2& p : lines[i]) line.push_back(at(p));
            const CompareStyle& s = compare_style(i);
            if (line.size() > 1)
                add_dashes(picture_, line, u(s.dash), u(s.gap), u(2.6), colour_on_paper(i, c_));
        }
    }

    const CompareMode& m_;
    Rect box_;
    double x_, w_, y_, scrolled_px_;
    bool buttons_first_ = false;
    static constexpr double sentences_u = 92;  ///< room for them, whether there are any or not
};

Rect CompareMode::panel() const {
    const Layout& l = shell_.layout();
    if (l.portrait) {
        const double under = map().bottom() + l.u(6), margin = l.margin();
        return {margin, under, l.width - 2 * margin, l.roll_strip.y - under - l.u(6)};
    }
    const double x = map().right() + l.u(48), top = l.top_bar.bottom();
    return {std::round(x), top, l.width - l.u(40) - x, l.roll_strip.y - top - l.u(10)};
}

/// The putt that has the focus is the chosen one.
void CompareMode::prepare(const Look& look, Picture&) {
    if (const auto& focus = shell_.focus(); focus && focus->what == What::putt)
        chosen_ = std::min(static_cast<std::size_t>(focus->index), comparison_.putts.size() - 1);
    Rect box = panel().grown(look.u(14));
    box.h = std::min(box.h, look.layout.roll_strip.y - box.y);
    scrolled_.lay_out(look, shell_.attention(), box, [this](const Canvas& canvas, double from_px) {
        return Panel(canvas, *this, from_px).paint();
    });
}

void CompareMode::paint(const Canvas& canvas) const {
    const Layout& l = canvas.look.layout;
    add_rect(canvas.picture, {0, 0, l.width, l.height}, canvas.look.colours.paper);
    paint_map(canvas);
    canvas.picture.push_back(Clip{panel().grown(canvas.look.u(14))});
    scrolled_.paint(canvas);
    canvas.picture.push_back(Clip{});
    const auto longest =
        std::max_element(trails_.begin(), trails_.end(),
                         [](const Trail& a, const Trail& b) { return a.end_s() < b.end_s(); });
    draw_roll_strip(canvas, shell_.playback, told() ? *longest : Trail());
}

}  // namespace dewtrail
