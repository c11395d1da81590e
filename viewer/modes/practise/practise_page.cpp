#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "viewer/modes/practise/practise_mode.hpp"
#include "viewer/modes/practise/progress_picture.hpp"
#include "viewer/picture/portrait.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/practice/habits/practice_words.hpp"
#include "viewer/text/english.hpp"

/// What takes the place of the green: the end of a session, progress, the slope drill; for the
/// lesson see lesson_picture.
namespace dewtrail {

double PractiseMode::paint_page(const Canvas& canvas, double from_px) const {
    const Look& look = canvas.look;
    const Rect area = page_area(look.layout);
    canvas.picture.push_back(Clip{area});
    add_rect(canvas.picture, area, look.colours.paper);
    const Rect box{std::round(area.x + look.u(40)), area.y - from_px, area.w - look.u(72),
                   HUGE_VAL};
    const double foot = view_ == View::progress  ? paint_progress(canvas, box)
                        : view_ == View::lesson  ? paint_lesson(canvas, box)
                        : stage_ == Stage::slope ? paint_slope_drill(canvas, box)
                                                 : paint_end(canvas, box);
    canvas.picture.push_back(Clip{});
    return foot + look.type(24);
}

/// What the session comes to: the finding, its picture, one thing to do, what it cost.
double PractiseMode::paint_end(const Canvas& canvas, const Rect& box) const {
    const Look& look = canvas.look;
    const Palette& c = look.colours;
    Brush brush(canvas);
    const EndWords words = end_words(*session_, look.units);
    double y = box.y + look.type(40);
    brush.write(words.counts, Face::sans, 19, box.x, y, c.ink2);
    y = brush.paragraph(words.finding, Face::book, 34, box.x, y + look.type(8), box.w, 42, c.ink);
    const SessionEnd& end = session_->end();
    if (session_->finding().share)
        y = draw_shares(canvas.picture, session_->finding(), end.shares,
                        {box.x, y + look.type(14), box.w, 0}, look);
    if (end.putts == 0) return y;
    y += look.type(18);
    brush.rule(box.x, y, box.w, false);
    y = brush.paragraph(words.instruction, Face::book, 27, box.x, y + look.type(8), box.w, 34,
                        c.ink);
    if (!words.dearer.empty())
        y = brush.paragraph(words.dearer, Face::book, 22, box.x, y + look.type(4), box.w, 28,
                            c.ink);
    y = brush.paragraph(words.costs, Face::sans, 18, box.x, y + look.type(6), box.w, 25, c.ink2);
    if (!words.home) return y;
    y = brush.paragraph(words.home->words, Face::book, 22, box.x, y + look.type(10), box.w, 28,
                        c.ink);
    return paint_home(canvas, box, y);
}

/// The word that goes to Measure and begins the drill there.
double PractiseMode::paint_home(const Canvas& canvas, const Rect& box, double y) {
    const Look& look = canvas.look;
    const double high = look.type(is_small(look.layout) ? 51 : 44);
    Brush(canvas).word({"begin the drill", What::measured, 0, false, 18}, box.x,
                       y + high / 2 + look.type(6));
    canvas.targets.back().hit = {box.x, y, box.w, high};
    return y + high;
}

double PractiseMode::paint_progress(const Canvas& canvas, const Rect& box) const {
    const Look& look = canvas.look;
    const std::size_t n = progress_->lost.size();
    const double y = box.y + look.type(36);
    Brush(canvas).write(counted(n, "putt") + " practised", Face::sans, 19, box.x, y,
                        look.colours.ink2);
    const double foot =
        draw_progress(canvas.picture, *progress_, {box.x, y, box.w, HUGE_VAL}, look);
    return progress_->at_home ? paint_home(canvas, box, foot) : foot;
}

namespace {

/// A level on the ground seen from above, in front of the player: its low end points where the
/// ground falls, and beneath it lies as the slope is, five times as steep.
class LevelDial : private Brush {
  public:
    LevelDial(const Canvas& canvas, const Vec2& centre) : Brush(canvas), at_(centre) {}

    void paint(const std::string& name, std::optional<double> slope,
               std::optional<double> falls_deg, Colour ink) {
        add_ring(picture_, at_, radius(), u(1.4), c_.rule);
        const char* const hours[] = {"12", "3", "6", "9"};
        for (int i = 0; i < 4; ++i) {
            const Vec2 out = hour(90.0 * i);
            picture_.push_back(
                Line{{at_ + radius() * out, at_ + (radius() - u(8)) * out}, u(1.6), c_.ink2});
            const Vec2 word = at_ + (radius() + type(16)) * out;
            write(hours[i], Face::sans, 16, word.x(), word.y() + type(5), c_.ink2, Align::centre);
        }
        write("away from you", Face::sans, 16, at_.x(), at_.y() - radius() - type(30), c_.ink2,
              Align::centre);
        write(name, Face::sans_bold, 17, at_.x(), at_.y() + radius() + type(52), ink,
              Align::centre);
        if (falls_deg) {
            const Vec2 half = 0.72 * radius() * hour(*falls_deg);
            draw_fall_line(picture_, at_ - half, at_ + half, look_);
        }
        if (slope) bar(*slope, ink);
    }

  private:
    double radius() const { return u(84); }
    static Vec2 hour(double clockwise_deg) {
        const double rad = clockwise_deg * std::numbers::pi / 180;
        return {std::sin(rad), -std::cos(rad)};
    }

    /// From the side: high on the left, a bubble at its high end.
    void bar(double slope, Colour ink) {
        constexpr double steeper = 5, most_rad = 0.6;
        const double turn = std::min(std::atan(steeper * slope), most_rad);
        const Vec2 centre = at_ + Vec2(0, radius() + type(96));
        const Vec2 along(std::cos(turn), std::sin(turn)), half = u(80) * along;
        picture_.push_back(
            Line{{centre - Vec2(u(96), 0), centre + Vec2(u(96), 0)}, u(1.2), c_.rule});
        picture_.push_back(Line{{centre - half, centre + half}, u(12), ink});
        const double off = std::min(1.0, slope / 0.04);
        picture_.push_back(Disc{centre - off * 0.7 * half, u(4.5), c_.paper});
        write(fmt::format("{:.1f} %", 100 * slope), Face::book, 25, at_.x(), centre.y() + type(62),
              ink, Align::centre);
    }

    Vec2 at_;
};

}  // namespace

/// What to do, the level as felt and as laid down, and what came of the spot.
double PractiseMode::paint_slope_drill(const Canvas& canvas, const Rect& box) const {
    const Look& look = canvas.look;
    Brush brush(canvas);
    double y = brush.paragraph(slope_drill_words, Face::book, 23, box.x, box.y + look.type(26),
                               box.w, 23 * 1.3, look.colours.ink);
    const SlopeSpot spot = spot_seen();
    const double middle = y + look.type(74) + look.u(84);
    const auto dial = [&](double share, const char* name, int first, Colour ink) {
        const auto at = static_cast<std::size_t>(first);
        LevelDial(canvas, {std::round(box.x + share * box.w), middle})
            .paint(name, spot.value[at], spot.value[at + 1], ink);
    };
    dial(0.25, "as you feel it", 0, look.colours.heather);
    dial(0.75, "as the level lies", 2, look.colours.ink);
    y = middle + look.u(84) + look.type(176);
    return brush.paragraph(spot_told() ? slope_words_ : "", Face::book, 25, box.x, y, box.w,
                           25 * 1.3, look.colours.heather);
}

}  // namespace dewtrail
