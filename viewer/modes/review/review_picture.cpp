#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/modes/review/review_mode.hpp"
#include "viewer/picture/map/ground.hpp"
#include "viewer/picture/portrait.hpp"
#include "viewer/picture/symbols.hpp"
#include "viewer/picture/widgets/note_pen.hpp"
#include "viewer/picture/widgets/setup_strip.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {

class ReviewMode::NotePart : private NotePen {
  public:
    NotePart(const Canvas& canvas, const ReviewMode& mode, double from_px)
        : NotePen(canvas, from_px), m_(mode), from_px_(from_px) {}

    /// Returns where it ends.
    double paint() {
        open_panel();
        heading();
        rule(true);
        const RealPutt& putt = m_.putt_;
        said(review_end, "It stopped",
             putt.holed ? "in the hole"
             : putt.end ? m_.end_words()
                        : "put the ball down there",
             putt.end || putt.holed ? c_.heather : c_.ink2);
        said(review_aim, "You meant to aim", m_.meant_aim().words(look_.units), c_.copper);
        said(review_pace, "at the pace of", level_putt_words(m_.meant_level_putt_m(), look_.units),
             c_.copper);
        rule(false);
        for (const std::string& sentence : m_.sentences()) paragraph(sentence);
        if (m_.split_ && !putt.holed) causes();
        const char* go_on = "Log it, next putt";
        if (is_small(look_.layout))
            y_ = pinned_button(go_on);
        else
            button_at_foot(go_on);
        picture_.push_back(Clip{});
        return y_;
    }

  private:
    void heading() {
        const std::size_t kept = m_.kept_.size();
        y_ += type(44);
        write_within(
            width_,
            kept == 0 ? "Where did it stop?" : fmt::format("Putt {}: where did it stop?", kept + 1),
            Face::book, kept == 0 ? 30 : 26, x_, y_, c_.ink);
        y_ += type(16);
    }

    void said(int index, const std::string& label, const std::string& words, Colour ink) {
        const double top = y_;
        y_ += type(22);
        write(label, Face::sans, 16, x_, y_, c_.ink2);
        if (index == review_end)
            word({"it went in", What::holed, 0, m_.putt_.holed, 16, Align::right}, right(), y_);
        for (const auto& line : wrapped_evenly(words, Face::book, type(22), width_, look_.width)) {
            y_ += type(26);
            if (m_.shell_.typed_index(What::answer) != index)
                write(line, Face::book, 22, x_, y_, ink);
        }
        focus_bar(What::answer, index, {x_, y_ + u(6), width_, 0});
        y_ += type(9);
        Rect hit{x_ - u(34), top, width_ + u(34), y_ - top};
        if (index == review_end) hit.w -= type(90);
        targets_.push_back({What::answer, index, hit});
    }

    void paragraph(const std::string& words) {
        y_ = Brush::paragraph(words, Face::book, 20, x_, y_, width_, 24, c_.ink) + type(6);
    }

    /// Or below all there is to tell, which scrolls then.
    void button_at_foot(const std::string& words) {
        const double below = u(16) + type(22);
        const double foot = panel_.bottom() - from_px_ - below - button_height();
        y_ = button_at(std::max(y_ + type(12), foot), words, "Enter").bottom() + below;
    }

    void causes() {
        rule(false);
        y_ += type(20);
        const std::string scatter = "against your usual scatter", likely = "most likely";
        if (width(scatter + likely, Face::sans, 16) + u(12) < width_)
            write(scatter, Face::sans, 16, x_, y_, c_.ink2);
        write(likely, Face::sans, 16, right(), y_, c_.ink2, Align::right);
        const double level = std::max(m_.meant_level_putt_m() + m_.start_.usual_past_m, 0.1);
        const Doubts& d = m_.doubts_;
        const double usual[] = {d.slope, d.stimp_ft, d.line_rad,
                                std::hypot(d.pace, d.pace_floor_m / level)};
        const auto told = m_.split_->told_chances();
        for (const int i : {2, 3, 0, 1})  // line, pace, slope, green speed
            bar(static_cast<Cause>(i), m_.split_->parts[i], told[static_cast<std::size_t>(i)],
                usual[i]);
    }

    /// How far off, against the player's usual scatter, and how likely it moved the ball most.
    void bar(Cause cause, const Part& part, int chance, double usual) {
        y_ += type(21);
        write_within(width_ - type(60), cause_part_words(cause, part, m_.means_, look_.units),
                     Face::sans, 16, x_, y_, c_.ink2);
        write(fmt::format("{} %", chance), Face::book, 21, right(), y_, c_.ink, Align::right);
        const double y = std::round(y_ + u(15)), middle = x_ + width_ / 2;
        constexpr double reach_sds = 3;
        const double per_sd = width_ / 2 / reach_sds;
        add_rect(picture_, {middle - per_sd, y - u(6), 2 * per_sd, u(12)}, c_.rule);
        picture_.push_back(Line{{{x_, y}, {right(), y}}, u(1), c_.ink2});
        const double off = std::clamp(part.size / usual, -reach_sds, reach_sds) * per_sd;
        picture_.push_back(Line{{{middle, y}, {middle + off, y}}, u(4.5), c_.heather});
        add_rounded_rect(picture_, {middle + off - u(4), y - u(8), u(8), u(16)}, u(2), c_.heather);
        y_ += type(25);
    }

    const ReviewMode& m_;
    double from_px_;
};

/// Where the struck ball runs until then, on the screen.
std::vector<Vec2> ReviewMode::struck_px(double time_s) const {
    std::vector<Vec2> line;
    if (!struck_trail_.empty())
        for (const Vec2& at : struck_trail_.line(time_s)) line.push_back(camera_.to_px(at));
    return line;
}

/// The putt as it was meant.
void ReviewMode::prepare(const Look& look, Picture& ground) {
    note_.lay_out(look, shell_.attention(), look.layout.note,
                  [this](const Canvas& canvas, double from_px) {
                      return NotePart(canvas, *this, from_px).paint();
                  });
    Solved shown = read_;
    shown.read = meant_;
    shown.second.reset();
    shown.none.reset();
    shown.instead.reset();
    shown.choices.clear();
    MapView view;
    view.taught = false;
    view.slope = slope_figure(putt_.setup, look.units);
    view.aim = meant_aim().typed;
    view.time_s = struck_trail_.empty() ? shell_.playback.time_s : meant_trail_.end_s();
    add_obstacles(view.avoid, struck_px(struck_trail_.end_s()), look.u(6));
    if (putt_.end) {
        const Vec2 end = camera_.to_px(on_green(read_.putt, *putt_.end));
        view.avoid.push_back(Rect{end.x(), end.y(), 0, 0}.grown(look.u(15)));
    }
    const Rect& pane = look.layout.green;
    plan_ = plan_picture(shown, meant_trail_, camera_, pane, view, look, labels_);
    GroundState now = ground_state(putt_.setup, read_.putt.hole, shell_.dusk(), look);
    now.plan = camera_;
    now.distance_m = read_.putt.distance_m();
    now.clock_h = putt_.setup.clock_h;
    const bool rests = !shell_.dragging();  // heights find their places when it is let go
    std::vector<Rect> boxes;
    if (rests) {
        Picture words = plan_.picture;
        draw_end(words, look);
        boxes = boxes_of_words(words, look);
        now.clear = plan_.taken;
        now.clear.insert(now.clear.end(), boxes.begin(), boxes.end());
    }
    if (!shell_.ground_changed(ground_, now)) return;
    ground = plan_ground(shown, camera_, pane, plan_.taken, look, boxes);
}

void ReviewMode::paint(const Canvas& canvas) const {
    Picture& picture = canvas.picture;
    picture = plan_.picture;
    picture.push_back(Clip{canvas.look.layout.green});
    draw_end(picture, canvas.look);
    picture.push_back(Clip{});
    draw_roll_strip(canvas, shell_.playback, struck_trail_.empty() ? meant_trail_ : struck_trail_);
    draw_setup_strip(canvas, putt_.setup, true, shell_.typed_field());
    note_.paint(canvas);
}

/// The stroke that was struck, in dashes, and the ball where it stopped.
void ReviewMode::draw_end(Picture& picture, const Look& look) const {
    if (!putt_.end || putt_.holed) return;
    const Colour heather = look.colours.heather, surface = surface_colour(look.colours);
    const std::vector<Vec2> line = struck_px(shell_.playback.time_s);
    if (line.size() > 1) {
        picture.push_back(Line{line, look.u(9), faded(surface, 0.8)});
        add_dashes(picture, line, look.u(11), look.u(7), look.u(5), heather);
        if (!shell_.playback.complete()) draw_ball(picture, line.back(), look.u(7), look);
    }
    const Vec2 at = camera_.to_px(on_green(read_.putt, *putt_.end));
    picture.push_back(Disc{at, look.u(13.5), surface});
    picture.push_back(Disc{at, look.u(11.5), heather});
    picture.push_back(Disc{at, look.u(7), rgb(0xFFFFFF)});
    if (shell_.focused(What::answer, review_end))
        add_ring(picture, at, look.u(24), look.u(1.4), look.colours.copper);
    Label label{"end",
                {{"finished here", Face::sans_bold, look.type(18), heather},
                 {end_words(), Face::book, look.type(23), heather}},
                at,
                look.u(18)};
    label.must = true;
    std::vector<Rect> obstacles = plan_.taken;
    add_obstacles(obstacles, struck_px(struck_trail_.end_s()), look.u(6));
    obstacles.push_back(Rect{at.x(), at.y(), 0, 0}.grown(look.u(14)));
    const std::vector<Label> labels = {label};
    draw_labels(picture, place_labels(labels, obstacles, look.layout.green, look.width), look,
                surface);
}

}  // namespace dewtrail
