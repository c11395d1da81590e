#include <fmt/format.h>

#include "viewer/modes/measure/measure_mode.hpp"
#include "viewer/picture/portrait.hpp"
#include "viewer/picture/widgets/note_pen.hpp"
#include "viewer/practice/measure/measure_words.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {

class MeasureMode::NotePart : private NotePen {
  public:
    NotePart(const Canvas& canvas, const MeasureMode& mode, double from_px)
        : NotePen(canvas, from_px), m_(mode) {}

    /// Returns where it ends.
    double paint() {
        open_panel();
        count_line();
        if (m_.view_ == View::pace) stop();
        if (m_.view_ == View::line) touched();
        if (m_.view_ != View::months) button();  // within reach, whatever there is to say
        sentences();
        if (m_.view_ == View::pace) floor();
        if (m_.view_ == View::months) button();
        words();
        picture_.push_back(Clip{});
        return y_;
    }

  private:
    void count_line() {
        y_ += type(41);
        const bool pace = m_.view_ == View::pace;
        const std::size_t of = pace ? m_.called_.size() : static_cast<std::size_t>(m_.strokes_),
                          now = pace ? m_.at_ : static_cast<std::size_t>(m_.struck_);
        const char* what = pace ? "Ball" : "Stroke";
        if (m_.view_ == View::months)
            write("How it goes", Face::sans, 17, x_, y_, c_.ink2);
        else
            write(now < of ? fmt::format("{} {} of {}", what, now + 1, of)
                           : fmt::format("{} {}s entered", of, pace ? "ball" : "stroke"),
                  Face::sans, 17, x_, y_, c_.ink2);
        y_ += type(8);
    }

    void value(int index, const std::string& label, const std::string& words, double size) {
        const double top = y_;
        write(label, Face::sans, 16, x_, y_ += type(24), c_.ink2);
        y_ += type(30);
        if (m_.shell_.typed_index(What::answer) != index)
            write_within(width_, words, Face::book, size, x_, y_, c_.copper);
        focus_bar(What::answer, index, {x_, y_ + u(6), width_, 0});
        y_ += type(10);
        target(What::answer, index, {x_, top, width_, y_ - top});
    }

    void stop() {
        const PaceFloor& floor = m_.entry_.floor;
        if (!m_.pace_done())
            value(measure_stop, asked_words(floor),
                  m_.entry_.stop ? format_distance(m_.entry_.stop->stopped_m, look_.units)
                  : floor.timed  ? "type the time"
                                 : "type it, or click the floor",
                  25);
    }

    void floor() {
        const PaceFloor& floor = m_.entry_.floor;
        const Units& units = look_.units;
        rule(false);
        const double whole = width_, x = x_;
        const double top = y_;
        width_ = 0.46 * whole;
        value(measure_from, "Lengths from", format_distance(floor.from_m, units), 21);
        const double foot = y_;
        x_ += 0.54 * whole, y_ = top;
        value(measure_to, "to", format_distance(floor.to_m, units), 21);
        x_ = x, width_ = whole, y_ = foot;
        value(measure_line, "Short floor: by the time to a line",
              floor.timed ? stretch_words(*floor.timed, units) : "no, it rolls out", 21);
        if (!floor.timed) return;
        value(measure_stimp, "Stimp of the floor", format_stimp(floor.stimp_ft), 21);
        y_ = paragraph(timing_words(floor, units), Face::sans, 17, x_, y_ + type(4), width_, 22,
                       c_.ink2) +
             type(4);
    }

    void touched() {
        y_ = paragraph("A ball that touches a coin went to its side.", Face::book, 20, x_, y_,
                       width_, 26, c_.ink) +
             type(12);
        if (!m_.done()) rule(false);
    }

    void sentences() {
        for (const std::string& sentence : m_.sentences())
            y_ = paragraph(sentence, Face::book, 20, x_, y_ + type(4), width_, 25, c_.ink);
        if (!m_.taken_.empty())
            y_ = paragraph(m_.taken_, Face::book, 20, x_, y_ + type(8), width_, 25, c_.heather);
        y_ += type(14);
    }

    void button() {
        const bool pace = m_.view_ == View::pace;
        y_ += type(10);
        if (m_.view_ == View::months)
            button_at(y_, "Measure pace", "Enter");
        else if (m_.done())
            button_at(y_, "Twenty more", "Enter");
        else if (pace)
            button_at(y_, "Next ball", "Enter", m_.entry_.stop.has_value());
        else
            return;
        y_ += button_height() + type(34);
    }

    void words() {
        const auto row = [&](const std::string& words, int index) {
            const double high = type(is_small(look_.layout) ? 51 : 30);
            word({words, What::measured, index, false, 18}, x_, y_ + high / 2 + type(6));
            targets_.back().hit = {x_, y_, width_, high};
            y_ += high;
        };
        const std::string drill = m_.drill();
        if (!drill.empty()) {
            y_ = paragraph(drill, Face::book, 20, x_, y_, width_, 25, c_.ink) + type(8);
            row("begin the drill", measured_drill);
        }
        const bool entered = m_.view_ == View::pace ? m_.at_ > 0 : m_.struck_ > 0;
        if (entered && m_.view_ != View::months) row("take the last one back", measured_take_back);
        if (!m_.found_.nothing() && m_.taken_.empty()) row("make it my spread", measured_take);
        y_ += type(16);
    }

    const MeasureMode& m_;
};

double MeasureMode::paint_note(const Canvas& canvas, double from_px) const {
    return NotePart(canvas, *this, from_px).paint();
}

}  // namespace dewtrail
