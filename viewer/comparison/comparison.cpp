#include "viewer/comparison/comparison.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <stdexcept>

#include "greens/input_error.hpp"
#include "greens/measure.hpp"
#include "physics/odds/odds.hpp"
#include "physics/read/told_stroke.hpp"
#include "viewer/putt/outlook.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

constexpr double least_break_m = 0.5 * metres_per_inch;  // under this a putt is called straight

ReadOptions options_of(double player_past_m) {
    ReadOptions options;
    options.usual_past_m = player_past_m;
    options.keep_path = true;
    options.look_for_others = false;
    return options;
}

std::string grade_of(const PlacedPutt& plan) {
    if (plan.putt.mean_rise() == 0) return "level";
    return fmt::format("{} {}", format_slope(std::abs(plan.putt.mean_rise())),
                       plan.putt.mean_rise() > 0 ? "up" : "down");
}

/// What putts may differ in.
using Trait = std::function<std::string(const PlacedPutt&, const Units&)>;
using Traits = std::vector<Trait>;

const Traits& spots() {
    static const Traits all{
        [](const PlacedPutt& p, const Units&) { return p.setup.green ? p.setup.green->name : ""; },
        [](const PlacedPutt& p, const Units&) { return p.setup.hole_name; },
        [](const PlacedPutt& p, const Units&) { return p.setup.ball_name; }};
    return all;
}

const Traits& places() {
    static const Traits all{
        [](const PlacedPutt& p, const Units& u) { return distance_figure(p.setup, u); },
        [](const PlacedPutt& p, const Units& u) { return slope_figure(p.setup, u); },
        [](const PlacedPutt& p, const Units&) {
            return clock_of(p.setup) ? "ball at " + clock_figure(p.setup) : grade_of(p);
        }};
    return all;
}

const Traits& greens_and_finishes() {
    static const Traits all{
        [](const PlacedPutt& p, const Units& u) { return "stimp " + stimp_figure(p.setup, u); },
        [](const PlacedPutt& p, const Units& u) { return finish_words(p.setup, u); }};
    return all;
}

bool differ_in(const Trait& trait, const std::vector<ComparedPutt>& putts, const Units& units) {
    const std::string first = trait(putts.front().plan, units);
    return std::any_of(putts.begin(), putts.end(),
                       [&](const ComparedPutt& p) { return trait(p.plan, units) != first; });
}

void add_words(std::string& list, const std::string& words) {
    if (!words.empty()) list += (list.empty() ? "" : ", ") + words;
}

void tell_by(const Traits& traits, std::vector<ComparedPutt>& putts, const Units& units) {
    for (const Trait& trait : traits)
        if (differ_in(trait, putts, units))
            for (ComparedPutt& putt : putts) add_words(putt.figures, trait(putt.plan, units));
}

void name_putts(std::vector<ComparedPutt>& putts, const Units& units) {
    tell_apart(putts, units);
    for (std::size_t i = 0; i < putts.size(); ++i)
        putts[i].name = putts[i].figures.empty() ? fmt::format("putt {}", i + 1) : putts[i].figures;
}

std::optional<BreakDifference> difference_of(const std::vector<ComparedPutt>& putts) {
    std::optional<std::size_t> more, less;
    for (std::size_t i = 0; i < putts.size(); ++i) {
        if (!putts[i].bend) continue;
        if (!more || putts[i].bend->break_m > putts[*more].bend->break_m) more = i;
        if (!less || putts[i].bend->break_m <= putts[*less].bend->break_m) less = i;
    }
    if (!more || *more == *less) return std::nullopt;
    return BreakDifference{*more, *less, break_parts(*putts[*more].bend, *putts[*less].bend)};
}

/// '72%' or '72 %' of the break.
std::optional<double> share_typed(const std::string& text) {
    std::string plain = plain_text(text);
    drop_ending(plain, " of the break");
    if (!drop_ending(plain, "%")) return std::nullopt;
    return parse_fraction(plain, "aim");
}

}  // namespace

std::optional<double> ComparedPutt::share_of_break() const {
    const Read* what = shown();
    if (!what || !read || !what->aim_offset_m || !read->aim_offset_m) return std::nullopt;
    if (std::abs(*read->aim_offset_m) < least_break_m) return std::nullopt;
    return *what->aim_offset_m / *read->aim_offset_m;
}

std::optional<double> ComparedPutt::part_of_break() const {
    const auto share = share_of_break();
    return share && *share >= 0 && *share < 1 ? share : std::nullopt;
}

double ComparedPutt::time_on_the_way_s() const {
    const Read* what = shown();
    return what->roll.rim && what->entry.holed ? what->entry.time_s : what->arrival_time_s;
}

std::optional<double> ComparedPutt::room_width_m() const {
    const Read* what = shown();
    if (!what || !what->room) return std::nullopt;
    const double angle = what->stroke.angle_rad;
    return plan.putt.distance_m() * (std::tan(angle + what->room->angle_hi_rad) -
                                     std::tan(angle + what->room->angle_lo_rad));
}

/// Where named spots tell the putts apart, their figures need not.
void tell_apart(std::vector<ComparedPutt>& putts, const Units& units) {
    for (ComparedPutt& putt : putts) putt.figures.clear();
    tell_by(spots(), putts, units);
    const bool by_spots = std::none_of(putts.begin(), putts.end(),
                                       [](const ComparedPutt& p) { return p.figures.empty(); });
    if (!by_spots) tell_by(places(), putts, units);
    tell_by(greens_and_finishes(), putts, units);
}

std::string shared_words(const std::vector<ComparedPutt>& putts, const Units& units) {
    const bool alike = std::all_of(putts.begin(), putts.end(),
                                   [](const ComparedPutt& p) { return p.figures.empty(); });
    if (alike) return putt_words(putts.front().plan, units);
    std::string words;
    for (const Traits* traits : {&spots(), &places(), &greens_and_finishes()})
        for (const Trait& trait : *traits)
            if (!differ_in(trait, putts, units)) add_words(words, trait(putts.front().plan, units));
    return words;
}

Comparison compare(const std::vector<PlacedPutt>& plans, double player_past_m, const Units& units) {
    if (plans.size() < least_compared || plans.size() > most_compared)
        throw std::invalid_argument("compare: needs two to four putts");
    Comparison comparison;
    for (const PlacedPutt& plan : plans) {
        ReadResult result = read(plan.putt, options_of(player_past_m));
        ComparedPutt putt{.name = "", .plan = plan, .none = result.none};
        if (!result.lines.empty()) {
            putt.read = std::move(result.lines.front());
            putt.bend = bend_of(plan.putt, *putt.read);
        }
        comparison.putts.push_back(std::move(putt));
    }
    name_putts(comparison.putts, units);
    comparison.difference = difference_of(comparison.putts);
    return comparison;
}

std::optional<double> chance_of_shown(const ComparedPutt& putt, const Scatter& scatter) {
    const Putt& ground = putt.plan.putt;
    if (!putt.read || !has_odds(ground)) return std::nullopt;
    const auto sensitivity = read_slope_sensitivity(ground, putt.read->stroke);
    if (!sensitivity) return std::nullopt;
    const Read& shown = *putt.shown();
    const StrokeSpread spread =
        stroke_spread(shown.stroke.angle_rad, shown.level_roll_m, scatter, *sensitivity);
    const auto map = StrokeMap::make(ground, putt.read->stroke, window_of(spread));
    if (!map) return std::nullopt;
    return chance_to_hole(*map, spread);
}

void roll_stroke(ComparedPutt& putt, const Stroke& stroke, double player_past_m) {
    putt.rolled = describe_stroke(putt.plan.putt, stroke, options_of(player_past_m));
}

void roll_with_aim(ComparedPutt& putt, double aim_offset_m, double player_past_m) {
    if (!putt.read) return;
    roll_stroke(putt, {start_angle_rad(putt.plan.putt, aim_offset_m), putt.read->stroke.speed_m_s},
                player_past_m);
}

std::optional<double> apex_aim_m(const Putt& putt, const Read& read) {
    if (!read.apex || !(read.apex->along_m > 0)) return std::nullopt;
    return read.apex->offset_m / read.apex->along_m * putt.distance_m();
}

double aim_of(const std::string& text, const PlacedPutt& plan, const Read& read,
              const Units& units) {
    if (plain_text(text) == "apex") {
        const auto aim = apex_aim_m(plan.putt, read);
        if (!aim)
            throw InputError("aim 'apex': this putt has none, it runs straight",
                             "Give an aim: '2 cups right', '8in left', '72%'.");
        return *aim;
    }
    const auto share = share_typed(text);
    if (!share) return parse_aim_offset_m(text, units);
    if (!read.aim_offset_m)
        throw InputError(
            fmt::format("aim '{}': this putt has no aim spot to take a share of", text),
            "Give an aim: '2 cups right', '8in left'.");
    return *share * *read.aim_offset_m;
}

std::optional<std::array<ComparedPutt, 2>> swap_aims(const Comparison& comparison,
                                                     double player_past_m) {
    if (comparison.putts.size() != 2) return std::nullopt;
    std::array<ComparedPutt, 2> swapped{comparison.putts[0], comparison.putts[1]};
    std::array<double, 2> aims{};
    for (std::size_t i = 0; i < 2; ++i) {
        const Read* shown = swapped[i].shown();
        if (!swapped[i].read || !shown->aim_offset_m) return std::nullopt;
        aims[i] = *shown->aim_offset_m;
    }
    for (std::size_t i = 0; i < 2; ++i) roll_with_aim(swapped[i], aims[1 - i], player_past_m);
    return swapped;
}

}  // namespace dewtrail
