#include "viewer/modes/shell/mode.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace dewtrail {
namespace {

constexpr double theme_fade_s = 0.2;
constexpr double scrub_s = 0.05, far_scrub_s = 0.5;
constexpr double usual_tick_ratio = 2, least_tick_ratio = 1, most_tick_ratio = 3.5;

}  // namespace

const char* words_for(ModeName mode) {
    constexpr const char* words[mode_count] = {"Read", "Compare", "Practise", "Review", "Green"};
    return words[static_cast<int>(mode)];
}

Mode::Mode(const Appearance& appearance)
    : appearance_(appearance), dusk_(appearance.theme == Theme::dusk ? 1 : 0) {}

void Mode::arrive(const Appearance& appearance, const std::optional<Setup>& putt) {
    appearance_ = appearance;
    dusk_ = appearance.theme == Theme::dusk ? 1 : 0;
    hovered_.reset();
    forget_ground();
    relayout();
    arrived(putt);
    act("arrive");
}

void Mode::resize(double width, double height) {
    appearance_.width = width;
    appearance_.height = height;
    relayout();
    act("resize");
}

bool Mode::hand_cursor() const {
    return hovered_ && hovered_->what != What::note && hovered_->what != What::sheet;
}

void Mode::change_mode(ModeName mode) {
    if (mode == name()) return;
    Wish change{Wish::Kind::change_mode};
    change.mode = mode;
    change.putt = putt_at_hand();
    wish(std::move(change));
}

void Mode::set_theme(Theme theme) {
    appearance_.theme = theme;
    act(theme == Theme::dusk ? "dusk" : "dew");
}

void Mode::set_text(double text) {
    appearance_.text = std::clamp(text, 1.0, 1.5);
    relayout();
    act("text");
}

/// The rhythm of a stroke, to be heard; off until it is asked for.
void Mode::set_tick(double ratio) {
    appearance_.tick_ratio = ratio;
    Wish tick{Wish::Kind::tick};
    tick.ratio = ratio;
    wish(std::move(tick));
    say(ratio > 0
            ? fmt::format("Tick {:g}:1, back to forward. I stops it, Shift I changes it.", ratio)
            : "");
    act(ratio > 0 ? "tick" : "tick-off");
}

bool Mode::press_common(KeyPress pressed) {
    if (pressed.ctrl) {
        switch (pressed.code) {
            case '+':
            case '=':
                return set_text(appearance_.text + 0.25), true;
            case '-':
                return set_text(appearance_.text - 0.25), true;
            case '0':
                return set_text(1), true;
            case 'p':
                return open_pages(), true;
            default:
                return false;
        }
    }
    if (pressed.code >= '1' && pressed.code < '1' + static_cast<int>(appearance_.modes.size()))
        return change_mode(appearance_.modes[static_cast<std::size_t>(pressed.code - '1')]), true;
    switch (pressed.code) {
        case 'd':
            return set_theme(theme() == Theme::dew ? Theme::dusk : Theme::dew), true;
        case 'u':
            appearance_.units.metric = !appearance_.units.metric;
            relayout();
            return act("units"), true;
        case 'i': {
            const double now = appearance_.tick_ratio;
            if (!pressed.shift) return set_tick(now > 0 ? 0 : usual_tick_ratio), true;
            return set_tick(now >= most_tick_ratio ? least_tick_ratio : now + 0.5), true;
        }
        case key::f11:
            wish({Wish::Kind::full_screen});
            return act("full-screen"), true;
        case key::f1:
        case '?':
            return open_help(), true;
        case '/':
            return pressed.shift && press_common({key::f1});
        default:
            return false;
    }
}

bool Mode::press_playback(Playback& playback, KeyPress pressed) {
    const double step = pressed.shift ? far_scrub_s : scrub_s;
    const auto seek = [&](double time) {
        playback.running = false;
        playback.seek(time);
        act("scrub");
        return true;
    };
    switch (pressed.code) {
        case 'j':
            return seek(playback.time_s - step);
        case 'l':
            return seek(playback.time_s + step);
        case key::home:
            return seek(0);
        case key::end:
            return seek(playback.end_s);
        case 'm':
            playback.slower();
            act("slow");
            return true;
        default:
            return false;
    }
}

std::optional<Field> Mode::typed_field() const {
    if (!typing_ || *typing_ < typed_fields_from) return std::nullopt;
    return static_cast<Field>(*typing_ - typed_fields_from);
}

bool Mode::press_while_typing(KeyPress pressed) {
    if (typing_ && (pressed.code == key::escape || !typing())) {
        typing_.reset();
        return pressed.code == key::escape;
    }
    return typing_.has_value();
}

void Mode::step_focus_over(std::initializer_list<What> kinds, bool back) {
    std::vector<FocusStop> order;
    for (const What what : kinds)
        for (const Target& target : targets_)
            if (target.what == what) order.push_back(FocusStop::on(what, target.index));
    focus_ = step_focus(order, focus_, back);
    act("focus");
}

bool Mode::click_common(const Target& target) {
    if (target.what == What::mode) return change_mode(static_cast<ModeName>(target.index)), true;
    if (target.what == What::print) return open_pages(), true;
    if (target.what == What::help) return open_help(), true;
    return target.what == What::units && press_common({'u'});
}

TopBarState Mode::top_bar_of_mode() const {
    TopBarState top;
    top.mode = static_cast<int>(name());
    for (const ModeName mode : appearance_.modes) top.modes.push_back(static_cast<int>(mode));
    top.help = help_open();
    return top;
}

bool Mode::advance_theme(double seconds) {
    const double dusk = theme() == Theme::dusk ? 1 : 0;
    if (dusk_ == dusk) return false;
    const double step = appearance_.less_motion ? 1 : seconds / theme_fade_s;
    dusk_ = dusk > dusk_ ? std::min(dusk, dusk_ + step) : std::max(dusk, dusk_ - step);
    return true;
}

Look Mode::look(const TextWidth& width, bool numbers) const {
    return {palette_between(dusk_), layout_, appearance_.units, width, numbers};
}

Attention Mode::attention() const {
    Attention a;
    a.hovered = hovered_;
    if (focus_ && focus_->mark == MarkId::none) a.focused = Target{focus_->what, focus_->index, {}};
    return a;
}

std::string spoken(std::string words) {
    if (words.empty()) return words;
    if (words[0] >= 'a' && words[0] <= 'z') words[0] = static_cast<char>(words[0] - 'a' + 'A');
    return words.back() == '?' || words.back() == '.' ? words : words + ".";
}

Rect draw_message_bar(Picture& picture, Targets& targets, const Message& message, const Rect& pane,
                      const Attention& attention, const Look& look) {
    if (message.words.empty()) return {};
    const Palette& c = look.colours;
    const double size = look.type(21), pad = look.u(20), line_h = look.type(26);
    const double button_w =
        message.button.empty()
            ? 0
            : look.width(Face::sans_bold, look.type(18), message.button) + look.u(28);
    const auto lines = wrapped(message.words, Face::book, size,
                               pane.w - 2 * pad - button_w - look.u(20), look.width);
    const auto count = static_cast<double>(lines.size());
    const Rect bar{pane.x, pane.y, pane.w, std::max(look.u(44), look.u(16) + line_h * count)};
    add_rect(picture, bar, c.paper2);
    add_rect(picture, {bar.x, bar.bottom() - 1, bar.w, 1}, c.rule);
    targets.push_back({What::sheet, 1, bar});
    double y = bar.centre().y() + 0.32 * size - line_h * (count - 1) / 2;
    for (const auto& line : lines) {
        picture.push_back(
            Text{line, Face::book, size, {std::round(bar.x + look.u(40)), std::round(y)}, c.ink});
        y += line_h;
    }
    if (message.button.empty()) return bar;
    Target answer = message.answer;
    answer.hit = {bar.right() - button_w - pad, bar.centre().y() - look.u(18), button_w,
                  look.u(36)};
    add_rounded_rect(picture, answer.hit.grown(-look.u(2)), look.u(8), c.wet_green);
    const Vec2 at(std::round(answer.hit.centre().x()),
                  std::round(answer.hit.centre().y() + look.type(6)));
    picture.push_back(
        Text{message.button, Face::sans_bold, look.type(18), at, c.on_button, Align::centre});
    if (attention.on(attention.focused, answer.what, answer.index))
        add_rect(picture, {answer.hit.x, answer.hit.bottom(), answer.hit.w, look.u(3)}, c.copper);
    targets.push_back(answer);
    return bar;
}

}  // namespace dewtrail
