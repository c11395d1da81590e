#include "viewer/picture/widgets/word_pictures.hpp"

#include <cmath>
#include <utility>

#include "viewer/picture/symbols.hpp"

namespace dewtrail {
namespace {

/// Draws in a square of 100 by 100. Most words are shown on one putt: ball below, hole above, the
/// path a curve that leaves along the start line.
class WordPen {
  public:
    WordPen(const Rect& square, const Look& look)
        : square_(square), look_(look), c_(look.colours) {}

    Picture take() { return std::move(picture_); }

    void aim_spot() {
        putt(true);
        draw_diamond(picture_, at(aim_), 8, look_, c_.copper, c_.paper);
    }
    void stand_in_hole() {
        putt(true);
        draw_dashed_ring(picture_, at({77, 28}), px(9), look_, c_.paper);
    }
    void start_spot() {
        putt(true);
        draw_start_bar(picture_, at({57, 75}), (at(aim_) - at(ball_)).normalized(), look_,
                       c_.paper);
    }
    void apex() {
        putt(true);
        draw_apex(picture_, at(on_path(0.5)), {1, 0}, 8, look_, c_.paper);
    }
    void fall_line() {
        draw_hole(picture_, at({50, 50}), px(9), look_);
        draw_fall_line(picture_, at({50, 8}), at({50, 90}), look_);
    }
    void finish() {
        add_dashes(picture_, {at({50, 94}), at({50, 18})}, look_.u(3), look_.u(4), look_.u(1.6),
                   c_.ink2);
        draw_hole(picture_, at({50, 62}), px(9), look_);
        draw_ball(picture_, at({50, 18}), px(7), look_);
        span({78, 62}, {78, 18});
    }
    void room() {
        picture_.push_back(Polygon{{at(ball_), at({34, 8}), at({66, 8})}, faded(c_.copper, 0.25)});
        for (const double x : {34, 66}) line(ball_, {x, 8}, c_.copper);
        draw_hole(picture_, at(hole_), px(9), look_);
        draw_ball(picture_, at(ball_), px(7), look_);
    }
    void ball_at() {
        dial("12", "3");
        draw_hole(picture_, at(dial_), px(7), look_);
        draw_ball(picture_, at(dial_ + Vec2(30, 0)), px(7), look_);
        draw_drop(picture_, at(dial_ + Vec2(0, 32)), {0, -1}, px(6), c_.ink);
    }
    void bearing() {
        dial("0", "90");
        const Vec2 way(0.6, 0.8);
        line(dial_, dial_ + 24 * way, c_.ink);
        draw_drop(picture_, at(dial_ + 30 * way), -way, px(6), c_.ink);
    }
    /// Total and clock; along and across; three rows.
    void faces() {
        line({8, 20}, {38, 20}, c_.rule);
        line({8, 8}, {38, 24}, c_.ink);
        draw_drop(picture_, at({42, 26}), Vec2(-0.9, -0.45), px(5), c_.ink);
        dot({76, 16});
        for (const Vec2& way : {Vec2(0, -14), Vec2(15, 0)}) {
            line({22, 54}, Vec2(22, 54) + way, c_.ink);
            picture_.push_back(Disc{at(Vec2(22, 54) + way), px(3.5), c_.ink});
        }
        dot({76, 50});
        for (const double x : {10, 23, 36}) line({x, 78}, {x + 6, 90}, c_.ink);
        dot({76, 84});
    }

  private:
    double px(double hundredths) const { return square_.w * hundredths / 100; }
    Vec2 at(const Vec2& p) const { return {square_.x + px(p.x()), square_.y + px(p.y())}; }

    void line(const Vec2& from, const Vec2& to, Colour colour) {
        picture_.push_back(Line{{at(from), at(to)}, look_.u(1.8), colour});
    }
    void dot(const Vec2& p) { add_ring(picture_, at(p), px(5), look_.u(1.6), c_.ink2); }

    /// A measure with its two ends.
    void span(const Vec2& from, const Vec2& to) {
        line(from, to, c_.ink2);
        for (const Vec2& end : {from, to}) line(end - Vec2(4, 0), end + Vec2(4, 0), c_.ink2);
    }

    void dial(const char* above, const char* right) {
        add_ring(picture_, at(dial_), px(30), look_.u(1.4), c_.ink2);
        const double size = look_.type(15);
        picture_.push_back(Text{above, Face::sans, size, at({40, 14}), c_.ink2, Align::centre});
        picture_.push_back(Text{right, Face::sans, size, at({84, 50}) + Vec2(0, size / 3), c_.ink2,
                                Align::centre});
    }

    /// A parabola from ball to hole; it sets off along the start line.
    Vec2 on_path(double t) const {
        const Vec2 ahead(70, 44);
        return (1 - t) * (1 - t) * ball_ + 2 * t * (1 - t) * ahead + t * t * hole_;
    }

    void putt(bool start_line) {
        add_dashes(picture_, {at(ball_), at(hole_)}, look_.u(1.6), look_.u(5), look_.u(1.4),
                   c_.ink2);
        std::vector<Vec2> path;
        for (int i = 0; i <= 20; ++i) path.push_back(at(on_path(i / 20.0)));
        picture_.push_back(Line{path, look_.u(4), c_.trail});
        if (start_line) line(ball_, aim_, c_.copper);
        draw_hole(picture_, at(hole_), px(9), look_);
        draw_ball(picture_, at(ball_), px(7), look_);
    }

    Rect square_;
    const Look& look_;
    const Palette& c_;
    Picture picture_;
    const Vec2 ball_{50, 90}, hole_{50, 16}, aim_{82, 16}, dial_{40, 50};
};

constexpr std::pair<std::string_view, void (WordPen::*)()> drawn[] = {
    {"aim spot", &WordPen::aim_spot},
    {"stand-in hole", &WordPen::stand_in_hole},
    {"start spot", &WordPen::start_spot},
    {"apex", &WordPen::apex},
    {"fall line", &WordPen::fall_line},
    {"finish", &WordPen::finish},
    {"room", &WordPen::room},
    {"ball at", &WordPen::ball_at},
    {"drops toward", &WordPen::bearing},
    {"three dots", &WordPen::faces}};

}  // namespace

Picture word_picture(std::string_view word, const Rect& square, const Look& look) {
    WordPen pen(square, look);
    for (const auto& [name, draw] : drawn)
        if (name == word) (pen.*draw)();
    return pen.take();
}

}  // namespace dewtrail
