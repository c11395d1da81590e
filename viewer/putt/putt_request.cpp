#include "viewer/putt/putt_request.hpp"

#include <fmt/format.h>

#include <utility>

#include "greens/input_error.hpp"
#include "viewer/putt/ground_request.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {
namespace {

double chosen_stimp_ft(const PuttRequest& request, const PuttDefaults& defaults, const Green* green,
                       std::vector<std::string>& notes) {
    const auto grain = parse_grain(request.conditions);
    if (grain && request.stimp)
        throw InputError("--grain and --stimp contradict each other",
                         "--grain holds the stimp: the mean of its two readings.");
    if (grain) return grain->stimp_m / metres_per_foot;
    if (request.stimp) return parse_stimp_ft(*request.stimp);
    if (green) return green->stimp_ft;
    if (defaults.stimp_ft) {
        notes.push_back(
            fmt::format("stimp {}: the player's usual", format_stimp(*defaults.stimp_ft)));
        return *defaults.stimp_ft;
    }
    notes.push_back("no stimp given: taken as 10");
    return usual_stimp_ft;
}

double wet_stimp(double stimp_ft, std::vector<std::string>& notes) {
    const double wet_ft = stimp_ft - wet_stimp_ft;
    if (wet_ft < least_stimp_ft)
        throw InputError(fmt::format("stimp {} when wet is outside 3-18 ft", format_stimp(wet_ft)),
                         "Give the stimp as it is now, without --wet.");
    notes.push_back(fmt::format("wet: 1½ ft taken off, stimp {}", format_stimp(wet_ft)));
    return wet_ft;
}

Finish chosen_finish(const PuttRequest& request, const PuttDefaults& defaults, double distance_m,
                     std::vector<std::string>& notes) {
    if (request.past.has_value() + request.hole_speed.has_value() + request.die > 1)
        throw InputError("more than one finish was given",
                         "Use one of --past, --hole-speed and --die.");
    if (request.die) return Finish::past(0);
    if (request.past) return Finish::past(parse_past_m(*request.past, defaults.units));
    if (request.hole_speed)
        return Finish::hole_speed(parse_hole_speed_m_s(*request.hole_speed, defaults.units));
    if (!(distance_m > lag_distance_m)) return Finish::past(defaults.usual_past_m);
    notes.push_back("beyond 30 ft: finish taken as 3 in past");
    return Finish::past(lag_past_m);
}

TypedWords typed_words(const PuttRequest& request, const Units& units) {
    const auto set = [](const std::optional<std::string>& text, const char* unit) {
        return text ? as_typed(*text, unit) : "";
    };
    return {.distance = set(request.distance, units.metric ? "m" : "ft"),
            .slope = set(request.slope, "%"),
            .clock = set(request.clock, ""),
            .stimp = request.wet ? "" : set(request.stimp, ""),
            .finish = set(request.past, units.metric ? "cm" : "in"),
            .metric = units.metric};
}

}  // namespace

PlacedPutt set_up(const PuttRequest& request, const PuttDefaults& defaults) {
    Setup setup;
    std::vector<std::string> notes;
    set_ground(setup, request, defaults, notes);
    setup.stimp_ft = chosen_stimp_ft(request, defaults, setup.green.get(), notes);
    if (request.wet) setup.stimp_ft = wet_stimp(setup.stimp_ft, notes);
    setup.finish = chosen_finish(request, defaults, distance_of(setup), notes);
    setup.conditions =
        parse_conditions(request.conditions, defaults.units, putt_of(setup).line(), notes);
    if (request.slope_sure) setup.slope_sure = parse_slope(*request.slope_sure, "slope-sure");
    if (request.stimp_sure)
        setup.stimp_sure_ft = parse_stimp_change_ft(*request.stimp_sure, "stimp-sure");
    setup.typed = typed_words(request, defaults.units);
    return placed(std::move(setup), std::move(notes));
}

PuttRequest first_putt() {
    PuttRequest request;
    request.distance = "12ft";
    request.slope = "2%";
    request.clock = "3";
    return request;
}

}  // namespace dewtrail
