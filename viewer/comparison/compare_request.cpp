#include "viewer/comparison/compare_request.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "greens/input_error.hpp"
#include "greens/measure.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

using Text = std::optional<std::string>;

void take(Text& to, const Text& from) {
    if (from) to = from;
}

/// The ways to give a slope exclude one another.
void change_slope(PuttRequest& to, const PuttRequest& change) {
    const bool level = change.up || change.down || change.falls_left || change.falls_right;
    const bool height = change.rise || change.drop;
    const bool lines = !change.readings.empty();
    if (level || height || lines || change.green) to.slope = to.clock = Text();
    if (change.slope || change.clock || lines || change.green)
        to.up = to.down = to.falls_left = to.falls_right = Text();
    if (height || change.up || change.down) to.up = to.down = Text();
    if (change.falls_left || change.falls_right) to.falls_left = to.falls_right = Text();
    if (change.slope || change.clock || level || lines || height || change.green)
        to.rise = to.drop = to.step_at = to.step_width = Text();
    if (change.slope || change.clock || level || height || lines || change.green)
        to.readings.clear();
    if (change.slope || level || height || lines) to.green = to.ball = to.hole = Text();
    if (change.green) to.ball = to.hole = Text();
}

void change_ball(PuttRequest& to, const PuttRequest& change) {
    if (change.ball) to.distance = to.clock = Text();
    if (change.distance || change.clock) to.ball = Text();
}

void change_finish(PuttRequest& to, const PuttRequest& change) {
    if (!change.past && !change.hole_speed && !change.die) return;
    to.past = change.past;
    to.hole_speed = change.hole_speed;
    to.die = change.die;
}

std::string aim_name(const std::string& text, double aim_m, const Read& read, const Units& units) {
    const std::string plain = plain_text(text);
    if (plain == "apex") return "aimed at its apex";
    if (plain.ends_with('%'))
        return fmt::format("aimed at {} of the break", format_percent(aim_m / *read.aim_offset_m));
    return "aimed " + aim_words(aim_m, units);
}

bool is_number_only(const std::string& name) {
    return name.rfind("putt ", 0) == 0;
}

void roll_aims(Comparison& comparison, const std::vector<ComparedRequest>& requests,
               const PuttDefaults& defaults) {
    const bool any = std::any_of(requests.begin(), requests.end(),
                                 [](const ComparedRequest& r) { return r.aim.has_value(); });
    if (!any) return;
    for (std::size_t i = 0; i < requests.size(); ++i) {
        ComparedPutt& putt = comparison.putts[i];
        std::string name = "on its own line";
        if (requests[i].aim && putt.read) {
            const double aim = aim_of(*requests[i].aim, putt.plan, *putt.read, defaults.units);
            roll_with_aim(putt, aim, defaults.usual_past_m);
            name = aim_name(*requests[i].aim, aim, *putt.read, defaults.units);
            putt.at_apex = plain_text(*requests[i].aim) == "apex";
        }
        putt.name = is_number_only(putt.name) ? name : putt.name + ", " + name;
    }
}

}  // namespace

ComparedRequest changed(const ComparedRequest& first, const ComparedRequest& change) {
    ComparedRequest result = first;
    PuttRequest& to = result.putt;
    const PuttRequest& from = change.putt;
    change_slope(to, from);
    change_ball(to, from);
    change_finish(to, from);
    for (const auto member :
         {&PuttRequest::distance, &PuttRequest::slope, &PuttRequest::clock, &PuttRequest::up,
          &PuttRequest::down, &PuttRequest::falls_left, &PuttRequest::falls_right,
          &PuttRequest::rise, &PuttRequest::drop, &PuttRequest::step_at, &PuttRequest::step_width,
          &PuttRequest::green, &PuttRequest::ball, &PuttRequest::hole, &PuttRequest::stimp})
        take(to.*member, from.*member);
    if (!from.readings.empty()) to.readings = from.readings;
    if (from.stimp) to.wet = false;
    to.wet = to.wet || from.wet;
    take(result.aim, change.aim);
    return result;
}

Comparison compare(const std::vector<ComparedRequest>& requests, const PuttDefaults& defaults) {
    std::vector<PlacedPutt> plans;
    for (std::size_t i = 0; i < requests.size(); ++i) {
        try {
            plans.push_back(set_up(requests[i].putt, defaults));
        } catch (const InputError& e) {
            throw InputError(fmt::format("putt {}: {}", i + 1, e.what()), e.remedy());
        }
    }
    Comparison comparison = compare(plans, defaults.usual_past_m, defaults.units);
    roll_aims(comparison, requests, defaults);
    return comparison;
}

}  // namespace dewtrail
