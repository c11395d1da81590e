#include "viewer/paper/lesson_page.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "viewer/paper/page.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

constexpr double number_room = 34;
constexpr double largest_scale = 1.12, least_scale = 0.7, smaller_by = 0.03;

class LessonPen {
  public:
    /// `scale`: of its letters and lines.
    LessonPen(const ToldLesson& told, Paper paper, const Units& units, double scale)
        : told_(told),
          units_(units),
          page_(paper, head(told.lesson), units),
          scale_(scale),
          y_(page_.body().y) {}

    Picture paint() {
        y_ += 26 * scale_;
        paragraph(told_.lesson.why);
        show();
        drills();
        ladder();
        homework();
        return page_.take();
    }
    bool fits() const { return y_ <= page_.body().bottom(); }

  private:
    static PageHead head(const TaughtLesson& lesson) {
        return {lesson.title, lesson_setting(lesson)};
    }

    const Palette& colours() const { return page_.look().colours; }
    double left() const { return page_.body().x + number_room; }
    double wide() const { return page_.body().right() - left(); }

    void heading(LessonPart part) {
        y_ += 26 * scale_;
        page_.text({page_.body().x, y_}, std::to_string(static_cast<int>(part) + 1),
                   Face::book_bold, heading_size_, colours().trail);
        page_.text({left(), y_}, heading_of(part, told_), Face::book_bold, heading_size_,
                   colours().ink);
        y_ += 23 * scale_;
    }
    void paragraph(const std::string& words) {
        y_ = page_.paragraph({left(), y_}, words, Face::book, text_size_, colours().ink, wide());
    }
    void typed(const std::string& command) {
        y_ =
            page_.paragraph({left(), y_}, command, Face::sans, small_size_, colours().ink2, wide());
        y_ += 2 * scale_;
    }

    void show() {
        heading(LessonPart::show);
        for (const std::string& sentence : told_.say) paragraph(sentence);
        typed("dewtrail window --mode compare --show " + told_.lesson.theme);
    }

    void drills() {
        heading(LessonPart::drills);
        for (const TaughtDrill& drill : told_.lesson.drills) {
            y_ += 4 * scale_;
            page_.text({left(), y_}, drill_words(drill), Face::sans_bold, text_size_,
                       colours().ink);
            page_.boxes(page_.body().right(), y_, std::min(drill.putts, 10));
            y_ += 22 * scale_;
            if (!drill.say.empty()) paragraph(drill.say);
            typed(drill_command(drill, told_.lesson.pupil));
        }
    }

    void ladder() {
        heading(LessonPart::ladder);
        const double column = wide() / 4;
        for (std::size_t i = 0; i < ladder_falls.size(); ++i)
            page_.text({left() + column * static_cast<double>(i + 1), y_}, ladder_falls[i].brief,
                       Face::sans, small_size_, colours().ink2);
        y_ += 8 * scale_;
        for (std::size_t rung = 0; rung < told_.ladder.size(); ++rung) {
            page_.hairline(y_, left(), page_.body().right());
            const double base = y_ + 16 * scale_;
            page_.text({left(), base}, format_distance(told_.rungs_m[rung], units_),
                       Face::sans_bold, text_size_, colours().ink);
            for (std::size_t i = 0; i < ladder_falls.size(); ++i)
                cell(told_.ladder[rung][i], left() + column * static_cast<double>(i + 1), base);
            y_ += row_height_;
        }
        page_.hairline(y_, left(), page_.body().right());
        y_ += 18 * scale_;
        page_.text({left(), y_}, ladder_words, Face::sans, small_size_, colours().ink2);
        y_ += 12 * scale_;
    }

    void cell(const std::optional<Read>& read, double x, double base) {
        const auto [aim, pace] = rung_words(read, units_);
        page_.text({x, base}, aim, Face::book, text_size_, colours().copper);
        page_.text({x + page_.width_of(aim, Face::book, text_size_) + 10, base}, pace, Face::sans,
                   small_size_, colours().ink);
    }

    /// Two columns of blanks to write into.
    void homework() {
        heading(LessonPart::homework);
        const double aim = page_.body().right() - 230, pace = page_.body().right() - 105;
        const double room = aim - left() - 16;
        for (const PlacedPutt& putt : told_.home) {
            const std::string words = putt_words(putt, units_);
            const double width = page_.width_of(words, Face::book, text_size_);
            page_.text({left(), y_}, words, Face::book,
                       text_size_ * std::min(1.0, room / std::max(width, 1.0)), colours().ink);
            blank("aim", aim, pace - 12);
            blank("pace", pace, page_.body().right());
            y_ += row_height_;
        }
        typed("Say each before you type it: " + homework_words(told_.files, told_.lesson.pupil));
    }

    void blank(const std::string& name, double from, double to) {
        page_.text({from, y_}, name, Face::sans, small_size_, colours().ink2);
        page_.hairline(y_ + 2, from + page_.width_of(name, Face::sans, small_size_) + 5, to);
    }

    const ToldLesson& told_;
    Units units_;
    Page page_;
    double scale_;
    double heading_size_ = 20 * scale_, text_size_ = 16 * scale_, small_size_ = 13 * scale_;
    double row_height_ = 22 * scale_;
    double y_;
};

}  // namespace

Picture lesson_page(const ToldLesson& told, Paper paper, const Units& units) {
    for (double scale = largest_scale;; scale -= smaller_by) {
        LessonPen pen(told, paper, units, scale);
        Picture page = pen.paint();
        if (pen.fits() || scale < least_scale) return page;
    }
}

}  // namespace dewtrail
