#include <cmath>

#include "greens/input_error.hpp"
#include "viewer/modes/review/review_mode.hpp"
#include "viewer/practice/log/leave.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {
namespace {

double finest_m(const Units& units) {
    return units.metric ? 0.01 : metres_per_inch;
}

}  // namespace

Commands ReviewMode::commands() {
    Commands c;
    const auto typing = [this](int answer) {
        return [this, answer](const Cue& cue) {
            shell_.begin_typing(FocusStop::on(What::answer, answer + cue.which));
        };
    };
    c.add("end", "←  →  ↑  ↓", "where it stopped, far with Shift", [this](const Cue& cue) {
        constexpr double across[] = {-1, 1, 0, 0}, along[] = {0, 0, 1, -1};
        const double step = (cue.shift ? 12 : 1) * finest_m(shell_.units());
        move_end(step * along[cue.which], step * across[cue.which]);
    });
    c.add("type", "W", "type where it stopped", typing(review_end));
    c.add("type", "A  V", "type aim and pace meant", typing(review_aim));
    c.add("holed", "H", "it went in", [this] {
         change([](RealPutt& putt) { putt.holed = !putt.holed; }, "holed");
     }).at = What::holed;
    c.add("kept", "Enter", "log it, next putt", [this] { keep(); }).at = What::button;
    editor_.add_commands(c);
    shell_.add_roll_commands(c);
    return c;
}

std::vector<Value> ReviewMode::fields() {
    const Units& units = shell_.units();
    const auto answer = [&](const char* name, int index, std::string text, auto type) {
        Value value{name, FocusStop::on(What::answer, index), std::move(text), type, 24};
        const Layout& l = shell_.layout();
        value.where = [indent = l.u(34), h = l.type(34)](const Rect& hit) {
            return Rect{hit.x + indent, hit.bottom() - h, hit.w - indent, h};
        };
        return value;
    };
    std::vector<Value> values = {
        answer("meant-aim", review_aim, meant_aim().to_edit(units),
               [this](const std::string& text) {
                   const SaidAim aim = parse_said_aim(text, shell_.units());
                   change([&](RealPutt& putt) { putt.aim = aim; }, "meant");
               }),
        answer("meant-pace", review_pace, format_distance(meant_level_putt_m(), units),
               [this](const std::string& text) {
                   const double pace = parse_level_roll_m(text, shell_.units(), "pace");
                   change([&](RealPutt& putt) { putt.level_putt_m = pace; }, "meant");
               }),
        answer("end-words", review_end, "", [this](const std::string& text) { type_end(text); })};
    editor_.add_values(values);
    return values;
}

std::optional<FocusStop> ReviewMode::first_value() const {
    return FocusStop::on(What::answer, review_end);
}

void ReviewMode::type_end(const std::string& text) {
    const Leave leave = parse_leave(text, shell_.units());
    if (!leave.past_m && !leave.right_m)
        throw InputError("which way was it left?", "Type it like 2ft past 6in left.");
    put_end({read_.putt.distance_m() + leave.past_m.value_or(0), leave.right_m.value_or(0)});
}

void ReviewMode::put_end(const PlayerPoint& end) {
    change(
        [&](RealPutt& putt) {
            putt.end = end;
            putt.holed = false;
        },
        "end");
}

/// From the hole where nothing was said yet.
void ReviewMode::move_end(double along_m, double across_m) {
    PlayerPoint end = putt_.end.value_or(PlayerPoint{read_.putt.distance_m(), 0});
    end.along_m += along_m;
    end.offset_m += across_m;
    put_end(end);
}

/// The ball is put down wherever the green is pressed.
std::optional<Drag> ReviewMode::grab(const Grip& grip) {
    if (grip.target || grip.button != Button::left || !shell_.layout().green.contains(grip.px))
        return std::nullopt;
    Drag drag;
    drag.move = [this](const Vec2& px, Held) {
        const PlayerPoint at = in_player_frame(read_.putt, camera_.to_green(px));
        const double step = finest_m(shell_.units());
        const double past = step * std::round((at.along_m - read_.putt.distance_m()) / step);
        put_end({read_.putt.distance_m() + past, step * std::round(at.offset_m / step)});
    };
    drag.at_once = true;
    return drag;
}

Places ReviewMode::places() const {
    Places places = {{"hole", camera_.to_px(read_.putt.hole)},
                     {"ball", camera_.to_px(read_.putt.ball)}};
    if (putt_.end) places.emplace_back("end", camera_.to_px(on_green(read_.putt, *putt_.end)));
    return places;
}

}  // namespace dewtrail
