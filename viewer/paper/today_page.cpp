#include "viewer/paper/today_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <stdexcept>

#include "greens/contours.hpp"
#include "greens/input_error.hpp"
#include "viewer/paper/page.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/putt/trail.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

constexpr double level_below = 0.00125;  // what is told as 0 %
constexpr double inside_m = 0.25;        // of the outline: a ball
constexpr double share_inside = 0.42;    // of its side: the middle of a square that counts
constexpr double row_height = 26, today_text_size = 16, today_small_size = 13;
constexpr int trail_pieces = 160;
constexpr int steps_of_square = 8;  // in yards or metres, at most

class TodayPainter {
  public:
    TodayPainter(const std::vector<Setup>& putts, double player_past_m, Paper paper,
                 const Units& units)
        : first_(putts.front()), green_(*first_.green), paper_(paper), units_(units) {
        if (small()) return;
        putts_ = putts;
        for (const Setup& putt : putts)
            solved_.push_back(solve(putt, player_past_m, Effort::settled));
    }

    Picture paint() {
        const Rect body = pane(Page(paper_, head(1), units_));
        const Box box = box_round(green_.outline.corners());
        const int scale =
            fitting_scale(box.size(), {body.w, body.h}, small() ? round_scale : scales[0]);
        Page page(paper_, head(scale), units_);
        page_ = &page;
        camera_.centre_m = box.middle();
        camera_.centre_px = pane(page).centre();
        camera_.px_per_m = units_per_m / scale;
        side_m_ = side_of_square();
        for (const Solved& solved : solved_)
            if (solved.read) {
                auto& trail = trails_px_.emplace_back();
                for (const Vec2& at : Trail(*solved.read).line(trail_pieces))
                    trail.push_back(camera_.to_px(at));
            }
        draw_grid(box);
        draw_squares(box);
        draw_green();
        write_legend(pane(page).bottom() + (small() ? 14 : 20));
        if (!small()) write_table();
        return page.take();
    }

  private:
    bool small() const { return paper_ == Paper::pocket; }

    PageHead head(int scale) const {
        PageHead head;
        head.title = printable(green_.name);
        head.subtitle = fmt::format("today: {}, stimp {}", hole_called(first_.hole_name),
                                    stimp_figure(first_, units_));
        if (!small() && alike()) head.subtitle += ", " + finish_words(first_, units_);
        head.scale = scale;
        head.name_line = false;
        return head;
    }

    /// Whether all balls are to finish in the same way.
    bool alike() const {
        return std::all_of(putts_.begin(), putts_.end(), [this](const Setup& putt) {
            return finish_words(putt, units_) == finish_words(first_, units_);
        });
    }

    Rect pane(const Page& page) const {
        const Rect& body = page.body();
        const double words = small() ? 34 : 62 + row_height * static_cast<double>(putts_.size());
        const double margin = small() ? 4 : 14;
        return {body.x + margin, body.y + margin, body.w - 2 * margin, body.h - words - 2 * margin};
    }

    /// Whole yards or metres, so large that an arrow and a figure go into it.
    double side_of_square() const {
        const double unit = units_.metric ? 1 : 3 * metres_per_foot;
        const double least = (small() ? 22 : 40) / camera_.px_per_m;
        for (int n = 1; n < steps_of_square; ++n)
            if (n * unit >= least) return n * unit;
        return steps_of_square * unit;
    }

    /// The multiple of the square's side at or below it.
    Vec2 corner_below(const Vec2& at) const {
        return {std::floor(at.x() / side_m_) * side_m_, std::floor(at.y() / side_m_) * side_m_};
    }

    /// Lines as far as the green goes.
    void draw_grid(const Box& box) {
        const Vec2 first = corner_below(box.least);
        const double w = box.most.x() - first.x(), h = box.most.y() - first.y();
        for (double x = 0; x < w; x += side_m_) draw_inside(first + Vec2(x, 0), {0, 1}, h);
        for (double y = 0; y < h; y += side_m_) draw_inside(first + Vec2(0, y), {1, 0}, w);
    }

    void draw_inside(const Vec2& from, const Vec2& way, double length) {
        constexpr double step_m = 0.05;
        std::vector<Vec2> piece;
        const auto finish = [&] {
            if (piece.size() > 1)
                page_->picture().push_back(
                    Line{{piece.front(), piece.back()}, 0.4, colours().contour});
            piece.clear();
        };
        for (double s = 0; s < length + step_m; s += step_m) {
            const Vec2 at = from + s * way;
            if (green_.outline.inside_by(at) > 0)
                piece.push_back(camera_.to_px(at));
            else
                finish();
        }
        finish();
    }

    void draw_squares(const Box& box) {
        const Vec2 first = corner_below(box.least);
        for (double x = first.x(); x < box.most.x(); x += side_m_)
            for (double y = first.y(); y < box.most.y(); y += side_m_) draw_square({x, y});
    }

    /// The fall in it and how steep that is, where both have their place on the green.
    void draw_square(const Vec2& corner) {
        const Vec2 middle = corner + Vec2(side_m_, side_m_) / 2;
        if (green_.outline.inside_by(middle) < share_inside * side_m_) return;
        const double side = side_m_ * camera_.px_per_m;
        const Vec2 at = camera_.to_px(middle);
        if (taken(at, side)) return;
        const Vec2 gradient = green_.surface->at(middle.x(), middle.y()).gradient();
        const double size = small() ? 8 : 12.5, up = small() ? 3 : 6;
        std::string words = format_slope(gradient.norm());
        words = words.substr(0, words.find(' '));
        const Vec2 base = at + Vec2(0, side / 2 - 3);
        const double wide = page_->width_of(words, Face::sans, size);
        if (!on_the_green(Rect{base.x() - wide / 2, base.y() - size, wide, size}.grown(1))) return;
        page_->text(base, words, Face::sans, size, colours().ink, Align::centre);
        if (gradient.norm() < level_below)
            add_ring(page_->picture(), at - Vec2(0, up), 3, 1, colours().ink);
        else
            draw_arrow(at - Vec2(0, up), camera_.direction_px(-gradient.normalized()), 0.22 * side,
                       gradient.norm());
    }

    bool on_the_green(const Rect& box) const {
        const Vec2 corners[] = {{box.x, box.y},
                                {box.right(), box.y},
                                {box.x, box.bottom()},
                                {box.right(), box.bottom()}};
        return std::all_of(std::begin(corners), std::end(corners), [&](const Vec2& px) {
            return green_.outline.inside_by(camera_.to_green(px)) > 0;
        });
    }

    /// The steeper, the thicker.
    void draw_arrow(const Vec2& at, const Vec2& way, double half, double slope) {
        Picture& picture = page_->picture();
        const double width = (small() ? 0.5 : 1) * std::clamp(0.7 + 60 * slope, 0.8, 3.0);
        const double head = std::min(0.7 * half, 3 + 1.6 * width);
        const Vec2 tip = at + half * way, across(-way.y(), way.x());
        picture.push_back(Line{{at - half * way, tip - head * way}, width, colours().trail});
        picture.push_back(Polygon{
            {tip, tip - head * way + 0.55 * head * across, tip - head * way - 0.55 * head * across},
            colours().trail});
    }

    /// Whether the hole or a ball lies in the square, or a trail runs over its arrow or figure.
    bool taken(const Vec2& middle_px, double side) const {
        const Rect square =
            Rect{middle_px.x() - side / 2, middle_px.y() - side / 2, side, side}.grown(small() ? 2
                                                                                               : 8);
        const auto in_it = [&](const Vec2& at) { return square.contains(camera_.to_px(at)); };
        if (in_it(first_.hole) || std::any_of(putts_.begin(), putts_.end(),
                                              [&](const Setup& putt) { return in_it(putt.ball); }))
            return true;
        const Rect words = Rect{middle_px.x(), middle_px.y() + side / 2 - 8, 0, 0}.grown(9);
        const Rect arrow = Rect{middle_px.x(), middle_px.y() - 6, 0, 0}.grown(6);
        for (const std::vector<Vec2>& trail : trails_px_)
            for (const Vec2& at : trail)
                if (words.contains(at) || arrow.contains(at)) return true;
        return false;
    }

    void draw_green() {
        Picture& picture = page_->picture();
        std::vector<Vec2> edge;
        for (const Vec2& corner : green_.outline.corners()) edge.push_back(camera_.to_px(corner));
        picture.push_back(Line{edge, small() ? 0.8 : 1.6, colours().ink, true});
        for (const std::vector<Vec2>& trail : trails_px_) {
            picture.push_back(Line{trail, 4.2, colours().paper});
            picture.push_back(Line{trail, 2.2, colours().copper});
        }
        draw_hole(picture, camera_.to_px(first_.hole), small() ? 2.6 : 6, page_->look());
        for (std::size_t i = 0; i < putts_.size(); ++i) {
            const Vec2 at = camera_.to_px(putts_[i].ball);
            picture.push_back(Disc{at, 10, colours().ink});
            picture.push_back(Disc{at, 8.8, colours().paper});
            page_->text(at + Vec2(0, 4.6), std::to_string(i + 1), Face::sans_bold, today_small_size,
                        colours().ink, Align::centre);
        }
    }

    void write_legend(double baseline) {
        const std::string side = units_.metric
                                     ? fmt::format("{:.0f} m", side_m_)
                                     : fmt::format("{:.0f} ft", side_m_ / metres_per_foot);
        page_->paragraph(
            {page_->body().x, baseline},
            fmt::format("Arrows point downhill, figures are percent; a square is {}; up the page "
                        "is bearing 0°.{}",
                        side, small() ? "" : " Lines are the ways of the balls."),
            Face::sans, small() ? 9.5 : today_small_size, colours().ink2, page_->body().w);
    }

    void write_table() {
        const Rect& body = page_->body();
        double y = body.bottom() - row_height * static_cast<double>(putts_.size()) - 6;
        for (std::size_t i = 0; i < putts_.size(); ++i, y += row_height) {
            page_->hairline(y, body.x, body.right());
            write_row(i, y + 18);
        }
    }

    /// 'left, ', for a ball that has a name.
    std::string name_of_ball(const Vec2& at) const {
        for (const auto& [name, place] : green_.balls)
            if (place == at) return printable(name) + ", ";
        return "";
    }

    /// 'far, 45 ft 9 in, ball at 2:15, 3 in past'
    std::string where(const Setup& putt) const {
        std::string words = name_of_ball(putt.ball) + distance_figure(putt, units_);
        if (clock_of(putt)) words += ", ball at " + clock_figure(putt);
        return alike() ? words : words + ", " + finish_words(putt, units_);
    }

    void write_row(std::size_t i, double base) {
        const Rect& body = page_->body();
        const double aim_x = body.x + 0.43 * body.w;
        const Read* read = solved_[i].read ? &*solved_[i].read : nullptr;
        page_->text({body.x, base}, std::to_string(i + 1), Face::sans_bold, today_text_size,
                    colours().ink);
        page_->text_within(aim_x - body.x - 30, {body.x + 22, base}, where(putts_[i]), Face::book,
                           today_text_size, colours().ink);
        if (!read)
            return page_->text_within(body.right() - aim_x, {aim_x, base},
                                      trouble_of(solved_[i], units_).words, Face::book,
                                      today_text_size, colours().ink);
        page_->text({aim_x, base},
                    read->aim_offset_m ? aim_words(*read->aim_offset_m, units_) : "no aim spot",
                    Face::book, today_text_size, colours().copper);
        page_->text({body.right(), base},
                    "play it as " + format_level_putt(read->level_putt_m, units_), Face::book,
                    today_text_size, colours().ink, Align::right);
    }

    const Palette& colours() const { return page_->look().colours; }

    const Setup& first_;
    const Green& green_;
    Paper paper_;
    Units units_;
    std::vector<Setup> putts_;  ///< none on pocket paper
    std::vector<Solved> solved_;
    std::vector<std::vector<Vec2>> trails_px_;
    Page* page_ = nullptr;
    PlanCamera camera_;
    double side_m_ = 1;
};

}  // namespace

Picture today_page(const std::vector<Setup>& putts, double player_past_m, Paper paper,
                   const Units& units) {
    if (putts.empty() || putts.size() > most_balls)
        throw std::invalid_argument("today_page: needs one to three putts");
    if (!putts.front().green) throw std::invalid_argument("today_page: the putt is on no green");
    return TodayPainter(putts, player_past_m, paper, units).paint();
}

std::vector<Vec2> usual_balls(const Green& green, const Vec2& hole) {
    constexpr double away_m = 10 * metres_per_foot, apart_m = 1;
    std::vector<Vec2> balls;
    const auto add = [&](const Vec2& ball) {
        const bool apart = std::all_of(balls.begin(), balls.end(), [&](const Vec2& other) {
            return (other - ball).norm() > apart_m;
        });
        if (balls.size() < most_balls && apart && (ball - hole).norm() > apart_m &&
            green.outline.inside_by(ball) > inside_m)
            balls.push_back(ball);
    };
    for (const auto& [name, ball] : green.balls) add(ball);
    for (int hour = 0; hour < 12; ++hour) add(hole + away_m * clock_direction(5.0 * hour));
    return balls;
}

}  // namespace dewtrail
