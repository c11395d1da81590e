#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/modes/measure/measure_mode.hpp"
#include "viewer/picture/portrait.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/practice/measure/measure_words.hpp"
#include "viewer/text/figures.hpp"

/// What takes the place of the green: the floor with its balls, the gate, months.
namespace dewtrail {

Layout MeasureMode::lay_out() const {
    constexpr double note_u = 400;
    Layout l = dewtrail::lay_out(shell_.appearance(), true);
    set_note_height_without_fields(l, l.type(note_u));
    return l;
}

/// Below a message, if there is one.
Rect MeasureMode::area() const {
    Rect area = page_area(shell_.layout());
    const Rect& message = shell_.message_box();
    const double covered = message.y <= area.y ? std::max(message.bottom() - area.y, 0.0) : 0;
    area.y += covered, area.h -= covered;
    return area;
}

// ---- pace: a lane for every length that is called

/// Shortest first.
std::vector<double> MeasureMode::lanes() const {
    std::vector<double> lengths = called_;
    std::sort(lengths.begin(), lengths.end());
    lengths.erase(std::unique(lengths.begin(), lengths.end()), lengths.end());
    return lengths;
}

Rect MeasureMode::floor_box() const {
    const Layout& l = shell_.layout();
    const Rect all = area();
    return {all.x + l.u(40), all.y + l.type(96), all.w - l.u(80), all.h - l.type(96) - l.type(64)};
}

/// A third past the longest.
double MeasureMode::most_m() const {
    return 1.33 * entry_.floor.to_m;
}

double MeasureMode::x_of(double along_m) const {
    const Layout& l = shell_.layout();
    const Rect box = floor_box();
    const double from = box.x + l.type(96), to = box.right() - l.u(12);
    return from + (to - from) * along_m / most_m();
}

double MeasureMode::lane_y(std::size_t lane) const {
    const Rect box = floor_box();
    return box.y + box.h * (static_cast<double>(lane) + 0.5) / static_cast<double>(lanes().size());
}

/// The line that balls are timed to, and the mark that they are timed from.
void MeasureMode::paint_marks(const Canvas& canvas) const {
    const Look& look = canvas.look;
    const Rect box = floor_box();
    for (const double along : {entry_.floor.timed->from_m, entry_.floor.timed->to_m}) {
        if (along <= 0) continue;
        const double x = std::round(x_of(along));
        add_dashes(canvas.picture, {{x, box.y}, {x, box.bottom()}}, look.u(8), look.u(6), look.u(2),
                   look.colours.ink);
    }
}

void MeasureMode::paint_floor(const Canvas& canvas) const {
    Picture& picture = canvas.picture;
    const Look& look = canvas.look;
    const Palette& c = look.colours;
    const Units& units = look.units;
    Brush brush(canvas);
    const Rect box = floor_box(), all = area();
    brush.write(pace_done() ? "This round is done."
                            : fmt::format("Putt {}", format_distance(called_m(), units)),
                Face::book, 44, box.x, all.y + look.type(62), c.ink);
    const std::vector<double> lengths = lanes();
    const double half = 0.42 * box.h / static_cast<double>(lengths.size());
    const auto recent = last_of(measures_.balls);
    for (std::size_t lane = 0; lane < lengths.size(); ++lane) {
        const double y = lane_y(lane), length = lengths[lane];
        const bool now = !pace_done() && length == called_m();
        add_rounded_rect(picture, {box.x, y - half, box.w, 2 * half}, look.u(6),
                         now ? c.grass_light : c.paper2);
        brush.write(format_distance(length, units), now ? Face::sans_bold : Face::sans, 17,
                    box.x + look.u(10), y + look.type(6), now ? c.ink : c.ink2);
        draw_ball(picture, {x_of(0), y}, look.u(6), look);
        picture.push_back(Line{
            {{x_of(length), y - half}, {x_of(length), y + half}}, look.u(now ? 3 : 1.6), c.copper});
        int number = 0;
        for (const PaceBall& ball : recent)
            if (std::abs(ball.called_m - length) < 0.005) {
                const double up = half * (0.55 - 0.22 * (number++ % 6));
                add_ring(picture, {std::min(x_of(ball.stopped_m), box.right() - look.u(6)), y - up},
                         look.u(5), look.u(2), c.wet_green);
            }
        if (!now || !entry_.stop) continue;
        const Vec2 at{x_of(entry_.stop->stopped_m), y};
        add_disc(picture, at, look.u(9), c.heather);
        const bool beyond = at.x() > box.right() - look.type(90);
        brush.write(format_distance(entry_.stop->stopped_m, units), Face::book, 21,
                    at.x() + (beyond ? -1 : 1) * look.u(16), y + look.type(7), c.heather,
                    beyond ? Align::right : Align::left);
    }
    if (entry_.floor.timed) paint_marks(canvas);
    double step = units.metric ? 1 : 2 * metres_per_foot;
    while (x_of(step) - x_of(0) < look.type(30)) step *= 2;
    const double foot = box.bottom();
    for (double along = 0; along <= most_m(); along += step) {
        const double x = std::round(x_of(along));
        picture.push_back(Line{{{x, foot}, {x, foot + look.u(8)}}, look.u(1.3), c.ink2});
        brush.write(units.metric ? fmt::format("{:.0f}", along)
                                 : fmt::format("{:.0f}", along / metres_per_foot),
                    Face::sans, 16, x, foot + look.type(26), c.ink2, Align::centre);
    }
    brush.write(units.metric ? "m" : "ft", Face::sans, 16, box.x + look.u(10), foot + look.type(26),
                c.ink2);
}

// ---- line: ball, gate, and where strokes through this gate went

int MeasureMode::went(Passed way) const {
    const GateSize& gate = gate_->gate();
    int count = 0;
    for (const GateStroke& s : last_of(measures_.strokes))
        count += s.passed == way && s.gate.width_m == gate.width_m && s.gate.away_m == gate.away_m;
    return count;
}

void MeasureMode::paint_gate(const Canvas& canvas) const {
    Picture& picture = canvas.picture;
    const Look& look = canvas.look;
    const Palette& c = look.colours;
    Brush brush(canvas);
    const Rect all = area();
    const GateSize& gate = gate_->gate();
    const double heading =
        brush.paragraph(fmt::format("Gate {}", gate_words(gate, look.units)), Face::book, 38,
                        all.x + look.u(40), all.y + look.type(14), all.w - look.u(80), 44, c.ink);
    const double middle = all.x + all.w / 2, ball_y = all.bottom() - look.type(70);
    const double gate_y = heading + look.type(108) + look.u(90), far_y = gate_y - look.u(70);
    const double half = std::min(0.16 * all.w, look.u(120));  // of the gate on the screen
    const double per_rad = half / gate.half_angle_rad();
    const auto at = [&](double angle_rad, double y) {
        return Vec2(middle + angle_rad * per_rad * (ball_y - y) / (ball_y - gate_y), y);
    };
    if (found_.line) {
        constexpr double rad = M_PI / 180;
        const double bias = rad * found_.line->bias_deg.mean,
                     sd = rad * found_.line->spread_deg.mean;
        picture.push_back(Polygon{{{middle, ball_y}, at(bias - sd, far_y), at(bias + sd, far_y)},
                                  faded(c.wet_green, 0.14)});
        picture.push_back(
            Line{{{middle, ball_y}, at(bias, far_y)}, look.u(2), faded(c.wet_green, 0.8)});
        const double y = 0.35 * gate_y + 0.65 * ball_y;
        brush.write("two in three start within this", Face::sans, 16,
                    at(bias + sd, y).x() + look.u(14), y, c.ink2);
    }
    add_dashes(picture, {{middle, ball_y}, {middle, far_y}}, look.u(8), look.u(7), look.u(1.4),
               c.ink2);
    for (const double side : {-1.0, 1.0}) {
        add_disc(picture, {middle + side * half, gate_y}, look.u(13), c.copper);
        add_disc(picture, {middle + side * half, gate_y}, look.u(9), c.paper2);
    }
    draw_ball(picture, {middle, ball_y}, look.u(11), look);
    constexpr std::pair<const char*, const char*> words[] = {
        {"Left", "←"}, {"Through", "↑"}, {"Right", "→"}};
    const double wide = std::min(1.5 * half, look.type(170)), high = look.type(54);
    for (int passed = 0; passed < 3; ++passed) {
        const double x = middle + (passed - 1) * 2 * half;
        const auto& [word, key] = words[passed];
        const Rect box{std::round(x - wide / 2), std::round(heading + look.type(22)), wide, high};
        brush.button(word, box, {What::measured, passed, box}, 22, !line_done());
        brush.write(key, Face::sans, 17, x, box.bottom() + look.type(22), c.ink2, Align::centre);
        const int count = went(static_cast<Passed>(passed));
        const double row = look.u(11);
        for (int i = 0; i < count; ++i)
            add_disc(picture,
                     {x + row * (i % 8 - 0.5 * (std::min(count, 8) - 1)),
                      gate_y - look.u(30) - row * (i / 8)},
                     look.u(3.6), c.heather);
    }
    brush.write("not to scale across", Face::sans, 16, all.x + look.u(40),
                all.bottom() - look.type(24), c.ink2);
}

// ---- months

namespace {

/// Bars from one end of an interval to the other, month under month.
class MonthBars : private Brush {
  public:
    MonthBars(const Canvas& canvas, const Rect& box) : Brush(canvas), box_(box), y_(box.y) {}

    using Figure = std::function<std::string(double)>;
    void paint(const std::string& title, const std::vector<std::pair<std::string, Credible>>& rows,
               double step, const Figure& figure) {
        write(title, Face::sans_bold, 18, box_.x, y_ += type(30), c_.ink);
        write("↓ less is better", Face::sans_bold, 17, box_.right(), y_, c_.wet_green,
              Align::right);
        double most = 0;
        for (const auto& [month, value] : rows) most = std::max(most, value.hi);
        most = step * std::ceil(most / step);
        const double from = box_.x + type(110), wide = box_.right() - from;
        const auto x_of = [&](double value) { return std::round(from + wide * value / most); };
        const double top = y_ + type(12), pitch = type(34);
        const double foot = top + pitch * static_cast<double>(rows.size());
        for (double at = 0; at <= most + 1e-9; at += step) {
            picture_.push_back(Line{{{x_of(at), top}, {x_of(at), foot}}, u(1.2), c_.rule});
            write(figure(at), Face::sans, 16, x_of(at), foot + type(20), c_.ink2, Align::centre);
        }
        y_ = top + 0.5 * pitch;
        for (const auto& [month, value] : rows) {
            write(month, Face::sans, 17, box_.x, y_ + type(6), c_.ink2);
            add_rounded_rect(picture_,
                             {x_of(value.lo), y_ - u(7), x_of(value.hi) - x_of(value.lo), u(14)},
                             u(5), faded(c_.heather, 0.35));
            picture_.push_back(
                Line{{{x_of(value.mean), y_ - u(11)}, {x_of(value.mean), y_ + u(11)}},
                     u(3),
                     c_.heather});
            y_ += pitch;
        }
        y_ = foot + type(34);
    }
    double foot() const { return y_; }

  private:
    Rect box_;
    double y_;
};

}  // namespace

double MeasureMode::paint_months(const Canvas& canvas, double from_px) const {
    const Look& look = canvas.look;
    const Rect all = area();
    canvas.picture.push_back(Clip{all});
    const Rect box{all.x + look.u(40), all.y - from_px, all.w - look.u(80), HUGE_VAL};
    Brush brush(canvas);
    double y = brush.paragraph("Month by month", Face::book, 34, box.x, box.y + look.type(14),
                               box.w, 40, look.colours.ink);
    std::vector<std::pair<std::string, Credible>> pace, line;
    for (const auto& [month, found] : months_) {
        if (found.pace) pace.emplace_back(month_words(month), found.pace->spread);
        if (found.line) line.emplace_back(month_words(month), found.line->spread_deg);
    }
    MonthBars bars(canvas, {box.x, y + look.type(10), box.w, 0});
    if (!pace.empty())
        bars.paint("Scatter of pace, part of the length", pace, 0.05,
                   [](double part) { return format_percent(part); });
    if (!line.empty())
        bars.paint("Scatter of the start line", line, 0.5,
                   [](double deg) { return fmt::format("{:.1f}°", deg); });
    y = bars.foot();
    if (pace.empty() && line.empty())
        y = brush.paragraph("Nothing was measured yet: begin with Pace or Line.", Face::book, 23,
                            box.x, y, box.w, 30, look.colours.ink2);
    canvas.picture.push_back(Clip{});
    return y + look.type(24);
}

void MeasureMode::laid_out() {
    note_.to_top();
    page_.to_top();
}

void MeasureMode::prepare(const Look& look, Picture&) {
    const Attention attention = shell_.attention();
    note_.lay_out(look, attention, look.layout.note,
                  [this](const Canvas& canvas, double from) { return paint_note(canvas, from); });
    if (view_ == View::months)
        page_.lay_out(look, attention, area(), [this](const Canvas& canvas, double from) {
            return paint_months(canvas, from);
        });
}

void MeasureMode::paint(const Canvas& canvas) const {
    add_rect(canvas.picture, area(), canvas.look.colours.paper);
    canvas.picture.push_back(Clip{area()});
    if (view_ == View::pace) paint_floor(canvas);
    if (view_ == View::line) paint_gate(canvas);
    canvas.picture.push_back(Clip{});
    if (view_ == View::months) page_.paint(canvas);
    note_.paint(canvas);
}

}  // namespace dewtrail
