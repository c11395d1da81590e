#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "physics/surface/surface.hpp"
#include "viewer/modes/practise/practise_mode.hpp"
#include "viewer/picture/map/eye_ground.hpp"
#include "viewer/picture/map/eye_picture.hpp"
#include "viewer/picture/map/ground.hpp"
#include "viewer/picture/portrait.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/text/english.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr double least_cup_u = 9, least_cup_by_eye_u = 6;
constexpr int most_cups = 6, most_cups_by_eye = 12;

std::string drill_words(const LessonPlan& plan) {
    if (plan.occasion == Occasion::day) return "putt of the day";
    if (plan.occasion == Occasion::week) return "ten-putt test";
    if (!plan.set.empty()) return "fixed set";
    return lower_case(kind_of(plan.drill).called);
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
    return s;
}

Surround PractiseMode::surround() const {
    const bool page = has_page() && view_ != View::progress;
    return {{"Eye", "Plan", "Progress"},
            page ? -1 : static_cast<int>(view_),
            view_ == View::lesson    ? "lesson"
            : stage_ == Stage::slope ? "slope"
                                     : drill_words(session_->plan())};
}

void PractiseMode::prepare(const Look& look, Picture& ground) {
    if (view_ == View::progress) progress();
    note_.lay_out(
        look, shell_.attention(), look.layout.note,
        [this](const Canvas& canvas, double from_px) { return paint_note(canvas, from_px); });
    if (has_page())
        return page_.lay_out(
            look, shell_.attention(), page_area(look.layout),
            [this](const Canvas& canvas, double from_px) { return paint_page(canvas, from_px); });
    const Solved shown = seen();
    const double share = truth_share();
    const bool eye = view_ == View::eye;
    const Rect& pane = look.layout.green;
    MapView view;
    view.taught = false;
    view.slope_told = slope_told();
    view.fall_told = slope_told() || !eye;
    view.marks_share = share;
    view.marks_shown = share > 0;
    view.time_s = share * truth_trail_.end_s();
    if (share > 0) view.avoid = player_boxes(look);
    const Trail& trail = share > 0 ? truth_trail_ : Trail();
    plan_ = eye ? eye_picture(shown, trail, eye_, EyePlace::crouched, pane, view, look, labels_)
                : plan_picture(shown, trail, camera_, pane, view, look, labels_);
    GroundState now = ground_state(setup_, truth_.putt.hole, shell_.dusk(), look);
    now.distance_m = truth_.putt.distance_m();
    now.clock_h = setup_.clock_h;
    now.slope = shown.putt.slope_at_hole();
    now.contours = contours_seen();
    if (eye)
        now.eye = eye_;
    else
        now.plan = camera_;
    std::vector<Rect> boxes;
    if ((share <= 0 || share >= 1) && !shell_.dragging()) {  // heights find their places at rest
        Picture answer;
        if (share >= 1) draw_answer(answer, look);
        now.clear = plan_.taken;
        boxes = boxes_of_words(plan_.picture, look);
        for (const Rect& box : boxes_of_words(answer, look)) boxes.push_back(box);
        now.clear.insert(now.clear.end(), boxes.begin(), boxes.end());
    }
    if (!shell_.ground_changed(ground_, now)) return;
    ground = eye ? eye_ground(shown, eye_, pane, look, contours_seen())
                 : plan_ground(shown, camera_, pane, plan_.taken, look, boxes, contours_seen());
}

void PractiseMode::paint(const Canvas& canvas) const {
    Picture& picture = canvas.picture;
    if (has_page()) {
        page_.paint(canvas);
    } else {
        picture = plan_.picture;
        picture.push_back(Clip{canvas.look.layout.green});
        draw_answer(picture, canvas.look);
        picture.push_back(Clip{});
        if (stage_ == Stage::asking)
            paint_pace(canvas);
        else
            draw_roll_strip(canvas, shell_.playback, played_trail_);
        if (!canvas.look.layout.portrait) paint_setting(canvas);
    }
    note_.paint(canvas);
}

/// Where the player's ball runs until then, on the screen.
std::vector<Vec2> PractiseMode::played_px(double time_s) const {
    std::vector<Vec2> line;
    if (!played_trail_.empty())
        for (const Vec2& at : played_trail_.line(time_s))
            if (const auto px = px_of(at)) line.push_back(*px);
    return line;
}

/// What the player did: the trail, the diamond, the ball at rest.
std::vector<Rect> PractiseMode::player_boxes(const Look& look) const {
    std::vector<Rect> boxes;
    const std::vector<Vec2> line = played_px(played_trail_.end_s());
    add_obstacles(boxes, line, look.u(6));
    const auto keep_clear = [&](const Vec2& at, double reach_u) {
        boxes.push_back(Rect{at.x(), at.y(), 0, 0}.grown(look.u(reach_u)));
    };
    if (const auto aim = aim_px()) keep_clear(*aim, std::max(14.0, aim_half_u(look) + 3));
    if (!line.empty()) keep_clear(line.back(), 14);
    return boxes;
}

/// Of the player's diamond, units.
double PractiseMode::aim_half_u(const Look& look) const {
    if (truth_share() > 0) return 8;
    constexpr double usual_u = 11;
    const auto aim = aim_px(), hole = px_of(truth_.putt.hole);
    if (!aim || !hole) return usual_u;
    return diamond_half_u((*aim - *hole).norm(), plan_.marks.hole_px, usual_u, look);
}

void PractiseMode::draw_answer(Picture& picture, const Look& look) const {
    const auto aim = aim_px();
    const auto ball = px_of(truth_.putt.ball);
    const Colour heather = look.colours.heather, surface = surface_colour(look.colours);
    std::vector<Rect> rail;
    if (stage_ == Stage::asking) {
        rail = draw_rail(picture, look);
        name_ends_of_rail(picture, look, rail);
    }
    if (stage_ != Stage::asking) draw_played(picture, look);
    if (!aim) return;
    if (ball)
        add_dashes(picture, {*ball, *aim}, look.u(11), look.u(7), look.u(2.6),
                   faded(heather, stage_ == Stage::asking ? 1 : 0.7));
    draw_diamond(picture, *aim, aim_half_u(look), look, heather, surface);
    if (shell_.focused(What::answer, answer_aim))
        add_ring(picture, *aim, look.u(24), look.u(1.4), look.colours.copper);
    draw_names(picture, look, rail);
}

/// Cups edge to edge from the hole, both ways, lying on the ground. They are counted from the rim,
/// as in words: where the second one ends, there it is '2 cups out', and there stands the number.
/// Returns where all of that stands.
std::vector<Rect> PractiseMode::draw_rail(Picture& picture, const Look& look) const {
    const Putt& putt = truth_.putt;
    const bool eye = view_ == View::eye;
    const auto at = [&](double cups) {
        return px_of(place_of_aim(putt, 2 * hole_radius_m * cups));
    };
    const auto ball = px_of(putt.ball), hole = at(0), beside = at(1);
    if (!ball || !hole || !beside) return {};
    const double cup_px = (*beside - *hole).norm();
    const Colour faint = faded(look.colours.heather, eye ? 0.75 : 0.45);
    const int most = eye ? most_cups_by_eye : most_cups;
    if (cup_px < look.u(eye ? least_cup_by_eye_u : least_cup_u)) {
        picture.push_back(Line{{*at(-most), *at(most)}, look.u(1.3), faint});
        return {};
    }
    // Their numbers stand beyond them, or below where the eye looks along the ground.
    const Vec2 beyond = eye ? Vec2(0, 1) : Vec2((*hole - *ball).normalized());
    const double clear = look.type(18) + (eye ? look.u(4) : cup_px / 2);
    const double tick = eye ? look.u(7) : cup_px / 2;
    std::vector<Rect> numbers;
    add_obstacles(numbers, {at(-most).value_or(*hole), at(most).value_or(*hole)}, look.u(6));
    int every = 2;
    while (every < most_cups && every * cup_px < look.type(24)) ++every;
    for (const int side : {-1, 1})
        for (int i = 1; i <= most; ++i) {
            const Vec2 centre = place_of_aim(putt, side * i * 2 * hole_radius_m);
            std::vector<Vec2> ring;
            for (const Vec2& p : circle_points(centre, 0.95 * hole_radius_m))
                if (const auto px = px_of(p)) ring.push_back(*px);
            const auto edge = at(side * (i + 0.5));
            if (!edge || !look.layout.green.contains(*edge)) break;
            picture.push_back(Line{ring, look.u(1.3), faint, true});
            if (i % every != 0) continue;
            picture.push_back(Line{{*edge, *edge + tick * beyond}, look.u(1.3), faint});
            const Vec2 by = *edge + clear * beyond;
            const Text number{std::to_string(i),    Face::sans,
                              look.type(16),        {std::round(by.x()), std::round(by.y())},
                              look.colours.heather, Align::centre};
            numbers.push_back(rect_of(number, look.width));
            draw_map_text(picture, number, look, surface_colour(look.colours));
        }
    return numbers;
}

/// 'left' and 'right' beyond its ends, where the plan shows them another way than the player does.
void PractiseMode::name_ends_of_rail(Picture& picture, const Look& look,
                                     std::vector<Rect>& taken) const {
    const auto right = right_where_turned(camera_, truth_.putt);
    if (view_ == View::eye || !right) return;
    for (const int side : {-1, 1}) {
        const Vec2 end =
            camera_.to_px(place_of_aim(truth_.putt, side * (most_cups + 0.5) * 2 * hole_radius_m));
        const Text word = set_beside(
            {side < 0 ? "left" : "right", Face::sans, look.type(16), end, look.colours.heather},
            end, side * *right, look.u(8), look.width);
        if (!look.layout.green.holds(rect_of(word, look.width))) continue;
        taken.push_back(rect_of(word, look.width));
        draw_map_text(picture, word, look, surface_colour(look.colours));
    }
}

/// As far as it has rolled, and the ball there.
void PractiseMode::draw_played(Picture& picture, const Look& look) const {
    if (played_trail_.empty()) return;
    const Playback& playback = shell_.playback;
    const std::vector<Vec2> line = played_px(playback.time_s);
    const Colour heather = look.colours.heather, surface = surface_colour(look.colours);
    if (line.size() > 1) {
        picture.push_back(Line{line, look.u(9), faded(surface, 0.8)});
        add_dashes(picture, line, look.u(11), look.u(7), look.u(5), heather);
    }
    const auto at = px_of(played_trail_.at(playback.time_s).at);
    if (!at) return;
    const double sunk = played_trail_.sunk(playback.time_s);
    if (!playback.complete())
        return draw_ball(picture, *at, std::max(look.u(7), plan_.marks.ball_px) * (1 - 0.3 * sunk),
                         look, false, sunk);
    if (played_trail_.holed()) return;
    picture.push_back(Disc{*at, look.u(13.5), surface});
    picture.push_back(Disc{*at, look.u(11.5), heather});
    picture.push_back(Disc{*at, look.u(7), rgb(0xFFFFFF)});
}

/// The player's marks by name, where nothing else is.
void PractiseMode::draw_names(Picture& picture, const Look& look,
                              const std::vector<Rect>& rail) const {
    const Colour heather = look.colours.heather;
    std::vector<Label> labels;
    const auto aim = aim_px();
    if (aim && stage_ == Stage::asking)
        labels.push_back(
            {"aim",
             {{gives_aim() ? "the line" : "your aim spot", Face::sans_bold, look.type(18), heather},
              {said_.aim.words(look.units), Face::book, look.type(25), heather}},
             *aim,
             look.u(std::max(20.0, aim_half_u(look) + 8))});
    const auto rest = px_of(played_trail_.empty() ? truth_.putt.ball
                                                  : played_trail_.at(played_trail_.end_s()).at);
    if (rest && (told() || stage_ == Stage::told) && !played_trail_.holed()) {
        const Vec2 from = played_trail_.at(played_trail_.end_s()).at - truth_.putt.hole;
        labels.push_back({"rest",
                          {{"your ball, " + format_length(from.norm(), look.units) + " away",
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
    obstacles.insert(obstacles.end(), rail.begin(), rail.end());
    const std::vector<Rect> mine = player_boxes(look);
    obstacles.insert(obstacles.end(), mine.begin(), mine.end());
    if (const auto flag = flag_top(truth_.putt, eye_, look.layout.green, look),
        foot = px_of(truth_.putt.hole);
        flag && foot && view_ == View::eye)
        add_obstacles(obstacles, {*flag, *foot}, look.u(12));
    if (const auto ball = px_of(truth_.putt.ball); ball && aim)
        add_obstacles(obstacles, {*ball, *aim}, look.u(3));
    const auto placed = place_labels(labels, obstacles, look.layout.green, look.width);
    draw_labels(picture, placed, look, surface_colour(look.colours));
}

/// The long ruler of the pace.
void PractiseMode::paint_pace(const Canvas& canvas) const {
    const Look& look = canvas.look;
    const Palette& c = look.colours;
    const Units& units = look.units;
    Picture& picture = canvas.picture;
    Brush brush(canvas);
    const Rect& strip = look.layout.roll_strip;
    add_rect(picture, strip, c.paper2);
    add_rect(picture, {strip.x, strip.y, strip.w, 1}, c.rule);
    const Rect r = pace_ruler();
    const Colour ink = gives_pace() ? c.copper : c.heather;
    if (!look.layout.portrait)
        brush.write(gives_pace() ? "The pace" : "Your pace", Face::sans_bold, 17,
                    strip.x + look.u(40), r.y + look.type(6), ink);
    picture.push_back(Line{{{r.x, r.y}, {r.right(), r.y}}, look.u(1.3), c.ink2});
    const double most = most_pace_m(), unit = units.metric ? 1 : metres_per_foot;
    const double x = r.x + r.w * std::clamp(said_.level_putt_m / most, 0.0, 1.0);
    const std::string figure = format_distance(said_.level_putt_m, units);
    const double figure_w = brush.width(figure, Face::sans_bold, 17);
    const int all = static_cast<int>(std::lround(most / unit));
    int every = 1;
    while (r.w * every / all < look.type(70)) every *= 2;
    for (int i = 0; i <= all; ++i) {
        const double at = std::round(r.x + r.w * i / all);
        picture.push_back(
            Line{{{at, r.y - look.u(i % every == 0 ? 8 : 5)}, {at, r.y}}, look.u(1.3), c.ink2});
        if (i % every != 0 || std::abs(at - x) < figure_w / 2 + look.type(24)) continue;
        const std::string words =
            i == all ? fmt::format("{} {}", i, units.metric ? "m" : "ft") : std::to_string(i);
        brush.write(words, Face::sans, 16, at, r.y + look.u(7) + look.type(16), c.ink2,
                    i == all ? Align::right : Align::centre);
    }
    picture.push_back(Line{{{r.x, r.y}, {x, r.y}}, look.u(4.5), ink});
    add_rounded_rect(picture, {x - look.u(5), r.y - look.u(12), look.u(10), look.u(24)}, look.u(2),
                     brush.focused(What::answer, answer_pace) ? c.copper : ink);
    const double centre = std::clamp(x, r.x + figure_w / 2, r.right() - figure_w / 2);
    brush.write(figure, Face::sans_bold, 17, centre, r.y + look.u(11) + look.type(17), ink,
                Align::centre);
    if (!gives_pace()) brush.target(What::ruler, 0, r.grown(look.u(18)));
}

/// '12 ft, stimp 10, slope: read it', where there is no strip that says so.
std::string PractiseMode::setting_words() const {
    const auto words = [&](Field field) {
        const FieldState f = field_state(setup_, field, shell_.units());
        return f.figure + (f.unit.empty() ? "" : " " + f.unit);
    };
    std::string all = words(Field::distance) + ", stimp " + words(Field::stimp) + ", ";
    all += slope_told() ? words(Field::slope) : "slope: read it";
    if (clock_told()) all += ", ball at " + words(Field::ball_at);
    return all;
}

/// Distance, ball, stimp, finish and slope as they are; the slope is to be read.
void PractiseMode::paint_setting(const Canvas& canvas) const {
    const Look& look = canvas.look;
    const Palette& c = look.colours;
    Brush brush(canvas);
    const Rect& strip = look.layout.setup_strip;
    const double sides = look.u(72);
    add_rect(canvas.picture, strip, c.paper2);
    add_rect(canvas.picture, {strip.x + look.layout.margin(), strip.y, strip.w - sides, 1}, c.rule);
    const std::vector<Field> fields = {Field::distance, Field::ball_at, Field::stimp, Field::finish,
                                       Field::slope};
    const int rows = look.layout.field_rows, per_row = rows > 1 ? 3 : 5;
    const double pitch = (strip.w - sides) / per_row, row_h = strip.h / rows;
    for (std::size_t i = 0; i < fields.size(); ++i) {
        const auto column = static_cast<double>(i % per_row),
                   row = static_cast<double>(i / per_row);
        FieldState f = field_state(setup_, fields[i], look.units);
        const bool read_it = fields[i] == Field::slope     ? !slope_told()
                             : fields[i] == Field::ball_at ? !clock_told()
                                                           : false;
        if (read_it) f.figure = "read it", f.unit.clear();
        const double x = std::round(strip.x + look.layout.margin() + column * pitch);
        const double y = strip.y + row * row_h, base = std::round(y + look.type(58));
        brush.write(f.label, Face::sans, 17, x, y + look.type(26), c.ink2);
        const double size = brush.fitting(f.figure, Face::book, 28, pitch - look.u(12));
        brush.write(f.figure, Face::book, size, x, base, c.ink);
        const double unit_x =
            x + std::min(brush.width(f.figure, Face::book, 28), pitch) + look.u(6);
        if (unit_x + brush.width(f.unit, Face::sans, 17) < x + pitch)
            brush.write(f.unit, Face::sans, 17, unit_x, base, c.ink2);
    }
}

}  // namespace dewtrail
