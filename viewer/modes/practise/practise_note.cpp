#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/modes/practise/practise_mode.hpp"
#include "viewer/modes/practise/progress_picture.hpp"
#include "viewer/picture/portrait.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/picture/widgets/note_pen.hpp"
#include "viewer/practice/habits/practice_words.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

constexpr const char* tilt_hint =
    "The horizon is level and the flagstick plumb. See which way the row of cups and the mown "
    "squares lean from them: toward the low side. Low ground is darker.";
constexpr const char* plan_hint =
    "From above, turned so that uphill is up, whichever way you putt: where you face another way, "
    "your left and right are marked. The ball falls toward the foot of the picture.";

}  // namespace

class PractiseMode::NotePart : private NotePen {
  public:
    NotePart(const Canvas& canvas, const PractiseMode& mode, double from_px)
        : NotePen(canvas, from_px), m_(mode), from_px_(from_px) {}

    /// Returns where it ends.
    double paint() {
        open_panel();
        part();
        picture_.push_back(Clip{});
        return y_;
    }

  private:
    void part() {
        switch (m_.stage_) {
            case Stage::asking:
                return asking();
            case Stage::rolling:
                return rolling();
            case Stage::told:
                return told();
            case Stage::over:
                return over();
            case Stage::slope:
                return slope();
        }
    }

    const LessonPlan& plan() const { return m_.session_->plan(); }

    /// 'Putt 7 of 10', and the words that lead to a lesson and to another session.
    void count_line() {
        y_ += type(41);
        const auto& q = m_.session_->question();
        if (m_.stage_ == Stage::slope)
            write(m_.spot_count(), Face::sans, 17, x_, y_, c_.ink2);
        else if (q)
            write(fmt::format("Putt {} of {}{}", q->number, m_.session_->putts(),
                              q->task.occasion == Occasion::recall ? ", from yesterday"
                              : m_.session_->counts()              ? ""
                                                                   : ", counted already"),
                  Face::sans, 17, x_, y_, c_.ink2);
        else if (m_.again_)
            write(fmt::format("Putt {} again", *m_.again_ + 1), Face::sans, 17, x_, y_, c_.ink2);
        const double x = word({"drills", What::session, 0, false, 16, Align::right}, right(), y_).x;
        word({"lesson", What::lesson, lesson_seen, false, 16, Align::right}, x - u(24), y_);
    }

    void heading(const std::string& words, double room) {
        y_ += type(6);
        for (const auto& line : wrapped_evenly(words, Face::book, type(34), room, look_.width))
            write(line, Face::book, 34, x_, y_ += type(38), c_.ink);
        y_ += type(22);
    }

    // ---- before the roll
    void asking() {
        count_line();
        heading(question_words(), width_);
        if (look_.layout.portrait) {
            write_within(width_, m_.setting_words(), Face::sans, 17, x_, y_ + type(2), c_.ink2);
            y_ += type(16);
        }
        rule(true);
        said_row(answer_aim, m_.gives_aim() ? "The line" : "Your aim",
                 m_.said_.aim.words(look_.units), 34);
        rule(false);
        said_row(answer_pace, m_.gives_pace() ? "The pace" : "Your pace",
                 level_putt_words(m_.said_.level_putt_m, look_.units), 25);
        rule(false);
        sure_row();
        help_row();
        rule(false);
        const std::string unsaid = m_.unsaid();
        button(unsaid.empty() ? "Roll it" : "Roll it: " + unsaid, "Enter");
        if (is_small(look_.layout)) return;
        if (m_.first_ever())
            m_.view_ == View::plan ? hint("Uphill is up", plan_hint)
                                   : hint("How to see the tilt", tilt_hint);
        else
            remind();
    }

    /// At the first putt of a session: what the sessions before came to, where that asks for
    /// something.
    void remind() {
        const auto& q = m_.session_->question();
        const Finding& finding = m_.session_->finding();
        const std::string todo = instruction_words(finding);
        if (!q || q->number > 1 || todo.empty()) return;
        hint("From your putts before", finding_words(finding));
        y_ -= type(14);
        paragraph(todo, Face::book_italic, 19, c_.ink);
    }

    std::string question_words() const {
        return m_.gives_aim() ? "How hard would you hit it?" : "Where would you start it?";
    }

    void said_row(int index, const std::string& label, const std::string& words, double size) {
        if (look_.layout.portrait) return said_line(index, label, words);
        const double top = y_;
        y_ += type(26);
        const Vec2 at(x_ + u(8), y_ - type(6));
        const Colour ink = gives(index) ? c_.copper : c_.heather;
        if (index == answer_aim)
            draw_diamond(picture_, at, 8, look_, ink, c_.paper);
        else
            add_dashes(picture_, circle_points(at, u(9)), u(4), u(3), u(2), ink);
        write(label, Face::sans, 17, text_x(), y_, c_.ink2);
        y_ += type(4);
        // Room for two lines, so that the button stays where it is while the aim is dragged.
        const double foot = y_ + 2 * type(size * 1.1);
        for (const auto& line :
             wrapped_evenly(words, Face::book, type(size), text_w(), look_.width)) {
            y_ += type(size * 1.1);
            if (m_.shell_.typed_index(What::answer) != index)
                write(line, Face::book, size, text_x(), y_, ink);
        }
        focus_bar(What::answer, index, {text_x(), y_ + u(6), text_w(), 0});
        targets_.push_back({What::answer, index, {x_, top, width_, y_ + type(16) - top}});
        y_ = std::max(y_, foot) + type(12);
    }

    /// On one line, where the pace has its ruler above.
    void said_line(int index, const std::string& label, const std::string& words) {
        const double top = y_;
        y_ += type(31);
        write(label, Face::sans, 17, x_, y_, c_.ink2);
        if (m_.shell_.typed_index(What::answer) != index)
            write_within(width_ - u(said_from_u), words, Face::book, 25, right(), y_,
                         gives(index) ? c_.copper : c_.heather, Align::right);
        focus_bar(What::answer, index,
                  {x_ + u(said_from_u), y_ + u(6), width_ - u(said_from_u), 0});
        y_ += type(20);
        targets_.push_back({What::answer, index, {x_, top, width_, y_ - top}});
    }

    bool gives(int index) const {
        return (index == answer_aim && m_.gives_aim()) || (index == answer_pace && m_.gives_pace());
    }

    void sure_row() {
        y_ += type(is_small(look_.layout) ? 42 : 34);
        write("How sure?", Face::sans, 17, x_, y_, c_.ink2);
        const auto& said = m_.said_.sure;
        choices(What::sure, {{"sure", said == true}, {"not sure", said == false}}, 30);
    }

    /// Up to the end of the line; Tab goes through them as they stand.
    void choices(What what, const std::vector<std::pair<std::string, bool>>& each, double apart_u) {
        double x = right() + u(apart_u);
        for (const auto& [words, on] : each) x -= width(words, Face::sans_bold, 18) + u(apart_u);
        int index = 0;
        for (const auto& [words, on] : each) {
            word({words, what, index++, on, 18, Align::left, true, 8}, x, y_);
            x += width(words, Face::sans_bold, 18) + u(apart_u);
        }
    }

    /// What was looked at stays underlined: it is remembered with the answer.
    void help_row() {
        y_ += type(is_small(look_.layout) ? 54 : 44);
        write("Help", Face::sans, 17, x_, y_, c_.ink2);
        Help used = m_.used_;
        std::vector<std::pair<std::string, bool>> steps;
        for (int i = 0; i < help_steps; ++i) steps.emplace_back(name_of_help(i), step_of(used, i));
        choices(What::help_level, steps, 24);
        y_ += type(28);
    }

    void hint(const char* title, const std::string& words) {
        y_ += type(4);
        rule(false);
        write(title, Face::sans_bold, 16, x_, y_ += type(30), c_.ink2);
        paragraph(words, Face::book_italic, 19, c_.ink);
    }

    /// At the foot of the note, or below what stands there already; for fingers always at the foot.
    void button(const std::string& words, const std::string& key) {
        if (is_small(look_.layout)) {
            y_ = pinned_button(words);
            return;
        }
        const double foot =
            panel_.bottom() - from_px_ - u(20) - button_height() - type(key.empty() ? 0 : 30);
        y_ = std::max(y_ + type(16), m_.stage_ == Stage::asking ? 0.0 : foot);
        const Rect box = button_at(y_, words, key);
        y_ = box.bottom() + type(key.empty() ? 20 : 30);
    }

    void rolling() {
        const bool paused = !m_.shell_.playback.running;
        count_line();
        heading(paused ? "Paused." : "Rolling …", width_);
        rule(true);
        if (paused) button("Roll on", "Enter");
    }

    // ---- after it
    void told() {
        const Marked& last = m_.looked_at();
        count_line();
        if (!m_.told()) {
            heading("Remembered.", width_);
            rule(true);
            y_ += type(4);
            paragraph("This one without the truth: feedback that fades is kept longer.", Face::book,
                      21, c_.ink);
            return button("Next putt", "Enter");
        }
        score(last);
        rule(true);
        table(last);
        rule(false);
        paragraph(diagnosis_sentence(last.mark, look_.units), Face::book, 24, c_.ink);
        rule(false);
        trend();
        button(m_.again_ ? "Back to the end" : "Next putt", "");
    }

    void score(const Marked& last) {
        const double figure_w = type(76), top = y_;
        heading(headline(last.mark, look_.units), width_ - figure_w);
        write(fmt::format("{:.0f}", last.mark.score), Face::book, 50, right(), top + type(50),
              c_.ink, Align::right);
        write(last.mark.fault == Fault::none
                  ? "of 10"
                  : fmt::format("of 10, the {}", name_of(last.mark.fault)),
              Face::sans, 17, right(), top + type(74), c_.ink2, Align::right);
        y_ = std::max(y_, top + type(90));
    }

    void table(const Marked& last) {
        const double mine = column(0.44), truth = column(0.78);
        y_ += type(24);
        write("yours", Face::sans_bold, 16, mine, y_, c_.heather, Align::right);
        write("true", Face::sans_bold, 16, truth, y_, c_.copper, Align::right);
        write("strokes", Face::sans, 16, right(), y_, c_.ink2, Align::right);
        for (const DiagnosisRow& r : diagnosis_rows(last.mark, look_.units)) {
            y_ += type(33);
            const Face face = r.leads ? Face::sans_bold : Face::sans;
            write(r.label, face, 17, x_, y_, r.leads ? c_.ink : c_.ink2);
            figure(r.yours, Face::book, mine, mine - x_ - width(r.label, face, 17) - u(12),
                   c_.heather);
            figure(r.truth, Face::book, truth, truth - mine - u(12), c_.ink);
            figure(r.strokes, r.leads ? Face::book_bold : Face::book, right(),
                   right() - truth - u(12), c_.ink);
        }
        std::string said;
        if (last.answer.sure) said = *last.answer.sure ? "You were sure. " : "You were not sure. ";
        if (last.answer.help.any()) said += "Help: " + words_of(last.answer.help) + ".";
        if (!said.empty())
            y_ = Brush::paragraph(said, Face::sans, 17, x_, y_ + type(6), width_, 24, c_.ink2);
        y_ += type(16);
    }

    /// Where a column of figures ends: the widest is an aim with its side, '2½ cups right'.
    double column(double share) const { return std::round(x_ + share * width_); }

    void figure(const std::string& words, Face face, double right_x, double room, Colour colour) {
        write(words, face, figure_size(words, room), right_x, y_, colour, Align::right);
    }

    double figure_size(const std::string& words, double room) const {
        constexpr double usual = 22;
        const double size = fitting(words, Face::book, usual, room);
        return size < usual ? std::floor(size) : size;
    }

    void paragraph(const std::string& words, Face face, double size, Colour colour) {
        y_ = Brush::paragraph(words, face, size, x_, y_ + type(8), width_, size * 1.2, colour) +
             type(18);
    }

    void trend() {
        const Finding& finding = m_.session_->finding();
        if (!finding.share) {
            y_ += type(26);
            graph({});
            return paragraph(finding_words(finding), Face::sans, 17, c_.ink2);
        }
        y_ += type(12);
        graph(m_.session_->shares());
        paragraph(finding_words(finding), Face::book, 21, c_.ink);
    }

    void graph(const std::vector<double>& shares) {
        const Rect box{x_, y_ + u(14), width_, u(70)};
        draw_share_by_putt(picture_, shares, !m_.again_, box, look_);
        y_ = box.bottom();
    }

    // ---- on a real green
    void slope() {
        count_line();
        heading("What do you feel?", width_);
        rule(true);
        const SlopeSpot spot = m_.spot_seen();
        for (int i = 0; i < SlopeSpot::values; ++i) {
            const double top = y_;
            const int index = answer_slope + i;
            write(SlopeSpot::label(i), Face::sans, 17, x_, y_ += type(26), c_.ink2);
            const std::string words = spot.words(i);
            y_ += type(34);
            const bool typed = m_.shell_.typed_index(What::answer) == index;
            if (!typed && words.empty())
                write(fmt::format("like {}", SlopeSpot::example(i)), Face::book_italic, 21, x_, y_,
                      c_.ink2);
            else if (!typed)
                write(words, Face::book, 25, x_, y_, i < 2 ? c_.heather : c_.ink);
            focus_bar(What::answer, index, {x_, y_ + u(6), width_, 0});
            y_ += type(14);
            targets_.push_back({What::answer, index, {x_, top, width_, y_ - top}});
            rule(false);
        }
        button(m_.last_spot_told() ? fmt::format("{} spots more", m_.spots_)
               : m_.spot_told()    ? "Next spot"
                                   : "Type it",
               "Enter");
    }

    // ---- at the end
    void over() {
        if (m_.again_) return told();
        count_line();
        heading(m_.session_->marked().empty() ? "No putt was answered." : "The putts again",
                width_);
        rule(true);
        truths();
        const NextDrill& next = m_.session_->end().next;  // what kind of putts, the page says
        button(next_drill_words({next.drill, next.putts, {}}), "Enter");
    }

    /// Every answer beside its read; a click looks at the putt again.
    void truths() {
        const double mine = column(0.44), truth = column(0.78);
        y_ += type(24);
        write("yours", Face::sans_bold, 16, mine, y_, c_.heather, Align::right);
        write("true", Face::sans_bold, 16, truth, y_, c_.copper, Align::right);
        write("strokes", Face::sans, 16, right(), y_, c_.ink2, Align::right);
        const bool pace = m_.gives_aim();
        int number = 0;
        for (const Marked& m : m_.session_->marked()) {
            const double top = y_ + type(8);
            y_ += type(34);
            const DiagnosisRow row = diagnosis_rows(m.mark, look_.units)[pace ? 1 : 0];
            const bool lit = hot(What::putt, number);
            write(std::to_string(number + 1), Face::sans, 16, x_ + type(18), y_, c_.ink2,
                  Align::right);
            figure(row.yours, Face::book, mine, mine - x_ - type(26), c_.heather);
            figure(row.truth, Face::book, truth, truth - mine - u(12), c_.ink);
            figure(format_putts(m.mark.lost), lit ? Face::book_bold : Face::book, right(),
                   right() - truth - u(12), c_.ink);
            focus_bar(What::putt, number, {x_, y_ + u(6), width_, 0});
            target(What::putt, number, {x_, top, width_, type(34)});
            ++number;
        }
        y_ += type(12);
    }

    static constexpr double said_from_u = 96;  ///< its words, beside the label
    const PractiseMode& m_;
    double from_px_;
};

double PractiseMode::paint_note(const Canvas& canvas, double from_px) const {
    if (view_ == View::lesson) return paint_lesson_note(canvas, from_px);
    return NotePart(canvas, *this, from_px).paint();
}

}  // namespace dewtrail
