#include <algorithm>
#include <cmath>
#include <numbers>

#include "greens/input_error.hpp"
#include "physics/base/ball_and_hole.hpp"
#include "viewer/modes/green/green_mode.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"

/// Green: keys, pointer and typing.
namespace dewtrail {
namespace {

constexpr double near_u = 20, drop_from_u = 26, drop_per_percent_u = 14;
constexpr double coarse_deg = 5, fine_deg = 1, coarse_slope = 0.001, fine_slope = 0.0005;
constexpr double first_ball_m = 12 * metres_per_foot;

double fine_m(const Units& units) {
    return units.metric ? 0.01 : metres_per_inch;
}
double coarse_m(const Units& units) {
    return units.metric ? 0.1 : metres_per_foot;
}

Vec2 snapped_place(const Vec2& at, double step) {
    return {step * std::round(at.x() / step), step * std::round(at.y() / step)};
}

}  // namespace

/// The drop of a spot's fall, on the screen: farther out where it is steeper.
Vec2 GreenMode::drop_px(const Spot& spot) const {
    const double slope = spot.gradient->norm();
    const Vec2 down = slope > 1e-6 ? Vec2(-*spot.gradient / slope) : Vec2(0, -1);
    return camera_.to_px(spot.at) +
           shell_.layout().u(drop_from_u + drop_per_percent_u * 100 * slope) *
               camera_.direction_px(down).normalized();
}

GreenMode::Thing GreenMode::thing_at(const Vec2& px, std::size_t& spot) const {
    const double reach = shell_.reach(shell_.layout().type(near_u));
    const auto near = [&](const Vec2& at) { return (at - px).norm() < reach; };
    if (const Spot* chosen = chosen_spot(); chosen && chosen->gradient && near(drop_px(*chosen)))
        return spot = spot_, Thing::drop;
    double nearest = reach;
    Thing thing = Thing::none;
    for (std::size_t i = 0; i < draft_.spots.size(); ++i) {
        const double away = (camera_.to_px(draft_.spots[i].at) - px).norm();
        if (away < nearest) nearest = away, thing = Thing::spot, spot = i;
    }
    if (thing != Thing::none) return thing;
    if (draft_.ball && near(camera_.to_px(*draft_.ball))) return Thing::ball;
    return near(camera_.to_px(draft_.hole_at())) ? Thing::hole : Thing::none;
}

Commands GreenMode::commands() {
    Commands c;
    c.add("add-spot", "A", "add a spot, or click twice", [this] {
         add_spot(place_for_new_spot());
     }).at = What::add;
    c.add("type", "R", "type what it reads", [this] { type_of_spot(green_reading); });
    c.add("type", "W", "type where it is", [this] { type_of_spot(green_place); });
    c.add("choose", "[  ]", "spot before, next",
          [this](const Cue& cue) { step_spot(cue.which == 0 ? -1 : 1); });
    c.add("choose", "", "", [this](const Cue& cue) {
         choose(Thing::spot, static_cast<std::size_t>(cue.which));
         if (cue.twice) type_of_spot(green_reading);
     }).at = What::spot;
    c.add("move", "←  →  ↑  ↓", "move it, finer with Shift", [this](const Cue& cue) {
        const Vec2 ways[] = {{-1, 0}, {1, 0}, {0, 1}, {0, -1}};
        const Units& units = shell_.units();
        move_by((cue.shift ? fine_m(units) : coarse_m(units)) * ways[cue.which]);
    });
    c.add("turn", "Ctrl ←  →", "turn its fall", [this](const Cue& cue) {
        const double step = cue.shift ? fine_deg : coarse_deg;
        turn_by(cue.which == 0 ? -step : step);
    });
    c.add("steepen", ",  .", "flatter, steeper", [this](const Cue& cue) {
        const double step = cue.shift ? fine_slope : coarse_slope;
        steepen_by(cue.which == 0 ? -step : step);
    });
    c.add("remove", "Delete", "take it away", [this] { remove(); });
    c.add("hole", "H", "the hole, then arrows", [this] { thing_ = Thing::hole; });
    c.add("ball", "B", "a ball: where to read next", [this] { put_ball(); }).at = What::ball;
    c.add("type", "G  T", "name, stimp", [this](const Cue& cue) {
        const int value = cue.which == 0 ? green_name : green_stimp;
        shell_.begin_typing(FocusStop::on(What::answer, value));
    });
    c.add("greens", "Ctrl O", "open a green", [this] {
         const auto open = [this](const std::string& name) { open_green(name); };
         shell_.open_greens(start_.greens(), open);
     }).at = What::open;
    c.add("save", "Ctrl S", "save it", [this] { save(); }).at = What::save;
    c.add("new", "Ctrl N", "a new green", [this] { open_draft(GreenDraft{}, "new"); });
    c.add("use", "Enter", "use this green", [this] { use(); }).at = What::button;
    c.add("escape", "Esc", "let go of it", [this] { thing_ = Thing::none; }).may = [this] {
        return shell_.message().empty() && thing_ != Thing::none;
    };
    return c;
}

std::vector<Value> GreenMode::fields() {
    std::vector<Value> values;
    const auto add = [&](const char* name, int index, std::string text, auto set) {
        const auto type = [this, set](const std::string& typed) {
            change([&](GreenDraft& draft) { set(draft, typed); }, "typed");
        };
        values.push_back({name, FocusStop::on(What::answer, index), std::move(text), type});
    };
    add("name", green_name, draft_.name,
        [](GreenDraft& draft, const std::string& text) { draft.name = text; });
    add("stimp", green_stimp, format_stimp(draft_.stimp_ft),
        [](GreenDraft& draft, const std::string& text) { draft.stimp_ft = parse_stimp_ft(text); });
    const Spot* spot = chosen_spot();
    if (!spot) return values;
    add("reading", green_reading, spot->gradient ? spot_reading_text(*spot->gradient) : "",
        [i = spot_](GreenDraft& draft, const std::string& text) {
            draft.spots[i].gradient = parse_spot_reading(text);
        });
    add("place", green_place, spot_place_text(spot->at, draft_.hole_at(), shell_.units()),
        [this, i = spot_](GreenDraft& draft, const std::string& text) {
            const Vec2 hole = draft.hole_at(), before = i == 0 ? hole : draft.spots[i - 1].at;
            draft.spots[i].at = parse_spot_place(text, shell_.units(), hole, before);
        });
    values[2].example = "2% 95";
    values[3].example = shell_.units().metric ? "4.1m right, 2m up" : "13ft right, 6ft up";
    return values;
}

std::optional<FocusStop> GreenMode::first_value() const {
    if (!chosen_spot()) return std::nullopt;
    return FocusStop::on(What::answer, green_reading);
}

/// A spot's reading or place; there has to be a spot.
void GreenMode::type_of_spot(int value) {
    if (!chosen_spot())
        return shell_.complain("Choose a spot first: [ and ] go through them, A adds one.");
    shell_.begin_typing(FocusStop::on(What::answer, value));
}

std::optional<Drag> GreenMode::grab(const Grip& grip) {
    if (grip.target || grip.button != Button::left || !shell_.layout().green.contains(grip.px))
        return std::nullopt;
    std::size_t spot = 0;
    const Thing thing = thing_at(grip.px, spot);
    Drag drag;
    if (thing == Thing::none) {
        if (!grip.twice) return std::nullopt;
        drag.taken = [this, px = grip.px] {
            add_spot(snapped_place(camera_.to_green(px), fine_m(shell_.units())));
        };
        return drag;
    }
    const bool types = thing == Thing::spot && grip.twice;
    drag.taken = [this, thing, spot, types] {
        choose(thing == Thing::drop ? Thing::spot : thing, spot);
        if (types) type_of_spot(green_reading);
    };
    if (types) return drag;
    drag.move = [this, thing](const Vec2& px, Held) { drag_to(thing, px); };
    return drag;
}

void GreenMode::drag_to(Thing thing, const Vec2& px) {
    const Vec2 at = snapped_place(camera_.to_green(px), fine_m(shell_.units()));
    change(
        [&](GreenDraft& draft) {
            if (thing == Thing::spot) draft.spots[spot_].at = at;
            if (thing == Thing::hole) draft.holes[draft.hole] = at;
            if (thing == Thing::ball) draft.ball = at;
            const Vec2 away = px - camera_.to_px(draft.spots.empty() ? at : draft.spots[spot_].at);
            if (thing != Thing::drop || away.norm() < 1) return;
            const Vec2 down =
                (camera_.to_green(camera_.centre_px + away) - camera_.centre_m).normalized();
            const double percent =
                (away.norm() / shell_.layout().u(1) - drop_from_u) / drop_per_percent_u;
            const double slope = std::clamp(std::round(10 * percent) / 1000, 0.0, most_slope);
            const double bearing = std::round(bearing_of(down) * 180 / std::numbers::pi);
            draft.spots[spot_].gradient =
                level_reading({0, 0}, slope, bearing * std::numbers::pi / 180).gradient;
        },
        "drag");
}

/// Over the note: the list of spots. Over the green: the slope of the chosen one.
bool GreenMode::wheel(double clicks, const Vec2& px, Held held) {
    if (!shell_.layout().note.contains(px)) {
        steepen_by(clicks * (held.shift ? fine_slope : coarse_slope));
        return true;
    }
    const auto top = std::find_if(shell_.targets().begin(), shell_.targets().end(),
                                  [](const Target& t) { return t.what == What::spot; });
    if (top == shell_.targets().end()) return false;
    const double first = top->index - std::round(clicks);
    first_row_ = static_cast<std::size_t>(
        std::clamp(first, 0.0, static_cast<double>(draft_.spots.size()) - 1));
    list_follows_ = false;
    shell_.act("list");
    return true;
}

void GreenMode::choose(Thing thing, std::size_t spot) {
    thing_ = thing;
    if (thing != Thing::spot) return;
    spot_ = spot;
    list_follows_ = true;
    shell_.act("choose");
}

/// In the order of the list.
void GreenMode::step_spot(int by) {
    if (draft_.spots.empty()) return;
    const auto count = static_cast<int>(draft_.spots.size());
    const int from = chosen_spot() ? static_cast<int>(spot_) : (by > 0 ? -1 : 0);
    choose(Thing::spot, static_cast<std::size_t>((from + by + count) % count));
}

/// Where the putt that matters asks for one; else a step beyond the last, toward open ground.
Vec2 GreenMode::place_for_new_spot() const {
    const double fine = fine_m(shell_.units());
    if (next_) return snapped_place(next_->at, fine);
    if (draft_.spots.empty()) return draft_.hole_at() + Vec2(2, 0);
    constexpr double apart_m = 3, golden_rad = 2.39996;  // no two ways alike
    const auto n = static_cast<double>(draft_.spots.size());
    return snapped_place(
        draft_.hole_at() + apart_m * std::sqrt(n) / 1.4 * along_bearing(n * golden_rad), fine);
}

/// The new spot waits for its reading, which can be typed at once.
void GreenMode::add_spot(const Vec2& at) {
    change([&](GreenDraft& draft) { draft.spots.push_back({at, std::nullopt}); }, "add-spot");
    choose(Thing::spot, draft_.spots.size() - 1);
    if (!in_sight(draft_.spots.back())) fit_camera();
    type_of_spot(green_reading);
}

void GreenMode::remove() {
    change(
        [this](GreenDraft& draft) {
            if (thing_ == Thing::ball) draft.ball.reset();
            if (chosen_spot())
                draft.spots.erase(draft.spots.begin() + static_cast<std::ptrdiff_t>(spot_));
        },
        "remove");
    if (thing_ == Thing::ball) thing_ = Thing::none;
}

void GreenMode::move_by(const Vec2& metres) {
    change(
        [&](GreenDraft& draft) {
            if (chosen_spot()) draft.spots[spot_].at += metres;
            if (thing_ == Thing::hole) draft.holes[draft.hole] += metres;
            if (thing_ == Thing::ball && draft.ball) *draft.ball += metres;
        },
        "move");
}

void GreenMode::turn_by(double degrees) {
    const Spot* spot = chosen_spot();
    if (!spot || !spot->gradient) return;
    const double toward = bearing_of(-*spot->gradient) + degrees * std::numbers::pi / 180;
    const Vec2 turned = level_reading({0, 0}, spot->gradient->norm(), toward).gradient;
    change([&](GreenDraft& draft) { draft.spots[spot_].gradient = turned; }, "turn");
}

void GreenMode::steepen_by(double slope) {
    const Spot* spot = chosen_spot();
    if (!spot) return;
    const Vec2 now = spot->gradient.value_or(Vec2::Zero());
    const double steeper = std::clamp(now.norm() + slope, 0.0, most_slope);
    const Vec2 up = now.norm() > 1e-9 ? Vec2(now.normalized()) : Vec2(0, 1);
    const Vec2 after = std::max(steeper, now.norm() > 1e-9 ? 1e-6 : 0.0) * up;
    change([&](GreenDraft& draft) { draft.spots[spot_].gradient = after; }, "steepen");
}

void GreenMode::put_ball() {
    thing_ = Thing::ball;
    if (draft_.ball) return;
    const auto named = draft_.balls.begin();
    const Vec2 at = named != draft_.balls.end() ? named->second
                                                : Vec2(draft_.hole_at() - Vec2(0, first_ball_m));
    change([&](GreenDraft& draft) { draft.ball = at; }, "ball");
    fit_camera();
}

Places GreenMode::places() const {
    Places places = {{"hole", camera_.to_px(draft_.hole_at())}};
    if (draft_.ball) places.emplace_back("ball", camera_.to_px(*draft_.ball));
    for (std::size_t i = 0; i < draft_.spots.size(); ++i)
        places.emplace_back("spot-" + std::to_string(i + 1), camera_.to_px(draft_.spots[i].at));
    if (const Spot* spot = chosen_spot(); spot && spot->gradient)
        places.emplace_back("drop", drop_px(*spot));
    return places;
}

}  // namespace dewtrail
