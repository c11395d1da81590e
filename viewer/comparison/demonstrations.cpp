#include "viewer/comparison/demonstrations.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

#include "greens/input_error.hpp"
#include "greens/measure.hpp"
#include "viewer/comparison/compare_request.hpp"
#include "viewer/comparison/compare_words.hpp"
#include "viewer/putt/presets.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/putt/trail.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr double share_seen = 0.72;  // of the break; a common under-read, no one source
constexpr int strokes_played = 40;
// The seed, of the first dozen, whose forty strokes are nearest the mean of many thousand.
constexpr std::uint64_t seed = 11;

using Names = std::vector<std::string>;

/// The side-hill putt that everything is compared with.
PuttRequest side_hill(const char* distance = "12ft") {
    return {.distance = distance, .slope = "2%", .clock = "3", .stimp = "10", .past = "12in"};
}

PuttRequest with(PuttRequest putt, std::optional<std::string> PuttRequest::*what,
                 const char* text) {
    putt.*what = text;
    return putt;
}

Demonstration start(const std::vector<ComparedRequest>& putts, const Names& names,
                    const Units& units) {
    Demonstration shown;
    PuttDefaults defaults;
    defaults.units = units;
    shown.comparison = compare(putts, defaults);
    for (std::size_t i = 0; i < names.size(); ++i) shown.comparison.putts[i].name = names[i];
    for (ComparedPutt& putt : shown.comparison.putts)
        putt.plan.setup.typed = {};  // nobody typed it: told in any units
    tell_apart(shown.comparison.putts, units);
    shown.say[0] = comparison_sentence(shown.comparison, units);
    return shown;
}

const Read& read_of(const Demonstration& shown, std::size_t i) {
    return *shown.comparison.putts[i].read;
}

double aim_m(const Demonstration& shown, std::size_t i) {
    return *read_of(shown, i).aim_offset_m;
}

double width_of_room(const Demonstration& shown, std::size_t i) {
    return *shown.comparison.putts[i].room_width_m();
}

Demonstration uphill_and_downhill(const Units& units) {
    const PuttRequest putt = side_hill();
    Demonstration shown = start(
        {{with(putt, &PuttRequest::clock, "1:30")}, {with(putt, &PuttRequest::clock, "4:30")}},
        {"downhill", "uphill"}, units);
    shown.say[1] = swap_sentence(*swap_aims(shown.comparison, usual_past_m), units);
    return shown;
}

Demonstration slow_and_fast(const Units& units) {
    const PuttRequest putt = side_hill();
    Demonstration shown =
        start({{with(putt, &PuttRequest::stimp, "8")}, {with(putt, &PuttRequest::stimp, "12")}},
              {"slow", "fast"}, units);
    const double per_foot = (aim_m(shown, 1) - aim_m(shown, 0)) / 4;
    shown.say[1] = fmt::format("The aim goes from {} to {}: {} for each foot of stimp.",
                               format_aim(aim_m(shown, 0), units),
                               format_aim(aim_m(shown, 1), units), format_length(per_foot, units));
    return shown;
}

Demonstration barely_in_and_firm(const Units& units) {
    const PuttRequest putt = side_hill("8ft");
    Demonstration shown = start(
        {{with(putt, &PuttRequest::past, "barely in")}, {with(putt, &PuttRequest::past, "firm")}},
        {"barely in", "firm"}, units);
    for (ComparedPutt& each : shown.comparison.putts)  // 'firm' alone would say nothing new
        each.figures = past_figure(each.plan.setup, units) + " past";
    shown.say[1] = fmt::format(
        "Barely in, starts within {} of each other at the hole still drop; firm, within {}.",
        format_length(width_of_room(shown, 0), units),
        format_length(width_of_room(shown, 1), units));
    return shown;
}

Demonstration short_and_long(const Units& units) {
    Demonstration shown =
        start({{side_hill("6ft")}, {side_hill("12ft")}}, {"short", "long"}, units);
    const ComparedPutt& putt = shown.comparison.putts[1];
    for (const BreakMark& mark : break_marks(putt.plan.putt, *putt.read, Trail(*putt.read), units))
        if (mark.name == "halfway")
            shown.say[1] =
                fmt::format("Halfway to the hole the long one has shown {} of its break.",
                            format_percent(mark.shown));
    return shown;
}

Demonstration aimed_at_the_apex(const Units& units) {
    Demonstration shown =
        start({{side_hill()}, {side_hill(), "apex"}}, {"on the start line"}, units);
    shown.say[1] = fmt::format("Start it {} above the apex.",
                               format_length(*read_of(shown, 0).line_above_apex_m, units));
    return shown;
}

Demonstration most_misses_are_low(const Units& units) {
    const std::string seen = format_percent(share_seen);
    Demonstration shown = start({{side_hill()}, {side_hill(), seen}},
                                {"all of the break", seen + " of the break"}, units);
    // Steady enough that what is shown is the read, not the stroke; no misread but the share.
    const Scatter low_handicap = scatter_of(find_spread("low").value());
    for (std::size_t i = 0; i < 2; ++i) {
        const double share = i == 0 ? 1 : share_seen;
        shown.played.push_back(play_putts(shown.comparison.putts[i].plan.putt, read_of(shown, 0),
                                          share, low_handicap, strokes_played, seed));
        shown.played.back().name = shown.comparison.putts[i].name;
    }
    const PlayedPutts &whole = shown.played[0], &part = shown.played[1];
    shown.say = {fmt::format("A player who sees {} of the break misses {} of {}, and {} of those "
                             "are low.",
                             seen, part.missed(), part.strokes.size(), part.missed_low()),
                 fmt::format("With all of the break the same strokes miss {}, and {} of those are "
                             "low.",
                             whole.missed(), whole.missed_low())};
    return shown;
}

Demonstration half_a_percent_misread(const Units& units) {
    const PuttRequest seen = with(side_hill(), &PuttRequest::slope, "1.5%");
    Demonstration shown =
        start({{side_hill()}, {side_hill()}}, {"read as 2 %", "read as 1½ %"}, units);
    PuttDefaults defaults;
    defaults.units = units;
    const Read played = *compare({{seen}, {seen}}, defaults).putts[0].read;
    ComparedPutt& putt = shown.comparison.putts[1];
    roll_stroke(putt, played.stroke, usual_past_m);
    const double too_low = aim_m(shown, 0) - *played.aim_offset_m;
    const double forgiven = width_of_room(shown, 0) / 2;
    shown.say = {
        fmt::format("Read half a percent too flat it is aimed {} too low, and {}.",
                    format_length(too_low, units),
                    outcome_phrase(outcome_of(putt.plan.putt, *putt.rolled), units)),
        fmt::format("The hole forgives {} either side: half a percent is {} that.",
                    format_length(forgiven, units), about_times_words(too_low / forgiven))};
    return shown;
}

/// Twenty feet of readings: first half, middle, second half.
PuttRequest halves(const std::string& first, const std::string& second) {
    return {.distance = "20ft",
            .readings = {"0," + first, "7ft," + first, "10ft,level", "13ft," + second,
                         "hole," + second},
            .stimp = "10",
            .past = "12in"};
}

Demonstration double_break(const Units& units) {
    Demonstration shown = start({{halves("left 2%", "right 2%")},
                                 {halves("left 2%", "level")},
                                 {halves("level", "right 2%")}},
                                {"both halves", "first half only", "second half only"}, units);
    constexpr const char* falls[] = {"falls left 2 %, then right 2 %", "falls left 2 %, then level",
                                     "level, then falls right 2 %"};
    for (std::size_t i = 0; i < std::size(falls); ++i) shown.comparison.putts[i].figures = falls[i];
    const double first = std::abs(aim_m(shown, 1)), second = std::abs(aim_m(shown, 2));
    shown.say = {
        fmt::format("The first half alone breaks it {} one way, the second alone {} the "
                    "other.",
                    format_length(first, units), format_length(second, units)),
        fmt::format("Together they leave an aim {} {} of the centre: {}.",
                    format_aim(aim_m(shown, 0), units), aim_m(shown, 0) > 0 ? "right" : "left",
                    first > second ? "what bends the ball early has longer to carry it"
                                   : "near the hole the ball is slow and bends more")};
    return shown;
}

struct Ready {
    DemonstrationName name;
    Demonstration (*make)(const Units&);
};
constexpr std::array<Ready, 8> all_ready{{
    {{"uphill", "uphill and downhill"}, uphill_and_downhill},
    {{"fast", "slow and fast"}, slow_and_fast},
    {{"firm", "barely in and firm"}, barely_in_and_firm},
    {{"long", "short and long"}, short_and_long},
    {{"apex", "aimed at the apex"}, aimed_at_the_apex},
    {{"low", "most misses are low"}, most_misses_are_low},
    {{"misread", "half a percent misread"}, half_a_percent_misread},
    {{"halves", "first half and second half"}, double_break},
}};

const Ready& ready_named(std::string_view name) {
    const std::string plain = plain_text(name);
    std::string keys;
    for (const Ready& ready : all_ready) {
        if (plain == ready.name.key || plain == ready.name.title) return ready;
        keys += (keys.empty() ? "" : ", ") + std::string(ready.name.key);
    }
    throw InputError(fmt::format("demonstration '{}' is not known", name),
                     "Known are: " + keys + "; --show list tells about them.");
}

}  // namespace

const std::vector<DemonstrationName>& demonstration_names() {
    static const std::vector<DemonstrationName> names = [] {
        std::vector<DemonstrationName> all;
        for (const Ready& ready : all_ready) all.push_back(ready.name);
        return all;
    }();
    return names;
}

Demonstration demonstrate(std::string_view name, const Units& units) {
    const Ready& ready = ready_named(name);
    Demonstration shown = ready.make(units);
    shown.title = ready.name.title;
    return shown;
}

void check_demonstration(std::string_view name) {
    ready_named(name);
}

}  // namespace dewtrail
