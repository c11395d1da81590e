#include "viewer/paper/ladder_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <stdexcept>
#include <utility>

#include "viewer/comparison/ladder.hpp"
#include "viewer/paper/page.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/putt/trail.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

constexpr double aim_size = 15.5, pace_size = 13, ladder_small_size = 12.5,
                 ladder_heading_size = 18;
constexpr double left_room = 44;  // of the fall line's symbol, left of the holes
constexpr double side_gap = 10, ball_radius = 4.2;
constexpr double heading_height = 40, band_gap = 10;
constexpr double least_above = 17, below = 17;  // a rung's line, and its words
constexpr double tasks_height = 112, note_line = 17;
constexpr double much_smaller = 1.5;  // than the width allows: start lines are cut short
constexpr double useless = 1.6;       // than the width allows: putts are left out
constexpr double behind_m = 0.05;     // a trail that goes back so far is not drawn
constexpr const char* not_drawn = ", not drawn";
constexpr const char *cut_words = "Where a start line stops, it goes on straight to its aim spot.",
                     *left_out_words = "Not drawn: it breaks too much for this page.";

/// One putt: the words at its ball, and what is drawn, metres from the hole toward the ball (x) and
/// to the right as the player looks (y).
struct Rung {
    double distance_m = 0;
    std::string aim = "no line", pace;
    std::vector<Vec2> trail;
    std::optional<double> aim_m;
    double highest_m = 0;  ///< of the trail
    bool drawn = true;     ///< else only told

    double aim_height_m() const { return std::max(highest_m, aim_m.value_or(0)); }
    void leave_out() {
        drawn = false;
        aim += not_drawn;
    }
};

Rung rung_of(const Ladder& ladder, const LadderFall& fall, double distance_m, const Units& units) {
    Rung rung{.distance_m = distance_m};
    const auto read = ladder_read(ladder.ground, fall, distance_m, ladder.usual_past_m);
    if (!read) return rung;
    rung.aim_m = read->aim_offset_m;
    rung.aim = rung.aim_m ? aim_short(*rung.aim_m, units) : "no spot";
    rung.pace = format_level_putt(read->level_putt_m, units);
    Setup setup = ladder.ground;
    set_distance_and_clock(setup, distance_m, fall.clock_h);
    const Putt putt = putt_of(setup);
    for (const Vec2& at : Trail(*read).line(60)) {
        const PlayerPoint p = in_player_frame(putt, at);
        if (p.along_m > distance_m) break;  // over the hole: the page ends soon behind it
        rung.trail.emplace_back(distance_m - p.along_m, p.offset_m);
        rung.highest_m = std::max(rung.highest_m, p.offset_m);
        if (p.along_m < -behind_m && rung.drawn) rung.leave_out();
    }
    return rung;
}

class LadderPainter {
  public:
    LadderPainter(const Ladder& ladder, Paper paper, const Units& units)
        : ladder_(ladder), paper_(paper), units_(units) {
        std::vector<double>& lengths = ladder_.distances_m;
        std::sort(lengths.begin(), lengths.end());
        lengths.erase(std::unique(lengths.begin(), lengths.end()), lengths.end());
        for (const LadderFall& fall : ladder_falls) {
            bands_.emplace_back();
            for (const double distance : ladder_.distances_m)
                bands_.back().push_back(rung_of(ladder_, fall, distance, units));
        }
    }

    Picture paint(LadderPlace* place) {
        choose_scale();
        Page page(paper_, head(), units_);
        page_ = &page;
        double y = page.body().y + 4;
        if (place) *place = {{hole_x(), y + heading_height}, scale_};
        for (std::size_t i = 0; i < bands_.size(); ++i) y = draw_band(i, y) + band_gap;
        write_tasks(y);
        return page.take();
    }

  private:
    PageHead head() const {
        return {fmt::format("Ladder for today, {} slope", slope_figure(ladder_.ground, units_)),
                fmt::format("stimp {}   ·   finish {}", stimp_figure(ladder_.ground, units_),
                            finish_words(ladder_.ground, units_)),
                scale_};
    }

    double hole_x() const { return page_->body().x + left_room; }
    double px(double metres) const { return metres * units_per_m / scale_; }
    double height_for(double metres) const {
        return std::max(least_above, px(metres) + ball_radius + 3);
    }
    /// Cut start lines end where the page does not leave room for more.
    double above(const Rung& rung) const {
        if (!rung.drawn) return least_above;
        const double whole = height_for(rung.aim_height_m());
        return cut_ ? std::min(whole, height_for(rung.highest_m) + spare_) : whole;
    }
    bool is_cut(const Rung& rung) const {
        return rung.drawn && rung.aim_m && above(rung) < height_for(*rung.aim_m);
    }
    template <class Is>
    bool any(const Is& is) const {
        for (const auto& band : bands_)
            if (std::any_of(band.begin(), band.end(), is)) return true;
        return false;
    }
    bool any_cut() const {
        return any([&](const Rung& rung) { return is_cut(rung); });
    }
    bool any_left_out() const {
        return any([](const Rung& rung) { return !rung.drawn; });
    }

    /// The largest at which all bands fit; trails count for more than where start lines end.
    void choose_scale() {
        const Page probe(paper_, head(), units_);
        if (fits_at(probe, much_smaller)) return;
        cut_ = true;
        while (!fits_at(probe, useless)) leave_out_the_highest();
        share_what_is_left(probe.body().h);
    }

    /// Whether the page is high enough for a scale that is not so many times smaller than its width
    /// allows.
    bool fits_at(const Page& probe, double times) {
        scale_to_width(probe);
        const double smallest = times * scale_;
        while (height() > probe.body().h) scale_ = next(scale_);
        return scale_ <= smallest;
    }

    static int next(int scale) { return scale + (scale < 60 ? 4 : 10); }

    void scale_to_width(const Page& probe) {
        double words = 0;
        for (const auto& band : bands_)
            for (const Rung& rung : band)
                words = std::max({words, probe.width_of(rung.aim, Face::book, aim_size),
                                  probe.width_of(rung.pace, Face::sans, pace_size)});
        const double wide = probe.body().w - left_room - words - 2 * side_gap;
        for (scale_ = 16; px(ladder_.distances_m.back()) > wide;) scale_ = next(scale_);
    }

    void leave_out_the_highest() {
        Rung* highest = nullptr;
        for (auto& band : bands_)
            for (Rung& rung : band)
                if (rung.drawn && (!highest || rung.highest_m > highest->highest_m))
                    highest = &rung;
        highest->leave_out();
    }

    /// Gives the cut start lines the height that is left, each as much.
    void share_what_is_left(double most) {
        while (any_cut() && height() <= most) ++spare_;
        if (height() > most) --spare_;
    }

    /// One line, so that there is room for it on any page.
    std::string note() const {
        std::string words = any_cut() ? cut_words : "";
        if (any_left_out()) words += (words.empty() ? "" : " ") + std::string(left_out_words);
        return words;
    }

    double tasks() const { return tasks_height + (note().empty() ? 0 : note_line); }

    double height() const {
        double sum = tasks();
        for (const auto& band : bands_) {
            sum += heading_height + band_gap;
            for (const Rung& rung : band) sum += above(rung) + below;
        }
        return sum;
    }

    /// Returns where it ends.
    double draw_band(std::size_t index, double top) {
        const auto& band = bands_[index];
        const LadderFall& fall = ladder_falls[index];
        page_->text({page_->body().x, top + 17}, fall.words, Face::book, ladder_heading_size,
                    colours().ink);
        double bottom = top + heading_height;
        std::vector<Rect> words;
        for (const Rung& rung : band) {
            bottom += above(rung) + below;
            for (const Text& text : words_of(rung, {ball_x(rung), bottom - below}))
                words.push_back(rect_of(text, page_->look().width).grown(2));
        }
        draw_uprights(band, top + heading_height, words);
        write_lengths(top + heading_height - 6);
        fall_line(fall, {page_->body().x + 15, (top + heading_height + bottom) / 2});
        double y = top + heading_height;
        for (const Rung& rung : band) {
            y += above(rung);
            draw(rung, y);
            y += below;
        }
        return bottom;
    }

    double ball_x(const Rung& rung) const { return hole_x() + px(rung.distance_m); }

    /// From the lengths down to the balls, beside the words of other balls.
    void draw_uprights(const std::vector<Rung>& band, double top, const std::vector<Rect>& words) {
        double bottom = top;
        for (const Rung& rung : band) {
            bottom += above(rung) + below;
            const double x = ball_x(rung);
            for (auto& piece : outside({{x, top}, {x, bottom - below}}, words))
                page_->picture().push_back(Line{std::move(piece), 0.8, colours().height_label});
        }
    }

    std::array<Text, 2> words_of(const Rung& rung, const Vec2& ball) const {
        return {Text{rung.aim, Face::book, aim_size, ball + Vec2(side_gap, -1), colours().copper},
                Text{rung.pace, Face::sans, pace_size, ball + Vec2(side_gap, 14), colours().ink}};
    }

    /// At their uprights; those that would meet are written together: '19 ft, 20 ft'.
    void write_lengths(double baseline) {
        struct Group {
            std::string words;
            double from, to;  ///< uprights
            double middle() const { return (from + to) / 2; }
        };
        std::vector<Group> groups;
        const auto half = [&](const Group& group) {
            return page_->width_of(group.words, Face::sans, ladder_small_size) / 2 + 4;
        };
        for (const double distance : ladder_.distances_m) {
            const double x = hole_x() + px(distance);
            groups.push_back({format_distance(distance, units_), x, x});
            while (groups.size() > 1) {
                Group &last = groups.back(), &before = groups[groups.size() - 2];
                if (before.middle() + half(before) <= last.middle() - half(last)) break;
                before = {before.words + ", " + last.words, before.from, last.to};
                groups.pop_back();
            }
        }
        for (const Group& group : groups) {
            const double w = half(group);
            page_->text({std::clamp(group.middle(), page_->body().x + w, page_->body().right() - w),
                         baseline},
                        group.words, Face::sans, ladder_small_size, colours().ink2, Align::centre);
        }
    }

    /// Which way the ground falls when the ball lies to the right of the hole.
    void fall_line(const LadderFall& fall, const Vec2& middle) {
        const double turn = fall.clock_h * M_PI / 6;
        const Vec2 uphill(std::cos(turn), -std::sin(turn));
        constexpr double half = 15;
        draw_fall_line(page_->picture(), middle + half * uphill, middle - half * uphill,
                       page_->look());
    }

    void draw(const Rung& rung, double y) {
        Picture& picture = page_->picture();
        const Vec2 hole(hole_x(), y);
        const auto at = [&](const Vec2& m) { return hole + Vec2(px(m.x()), -px(m.y())); };
        const Vec2 ball = at({rung.distance_m, 0});
        picture.push_back(Line{{hole, ball}, 0.8, colours().height_label});
        std::vector<Vec2> trail;
        for (const Vec2& m : rung.trail) trail.push_back(at(m));
        if (rung.drawn && trail.size() > 1) picture.push_back(Line{trail, 1.8, colours().trail});
        if (rung.drawn && rung.aim_m)
            picture.push_back(Line{
                {ball, start_line_end(rung, ball, at({0, *rung.aim_m}))}, 1.2, colours().copper});
        draw_hole(picture, hole, std::max(2.5, px(hole_radius_m)), page_->look());
        if (rung.drawn && rung.aim_m && px(*rung.aim_m) > 7 && !is_cut(rung))
            draw_diamond(picture, at({0, *rung.aim_m}), 5, page_->look(), colours().copper,
                         colours().paper);
        draw_ball(picture, ball, ball_radius, page_->look());
        for (const Text& text : words_of(rung, ball))
            if (!text.words.empty()) draw_map_text(picture, text, page_->look(), colours().paper);
    }

    Vec2 start_line_end(const Rung& rung, const Vec2& ball, const Vec2& aim) const {
        if (!is_cut(rung)) return aim;
        return ball + std::min(1.0, (above(rung) - 2) / (ball.y() - aim.y())) * (aim - ball);
    }

    void write_tasks(double y) {
        const Rect& body = page_->body();
        page_->rule(y);
        const std::string near = format_distance(ladder_.distances_m.front(), units_),
                          far = format_distance(ladder_.distances_m.back(), units_);
        page_->text({body.x, y += 18},
                    "Read it from the ball: up the page is right. A ball on the other side of the "
                    "fall line aims as far left.",
                    Face::sans, pace_size, colours().ink);
        page_->text({body.x, y += 17},
                    fmt::format("First line: aim, cups from the edge or {} from the centre. Second "
                                "line: the level putt of that pace.",
                                units_.metric ? "cm" : "inches"),
                    Face::sans, pace_size, colours().ink2);
        if (!note().empty())
            page_->text({body.x, y += note_line}, note(), Face::sans, pace_size, colours().ink2);
        const std::string tasks[] = {
            "Guess the aims in cups before you look. Mark how many you had right.",
            fmt::format("{} at 1:30 and at 4:30: hardly another slope. See which breaks more.",
                        far),
            fmt::format("{} at 3 and at 9: a mirror. Same aim, other side.", near)};
        y += 4;
        for (const std::string& task : tasks) {
            page_->text({body.x, y += 22}, task, Face::sans, pace_size, colours().ink);
            page_->boxes(body.right(), y, 10);
        }
    }

    const Palette& colours() const { return page_->look().colours; }

    Ladder ladder_;
    Paper paper_;
    Units units_;
    std::vector<std::vector<Rung>> bands_;  ///< by fall
    Page* page_ = nullptr;
    int scale_ = 12;
    bool cut_ = false;
    double spare_ = 0;  ///< of the page's height, for each start line that is cut
};

}  // namespace

std::vector<double> usual_rungs_m(bool metric) {
    if (metric) return {1, 2, 4, 6};
    std::vector<double> rungs;
    for (const int feet : {4, 8, 12, 20}) rungs.push_back(feet * metres_per_foot);
    return rungs;
}

std::optional<std::string> no_ladder_words(const Ladder& ladder, const Units& units) {
    std::optional<std::string> why;
    for (const LadderFall& fall : ladder_falls)
        for (const double distance : ladder.distances_m) {
            why = no_ladder_read(ladder.ground, fall, distance, ladder.usual_past_m, units);
            if (!why) return why;
        }
    return why;
}

Picture ladder_page(const Ladder& ladder, Paper paper, const Units& units, LadderPlace* place) {
    if (ladder.distances_m.empty() || ladder.distances_m.size() > most_rungs)
        throw std::invalid_argument("ladder_page: needs one to five distances");
    if (!clock_of(ladder.ground))
        throw std::invalid_argument("ladder_page: level ground has no fall");
    return LadderPainter(ladder, paper, units).paint(place);
}

}  // namespace dewtrail
