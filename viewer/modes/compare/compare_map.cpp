#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/modes/compare/compare_mode.hpp"
#include "viewer/modes/compare/compare_style.hpp"
#include "viewer/picture/labels.hpp"
#include "viewer/picture/map/ground.hpp"
#include "viewer/picture/map/plan_picture.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr double hole_from_top_u = 112, ball_from_bottom_u = 52;

/// In the putt's own line style.
void add_styled(Picture& picture, const std::vector<Vec2>& line, std::size_t i, double width,
                Colour colour, const Look& look) {
    const CompareStyle& s = compare_style(i);
    if (line.size() < 2) return;
    add_dashes(picture, line, look.u(s.dash), look.u(s.gap), width, colour);
}

}  // namespace

Rect CompareMode::map() const {
    const Layout& l = shell_.layout();
    const double top = l.top_bar.bottom();
    if (l.portrait) {  // all down to the sentence is in sight, or to the buttons at least
        constexpr double panel_u = 470;
        const double room = l.roll_strip.y - top;
        return {0, top, l.width,
                std::round(std::clamp(room - l.type(panel_u), 0.3 * room, 0.44 * room))};
    }
    return {0, top, std::round(0.34 * l.width), l.roll_strip.y - top};
}

/// Along the line the picture is true; across it, so many times wider.
double CompareMode::px_per_m() const {
    return (map().h - shell_.layout().type(hole_from_top_u) -
            shell_.layout().type(ball_from_bottom_u)) /
           longest_m();
}

double CompareMode::longest_m() const {
    double longest = 0;
    for (const ComparedPutt& putt : comparison_.putts)
        longest = std::max(longest, putt.plan.putt.distance_m());
    return longest;
}

/// `from_hole`: along beyond the hole, offset to its right.
Vec2 CompareMode::px_of(const PlayerPoint& from_hole) const {
    const Rect box = map();
    const Vec2 hole(std::round(box.x + 0.42 * box.w),
                    box.y + shell_.layout().type(hole_from_top_u));
    return hole + px_per_m() * Vec2(stretch_ * from_hole.offset_m, -from_hole.along_m);
}

PlayerPoint CompareMode::from_hole(std::size_t i, const Vec2& place) const {
    const Putt& putt = comparison_.putts[i].plan.putt;
    PlayerPoint at = in_player_frame(putt, place);
    at.along_m -= putt.distance_m();
    return at;
}

/// Where the roll of a putt runs until then.
std::vector<Vec2> CompareMode::trail_px(std::size_t i, double time_s) const {
    std::vector<Vec2> line;
    if (!trails_[i].empty())
        for (const Vec2& at : trails_[i].line(std::min(time_s, trails_[i].end_s())))
            line.push_back(px_of(from_hole(i, at)));
    return line;
}

void CompareMode::paint_map(const Canvas& canvas) const {
    Picture& picture = canvas.picture;
    const Look& look = canvas.look;
    const Palette& c = look.colours;
    const Rect box = map();
    add_gradient(picture, box, grass_at(0, 0, c), grass_at(1, 0, c), grass_at(1, 1, c),
                 grass_at(0, 1, c));
    picture.push_back(Clip{box});
    add_dew(picture, box, {}, 0, {}, look);
    add_dashes(picture, {px_of({-longest_m(), 0}), px_of({0, 0})}, look.u(1.8), look.u(6.7),
               look.u(1.5), c.ink2);
    for (const PlayedPutts& played : told() ? played_ : std::vector<PlayedPutts>())
        for (const PlayedStroke& stroke : played.strokes)
            if (!stroke.outcome.holed)
                picture.push_back(
                    Disc{px_of(stroke.end), look.u(3.5),
                         faded(played.share_of_break < 1 ? c.heather : c.trail, 0.75)});
    draw_trails(picture, look);
    // Stretched like everything else, which shows the stretch honestly.
    const double r = std::max(hole_radius_m * px_per_m(), look.u(8));
    std::vector<Vec2> rim = circle_points(Vec2::Zero(), r),
                      pale = circle_points(Vec2::Zero(), r + look.u(3));
    for (auto* points : {&pale, &rim})
        for (Vec2& p : *points) p = px_of({0, 0}) + Vec2(p.x() * stretch_, p.y());
    picture.push_back(Polygon{pale, c.hole_ring});
    picture.push_back(Polygon{rim, c.hole});
    draw_aims(picture, look);
    draw_balls(picture, look);
    const std::string words = fmt::format("sideways ×{}", stretch_);
    const Text text{
        words,
        Face::sans,
        look.type(17),
        {std::round(box.right() - look.u(24)), std::round(box.bottom() - look.type(20))},
        c.ink2,
        Align::right};
    draw_map_text(picture, text, look, surface_colour(c));
    const Rect hit = rect_of(text, look.width).grown(look.u(8));
    Brush brush(canvas);
    brush.target(What::stretch, 0, hit);
    brush.focus_bar(What::stretch, 0, {hit.x, hit.bottom() - look.u(4), hit.w, 0});
    picture.push_back(Clip{});
    add_rect(picture, {box.right(), box.y, 1, box.h}, c.rule);
}

/// The point that those aim at who are shown what comes of it.
std::optional<Vec2> CompareMode::apex_px() const {
    const Read* stroke = shown_putt(0).shown();
    if (compared_.show != "apex" || !told() || !stroke || !stroke->apex) return std::nullopt;
    const double distance = shown_putt(0).plan.putt.distance_m();
    return px_of({stroke->apex->along_m - distance, stroke->apex->offset_m});
}

void CompareMode::draw_trails(Picture& picture, const Look& look) const {
    if (!told()) return;
    for (std::size_t i = trails_.size(); i-- > 0;) {
        const std::vector<Vec2> line = trail_px(i, shell_.playback.time_s);
        if (line.size() < 2) continue;
        if (i == 0) {
            draw_trail(picture, line, look.u(8), look);
            continue;
        }
        picture.push_back(Line{line, look.u(8), faded(surface_colour(look.colours), 0.8)});
        add_styled(picture, line, i, look.u(5), compare_colour(i, look.colours), look);
    }
    if (const auto apex = apex_px())
        draw_apex(picture, *apex, {apex->x() > px_of({0, 0}).x() ? 1.0 : -1.0, 0}, 10, look,
                  surface_colour(look.colours));
}

/// Start lines, aims and guesses, with their names above the hole leaning away from each other.
void CompareMode::draw_aims(Picture& picture, const Look& look) const {
    const Colour surface = surface_colour(look.colours);
    std::vector<Label> labels;
    std::vector<Rect> obstacles;
    for (std::size_t i = comparison_.putts.size(); i-- > 0;) {
        const ComparedPutt& putt = shown_putt(i);
        const Read* stroke = putt.shown();
        const Colour colour = compare_colour(i, look.colours);
        const double distance = putt.plan.putt.distance_m();
        if (const auto& guess = compared_.guesses[i]; guess && !swapped_) {
            const Vec2 at = px_of({0, guess->offset_m});
            add_dashes(picture, {px_of({-distance, 0}), at}, look.u(2), look.u(6), look.u(1.3),
                       colour);
            draw_diamond(picture, at, 6, look, faded(colour, 0.7), surface);
            obstacles.push_back({at.x() - look.u(8), at.y() - look.u(8), look.u(16), look.u(16)});
        }
        if (!stroke || !stroke->aim_offset_m || !told()) continue;
        const Vec2 at = px_of({0, *stroke->aim_offset_m});
        add_styled(picture, {px_of({-distance, 0}), at}, i, look.u(1.6), colour, look);
        draw_diamond(picture, at, 9, look, colour, surface);
        obstacles.push_back({at.x() - look.u(12), at.y() - look.u(12), look.u(24), look.u(24)});
        labels.push_back(
            {"aim",
             {{aim_short(*stroke->aim_offset_m, look.units), Face::book, look.type(22), colour}},
             at,
             look.u(18),
             {Side::above, Side::right, Side::left}});
        labels.back().must = true;
        labels.back().leader = true;
    }
    const Vec2 hole = px_of({0, 0});
    const double r = std::max(hole_radius_m * px_per_m(), look.u(8));
    obstacles.push_back({hole.x() - stretch_ * r, hole.y() - r, 2 * stretch_ * r, 2 * r});
    labels.push_back({"hole",
                      {{"hole", Face::sans, look.type(18), look.colours.ink}},
                      hole,
                      stretch_ * r + look.u(6),
                      {Side::left, Side::right}});
    labels.push_back({"ball",
                      {{"ball", Face::sans, look.type(18), look.colours.ink}},
                      px_of({-longest_m(), 0}),
                      look.u(14),
                      {Side::left, Side::right, Side::below}});
    if (const auto apex = apex_px()) {
        labels.push_back({"apex",
                          {{"apex", Face::sans_bold, look.type(17), look.colours.trail}},
                          *apex,
                          look.u(20),
                          {Side::right, Side::left, Side::below}});
        labels.back().must = labels.back().leader = true;
    }
    for (std::size_t i = 0; i < trails_.size() && told(); ++i)
        add_obstacles(obstacles, trail_px(i, trails_[i].end_s()), look.u(5));
    if (rolled_ && frozen()) add_rest_labels(labels, look);
    draw_labels(picture, place_labels(labels, obstacles, map(), look.width), look, surface);
}

/// When it freezes: what has dropped, and how far the others still have to go.
void CompareMode::add_rest_labels(std::vector<Label>& labels, const Look& look) const {
    for (std::size_t i = 0; i < trails_.size(); ++i) {
        if (trails_[i].empty()) continue;
        const bool dropped = trails_[i].holed() && trails_[i].end_s() <= freeze_s_;
        const Vec2 at = trails_[i].at(shell_.playback.time_s).at;
        const double to_go = (at - comparison_.putts[i].plan.putt.hole).norm();
        labels.push_back({"rest",
                          {{dropped ? "dropped" : format_length(to_go, look.units) + " to go",
                            Face::sans_bold, look.type(17), compare_colour(i, look.colours)}},
                          px_of(from_hole(i, at)),
                          look.u(20),
                          {Side::right, Side::left, Side::below}});
        labels.back().must = true;
        labels.back().leader = true;
    }
}

void CompareMode::draw_balls(Picture& picture, const Look& look) const {
    draw_ball(picture, px_of({-longest_m(), 0}), look.u(7), look);
    for (std::size_t i = trails_.size(); i-- > 0;) {
        if (trails_[i].empty() || shell_.playback.time_s <= 0 || !told()) continue;
        const double t = std::min(shell_.playback.time_s, trails_[i].end_s());
        if (trails_[i].holed() && t >= trails_[i].end_s()) continue;
        const Vec2 at = px_of(from_hole(i, trails_[i].at(t).at));
        picture.push_back(Disc{at, look.u(9.5), compare_colour(i, look.colours)});
        picture.push_back(Disc{at, look.u(6), rgb(0xFFFFFF)});
    }
}

}  // namespace dewtrail
