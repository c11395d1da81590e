#include "viewer/modes/practise/lesson_picture.hpp"

#include <algorithm>
#include <cmath>

#include "viewer/comparison/demonstrations.hpp"
#include "viewer/picture/portrait.hpp"
#include "viewer/picture/widgets/note_pen.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

class LessonPen : private Brush {
  public:
    LessonPen(const Canvas& canvas, const ToldLesson& told, const Rect& box)
        : Brush(canvas), told_(told), x_(box.x), w_(box.w), y_(box.y) {}

    double paint() {
        const TaughtLesson& lesson = told_.lesson;
        y_ = paragraph(lesson.title, Face::book, 34, x_, y_ + type(10), w_, 40, c_.ink);
        y_ = paragraph(lesson_setting(lesson), Face::sans, 18, x_, y_ + type(4), w_, 24, c_.ink2);
        y_ = paragraph(lesson.why, Face::book, 22, x_, y_ + type(4), w_, 28, c_.ink);
        show();
        drills();
        ladder();
        homework();
        return y_;
    }

  private:
    double text_x() const { return std::round(x_ + type(26)); }
    double text_w() const { return x_ + w_ - text_x(); }
    double right() const { return std::round(x_ + w_); }

    void heading(LessonPart part) {
        y_ += type(18);
        rule(x_, y_, w_, true);
        y_ += type(32);
        write(std::to_string(static_cast<int>(part) + 1), Face::book_bold, 24, x_, y_,
              c_.wet_green);
        for (const auto& line :
             wrapped(heading_of(part, told_), Face::book_bold, type(24), text_w(), look_.width)) {
            write(line, Face::book_bold, 24, text_x(), y_, c_.ink);
            y_ += type(28);
        }
        y_ -= type(18);
    }

    void say(const std::string& words, Face face, double size) {
        y_ = paragraph(words, face, size, text_x(), y_ + type(2), text_w(), size * 1.28, c_.ink);
    }

    /// Something that is begun by a click anywhere on it.
    void row(int index, const std::string& words, Face face, const std::string& does) {
        const double does_w = width(does, Face::sans_bold, 18) + type(18);
        const auto lines = wrapped(words, face, type(19), text_w() - does_w, look_.width);
        const double line = type(26),
                     high = std::max(type(is_small(look_.layout) ? 54 : 38),
                                     static_cast<double>(lines.size()) * line + type(12));
        const bool lit = hot(What::lesson, index);
        const Rect box{text_x() - u(8), std::round(y_), right() + u(8) - text_x() + u(8), high};
        if (lit) add_rounded_rect(picture_, box, u(6), c_.paper2);
        double y = y_ + 0.5 * (high - static_cast<double>(lines.size()) * line) + type(19);
        const double middle = y_ + 0.5 * high + type(6);
        for (const auto& words_of_line : lines) {
            write(words_of_line, face, 19, text_x(), y, c_.ink);
            y += line;
        }
        write(does, lit ? Face::sans_bold : Face::sans, 18, right(), middle, lit ? c_.ink : c_.ink2,
              Align::right);
        focus_bar(What::lesson, index, {text_x(), box.bottom() - u(4), right() - text_x(), 0});
        target(What::lesson, index, box);
        y_ += high;
    }

    void show() {
        heading(LessonPart::show);
        y_ += type(4);
        for (const std::string& sentence : told_.say) say(sentence, Face::book, 21);
        y_ += type(8);
        row(lesson_shown, "Roll it side by side", Face::sans_bold, "in Compare  →");
    }

    void drills() {
        heading(LessonPart::drills);
        int index = lesson_drill;
        for (const TaughtDrill& drill : told_.lesson.drills) {
            row(index++, drill_words(drill), Face::sans_bold, "begin  →");
            y_ -= type(10);
            if (!drill.say.empty()) say(drill.say, Face::book_italic, 21);
            y_ += type(10);
        }
        y_ -= type(6);
    }

    /// Aim and level putt beside each other, or below where there is no room.
    void ladder() {
        heading(LessonPart::ladder);
        const bool stacked = stacks();
        y_ += type(20);
        for (std::size_t i = 0; i < ladder_falls.size(); ++i)
            write(ladder_falls[i].brief, Face::sans, 16, column_x(i), y_, c_.ink2);
        y_ += type(8);
        for (std::size_t rung = 0; rung < told_.ladder.size(); ++rung) {
            rule(text_x(), y_, text_w());
            y_ += type(25);
            write(format_distance(told_.rungs_m[rung], look_.units), Face::sans_bold, 18, text_x(),
                  y_, c_.ink);
            for (std::size_t i = 0; i < ladder_falls.size(); ++i) {
                const auto [aim, pace] = rung_words(told_.ladder[rung][i], look_.units);
                write(aim, Face::book, 20, column_x(i), y_, c_.copper);
                const double beside = column_x(i) + width(aim, Face::book, 20) + type(10);
                write(pace, Face::sans, 17, stacked ? column_x(i) : beside,
                      y_ + (stacked ? type(23) : 0), c_.ink);
            }
            y_ += type(stacked ? 32 : 9);
        }
        rule(text_x(), y_, text_w());
        y_ = paragraph(ladder_words, Face::sans, 16, text_x(), y_, text_w(), 22, c_.ink2);
    }

    bool stacks() const {
        constexpr double both_u = 150;
        return text_w() / 4 < type(both_u);
    }
    double column_x(std::size_t fall) const {
        const double first = stacks() ? 0.19 : 0.25;  // of the lengths
        return std::round(text_x() +
                          text_w() * (first + (1 - first) * static_cast<double>(fall) / 3));
    }

    void homework() {
        heading(LessonPart::homework);
        int index = lesson_putt;
        for (const PlacedPutt& putt : told_.home)
            row(index++, putt_words(putt, look_.units), Face::book, "putt  →");
    }

    const ToldLesson& told_;
    double x_, w_, y_;
};

class LessonNotePen : private NotePen {
  public:
    LessonNotePen(const Canvas& canvas, double from_px)
        : NotePen(canvas, from_px), from_px_(from_px) {}

    double paint(const LessonNote& note) {
        open_panel();
        if (look_.layout.note_below) add_rect(picture_, {panel_.x, panel_.y, panel_.w, 1}, c_.rule);
        y_ += type(41);
        write("Lesson", Face::sans, 17, x_, y_, c_.ink2);
        word({"drills", What::session, 0, false, 16, Align::right}, right(), y_);
        y_ += type(is_small(look_.layout) ? 30 : 20);
        rule(true);
        value("About", note.about, What::lesson, lesson_other);
        value("Stimp", note.stimp, What::answer, answer_stimp);
        words(note);
        button();
        picture_.push_back(Clip{});
        return y_;
    }

  private:
    /// Typed or chosen.
    void value(const char* label, const std::string& words, What what, int index) {
        const double top = y_;
        write(label, Face::sans, 17, x_, y_ += type(26), c_.ink2);
        y_ += type(34);
        write_within(width_ - u(24), words, Face::book, 25, x_, y_, c_.ink);
        if (what == What::lesson) more(hot(what, index));
        focus_bar(what, index, {x_, y_ + u(6), width_, 0});
        y_ += type(14);
        target(what, index, {x_, top, width_, y_ - top});
        rule(false);
    }

    /// The sign that there is a list below it.
    void more(bool lit) {
        const Vec2 sign(right() - u(8), y_ - type(8));
        picture_.push_back(Polygon{
            {sign + u(1) * Vec2(-5, -3), sign + u(1) * Vec2(5, -3), sign + u(1) * Vec2(0, 4)},
            lit ? c_.ink : c_.ink2});
    }

    void words(const LessonNote& note) {
        y_ += type(is_small(look_.layout) ? 42 : 36);
        double x = x_;
        const auto add = [&](const char* name, int index) {
            x = word({name, What::lesson, index, false, 18}, x, y_).right() + u(28);
        };
        add("open …", lesson_open);
        if (note.any) add("keep as text", lesson_keep);
        if (note.any) add("print", lesson_print);
        y_ += type(20);
    }

    void button() {
        const char* const words = "Show it in Compare";
        if (is_small(look_.layout)) {
            y_ = pinned_button(words);
            return;
        }
        const double foot = panel_.bottom() - from_px_ - u(20) - button_height() - type(30);
        y_ = button_at(std::max(y_ + type(16), foot), words, "Enter").bottom() + type(30);
    }

    double from_px_;
};

}  // namespace

std::string by_answers_words(const std::string& pupil) {
    return pupil.empty() ? "What my putts call for" : "What " + pupil + "'s putts call for";
}

std::string about_words(const SeenLesson& seen, const std::string& pupil) {
    if (!seen.file.empty()) return seen.file.stem().string();
    for (const DemonstrationName& name : demonstration_names())
        if (seen.theme == name.key) return as_sentence(std::string(name.title));
    return by_answers_words(pupil);
}

double draw_lesson(const Canvas& canvas, const ToldLesson& told, const Rect& box) {
    return LessonPen(canvas, told, box).paint();
}

double draw_lesson_note(const Canvas& canvas, const LessonNote& note, double from_px) {
    return LessonNotePen(canvas, from_px).paint(note);
}

}  // namespace dewtrail
