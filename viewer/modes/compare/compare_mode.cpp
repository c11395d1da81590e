#include "viewer/modes/compare/compare_mode.hpp"

#include <algorithm>
#include <cmath>

#include "greens/input_error.hpp"
#include "physics/odds/odds.hpp"
#include "viewer/comparison/compare_words.hpp"
#include "viewer/comparison/demonstrations.hpp"
#include "viewer/picture/portrait.hpp"
#include "viewer/putt/putt_words.hpp"

namespace dewtrail {
namespace {

constexpr const char* first_show = "uphill";

/// The same putt as much uphill as the other is downhill; on the level, one that is steeper.
Setup other_way(Setup putt) {
    if (!clock_of(putt)) {
        set_slope(putt, 0.02);
        return putt;
    }
    const double now = bearing_hours(putt), other = on_the_dial(18 - now);
    constexpr double same_h = 0.05, another_h = 1.5;
    set_clock(putt, std::abs(other - now) < same_h ? on_the_dial(now + another_h) : other);
    return putt;
}

}  // namespace

CompareMode::CompareMode(Shell& shell, CompareStart start)
    : Mode(shell),
      start_(std::move(start)),
      editor_(shell, {[this] { return own().putts[chosen_]; },
                      [this](const PuttEditor::Edit& edit, const std::string& name) {
                          edit_putt(edit, name);
                      },
                      [this] {  // one's own putts have fields
                          if (!compared_.show.empty()) edit_putt([](Setup&) {}, "own");
                      },
                      25}) {
    compared_.show = start_.show.empty() ? first_show : start_.show;
    work_out();
}

Layout CompareMode::lay_out() const {
    Layout l = dewtrail::lay_out(shell_.appearance(), false);
    const bool low = is_small(l) && !l.portrait;
    const double strip = std::round(l.u(low ? 60 : 88) * (1 + 0.3 * (l.text - 1)));
    l.roll_strip = {0, (l.portrait ? l.foot.y : l.height) - strip, l.width, strip};
    l.message = {0, l.top_bar.bottom(), l.width, 0};
    return l;
}

/// A putt that is brought stands beside itself turned the other way up the slope.
void CompareMode::arrived(const std::optional<Setup>& putt) {
    if (!putt || shell_.undo_depth() > 0 || compared_.putts.size() > 0) return;
    const Setup unchanged;
    const auto same = [](double a, double b) { return std::abs(a - b) < 1e-9; };
    if (!putt->green && same(putt->distance_m, unchanged.distance_m) &&
        same(putt->clock_h, unchanged.clock_h) && same(putt->slope, unchanged.slope))
        return;  // what every newcomer sees first: the demonstration says more
    shown_ = false;
    change([&](Compared& c) { c = {"", {*putt, other_way(*putt)}, {}}; }, "brought");
}

std::optional<Setup> CompareMode::putt_at_hand() const {
    if (compared_.putts.empty()) return std::nullopt;
    return compared_.putts[chosen_];
}

void CompareMode::change(const std::function<void(Compared&)>& edit, const std::string& name) {
    shell_.remember();
    edit(compared_);
    work_out();
    shell_.act(name);
}

void CompareMode::put_back(const std::any& compared) {
    compared_ = std::any_cast<const Compared&>(compared);
    work_out();
}

/// What is compared as one's own putts: a demonstration that is changed becomes that.
Compared CompareMode::own() const {
    if (compared_.show.empty()) return compared_;
    Compared own;
    for (const ComparedPutt& putt : comparison_.putts) own.putts.push_back(putt.plan.setup);
    own.guesses = compared_.guesses;
    return own;
}

void CompareMode::edit_putt(const std::function<void(Setup&)>& edit, const std::string& name) {
    change(
        [&](Compared& compared) {
            compared = own();
            edit(compared.putts[chosen_]);
        },
        name);
}

void CompareMode::laid_out() {
    if (comparison_.putts.empty() || told_in_.metric == shell_.units().metric) return;
    tell();
}

/// Every putt, and the words for it.
void CompareMode::tell() {
    told_in_ = shell_.units();
    played_.clear();
    say_ = {};
    title_.clear();
    if (!compared_.show.empty()) {
        Demonstration shown = demonstrate(compared_.show, shell_.units());
        comparison_ = std::move(shown.comparison);
        say_ = shown.say;
        title_ = shown.title;
        played_ = std::move(shown.played);
    } else {
        std::vector<PlacedPutt> plans;
        for (const Setup& putt : compared_.putts) plans.push_back(placed(putt));
        comparison_ = compare(plans, start_.usual_past_m, shell_.units());
        say_[0] = comparison_sentence(comparison_, shell_.units());
    }
    const bool both_read = comparison_.putts.size() == 2 && !comparison_.putts[0].rolled &&
                           !comparison_.putts[1].rolled;
    swapped_putts_ = both_read ? swap_aims(comparison_, start_.usual_past_m) : std::nullopt;
}

void CompareMode::work_out() {
    tell();
    compared_.guesses.resize(comparison_.putts.size());
    chosen_ = std::min(chosen_, comparison_.putts.size() - 1);
    swapped_ = false;
    work_out_chances();
    load_trails();
}

const ComparedPutt& CompareMode::shown_putt(std::size_t i) const {
    return swapped_ ? (*swapped_putts_)[i] : comparison_.putts[i];
}

void CompareMode::load_trails() {
    trails_.clear();
    double end = 0, first_drop = HUGE_VAL;
    for (std::size_t i = 0; i < comparison_.putts.size(); ++i) {
        const Read* stroke = shown_putt(i).shown();
        trails_.push_back(stroke ? Trail(*stroke) : Trail());
        end = std::max(end, trails_.back().end_s());
        if (trails_.back().holed()) first_drop = std::min(first_drop, trails_.back().end_s());
    }
    freeze_s_ = first_drop < end ? first_drop : -1;
    shell_.playback.load(end);
    rolled_ = released_ = false;
}

bool CompareMode::frozen() const {
    return freeze_s_ >= 0 && !released_ && rolled_ && shell_.playback.time_s == freeze_s_;
}

/// Rolls, releases what has frozen, pauses, or begins again. What was hidden is shown.
void CompareMode::roll() {
    shown_ = true;
    if (frozen()) {
        released_ = true;
        shell_.playback.running = true;
        return shell_.act("release");
    }
    if (!shell_.playback.running && shell_.playback.complete()) released_ = false;
    shell_.playback.toggle();
    rolled_ = true;
    shell_.act(shell_.playback.running ? "roll" : "pause");
}

void CompareMode::swap() {
    if (!swapped_putts_) return shell_.complain("Two reads can swap their aims.");
    if (!told()) return shell_.complain("First guess the aims and roll; or Enter shows them.");
    swapped_ = !swapped_;
    load_trails();
    work_out_chances();
    shell_.playback.seek(0);
    roll();
    shell_.act(swapped_ ? "swap" : "swap-back");
}

bool CompareMode::advance(double seconds) {
    if (!shell_.playback.running) return false;
    shell_.playback.advance(seconds);
    const bool freezes = freeze_s_ >= 0 && !released_ && shell_.playback.time_s >= freeze_s_;
    if (freezes) {
        shell_.playback.time_s = freeze_s_;
        shell_.playback.running = false;
        shell_.act("frozen");
    } else if (shell_.playback.complete()) {
        shell_.act("rolled");
    }
    return true;
}

void CompareMode::add_putt() {
    if (comparison_.putts.size() == most_compared)
        return shell_.complain("Four putts are the most: take one away first.");
    change(
        [this](Compared& compared) {
            compared = own();
            Setup another = compared.putts[chosen_];
            set_stimp(another, another.stimp_ft + 2);
            compared.putts.push_back(another);
            compared.guesses.emplace_back();
            chosen_ = compared.putts.size() - 1;
        },
        "add");
}

void CompareMode::take_putt_away() {
    if (comparison_.putts.size() == least_compared)
        return shell_.complain("Add a putt to compare.");
    change(
        [this](Compared& compared) {
            compared = own();
            const auto at = static_cast<std::ptrdiff_t>(std::exchange(chosen_, 0));
            compared.putts.erase(compared.putts.begin() + at);
            compared.guesses.erase(compared.guesses.begin() + at);
        },
        "take-away");
}

/// Of the strokes that are shown. Some milliseconds, where they are asked for.
void CompareMode::work_out_chances() {
    chance_.assign(comparison_.putts.size(), std::nullopt);
    if (!chances_) return;
    for (std::size_t i = 0; i < chance_.size(); ++i)
        chance_[i] = chance_of_shown(shown_putt(i), scatter_of(start_.spread));
}

std::vector<std::string> CompareMode::sentences() const {
    std::vector<std::string> words;
    if (!told()) return words;
    if (swapped_) {
        words.push_back(swap_sentence(*swapped_putts_, shell_.units()));
    } else {
        for (const std::string& sentence : say_)
            if (!sentence.empty()) words.push_back(sentence);
    }
    if (detail_ && comparison_.difference)
        words.push_back(parts_words(comparison_.difference->parts, shell_.units()));
    return words;
}

std::string CompareMode::as_text() const {
    std::string text;
    for (const ComparedPutt& putt : comparison_.putts)
        text += as_sentence(putt.name) + ": " + putt_words(putt.plan, shell_.units()) + ". ";
    for (const std::string& sentence : sentences()) text += sentence + " ";
    return text;
}

bool CompareMode::guessed() const {
    return std::any_of(compared_.guesses.begin(), compared_.guesses.end(),
                       [](const auto& guess) { return guess.has_value(); });
}

/// Guess, roll and freeze, release, swap.
int CompareMode::step() const {
    if (swapped_) return 3;
    if (released_ || (rolled_ && shell_.playback.complete())) return 2;
    return rolled_ ? 1 : 0;
}

void CompareMode::show(int demonstration) {
    const auto& name = demonstration_names()[static_cast<std::size_t>(demonstration)];
    shown_ = false;
    scrolled_.to_top();
    change([&](Compared& compared) { compared = {std::string(name.key), {}, {}}; }, "show");
}

void CompareMode::begin(const std::string& demonstration) {
    const auto& names = demonstration_names();
    for (std::size_t i = 0; i < names.size(); ++i)
        if (names[i].key == demonstration) show(static_cast<int>(i));
}

Pages CompareMode::pages() const {
    const bool stroke =
        std::any_of(comparison_.putts.begin(), comparison_.putts.end(),
                    [](const ComparedPutt& putt) { return putt.shown() != nullptr; });
    Pages pages;
    if (stroke) pages.emplace_back("This comparison", "compare");
    if (!compared_.show.empty()) pages.emplace_back("A lesson on this", "lesson");
    pages.emplace_back("Ladder for this stimp", "ladder");
    pages.emplace_back("Blank form for results", "results");
    return pages;
}

std::shared_ptr<const PrintedComparison> CompareMode::comparison_to_print() const {
    PrintedComparison printed{
        comparison_, title_.empty() ? "Side by side" : as_sentence(title_), {}, played_, stretch_};
    for (const std::string& sentence : say_)
        if (!sentence.empty()) printed.sentences.push_back(sentence);
    return std::make_shared<const PrintedComparison>(std::move(printed));
}

State CompareMode::state() const {
    State state = {{"show", compared_.show},
                   {"putts", static_cast<double>(comparison_.putts.size())},
                   {"chosen", static_cast<double>(chosen_)},
                   {"time_s", shell_.playback.time_s},
                   {"end_s", shell_.playback.end_s},
                   {"frozen", frozen()},
                   {"swapped", swapped_},
                   {"step", static_cast<double>(step())},
                   {"stretch", static_cast<double>(stretch_)},
                   {"say", sentences().empty() ? std::string() : sentences().front()}};
    for (std::size_t i = 0; i < comparison_.putts.size(); ++i) {
        const auto& putt = comparison_.putts[i];
        if (putt.read && putt.read->aim_offset_m)
            state.emplace_back("aim_m" + std::to_string(i), *putt.read->aim_offset_m);
        if (compared_.guesses[i])
            state.emplace_back("guess_m" + std::to_string(i), compared_.guesses[i]->offset_m);
    }
    return state;
}

}  // namespace dewtrail
