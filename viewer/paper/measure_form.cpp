#include "viewer/paper/measure_form.hpp"

#include <fmt/format.h>

#include "viewer/paper/page.hpp"
#include "viewer/practice/measure/measure_typed.hpp"
#include "viewer/practice/measure/pace_measure.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr int rows = 20;
constexpr double measure_text_size = 14, measure_name_size = 12;

struct MeasureColumn {
    std::string heading;
    double share;  ///< of the width
    bool boxes = false;
};

/// One half of the page: what to do, then the rows.
class Half {
  public:
    Half(Page& page, const Rect& box) : page_(page), box_(box) {}

    void paint(const std::string& title, const std::string& how,
               const std::vector<MeasureColumn>& columns, const std::vector<std::string>& first) {
        const Palette& c = page_.look().colours;
        page_.text({box_.x, box_.y + 16}, title, Face::sans_bold, 16, c.ink);
        const double head = box_.y + 112;
        page_.paragraph({box_.x, box_.y + 38}, how, Face::sans, measure_name_size, c.ink2, box_.w);
        double x = box_.x;
        const double pitch = (box_.bottom() - head - 8) / rows;
        for (const MeasureColumn& column : columns) {
            const double wide = column.share * box_.w, middle = x + wide / 2;
            page_.text({column.boxes ? middle : x + 4, head}, column.heading, Face::sans_bold,
                       measure_name_size, c.ink, column.boxes ? Align::centre : Align::left);
            if (column.boxes)
                for (int i = 0; i < rows; ++i)
                    page_.boxes(middle + 7, head + 8 + (i + 0.5) * pitch + 6, 1);
            x += wide;
        }
        for (int i = 0; i <= rows; ++i) page_.hairline(head + 8 + i * pitch, box_.x, box_.right());
        for (int i = 0; i < rows; ++i)
            page_.text({box_.x + 4, head + 8 + (i + 0.5) * pitch + 5},
                       first[static_cast<std::size_t>(i)], Face::book, measure_text_size, c.ink);
    }

  private:
    Page& page_;
    Rect box_;
};

std::vector<std::string> called_words(const Units& units) {
    const PaceFloor floor = usual_floor(units);
    std::vector<std::string> words;
    int number = 0;
    for (const double length : called_lengths_m(floor.from_m, floor.to_m, rows, 1))
        words.push_back(fmt::format("{}.  {}", ++number, format_distance(length, units)));
    return words;
}

std::vector<std::string> numbers() {
    std::vector<std::string> words;
    for (int i = 1; i <= rows; ++i) words.push_back(fmt::format("{}.", i));
    return words;
}

}  // namespace

Picture measure_form(Paper paper, const Units& units) {
    Page page(paper, {"Your own pace and line", "twenty balls on a carpet, twenty through a gate"},
              units);
    const Rect& body = page.body();
    const double gap = 30, half = (body.w - gap) / 2, high = body.h - 44;
    Half(page, {body.x, body.y + 8, half, high})
        .paint("Pace",
               "Putt the length that is called on a level floor, without a hole. Write where the "
               "ball stopped, or how much short or long: 10 in short. Do not repeat one. On a "
               "floor too short write the seconds to a line, or between two marks.",
               {{"called", 0.42}, {"it stopped at", 0.58}}, called_words(units));
    Half(page, {body.x + half + gap, body.y + 8, half, high})
        .paint("Line",
               "Two coins are a gate. Tick where the ball went; one that touches a coin went to "
               "its side. After a few through, lay the coins nearer together.",
               {{"", 0.1},
                {units.metric ? "width, cm" : "width, in", 0.23},
                {units.metric ? "away, m" : "away, ft", 0.22},
                {"left", 0.15, true},
                {"through", 0.16, true},
                {"right", 0.14, true}},
               numbers());
    page.text({body.x, body.bottom() - 10},
              "Then type them: dewtrail measure pace, dewtrail measure line; or Measure in the "
              "window.",
              Face::sans, measure_name_size, page.look().colours.ink2);
    return page.take();
}

}  // namespace dewtrail
