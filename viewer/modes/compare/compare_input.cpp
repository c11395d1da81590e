#include <cmath>

#include "viewer/comparison/demonstrations.hpp"
#include "viewer/modes/compare/compare_mode.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr double rail_u = 26;

double stepped(double value, double steps, double step) {
    const double to = step * (std::round(value / step) + steps);
    return to == 0 ? 0 : to;  // never -0
}

}  // namespace

double CompareMode::fine_m() const {
    return shell_.units().metric ? 0.005 : metres_per_inch / 4;
}

Commands CompareMode::commands() {
    Commands c;
    c.add("roll", "Space", "roll, release, again", [this] { roll(); }).at = What::play;
    c.add("roll", "Enter", "", [this] { roll(); }).at = What::button;
    c.add("swap", "W", "swap the aims", [this] { swap(); }).at = What::swap;
    c.add("choose", "↑  ↓", "the next putt", [this](const Cue& cue) {
        const std::size_t n = comparison_.putts.size();
        choose((chosen_ + (cue.which == 0 ? n - 1 : 1)) % n);
        shell_.set_focus(std::nullopt);
    });
    c.add("choose", "", "", [this](const Cue& cue) {
         choose(static_cast<std::size_t>(cue.which));
         if (cue.twice) shell_.begin_typing(FocusStop::on(What::putt, cue.which));
     }).at = What::putt;
    c.add("guess", "←  →", "guess its aim, fine with Shift", [this](const Cue& cue) {
        const double step = cue.shift ? fine_m() : 4 * fine_m(), way = cue.which == 0 ? -1 : 1;
        const SaidAim now = compared_.guesses[chosen_].value_or(SaidAim{});
        set_guess({stepped(now.offset_m, way, step)});
    });
    c.add("type", "A", "type the guess",
          [this] { shell_.begin_typing(FocusStop::on(What::putt, static_cast<int>(chosen_))); });
    c.add("demonstrations", "Ctrl O", "ready demonstrations", [this] {
        std::vector<std::string> titles;
        for (const auto& name : demonstration_names()) titles.emplace_back(name.title);
        shell_.open_list(
            "Ready demonstrations", std::move(titles), "", [this](int index) { show(index); },
            What::demonstration);
    });
    c.add("show", "", "", [this](const Cue& cue) { show(cue.which); }).at = What::demonstration;
    c.add("take-away", "Shift Q", "take the putt away", [this] { take_putt_away(); });
    c.add("add", "Q", "add a putt", [this] { add_putt(); }).at = What::add;
    c.add("chances", "H", "chance to hole", [this] {
         chances_ = !chances_;
         work_out_chances();
     }).at = What::chances;
    c.add("graphs", "G", "graphs", [this] { graphs_ = !graphs_; }).at = What::graphs;
    c.add("detail", "K", "parts of the difference", [this] { detail_ = !detail_; }).at =
        What::detail;
    c.add("stretch", "Z", "stretch sideways, back with Shift", [this](const Cue& cue) {
         set_stretch(cue.shift ? -1 : 1);
     }).at = What::stretch;
    editor_.add_commands(c);
    shell_.add_scrub_commands(c);
    return c;
}

/// It has the focus, so that its guess can be typed.
void CompareMode::choose(std::size_t putt) {
    chosen_ = putt;
    shell_.set_focus(FocusStop::on(What::putt, static_cast<int>(putt)));
    shell_.act("choose");
}

std::vector<Value> CompareMode::fields() {
    std::vector<Value> values;
    for (std::size_t i = 0; i < compared_.guesses.size(); ++i) {
        const auto& guess = compared_.guesses[i];
        Value value{"guess", FocusStop::on(What::putt, static_cast<int>(i)),
                    guess ? guess->to_edit(shell_.units()) : "",
                    [this, i](const std::string& text) {
                        const SaidAim aim = parse_said_aim(text, shell_.units());
                        chosen_ = i;
                        set_guess(aim);
                    },
                    22};
        value.where = [h = shell_.layout().type(34)](const Rect& row) {
            return Rect{row.x + 0.36 * row.w, row.y + (row.h - h) / 2, 0.3 * row.w, h};
        };
        values.push_back(std::move(value));
    }
    if (compared_.show.empty()) editor_.add_values(values);
    return values;
}

/// Nothing is to be worked out anew for a guess.
void CompareMode::set_guess(const SaidAim& aim) {
    shell_.remember();
    compared_.guesses[chosen_] = aim;
    shell_.act("guess");
}

/// On the rail at the hole's height the guess of the chosen putt follows.
std::optional<Drag> CompareMode::grab(const Grip& grip) {
    const bool rail = std::abs(grip.px.y() - px_of({0, 0}).y()) < shell_.layout().u(rail_u);
    if (grip.target || grip.button != Button::left || !map().contains(grip.px) || !rail)
        return std::nullopt;
    Drag drag;
    drag.move = [this](const Vec2& px, Held) {
        const double offset = (px.x() - px_of({0, 0}).x()) / (stretch_ * px_per_m());
        set_guess({stepped(offset, 0, fine_m())});
    };
    drag.at_once = true;
    return drag;
}

void CompareMode::set_stretch(int way) {
    stretch_ = way > 0 ? (stretch_ == 8 ? 1 : 2 * stretch_) : (stretch_ == 1 ? 8 : stretch_ / 2);
    shell_.act("stretch");
}

bool CompareMode::wheel(double clicks, const Vec2& px, Held) {
    if (panel().contains(px) && scrolled_.wheel(clicks, shell_.layout().scale)) return true;
    const auto target = target_at(shell_.targets(), px);
    if (!target || target->what != What::stretch) return false;
    set_stretch(clicks > 0 ? 1 : -1);
    return true;
}

}  // namespace dewtrail
