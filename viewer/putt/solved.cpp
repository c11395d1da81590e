#include "viewer/putt/solved.hpp"

#include <fmt/format.h>

#include <chrono>
#include <cmath>
#include <numbers>

#include "greens/units.hpp"
#include "viewer/text/clock_and_angle.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

/// The least arrival has two lines that merge; a touch faster keeps them apart.
constexpr double touch_faster = 1.002;

ReadOptions options_for(double player_past_m, Effort effort) {
    ReadOptions options;
    options.usual_past_m = player_past_m;
    options.keep_path = options.open_hole = true;
    options.look_for_others = effort == Effort::settled;
    return options;
}

std::optional<Read> line_with(Putt putt, const Finish& finish, const ReadOptions& options) {
    putt.finish = finish;
    ReadResult result = read(putt, options);
    if (result.lines.empty()) return std::nullopt;
    return std::move(result.lines.front());
}

/// A finish near the one asked for that does have a line, if the search named one.
std::optional<Finish> offered(const NoLine& none, const Finish& asked) {
    if (none.least_arrival_m_s) return Finish::hole_speed(*none.least_arrival_m_s * touch_faster);
    if (!none.nearest_finish) return std::nullopt;
    return Finish{asked.kind, *none.nearest_finish};
}

std::vector<FinishChoice> choices_for(const Putt& putt, ReadOptions options) {
    std::vector<FinishChoice> choices = {{barely_in_past_m, "barely in", {}, false},
                                         {usual_past_m, "a foot past", {}, false},
                                         {firm_past_m, "firm", {}, false}};
    options.room = options.costs = options.keep_path = options.look_for_others = false;
    options.open_hole = false;
    for (FinishChoice& choice : choices) {
        choice.chosen = putt.finish.kind == Finish::Kind::past &&
                        std::abs(putt.finish.value - choice.past_m) < 1e-4;
        if (const auto line = line_with(putt, Finish::past(choice.past_m), options))
            choice.aim_offset_m = line->aim_offset_m;
    }
    return choices;
}

/// The read's line turned to where the best choice starts. Costs stay the read's.
void turn_to(Read& read, const Putt& putt, double aim_shift_rad, const ReadOptions& options) {
    const Costs costs = read.costs;
    const Check check = read.check;
    const Stroke& stroke = read.stroke;
    read = describe_stroke(putt, {stroke.angle_rad + aim_shift_rad, stroke.speed_m_s}, options);
    read.costs = costs;
    read.check = check;
}

void find_line(Solved& s, ReadOptions options, Effort effort) {
    ReadResult result = read(s.putt, options);
    if (effort == Effort::settled && result.other_lines > 0) {
        options.every_line = true;
        result = read(s.putt, options);
    }
    if (!result.lines.empty()) s.read = std::move(result.lines[0]);
    if (result.lines.size() > 1) s.second = std::move(result.lines[1]);
    s.none = result.none;
    if (!s.none) return;
    s.offer = offered(*s.none, s.putt.finish);
    if (s.offer) s.instead = line_with(s.putt, *s.offer, options);
    if (!s.instead) s.offer.reset();
}

}  // namespace

Solved solve(const Setup& setup, double player_past_m, Effort effort) {
    const auto start = std::chrono::steady_clock::now();
    Solved s;
    s.putt = putt_of(setup);
    const ReadOptions options = options_for(player_past_m, effort);
    if (s.putt.ball_on_green()) {
        find_line(s, options, effort);
        if (s.read && setup.taken) turn_to(*s.read, s.putt, setup.taken->aim_shift_rad, options);
        if (s.putt.distance_m() < short_putt_m) s.choices = choices_for(s.putt, options);
        if (setup.taken)
            for (FinishChoice& choice : s.choices) choice.chosen = false;
    }
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
    s.solve_ms = took.count();
    return s;
}

namespace {

std::string finish_figure(const Finish& finish, const Units& units) {
    return finish.kind == Finish::Kind::past ? format_past(finish.value, units)
                                             : format_speed(finish.value, units);
}

Trouble no_line(const Solved& s, const Units& units) {
    const std::string button = s.offer ? "Use " + finish_figure(*s.offer, units) : "";
    if (s.none->least_arrival_m_s)
        return {
            fmt::format("Nothing stops on this slope. It reaches the hole at {} at the slowest.",
                        format_speed(*s.none->least_arrival_m_s, units)),
            button};
    if (s.none->why == NoLine::Why::leaves_the_green)
        return {"The line runs off the green on its way.", button};
    if (s.none->why == NoLine::Why::check_failed)
        return {"A hair's breadth decides this putt: no read can be trusted.", button};
    const bool past = s.putt.finish.kind == Finish::Kind::past;
    const std::string asked = finish_figure(s.putt.finish, units);
    std::string words = past ? fmt::format("No start line stops {} past.", asked)
                             : fmt::format("No start line arrives at {}.", asked);
    if (s.offer)
        words += fmt::format(" The nearest that does: {}.", finish_figure(*s.offer, units));
    return {words, button};
}

std::string end_words(const Solved& s) {
    if (s.putt.finish.kind != Finish::Kind::hole_speed) return "";
    if (s.read->roll.end == RollEnd::keeps_rolling)
        return "Too steep to stop: on this slope the ball keeps rolling below the hole.";
    if (s.read->roll.end == RollEnd::at_rest) return "";
    return "Missed, this one rolls off the green.";
}

std::string other_line_words(const Read& other, const Units& units) {
    const double angle = other.stroke.angle_rad;
    const std::string far = other.aim_offset_m ? format_aim(*other.aim_offset_m, units)
                                               : format_degrees(std::abs(angle) * degrees_per_rad);
    return fmt::format("A second line holes it too, {} {}.", far, angle > 0 ? "right" : "left");
}

}  // namespace

Trouble trouble_of(const Solved& s, const Units& units) {
    if (!s.putt.ball_on_green()) return {"Put the ball on the green.", ""};
    if (s.none) return no_line(s, units);
    if (!s.read) return {};
    const std::string end = end_words(s);
    const std::string other = s.second ? other_line_words(*s.second, units) : "";
    return {end.empty() || other.empty() ? end + other : end + " " + other, s.second ? "Show" : ""};
}

}  // namespace dewtrail
