#include "viewer/practice/habits/progress_picture.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/practice/drill/lesson.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr std::size_t most_weeks = 16, most_points = 600;

class ProgressPainter {
  public:
    ProgressPainter(Picture& picture, const Progress& progress, const Rect& box, const Look& look)
        : picture_(picture), p_(progress), box_(box), look_(look), c_(look.colours), y_(box.y) {}

    void paint() {
        if (p_.lost.size() < static_cast<std::size_t>(least_putts)) {
            line("The trend starts after six putts.", Face::book, 25, c_.ink);
        } else {
            line("putts lost to the read, mean of ten", Face::sans, 17, c_.ink2);
            lost();
        }
        if (!p_.tests.empty()) {
            y_ += look_.type(14);
            line("ten-putt test by week", Face::sans, 17, c_.ink2);
            tests();
        }
        y_ += look_.type(10);
        for (const std::string& sentence : progress_sentences(p_))
            for (const auto& words :
                 wrapped(sentence, Face::book, look_.type(21), box_.w, look_.width)) {
                if (y_ + look_.type(34) > box_.bottom()) return;
                line(words, Face::book, 21, c_.ink);
            }
    }

  private:
    void line(const std::string& words, Face face, double size, Colour colour) {
        y_ += look_.type(size * 1.32);
        write(words, face, size, box_.x, y_, colour);
    }

    void write(const std::string& words, Face face, double size, double x, double y, Colour colour,
               Align align = Align::left) {
        picture_.push_back(
            Text{words, face, look_.type(size), {std::round(x), std::round(y)}, colour, align});
    }

    /// The axis from 0 to `most`, and the box of the graph beside it.
    Rect axis(double most, double height_u, const std::function<std::string(double)>& figure) {
        const Rect graph{box_.x + look_.type(52), y_ + look_.type(16), box_.w - look_.type(52),
                         look_.u(height_u)};
        for (const double share : {0.0, 0.5, 1.0}) {
            const double at = std::round(graph.bottom() - share * graph.h);
            picture_.push_back(Line{{{graph.x, at}, {graph.right(), at}}, look_.u(1.2), c_.rule});
            write(figure(share * most), Face::sans, 16, graph.x - look_.u(8), at + look_.type(5),
                  c_.ink2, Align::right);
        }
        y_ = graph.bottom() + look_.type(6);
        return graph;
    }

    void lost() {
        const double most = std::max(0.2, *std::max_element(p_.lost.begin(), p_.lost.end()));
        const Rect graph = axis(most, 150, [](double v) { return format_putts(v); });
        std::vector<Vec2> points;
        const std::size_t n = p_.lost.size(), step = std::max<std::size_t>(1, n / most_points);
        for (std::size_t i = 0; i < n; i += step)
            points.emplace_back(
                graph.x + graph.w * static_cast<double>(i) / static_cast<double>(n - 1),
                graph.bottom() - graph.h * p_.lost[i] / most);
        picture_.push_back(Line{points, look_.u(2.6), c_.heather});
    }

    /// The last weeks, a column each.
    void tests() {
        const Rect graph = axis(100, 90, [](double v) { return fmt::format("{:.0f}", v); });
        const std::size_t n = std::min(p_.tests.size(), most_weeks);
        const double pitch = graph.w / static_cast<double>(most_weeks);
        y_ += look_.type(16);
        for (std::size_t i = 0; i < n; ++i) {
            const WeekTest& test = p_.tests[p_.tests.size() - n + i];
            const double of_100 = 10 * test.score / std::max(1, test.putts);
            const double h = graph.h * of_100 / 100, x = graph.x + static_cast<double>(i) * pitch;
            add_rect(picture_, {x, graph.bottom() - h, 0.6 * pitch, h}, c_.wet_green);
            const std::string week = test.week.substr(test.week.size() - 3);
            if (pitch > look_.type(40) || i % 3 == 0)
                write(week, Face::sans, 16, x + 0.3 * pitch, y_, c_.ink2, Align::centre);
        }
    }

    Picture& picture_;
    const Progress& p_;
    Rect box_;
    const Look& look_;
    const Palette& c_;
    double y_;
};

}  // namespace

void draw_progress(Picture& picture, const Progress& progress, const Rect& box, const Look& look) {
    ProgressPainter(picture, progress, box, look).paint();
}

}  // namespace dewtrail
