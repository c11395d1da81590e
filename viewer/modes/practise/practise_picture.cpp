#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "physics/surface/surface.hpp"
#include "viewer/modes/practise/practise_mode.hpp"
#include "viewer/modes/practise/progress_picture.hpp"
#include "viewer/picture/map/eye_ground.hpp"
#include "viewer/picture/map/eye_picture.hpp"
#include "viewer/picture/map/ground.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr double least_cup_u = 9;
constexpr int most_cups = 6;

std::string drill_words(const LessonPlan& plan) {
    if (plan.occasion == Occasion::day) return "putt of the day";
    if (plan.occasion == Occasion::week) return "ten-putt test";
    if (!plan.set.empty()) return "fixed set";
    return plan.drill == Drill::read ? "whole read" : plan.drill == Drill::line ? "line" : "pace";
}

}  // namespace

/// The putt as far as it may be seen now.
Solved PractiseMode::seen() const {
    Solved s = truth_;
    if (truth_share() > 0) return s;
    s.read.reset();
    s.second.reset();
    s.instead.reset();
    s.none.reset();
    s.offer.reset();
    s.choices.clear();
    if (help_ == GroundHelp::eye_only && view_ == View::plan && stage_ == Stage::asking)
        s.putt.surface = std::make_shared<Plane>(Vec2::Zero());
    return s;
}

Frame PractiseMode::frame(const TextWidth& width) {
    const Look look = this->look(width);
    Frame frame;
    targets_.clear();
    Picture& picture = frame.picture;
    if (view_ == View::progress) {
        frame.ground_key = 1;
        draw_progress_view(picture, look);
    } else if (stage_ == Stage::slope) {
        frame.ground_key = 1;
        draw_slope_drill(picture, look);
    } else {
        draw_green(frame, look);
        if (stage_ == Stage::asking)
            draw_pace(picture, look);
        else
            draw_roll_strip(picture, targets_, playback_, played_trail_, attention(), look);
        draw_setting(picture, look);
    }
    draw_practise_note(
        picture, targets_,
        {*session_, stage_, said_, truth_, truth_share(), spot_, aim_unit(), typing_}, attention(),
        look);
    TopBarState top = top_bar_of_mode();
    top.views = {"Plan", "Eye", "Progress"};
    top.view = static_cast<int>(view_);
    top.name = stage_ == Stage::slope ? "slope" : drill_words(session_->plan());
    draw_top_bar(picture, targets_, top, attention(), look);
    draw_message_bar(picture, targets_, {message_, "Close"}, layout_.green, attention(), look);
    draw_sheet(picture, look);
    return frame;
}

void PractiseMode::draw_green(Frame& frame, const Look& look) {
    const Solved shown = seen();
    const double share = truth_share();
    MapView view;
    view.taught = false;
    view.slope_told = share > 0 || help_ == GroundHelp::told;
    view.marks_share = share;
    view.marks_shown = share > 0;
    view.time_s = share * truth_trail_.end_s();
    if (share > 0) view.avoid = player_boxes(look);
    const Trail& trail = share > 0 ? truth_trail_ : Trail();
    const bool eye = view_ == View::eye;
    plan_ = eye ? eye_picture(shown, trail, eye_, EyePlace::crouched, layout_.green, view, look,
                              labels_)
                : plan_picture(shown, trail, camera_, layout_.green, view, look, labels_);
    frame.picture = std::move(plan_.picture);
    frame.picture.push_back(Clip{layout_.green});
    draw_answer(frame.picture, look);
    frame.picture.push_back(Clip{});
    frame.ground_key = std::hash<std::string>{}(fmt::format(
        "{} {} {} {} {} {} {} {} {} {} {}", share >= 1, eye, static_cast<int>(help_),
        static_cast<int>(stage_), session_->question() ? session_->question()->number : 0, dusk_,
        text(), units().metric, camera_.px_per_m, layout_.green.w, layout_.green.h));
    if (frame.ground_key == last_ground_key_) return;
    last_ground_key_ = frame.ground_key;
    frame.ground =
        eye ? eye_ground(shown, eye_, layout_.green, look)
            : plan_ground(shown, camera_, layout_.green, plan_.taken, look,
                          share >= 1 ? boxes_of_words(frame.picture, look) : std::vector<Rect>());
}

/// What the player did: the trail, the diamond, the ball at rest.
std::vector<Rect> PractiseMode::player_boxes(const Look& look) const {
    std::vector<Rect> boxes;
    std::vector<Vec2> line;
    if (!played_trail_.empty())
        for (const Vec2& at : played_trail_.line(played_trail_.end_s()))
            if (const auto px = px_of(at)) line.push_back(*px);
    add_obstacles(boxes, line, look.u(6));
    if (const auto aim = px_of(place_of_aim(truth_.putt, said_.aim_m)))
        boxes.push_back({aim->x() - look.u(14), aim->y() - look.u(14), look.u(28), look.u(28)});
    if (!line.empty())
        boxes.push_back(
            {line.back().x() - look.u(14), line.back().y() - look.u(14), look.u(28), look.u(28)});
    return boxes;
}

void PractiseMode::draw_answer(Picture& picture, const Look& look) {
    const auto aim = px_of(place_of_aim(truth_.putt, said_.aim_m));
    const auto ball = px_of(truth_.putt.ball);
    const Colour heather = look.colours.heather, surface = surface_colour(look.colours);
    rail_boxes_.clear();
    if (view_ == View::plan && stage_ == Stage::asking) draw_rail(picture, look);
    if (stage_ != Stage::asking) draw_played(picture, look);
    if (stage_ == Stage::over || !aim) return;
    if (ball)
        add_dashes(picture, {*ball, *aim}, look.u(11), look.u(7), look.u(2.6),
                   faded(heather, stage_ == Stage::asking ? 1 : 0.7));
    const bool focused = focus_ && *focus_ == FocusStop::on(What::answer, answer_aim);
    const double half = truth_share() > 0 ? 8 : 11;
    draw_diamond(picture, *aim, half, look, heather, surface);
    if (focused || handle_ == Handle::aim)
        add_ring(picture, *aim, look.u(24), look.u(1.4), look.colours.copper);
    draw_names(picture, look);
}

/// Cups edge to edge from the hole, both ways, with every second one's number.
void PractiseMode::draw_rail(Picture& picture, const Look& look) {
    const double cup_m = 2 * hole_radius_m;
    const double cup_px = cup_m * camera_.px_per_m;
    const Vec2 beyond =
        (camera_.to_px(truth_.putt.hole) - camera_.to_px(truth_.putt.ball)).normalized();
    const Colour faint = faded(look.colours.heather, 0.45);
    if (cup_px < look.u(least_cup_u)) {
        const double rail = 0.12 * truth_.putt.distance_m();
        picture.push_back(Line{{camera_.to_px(place_of_aim(truth_.putt, -rail)),
                                camera_.to_px(place_of_aim(truth_.putt, rail))},
                               look.u(1.3),
                               faint});
        return;
    }
    int every = 2;
    while (every < most_cups && every * cup_px < look.type(20)) ++every;
    for (const int side : {-1, 1})
        for (int i = 1; i <= most_cups; ++i) {
            add_ring(picture, camera_.to_px(place_of_aim(truth_.putt, side * i * cup_m)),
                     cup_px / 2 - look.u(0.5), look.u(1.3), faint);
            if (i % every != 0) continue;
            const Vec2 edge =
                camera_.to_px(place_of_aim(truth_.putt, side * (i * cup_m + hole_radius_m)));
            const Vec2 at = edge + beyond * (cup_px / 2 + look.type(18));
            const Text number{
                std::to_string(i),    Face::sans,
                look.type(16),        {std::round(at.x()), std::round(at.y() + look.type(5))},
                look.colours.heather, Align::centre};
            rail_boxes_.push_back(rect_of(number, look.width));
            draw_map_text(picture, number, look, surface_colour(look.colours));
        }
}

/// As far as it has rolled, and the ball there.
void PractiseMode::draw_played(Picture& picture, const Look& look) {
    if (played_trail_.empty()) return;
    std::vector<Vec2> line;
    for (const Vec2& at : played_trail_.line(playback_.time_s))
        if (const auto px = px_of(at)) line.push_back(*px);
    const Colour heather = look.colours.heather, surface = surface_colour(look.colours);
    if (line.size() > 1) {
        picture.push_back(Line{line, look.u(9), faded(surface, 0.8)});
        add_dashes(picture, line, look.u(11), look.u(7), look.u(5), heather);
    }
    const auto at = px_of(played_trail_.at(playback_.time_s).at);
    if (!at) return;
    const double sunk = played_trail_.sunk(playback_.time_s);
    if (!playback_.complete())
        return draw_ball(picture, *at, std::max(look.u(7), plan_.marks.ball_px) * (1 - 0.3 * sunk),
                         look, false, sunk);
    if (played_trail_.holed()) return;
    picture.push_back(Disc{*at, look.u(13.5), surface});
    picture.push_back(Disc{*at, look.u(11.5), heather});
    picture.push_back(Disc{*at, look.u(7), rgb(0xFFFFFF)});
}

/// The player's marks by name, where nothing else is.
void PractiseMode::draw_names(Picture& picture, const Look& look) {
    const Colour heather = look.colours.heather;
    std::vector<Label> labels;
    const auto aim = px_of(place_of_aim(truth_.putt, said_.aim_m));
    if (aim && stage_ == Stage::asking)
        labels.push_back(
            {"aim",
             {{gives_aim() ? "the line" : "your aim spot", Face::sans_bold, look.type(18), heather},
              {aim_words(said_.aim_m, units(), aim_unit()), Face::book, look.type(25), heather}},
             *aim,
             look.u(20)});
    const auto rest = px_of(played_trail_.empty() ? truth_.putt.ball
                                                  : played_trail_.at(played_trail_.end_s()).at);
    if (rest && stage_ == Stage::told && !played_trail_.holed()) {
        const Vec2 from = played_trail_.at(played_trail_.end_s()).at - truth_.putt.hole;
        labels.push_back({"rest",
                          {{"your ball, " + format_length(from.norm(), units()) + " away",
                            Face::sans_bold, look.type(18), heather}},
                          *rest,
                          look.u(18)});
    }
    for (Label& label : labels) label.must = true;
    const auto name = [&](const char* words, const Vec2& place) {
        if (const auto at = px_of(place); at && truth_share() == 0)
            labels.push_back(
                {words, {{words, Face::sans, look.type(18), look.colours.ink}}, *at, look.u(20)});
    };
    name("hole", truth_.putt.hole);
    name("ball", truth_.putt.ball);
    std::vector<Rect> obstacles = plan_.taken;
    obstacles.insert(obstacles.end(), rail_boxes_.begin(), rail_boxes_.end());
    const std::vector<Rect> mine = player_boxes(look);
    obstacles.insert(obstacles.end(), mine.begin(), mine.end());
    if (const auto ball = px_of(truth_.putt.ball); ball && aim)
        add_obstacles(obstacles, {*ball, *aim}, look.u(3));
    const auto placed = place_labels(labels, obstacles, layout_.green, look.width);
    draw_labels(picture, placed, look, surface_colour(look.colours));
}

/// The long ruler of the pace.
void PractiseMode::draw_pace(Picture& picture, const Look& look) {
    const Palette& c = look.colours;
    const Rect& strip = layout_.roll_strip;
    add_rect(picture, strip, c.paper2);
    add_rect(picture, {strip.x, strip.y, strip.w, 1}, c.rule);
    const Rect r = pace_ruler();
    const Colour ink = gives_pace() ? c.copper : c.heather;
    picture.push_back(Text{gives_pace() ? "The pace" : "Your pace",
                           Face::sans_bold,
                           look.type(17),
                           {std::round(strip.x + look.u(40)), std::round(r.y + look.type(6))},
                           ink});
    picture.push_back(Line{{{r.x, r.y}, {r.right(), r.y}}, look.u(1.3), c.ink2});
    const double most = most_pace_m(), unit = units().metric ? 1 : metres_per_foot;
    const double x = r.x + r.w * std::clamp(said_.level_putt_m / most, 0.0, 1.0);
    const std::string figure = format_distance(said_.level_putt_m, units());
    const double figure_w = look.width(Face::sans_bold, look.type(17), figure);
    const int all = static_cast<int>(std::lround(most / unit));
    int every = 1;
    while (r.w * every / all < look.type(70)) every *= 2;
    for (int i = 0; i <= all; ++i) {
        const double at = std::round(r.x + r.w * i / all);
        picture.push_back(
            Line{{{at, r.y - look.u(i % every == 0 ? 8 : 5)}, {at, r.y}}, look.u(1.3), c.ink2});
        if (i % every != 0 || std::abs(at - x) < figure_w / 2 + look.type(24)) continue;
        const std::string words =
            i == all ? fmt::format("{} {}", i, units().metric ? "m" : "ft") : std::to_string(i);
        picture.push_back(Text{words,
                               Face::sans,
                               look.type(16),
                               {at, std::round(r.y + look.u(7) + look.type(16))},
                               c.ink2,
                               i == all ? Align::right : Align::centre});
    }
    picture.push_back(Line{{{r.x, r.y}, {x, r.y}}, look.u(4.5), ink});
    const bool focused = focus_ && *focus_ == FocusStop::on(What::answer, answer_pace);
    add_rounded_rect(picture, {x - look.u(5), r.y - look.u(12), look.u(10), look.u(24)}, look.u(2),
                     focused ? c.copper : ink);
    const double centre = std::clamp(x, r.x + figure_w / 2, r.right() - figure_w / 2);
    picture.push_back(Text{figure,
                           Face::sans_bold,
                           look.type(17),
                           {std::round(centre), std::round(r.y + look.u(11) + look.type(17))},
                           ink,
                           Align::centre});
    if (!gives_pace()) targets_.push_back({What::field, answer_pace, r.grown(look.u(18))});
}

/// Distance, ball, stimp, finish and slope as they are; the slope is to be read.
void PractiseMode::draw_setting(Picture& picture, const Look& look) {
    const Palette& c = look.colours;
    const Rect& strip = layout_.setup_strip;
    add_rect(picture, strip, c.paper2);
    add_rect(picture, {strip.x + look.u(40), strip.y, strip.w - look.u(72), 1}, c.rule);
    const bool told = truth_share() > 0 || help_ == GroundHelp::told;
    const std::vector<Field> fields = {Field::distance, Field::ball_at, Field::stimp, Field::finish,
                                       Field::slope};
    const int per_row = layout_.field_rows > 1 ? 3 : 5;
    const double pitch = (strip.w - look.u(72)) / per_row;
    const double row_h = strip.h / layout_.field_rows;
    for (std::size_t i = 0; i < fields.size(); ++i) {
        const auto column = static_cast<double>(i % per_row),
                   row = static_cast<double>(i / per_row);
        FieldState f = field_state(setup_, fields[i], units());
        if (fields[i] == Field::slope && !told) f.figure = "read it", f.unit.clear();
        const double x = std::round(strip.x + look.u(40) + column * pitch);
        const double y = strip.y + row * row_h;
        picture.push_back(
            Text{f.label, Face::sans, look.type(17), {x, std::round(y + look.type(26))}, c.ink2});
        const double base = std::round(y + look.type(58)), gap = look.u(6);
        const double full = look.width(Face::book, look.type(28), f.figure);
        const double size = look.type(28) * std::min(1.0, (pitch - look.u(12)) / full);
        picture.push_back(Text{f.figure, Face::book, size, {x, base}, c.ink});
        const double unit_x = x + std::min(full, pitch) + gap;
        if (unit_x + look.width(Face::sans, look.type(17), f.unit) < x + pitch)
            picture.push_back(
                Text{f.unit, Face::sans, look.type(17), {std::round(unit_x), base}, c.ink2});
        if (fields[i] == Field::slope && stage_ == Stage::asking)
            targets_.push_back({What::help_level, 0, {x - look.u(6), y, pitch, row_h}});
    }
}

/// What to do, and what came of the spot before.
void PractiseMode::draw_slope_drill(Picture& picture, const Look& look) {
    const Rect area{0, layout_.green.y, layout_.green.w, layout_.height - layout_.green.y};
    add_rect(picture, area, look.colours.paper);
    const double x = std::round(area.x + look.u(40)), w = area.w - look.u(72);
    double y = area.y + look.type(30);
    const auto paragraph = [&](const std::string& words, double size, Colour colour) {
        for (const auto& line : wrapped(words, Face::book, look.type(size), w, look.width)) {
            y += look.type(size * 1.3);
            picture.push_back(Text{line, Face::book, look.type(size), {x, std::round(y)}, colour});
        }
        y += look.type(18);
    };
    paragraph(slope_drill_words, 25, look.colours.ink);
    if (!slope_words_.empty()) paragraph(slope_words_, 27, look.colours.heather);
}

void PractiseMode::draw_progress_view(Picture& picture, const Look& look) {
    const Rect area{0, layout_.green.y, layout_.green.w, layout_.height - layout_.green.y};
    add_rect(picture, area, look.colours.paper);
    const double x = std::round(area.x + look.u(40)), top = area.y + look.type(58);
    const std::size_t n = progress().answers;
    picture.push_back(Text{fmt::format("{} putt{} practised", n, n == 1 ? "" : "s"),
                           Face::book,
                           look.type(34),
                           {x, std::round(top)},
                           look.colours.ink});
    const double from = top + look.type(14);
    draw_progress(picture, progress(), {x, from, area.w - look.u(72), area.bottom() - from}, look);
}

}  // namespace dewtrail
