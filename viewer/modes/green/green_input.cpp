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
    return camera_.to_px(spot.at) + layout_.u(drop_from_u + drop_per_percent_u * 100 * slope) *
                                        camera_.direction_px(down).normalized();
}

GreenMode::Thing GreenMode::thing_at(const Vec2& px, std::size_t& spot) const {
    const double reach = layout_.type(near_u);
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

bool GreenMode::hand_cursor() const {
    if (handle_ != Thing::none || Mode::hand_cursor()) return true;
    std::size_t spot = 0;
    return layout_.green.contains(pointer_) && !sheet_open() &&
           thing_at(pointer_, spot) != Thing::none;
}

void GreenMode::pointer_moved(const Vec2& px, Held) {
    pointer_ = px;
    if (handle_ != Thing::none) return drag_to(px);
    hovered_ = target_at(targets_, px);
}

void GreenMode::pointer_pressed(const Vec2& px, Button button, Held held, bool twice) {
    pointer_moved(px, held);
    typing_.reset();
    if (click_in_sheet() || button != Button::left) return;
    if (hovered_) return click(*hovered_, twice);
    if (!layout_.green.contains(px)) return;
    std::size_t spot = 0;
    const Thing thing = thing_at(px, spot);
    if (thing == Thing::none) {
        if (twice) add_spot(snapped_place(camera_.to_green(px), fine_m(units())));
        return;
    }
    focus_.reset();
    thing_ = thing == Thing::drop ? Thing::spot : thing;
    if (thing_ == Thing::spot) choose_spot(spot);
    if (thing == Thing::spot && twice) return begin_typing(green_reading);
    handle_ = thing;
    before_drag_ = draft_;
}

void GreenMode::drag_to(const Vec2& px) {
    GreenDraft draft = draft_;
    const Vec2 at = snapped_place(camera_.to_green(px), fine_m(units()));
    if (handle_ == Thing::spot) draft.spots[spot_].at = at;
    if (handle_ == Thing::hole) draft.holes[draft.hole] = at;
    if (handle_ == Thing::ball) draft.ball = at;
    if (handle_ == Thing::drop) {
        const Vec2 away = px - camera_.to_px(draft.spots[spot_].at);
        if (away.norm() < 1) return;
        const Vec2 down =
            (camera_.to_green(camera_.centre_px + away) - camera_.centre_m).normalized();
        const double percent = (away.norm() / layout_.u(1) - drop_from_u) / drop_per_percent_u;
        const double slope = std::clamp(std::round(10 * percent) / 1000, 0.0, most_slope);
        const double bearing = std::round(bearing_of(down) * 180 / std::numbers::pi);
        draft.spots[spot_].gradient =
            level_reading({0, 0}, slope, bearing * std::numbers::pi / 180).gradient;
    }
    change(std::move(draft), "drag", Refit::later);
}

void GreenMode::pointer_released(const Vec2& px) {
    pointer_ = px;
    if (handle_ == Thing::none) return;
    handle_ = Thing::none;
    if (draft_ == before_drag_) return;
    history_.remember(before_drag_);
    work_out();
    keep();
    act("drop");
}

void GreenMode::click(const Target& target, bool twice) {
    if (click_common(target)) return;
    switch (target.what) {
        case What::button:
            return use();
        case What::add:
            return add_spot(place_for_new_spot());
        case What::close:
            message_.clear();
            return act("close");
        case What::spot:
            choose_spot(static_cast<std::size_t>(target.index));
            if (twice) begin_typing(green_reading);
            return;
        case What::answer:
            focus_ = FocusStop::on(What::answer, target.index);
            if (twice) begin_typing(target.index);
            return;
        default:
            return;
    }
}

/// Over the note: the list of spots. Over the chosen spot: its slope.
void GreenMode::wheel(double clicks, const Vec2& px, Held held) {
    if (sheet_open()) return;
    if (layout_.note.contains(px)) {
        const double last = std::max<double>(0, static_cast<double>(draft_.spots.size()) - 1);
        first_row_ = static_cast<std::size_t>(
            std::clamp(static_cast<double>(first_row_) - std::round(clicks), 0.0, last));
        list_follows_ = false;
        return act("list");
    }
    if (chosen_spot() && layout_.green.contains(px))
        steepen_by(clicks * (held.shift ? fine_slope : coarse_slope));
}

void GreenMode::choose_spot(std::size_t index) {
    if (index >= draft_.spots.size()) return;
    thing_ = Thing::spot;
    spot_ = index;
    list_follows_ = true;
    act("choose");
}

/// In the order of the list.
void GreenMode::step_spot(int by) {
    const std::vector<std::size_t> order = rows();
    if (order.empty()) return;
    const auto count = static_cast<int>(order.size());
    const auto now = std::find(order.begin(), order.end(), spot_);
    const int from = chosen_spot() && now != order.end() ? static_cast<int>(now - order.begin())
                                                         : (by > 0 ? -1 : 0);
    choose_spot(order[static_cast<std::size_t>((from + by + count) % count)]);
}

/// Where the putt that matters asks for one; else a step beyond the last, toward open ground.
Vec2 GreenMode::place_for_new_spot() const {
    if (next_) return snapped_place(next_->at, fine_m(units()));
    if (draft_.spots.empty()) return draft_.hole_at() + Vec2(2, 0);
    constexpr double apart_m = 3, golden_rad = 2.39996;  // no two ways alike
    const auto n = static_cast<double>(draft_.spots.size());
    return snapped_place(
        draft_.hole_at() + apart_m * std::sqrt(n) / 1.4 * along_bearing(n * golden_rad),
        fine_m(units()));
}

/// The new spot waits for its reading, which can be typed at once.
void GreenMode::add_spot(const Vec2& at) {
    GreenDraft draft = draft_;
    draft.spots.push_back({at, std::nullopt});
    change(std::move(draft), "add-spot");
    choose_spot(draft_.spots.size() - 1);
    if (!layout_.green.contains(camera_.to_px(at))) fit_camera();
    begin_typing(green_reading);
}

void GreenMode::remove() {
    GreenDraft draft = draft_;
    if (thing_ == Thing::ball) draft.ball.reset(), thing_ = Thing::none;
    if (chosen_spot()) draft.spots.erase(draft.spots.begin() + static_cast<std::ptrdiff_t>(spot_));
    change(std::move(draft), "remove");
}

void GreenMode::move_by(const Vec2& metres) {
    GreenDraft draft = draft_;
    if (chosen_spot()) draft.spots[spot_].at += metres;
    if (thing_ == Thing::hole) draft.holes[draft.hole] += metres;
    if (thing_ == Thing::ball && draft.ball) *draft.ball += metres;
    change(std::move(draft), "move");
}

void GreenMode::turn_by(double degrees) {
    const Spot* spot = chosen_spot();
    if (!spot || !spot->gradient) return;
    GreenDraft draft = draft_;
    const double toward = bearing_of(-*spot->gradient) + degrees * std::numbers::pi / 180;
    draft.spots[spot_].gradient = level_reading({0, 0}, spot->gradient->norm(), toward).gradient;
    change(std::move(draft), "turn");
}

void GreenMode::steepen_by(double slope) {
    const Spot* spot = chosen_spot();
    if (!spot) return;
    GreenDraft draft = draft_;
    const Vec2 now = spot->gradient.value_or(Vec2::Zero());
    const double steeper = std::clamp(now.norm() + slope, 0.0, most_slope);
    const Vec2 up = now.norm() > 1e-9 ? Vec2(now.normalized()) : Vec2(0, 1);
    draft.spots[spot_].gradient = std::max(steeper, now.norm() > 1e-9 ? 1e-6 : 0.0) * up;
    change(std::move(draft), "steepen");
}

void GreenMode::put_ball() {
    GreenDraft draft = draft_;
    if (!draft.ball) {
        const auto named = draft.balls.begin();
        draft.ball = named != draft.balls.end() ? named->second
                                                : Vec2(draft.hole_at() - Vec2(0, first_ball_m));
    }
    thing_ = Thing::ball;
    change(std::move(draft), "ball");
}

void GreenMode::begin_typing(int field) {
    if ((field == green_reading || field == green_place) && !chosen_spot()) {
        say("Choose a spot first: [ and ] go through them, A adds one.");
        return act("message");
    }
    typing_ = field;
    act("type");
}

std::string GreenMode::typed_now(int field) const {
    const Spot* spot = chosen_spot();
    if (field == green_name) return draft_.name;
    if (field == green_stimp) return format_stimp(draft_.stimp_ft);
    if (!spot) return "";
    if (field == green_place) return spot_place_text(spot->at, draft_.hole_at(), units());
    return spot->gradient ? spot_reading_text(*spot->gradient) : "";
}

std::optional<Typing> GreenMode::typing() const {
    if (!typing_) return std::nullopt;
    const auto target = find_target(targets_, What::answer, *typing_);
    if (!target) return std::nullopt;
    return Typing{*typing_, typed_now(*typing_), target->hit, layout_.type(21)};
}

void GreenMode::typed(const std::string& text) {
    if (!typing_) return;
    const int field = *typing_;
    typing_.reset();
    if (text.empty()) return;
    GreenDraft draft = draft_;
    try {
        if (field == green_name) draft.name = text;
        if (field == green_stimp) draft.stimp_ft = parse_stimp_ft(text);
        if (field == green_reading && chosen_spot())
            draft.spots[spot_].gradient = parse_spot_reading(text);
        if (field == green_place && chosen_spot())
            draft.spots[spot_].at =
                parse_spot_place(text, units(), draft.hole_at(),
                                 spot_ == 0 ? draft.hole_at() : draft.spots[spot_ - 1].at);
    } catch (const InputError& error) {
        say(spoken(error.problem()) + " " + spoken(error.remedy()));
        return act("message");
    }
    change(std::move(draft), "typed");
    if (const Spot* spot = chosen_spot(); spot && !layout_.green.contains(camera_.to_px(spot->at)))
        fit_camera();
}

void GreenMode::press(KeyPress pressed) {
    if (press_while_typing(pressed) || press_in_sheet(pressed)) return;
    if (handle_ != Thing::none) {
        if (pressed.code != key::escape) return;
        draft_ = before_drag_;  // nothing has happened
        handle_ = Thing::none;
        work_out();
        return act("cancel");
    }
    if (pressed.ctrl && press_ctrl(pressed)) return;
    if (press_common(pressed) || pressed.ctrl) return;
    switch (pressed.code) {
        case key::tab:
            return step_focus_over({What::mode, What::spot, What::answer, What::add, What::button},
                                   pressed.shift);
        case key::escape:
            if (message_.empty()) thing_ = Thing::none, focus_.reset();
            message_.clear();
            return act("escape");
        case key::enter:
            if (focus_ && focus_->what != What::button) {
                const auto target = find_target(targets_, focus_->what, focus_->index);
                if (target) return click(*target, true);
            }
            return use();
        default:
            press_letter(pressed);
    }
}

bool GreenMode::press_ctrl(KeyPress pressed) {
    switch (pressed.code) {
        case 'z':
            return undo(!pressed.shift), true;
        case 'y':
            return undo(false), true;
        case 'c':
            wish({Wish::Kind::copy_text, as_text()});
            return act("copy"), true;
        case 'o':
            listed_ = start_.greens();
            open_list("Open a green", listed_, What::green_name, "No green was found.");
            return act("greens"), true;
        case 's':
            return save(), true;
        case 'n':
            return begin(GreenDraft{}, "new"), true;
        case key::left:
            return turn_by(pressed.shift ? -fine_deg : -coarse_deg), true;
        case key::right:
            return turn_by(pressed.shift ? fine_deg : coarse_deg), true;
        default:
            return false;
    }
}

bool GreenMode::press_letter(KeyPress pressed) {
    const double step = pressed.shift ? fine_m(units()) : coarse_m(units());
    const double slope = pressed.shift ? fine_slope : coarse_slope;
    switch (pressed.code) {
        case key::left:
            return move_by({-step, 0}), true;
        case key::right:
            return move_by({step, 0}), true;
        case key::up:
            return move_by({0, step}), true;
        case key::down:
            return move_by({0, -step}), true;
        case '[':
            return step_spot(-1), true;
        case ']':
            return step_spot(1), true;
        case ',':
            return steepen_by(-slope), true;
        case '.':
            return steepen_by(slope), true;
        case 'a':
            return add_spot(place_for_new_spot()), true;
        case 'r':
            return begin_typing(green_reading), true;
        case 'w':
            return begin_typing(green_place), true;
        case 'g':
            return begin_typing(green_name), true;
        case 't':
            return begin_typing(green_stimp), true;
        case 'h':
            thing_ = Thing::hole;
            return act("hole"), true;
        case 'b':
            return put_ball(), true;
        case key::erase:
            return remove(), true;
        default:
            return false;
    }
}

std::vector<std::pair<std::string, Vec2>> GreenMode::places() const {
    std::vector<std::pair<std::string, Vec2>> places = {{"hole", camera_.to_px(draft_.hole_at())}};
    if (draft_.ball) places.emplace_back("ball", camera_.to_px(*draft_.ball));
    for (std::size_t i = 0; i < draft_.spots.size(); ++i)
        places.emplace_back("spot-" + std::to_string(i + 1), camera_.to_px(draft_.spots[i].at));
    if (const Spot* spot = chosen_spot(); spot && spot->gradient)
        places.emplace_back("drop", drop_px(*spot));
    for (const Target& t : targets_) {
        if (t.what == What::button) places.emplace_back("button", t.hit.centre());
        if (t.what == What::add) places.emplace_back("add", t.hit.centre());
        if (t.what == What::answer) {
            constexpr const char* names[] = {"reading", "place", "name", "stimp"};
            places.emplace_back(names[t.index], t.hit.centre());
        }
    }
    return places;
}

}  // namespace dewtrail
