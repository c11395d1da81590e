#include <algorithm>
#include <cmath>

#include "greens/input_error.hpp"
#include "viewer/modes/measure/measure_mode.hpp"
#include "viewer/practice/measure/measure_words.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {

Commands MeasureMode::commands() {
    Commands c;
    const auto in = [this](View view) { return [this, view] { return view_ == view; }; };
    c.add("view", "P  L  M", "pace, line, month by month", [this](const Cue& cue) {
         choose_view(cue.which);
     }).at = What::view;
    c.add("struck", "←  ↑  →", "it went left, through, right", [this](const Cue& cue) {
         keep_stroke(static_cast<Passed>(cue.which));
     }).may = in(View::line);
    c.add("type", "W", "type where it stopped", [this] { type_stop(); }).may = in(View::pace);
    c.add("drill", "Ctrl O", "ten of what needs it most", [this] { begin_drill(); });
    c.add("take-back", "Delete", "take the last one back", [this] { take_back(); });
    c.add("take", "T", "make it your spread", [this] { take(); });
    c.add("measured", "", "", [this](const Cue& cue) {
         if (cue.which <= measured_right) return keep_stroke(static_cast<Passed>(cue.which));
         if (cue.which == measured_take_back) return take_back();
         if (cue.which == measured_take) return take();
         begin_drill();
     }).at = What::measured;
    c.add("go-on", "Enter", "keep it, next ball", [this] { go_on(); }).at = What::button;
    return c;
}

void MeasureMode::type_stop() {
    if (!pace_done()) shell_.begin_typing(FocusStop::on(What::answer, measure_stop));
}

/// One that lies far off what was called may be a slip of the hand: it waits on the floor until it
/// is typed again, or kept as a ball that was clicked there.
void MeasureMode::typed_stop(const std::string& text) {
    const BallStop stop = parse_stop(text, called_m(), entry_.floor, shell_.units());
    const std::string doubt = far_off_words(called_m(), stop.stopped_m, shell_.units());
    const bool again = entry_.stop && entry_.stop->stopped_m == stop.stopped_m;
    if (!doubt.empty() && !again) {
        change({entry_.floor, stop}, "stop");
        return shell_.say(doubt + " 'Next ball' keeps it.");
    }
    entry_.stop = stop;
    keep_ball();
    type_stop();
}

std::optional<FocusStop> MeasureMode::first_value() const {
    if (view_ != View::pace || pace_done()) return std::nullopt;
    return FocusStop::on(What::answer, measure_stop);
}

std::vector<Value> MeasureMode::fields() {
    return view_ == View::pace ? pace_fields() : std::vector<Value>();
}

std::vector<Value> MeasureMode::pace_fields() {
    const Units& units = shell_.units();
    const Layout& l = shell_.layout();
    std::vector<Value> values;
    const auto add = [&](const char* name, int index, std::string text, auto type) {
        Value value{name, FocusStop::on(What::answer, index), std::move(text), type,
                    index == measure_stop ? 25.0 : 21.0};
        value.where = [h = l.type(34)](const Rect& hit) {
            return Rect{hit.x, hit.bottom() - h, hit.w, h};
        };
        values.push_back(std::move(value));
    };
    const PaceFloor& floor = entry_.floor;
    if (!pace_done()) {
        add("stop-words", measure_stop, "", [this](const std::string& text) { typed_stop(text); });
        values.back().example = floor.timed    ? units.metric ? "0.8 s, or 1.5 m" : "0.8 s, or 5 ft"
                                : units.metric ? "3.4 m, or 10 cm short"
                                               : "11 ft 4 in, or 10 in short";
    }
    const auto edit = [this](auto set) {
        return [this, set](const std::string& text) {
            PaceFloor changed = entry_.floor;
            set(changed, text, shell_.units());
            change_floor(changed);
        };
    };
    add("from-words", measure_from, format_distance(floor.from_m, units),
        edit([](PaceFloor& f, const std::string& text, const Units& u) {
            f.from_m = parse_distance_m(text, u, "shortest");
        }));
    add("to-words", measure_to, format_distance(floor.to_m, units),
        edit([](PaceFloor& f, const std::string& text, const Units& u) {
            f.to_m = parse_distance_m(text, u, "longest");
        }));
    add("line-words", measure_line, floor.timed ? stretch_as_typed(*floor.timed, units) : "",
        edit([](PaceFloor& f, const std::string& text, const Units& u) {
            if (text == "none" || text == "0")
                f.timed.reset();
            else
                f.timed = parse_stretch(text, u);
        }));
    values.back().example =
        units.metric ? "2 m; two marks: 1 m, 2 m" : "6 ft; two marks: 3 ft, 6 ft";
    if (floor.timed) {
        add("stimp-words", measure_stimp, format_stimp(floor.stimp_ft),
            edit([this](PaceFloor& f, const std::string& text, const Units& u) {
                f.stimp_ft = parse_floor_stimp_ft(text, u, start_.player);
            }));
        if (!start_.player.stroke_table.empty())
            values.back().example = units.metric ? "11, or a ball: 1.2 m, back 15 cm"
                                                 : "11, or a ball: 4 ft, back 6 in";
    }
    return values;
}

/// The ball of the length that was called comes to where the floor is pressed.
Drag MeasureMode::put_ball() {
    Drag drag;
    drag.at_once = true;
    drag.move = [this](const Vec2& px, Held) {
        const double step = shell_.units().metric ? 0.01 : metres_per_inch;
        const double along = (px.x() - x_of(0)) / (x_of(1) - x_of(0));
        Entry entry = entry_;
        entry.stop = BallStop{step * std::round(std::clamp(along, 0.0, most_m()) / step)};
        change(entry, "stop");
    };
    return drag;
}

std::optional<Drag> MeasureMode::grab(const Grip& grip) {
    if (grip.button != Button::left || grip.target || view_ != View::pace || pace_done() ||
        entry_.floor.timed || !floor_box().contains(grip.px))
        return std::nullopt;
    return put_ball();
}

Places MeasureMode::places() const {
    Places places;
    if (view_ == View::pace && !pace_done())
        places.emplace_back("called", Vec2(x_of(called_m()), lane_y(0)));
    return places;
}

}  // namespace dewtrail
