#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "viewer/modes/practise/practise_mode.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/picture/widgets/note_pen.hpp"
#include "viewer/practice/habits/practice_words.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

using Stage = PractiseMode::Stage;

/// Nothing of Read's note state matters here.
const NoteState plain_state{};

class PractisePen : private NotePen {
  public:
    PractisePen(Picture& picture, Targets& targets, const PractiseNote& note,
                const Attention& attention, const Look& look)
        : NotePen(picture, targets, plain_state, attention, look, 0), note_(note) {}

    void paint() {
        open_panel();
        switch (note_.stage) {
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

  private:
    const LessonPlan& plan() const { return note_.session.plan(); }

    /// 'Putt 7 of 10', and the word that chooses another session.
    void count_line() {
        y_ += look_.type(41);
        const auto& q = note_.session.question();
        if (q && note_.stage != Stage::slope)
            write(fmt::format("Putt {} of {}{}", q->number, note_.session.putts(),
                              q->task.occasion == Occasion::recall ? ", from yesterday" : ""),
                  Face::sans, 17, x_, y_, c_.ink2);
        word("another session", What::session, 0, right(), y_);
    }

    void word(const std::string& words, What what, int index, double right_x, double baseline) {
        const double w = look_.width(Face::sans, look_.type(16), words);
        const bool hot = attention_.on(attention_.hovered, what, index);
        write(words, Face::sans, 16, right_x, baseline, hot ? c_.ink : c_.ink2, Align::right);
        const Rect box{right_x - w, baseline - look_.type(20), w, look_.type(26)};
        underline(box, baseline, hot, attention_.on(attention_.focused, what, index));
        targets_.push_back({what, index, box.grown(look_.u(6))});
    }

    void underline(const Rect& box, double baseline, bool hot, bool focused) {
        if (hot || focused)
            add_rect(picture_, {box.x, baseline + look_.u(5), box.w, look_.u(focused ? 3 : 1.5)},
                     focused ? c_.copper : c_.ink2);
    }

    void heading(const std::string& words, double room) {
        y_ += look_.type(6);
        for (const auto& line :
             wrapped_evenly(words, Face::book, look_.type(34), room, look_.width))
            write(line, Face::book, 34, x_, y_ += look_.type(38), c_.ink);
        y_ += look_.type(22);
    }

    // ---- before the roll

    void asking() {
        count_line();
        heading(question_words(), width_);
        rule(true);
        said_row(answer_aim, plan().drill == Drill::pace ? "The line" : "Your aim",
                 aim_words(note_.said.aim_m, look_.units, note_.aim_unit), 34);
        rule(false);
        said_row(answer_pace, plan().drill == Drill::line ? "The pace" : "Your pace",
                 level_putt_words(note_.said.level_putt_m, look_.units), 25);
        rule(false);
        sure_row();
        rule(false);
        button("Roll it", "Enter");
        picture_.push_back(Clip{});
    }

    std::string question_words() const {
        if (plan().drill == Drill::pace) return "How hard would you hit it?";
        return "Where would you start it?";
    }

    void said_row(int index, const std::string& label, const std::string& words, double size) {
        const double top = y_;
        const bool given = (index == answer_aim && plan().drill == Drill::pace) ||
                           (index == answer_pace && plan().drill == Drill::line);
        y_ += look_.type(26);
        const Vec2 at(x_ + look_.u(8), y_ - look_.type(6));
        const Colour ink = given ? c_.copper : c_.heather;
        if (index == answer_aim)
            draw_diamond(picture_, at, 8, look_, ink, c_.paper);
        else
            add_dashes(picture_, circle_points(at, look_.u(9)), look_.u(4), look_.u(3), look_.u(2),
                       ink);
        write(label, Face::sans, 17, text_x(), y_, c_.ink2);
        const bool focused = attention_.on(attention_.focused, What::answer, index);
        y_ += look_.type(4);
        for (const auto& line :
             wrapped_evenly(words, Face::book, look_.type(size), text_w(), look_.width)) {
            y_ += look_.type(size * 1.1);
            if (note_.typing != index) write(line, Face::book, size, text_x(), y_, ink);
        }
        if (focused)
            add_rect(picture_, {text_x(), y_ + look_.u(6), text_w(), look_.u(3)}, c_.copper);
        y_ += look_.type(16);
        targets_.push_back({What::answer, index, {x_, top, width_, y_ - top}});
    }

    void sure_row() {
        y_ += look_.type(40);
        write("How sure?", Face::sans, 17, x_, y_, c_.ink2);
        double x = right();
        for (const int i : {1, 0}) {
            const bool on = note_.said.sure && *note_.said.sure == (i == 0);
            const Face face = on ? Face::sans_bold : Face::sans;
            const std::string words = i == 0 ? "sure" : "not sure";
            const double w = look_.width(Face::sans_bold, look_.type(18), words);
            const bool hot = attention_.on(attention_.hovered, What::sure, i);
            write(words, face, 18, x - w, y_, on || hot ? c_.ink : c_.ink2);
            const Rect box{x - w, y_ - look_.type(24), w, look_.type(36)};
            if (on)
                add_rounded_rect(picture_, {box.x, y_ + look_.u(8), w, look_.u(4)}, look_.u(2),
                                 c_.heather);
            if (attention_.on(attention_.focused, What::sure, i))
                add_rect(picture_, {box.x, y_ + look_.u(14), w, look_.u(3)}, c_.copper);
            targets_.push_back({What::sure, i, box.grown(look_.u(6))});
            x -= w + look_.u(30);
        }
        y_ += look_.type(30);
    }

    /// At the foot of the note, or below what stands there already.
    void button(const std::string& words, const std::string& key) {
        const double foot =
            panel_.bottom() - look_.u(20) - button_height() - look_.type(key.empty() ? 0 : 26);
        y_ = std::max(y_ + look_.type(16), note_.stage == Stage::asking ? 0.0 : foot);
        const Rect box = button_at(y_, words, key);
        y_ = box.bottom() + look_.type(30);
    }

    void rolling() {
        count_line();
        heading("Rolling …", width_);
        rule(true);
        picture_.push_back(Clip{});
    }

    // ---- after it

    void told() {
        const Marked& last = note_.session.marked().back();
        count_line();
        if (!last.answer.told) {
            heading("Remembered.", width_);
            rule(true);
            y_ += look_.type(4);
            paragraph(plan().occasion == Occasion::week
                          ? "The test tells everything at its end."
                          : "This one without the truth: feedback that fades is kept longer.",
                      Face::book, 21, c_.ink);
            button("Next putt", "Enter");
            return picture_.push_back(Clip{});
        }
        score(last);
        rule(true);
        table(last);
        rule(false);
        paragraph(diagnosis_sentence(last.mark, look_.units), Face::book, 24, c_.ink);
        rule(false);
        trend();
        button("Next putt", "");
        picture_.push_back(Clip{});
    }

    void score(const Marked& last) {
        const double figure_w = look_.type(76), top = y_;
        heading(headline(last.mark, look_.units), width_ - figure_w);
        write(fmt::format("{:.0f}", last.mark.score), Face::book, 50, right(), top + look_.type(50),
              c_.ink, Align::right);
        write(last.mark.fault == Fault::none
                  ? "of 10"
                  : fmt::format("of 10, the {}", name_of(last.mark.fault)),
              Face::sans, 17, right(), top + look_.type(74), c_.ink2, Align::right);
        y_ = std::max(y_, top + look_.type(90));
    }

    void table(const Marked& last) {
        const double mine = std::round(x_ + 0.46 * width_), truth = std::round(x_ + 0.75 * width_);
        y_ += look_.type(24);
        write("yours", Face::sans_bold, 16, mine, y_, c_.heather, Align::right);
        write("true", Face::sans_bold, 16, truth, y_, c_.copper, Align::right);
        write("strokes", Face::sans, 16, right(), y_, c_.ink2, Align::right);
        for (const DiagnosisRow& r : diagnosis_rows(last.mark, look_.units)) {
            y_ += look_.type(33);
            const Face face = r.leads ? Face::sans_bold : Face::sans;
            write(r.label, face, 17, x_, y_, r.leads ? c_.ink : c_.ink2);
            const double label_w = look_.width(face, look_.type(17), r.label) + look_.u(12);
            figure(r.yours, Face::book, mine, mine - x_ - label_w, c_.heather);
            figure(r.truth, Face::book, truth, truth - mine - look_.u(12), c_.ink);
            figure(r.strokes, r.leads ? Face::book_bold : Face::book, right(),
                   right() - truth - look_.u(12), c_.ink);
        }
        if (last.answer.sure) {
            y_ += look_.type(33);
            write(*last.answer.sure ? "You were sure." : "You were not sure.", Face::sans, 17, x_,
                  y_, c_.ink2);
        }
        y_ += look_.type(16);
    }

    void figure(const std::string& words, Face face, double right_x, double room, Colour colour) {
        write(words, face, fitting(words, room), right_x, y_, colour, Align::right);
    }

    /// The size of type that goes into a room.
    double fitting(const std::string& words, double room) const {
        constexpr double usual = 25;
        const double w = look_.width(Face::book, look_.type(usual), words);
        return w > room ? std::floor(usual * room / w) : usual;
    }

    void paragraph(const std::string& words, Face face, double size, Colour colour) {
        y_ += look_.type(8);
        for (const auto& line : wrapped(words, face, look_.type(size), width_, look_.width))
            write(line, face, size, x_, y_ += look_.type(size * 1.2), colour);
        y_ += look_.type(18);
    }

    void trend() {
        const std::vector<double> shares = note_.session.shares();
        if (shares.size() < static_cast<std::size_t>(least_putts)) {
            y_ += look_.type(26);
            graph({});
            return paragraph("The trend starts after six putts.", Face::sans, 17, c_.ink2);
        }
        y_ += look_.type(12);
        graph(shares);
        const std::string words = note_.session.trend();
        if (!words.empty()) paragraph(words, Face::book, 21, c_.ink);
    }

    /// The share of each putt against the whole, and their mean.
    void graph(const std::vector<double>& shares) {
        const double h = look_.u(70), axis_w = look_.type(52);
        const Rect box{x_ + axis_w, y_ + look_.u(14), width_ - axis_w, h};
        double least = 0.5, most = 1.1;
        for (const double s : shares) least = std::min(least, s), most = std::max(most, s);
        const auto y_of = [&](double share) {
            return std::round(box.bottom() - box.h * (share - least) / (most - least));
        };
        for (const double share : {0.5, 1.0}) {
            picture_.push_back(Line{{{box.x, y_of(share)}, {box.right(), y_of(share)}},
                                    look_.u(1.3),
                                    share == 1 ? c_.ink2 : c_.rule});
            write(format_percent(share), Face::sans, 16, box.x - look_.u(8),
                  y_of(share) + look_.type(5), c_.ink2, Align::right);
        }
        if (!shares.empty()) {
            const double mean = std::accumulate(shares.begin(), shares.end(), 0.0) /
                                static_cast<double>(shares.size());
            add_dashes(picture_, {{box.x, y_of(mean)}, {box.right(), y_of(mean)}}, look_.u(9),
                       look_.u(6), look_.u(2), c_.heather);
        }
        for (std::size_t i = 0; i < shares.size(); ++i) {
            const double x = box.x + look_.u(8) +
                             (box.w - look_.u(16)) * static_cast<double>(i) /
                                 std::max<double>(1, static_cast<double>(shares.size()) - 1);
            if (i + 1 == shares.size())
                picture_.push_back(Disc{{x, y_of(shares[i])}, look_.u(6), c_.heather});
            else
                add_ring(picture_, {x, y_of(shares[i])}, look_.u(4), look_.u(1.8), c_.heather);
        }
        y_ = box.bottom();
    }

    // ---- on a real green

    void slope() {
        count_line();
        heading("What do you feel?", width_);
        rule(true);
        for (int i = 0; i < SlopeSpot::values; ++i) {
            const double top = y_;
            const int index = answer_slope + i;
            write(SlopeSpot::label(i), Face::sans, 17, x_, y_ += look_.type(26), c_.ink2);
            const std::string words = note_.spot.words(i);
            y_ += look_.type(34);
            if (note_.typing != index)
                write(words.empty() ? SlopeSpot::example(i) : words, Face::book, 25, x_, y_,
                      words.empty() ? c_.ink2
                      : i < 2       ? c_.heather
                                    : c_.ink);
            if (attention_.on(attention_.focused, What::answer, index))
                add_rect(picture_, {x_, y_ + look_.u(6), width_, look_.u(3)}, c_.copper);
            y_ += look_.type(14);
            targets_.push_back({What::answer, index, {x_, top, width_, y_ - top}});
            rule(false);
        }
        button("Type it", "Enter");
        picture_.push_back(Clip{});
    }

    // ---- at the end

    void over() {
        count_line();
        const auto& all = note_.session.marked();
        std::vector<std::string> said = session_end_words(note_.session);
        heading(said.front(), width_);
        rule(true);
        for (std::size_t i = 1; i < said.size(); ++i)
            paragraph(said[i], Face::book, i == 1 ? 24 : 21, c_.ink);
        for (std::size_t i = 0; i < all.size(); ++i) {
            if (y_ + look_.type(110) > panel_.bottom()) break;
            y_ += look_.type(26);
            const Marked& m = all[i];
            write(std::to_string(i + 1), Face::sans, 16, x_ + look_.type(18), y_, c_.ink2,
                  Align::right);
            const std::string mine = aim_short(*m.answer.aim_m, look_.units),
                              truth = aim_short(*m.mark.best.aim_offset_m, look_.units);
            write(mine, Face::book, 21, x_ + look_.type(34), y_, c_.heather);
            write(truth, Face::book, 21, x_ + 0.5 * width_, y_, c_.ink);
            write(fmt::format("{:.0f}", m.mark.score), Face::book, 21, right(), y_, c_.ink,
                  Align::right);
        }
        button(next_drill_words(note_.session.end().next), "");
        picture_.push_back(Clip{});
    }

    const PractiseNote& note_;
};

}  // namespace

void draw_practise_note(Picture& picture, Targets& targets, const PractiseNote& note,
                        const Attention& attention, const Look& look) {
    PractisePen(picture, targets, note, attention, look).paint();
}

}  // namespace dewtrail
