#include "viewer/modes/practise/progress_picture.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/files/dates.hpp"
#include "viewer/picture/filled.hpp"
#include "viewer/practice/drill/lesson.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr std::size_t most_weeks = 16, most_points = 600;
constexpr std::size_t from_putt = least_putts;  // before, a mean says nothing

class ProgressPainter {
  public:
    ProgressPainter(Picture& picture, const Progress& progress, const Rect& box, const Look& look)
        : picture_(picture), p_(progress), box_(box), look_(look), c_(look.colours), y_(box.y) {}

    /// Returns the foot of it.
    double paint() {
        const std::vector<std::string> said = progress_sentences(p_);
        if (!said.empty()) paragraph(said.front(), 30);
        y_ += look_.type(6);
        if (said.size() > 1) paragraph(said[1], 23);
        if (const Finding& finding = p_.findings.lead(); finding.share) {
            y_ += look_.type(8);
            line(finding.of == Fault::aim ? "Part of the break you played, the latest putts"
                                          : "Part of the pace you gave, the latest putts",
                 Face::sans, 17, c_.ink2);
            y_ = draw_shares(picture_, finding, p_.shares, {box_.x, y_ + look_.type(4), box_.w, 0},
                             look_);
        }
        if (p_.lost.size() > from_putt) {
            y_ += look_.type(8);
            line("Strokes lost a putt, the mean of up to ten", Face::sans, 17, c_.ink2);
            write("↓ lower is better", Face::sans_bold, 17, box_.right(), y_, c_.wet_green,
                  Align::right);
            lost();
        }
        if (!p_.tests.empty()) {
            y_ += look_.type(14);
            line("Ten-putt test by week", Face::sans, 17, c_.ink2);
            write("↑ higher is better", Face::sans_bold, 17, box_.right(), y_, c_.wet_green,
                  Align::right);
            tests();
        }
        y_ += look_.type(10);
        for (std::size_t i = 2; i < said.size(); ++i) paragraph(said[i], 21);
        if (p_.at_home) paragraph(p_.at_home->words, 21);
        return y_;
    }

  private:
    void line(const std::string& words, Face face, double size, Colour colour) {
        y_ += look_.type(size * 1.32);
        write(words, face, size, box_.x, y_, colour);
    }

    /// As far as there is room.
    void paragraph(const std::string& said, double size) {
        for (const auto& words : wrapped(said, Face::book, look_.type(size), box_.w, look_.width)) {
            if (y_ + look_.type(34) > box_.bottom()) return;
            line(words, Face::book, size, c_.ink);
        }
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
        double most = 0.2;
        for (std::size_t i = from_putt - 1; i < p_.lost.size(); ++i)
            most = std::max(most, p_.lost[i].mean);
        const Rect graph = axis(most, 150, [](double v) { return format_putts(v); });
        const double first = std::floor(p_.lost[from_putt - 1].day),
                     days = std::max(1.0, std::ceil(p_.lost.back().day) - first);
        const auto x_of = [&](double day) { return graph.x + graph.w * (day - first) / days; };
        std::vector<Vec2> points;
        int day = static_cast<int>(first);
        const auto draw_day = [&] {
            if (points.size() == 1) picture_.push_back(Disc{points[0], look_.u(2.6), c_.heather});
            if (points.size() > 1) picture_.push_back(Line{points, look_.u(2.6), c_.heather});
            points.clear();
        };
        const std::size_t step = std::max<std::size_t>(1, p_.lost.size() / most_points);
        for (std::size_t i = from_putt - 1; i < p_.lost.size(); i += step) {
            const Progress::Lost& point = p_.lost[i];
            if (static_cast<int>(point.day) != day) draw_day();  // nothing was putted in between
            day = static_cast<int>(point.day);
            points.emplace_back(x_of(point.day), graph.bottom() - graph.h * point.mean / most);
        }
        draw_day();
        y_ += look_.type(16);
        dates(first, days, x_of);
    }

    /// In the middle of days, as many as there is room for, the last day always.
    void dates(double first, double days, const std::function<double(double)>& x_of) {
        const bool years = days > 300;
        const double room = (x_of(first + days) - x_of(first)) / look_.type(110);
        const int every = std::max(1, static_cast<int>(std::ceil(days / std::max(1.0, room))));
        const int last = static_cast<int>(days) - 1;
        for (int day = 0; day <= last; day += day == last ? 1 : std::min(every, last - day)) {
            if (day != last && last - day < every) continue;  // no room beside the last
            const double x = x_of(first + day + 0.5);
            const double axis_y = y_ - look_.type(22);
            picture_.push_back(
                Line{{{x, axis_y - look_.u(5)}, {x, axis_y}}, look_.u(1.3), c_.ink2});
            const std::string date = short_date(static_cast<int>(first) + day, years);
            const double width = look_.width(Face::sans, look_.type(16), date);
            write(date, Face::sans, 16, std::min(x - width / 2, box_.right() - width), y_, c_.ink2);
        }
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
            picture_.push_back(filled_box({x, graph.bottom() - h, 0.6 * pitch, h}, c_.wet_green));
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

constexpr double most_share = 1.5;  ///< the end of either scale, which begins at 0

bool is_beyond(double share) {
    return share < 0 || share > most_share;
}

/// At the end of its scale, pointing beyond it.
void draw_beyond(Picture& picture, const Vec2& at, const Vec2& out, const Look& look) {
    const Vec2 across(out.y(), -out.x()), back = at - look.u(7) * out;
    picture.push_back(Line{{back + look.u(6) * across, at, back - look.u(6) * across},
                           look.u(2.4),
                           look.colours.heather});
}

}  // namespace

double draw_shares(Picture& picture, const Finding& finding,
                   const std::vector<NumberedShare>& putts, const Rect& box, const Look& look) {
    const Palette& c = look.colours;
    const double pitch = look.type(27), top = box.y + look.type(26);
    const double foot = top + pitch * static_cast<double>(putts.size());
    double numbers_w = 0;
    for (const NumberedShare& putt : putts)
        numbers_w = std::max(numbers_w, look.width(Face::sans, look.type(16), putt.number));
    const double graph_x = box.x + std::max(look.type(34), numbers_w + look.type(14));
    const Rect graph{graph_x, top, box.right() - graph_x, foot - top};
    const auto x_of = [&](double share) {
        return std::round(graph.x + graph.w * std::clamp(share, 0.0, most_share) / most_share);
    };
    const auto upright = [&](double share, double width, Colour colour) {
        picture.push_back(Line{{{x_of(share), top}, {x_of(share), foot}}, look.u(width), colour});
    };
    const auto write = [&](const std::string& words, double x, double y, Align align) {
        if (words.empty()) return;
        picture.push_back(
            Text{words, Face::sans, look.type(16), {std::round(x), std::round(y)}, c.ink2, align});
    };
    if (finding.share) {
        const double lo = x_of(finding.share->lo), hi = x_of(finding.share->hi);
        picture.push_back(filled_box({lo, top, hi - lo, graph.h}, faded(c.heather, 0.18)));
        upright(finding.share->mean, 3, c.heather);
    }
    for (const double share : {0.0, 0.5}) upright(share, 1.2, c.rule);
    upright(1, 2.4, c.wet_green);
    std::string putts_called;
    if (!putts.empty())
        putts_called = putts[0].number.empty() ? fmt::format("the last {}", putts.size()) : "putt";
    write(putts_called, box.x, box.y + look.type(18), Align::left);
    const double called_to =
        box.x + look.width(Face::sans, look.type(16), putts_called) + look.type(12);
    const bool aim = finding.of == Fault::aim;
    const std::string all = aim ? "all of the break" : "the true pace";
    write(all, x_of(1), box.y + look.type(18), Align::centre);
    if (finding.share) {
        const std::string mean = format_percent(finding.share->mean);
        const double x = x_of(finding.share->mean),
                     room = look.type(12) + (look.width(Face::sans, look.type(16), all) +
                                             look.width(Face::sans, look.type(16), mean)) /
                                                2;
        const double mean_from = x - look.width(Face::sans, look.type(16), mean) / 2;
        if (std::abs(x - x_of(1)) > room && mean_from > called_to)
            write(mean, x, box.y + look.type(18), Align::centre);
    }
    for (const double share : {0.0, 0.5, 1.0})
        write(format_percent(share), x_of(share), foot + look.type(20), Align::centre);
    // Of what is beyond: beside the arrow, or where the mean stands there, on its other side.
    const auto figure_right = [&](const std::string& figure) {
        const double right = graph.right() - look.u(14),
                     wide = look.width(Face::sans, look.type(16), figure) + look.u(6),
                     mean = finding.share ? x_of(finding.share->mean) : 0;
        return mean > right - wide && mean < right + look.u(6) ? mean - look.u(6) : right;
    };
    double y = top + 0.5 * pitch;
    for (const NumberedShare& putt : putts) {
        write(putt.number, box.x, y + look.type(5), Align::left);
        if (is_beyond(putt.share))
            draw_beyond(picture, {x_of(putt.share), y}, {putt.share < 0 ? -1.0 : 1.0, 0}, look);
        else
            add_ring(picture, {x_of(putt.share), y}, look.u(6), look.u(2), c.heather);
        if (putt.share < 0)
            write("wrong side", x_of(0) + look.u(12), y + look.type(5), Align::left);
        if (putt.share > most_share)
            write(format_percent(putt.share), figure_right(format_percent(putt.share)),
                  y + look.type(5), Align::right);
        y += pitch;
    }
    return foot + look.type(28);
}

void draw_share_by_putt(Picture& picture, const std::vector<double>& shares, bool last_told,
                        const Rect& all, const Look& look) {
    const Palette& c = look.colours;
    const double axis_w = look.type(52), inset = look.u(8);
    const Rect box{all.x + axis_w, all.y, all.w - axis_w, all.h};
    double sum = 0;
    for (const double share : shares) sum += share;
    const auto y_of = [&](double share) {
        return std::round(box.bottom() - box.h * std::clamp(share, 0.0, most_share) / most_share);
    };
    for (const double share : {0.5, 1.0}) {
        picture.push_back(Line{{{box.x, y_of(share)}, {box.right(), y_of(share)}},
                               look.u(1.3),
                               share == 1 ? c.ink2 : c.rule});
        if (share != 1 && y_of(share) - y_of(1) < look.type(18)) continue;  // no room for both
        picture.push_back(Text{format_percent(share),
                               Face::sans,
                               look.type(16),
                               {std::round(box.x - inset), std::round(y_of(share) + look.type(5))},
                               c.ink2,
                               Align::right});
    }
    if (shares.empty()) return;
    const auto n = static_cast<double>(shares.size());
    add_dashes(picture, {{box.x, y_of(sum / n)}, {box.right(), y_of(sum / n)}}, look.u(9),
               look.u(6), look.u(2), c.heather);
    double x = box.x + inset;
    for (std::size_t i = 0; i < shares.size(); ++i) {
        if (is_beyond(shares[i]))
            draw_beyond(picture, {x, y_of(shares[i])}, {0, shares[i] < 0 ? 1.0 : -1.0}, look);
        else if (last_told && i + 1 == shares.size())
            picture.push_back(Disc{{x, y_of(shares[i])}, look.u(6), c.heather});
        else
            add_ring(picture, {x, y_of(shares[i])}, look.u(4), look.u(1.8), c.heather);
        x += (box.w - 2 * inset) / std::max(1.0, n - 1);
    }
}

double draw_progress(Picture& picture, const Progress& progress, const Rect& box,
                     const Look& look) {
    return ProgressPainter(picture, progress, box, look).paint();
}

}  // namespace dewtrail
