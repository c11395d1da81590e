#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>
#include <string>
#include <vector>

#include "greens/input_error.hpp"
#include "greens/measure.hpp"
#include "physics/base/ball_and_hole.hpp"
#include "physics/roll/green_speed.hpp"
#include "viewer/terminal/session.hpp"
#include "viewer/text/english.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {
namespace {

// The USGA's stimpmeter booklet: three balls one way stop within 8 in of each other, and the plain
// mean of two ways that differ by more than 18 in is questionable.
constexpr double close_together_m = 8 * metres_per_inch;
constexpr double questionable_m = 18 * metres_per_inch;
constexpr double steep_ratio = 3;  // product convention: beyond, small errors of reading grow large
constexpr double least_stimp_ft = 3, most_stimp_ft = 18;

struct SpeedOptions {
    std::vector<std::string> up, down, timed, same_stroke;
    std::optional<std::string> usual;
};

/// What the readings say. Stimps in metres.
struct GreenSpeed {
    std::string method;
    std::string how{};  ///< for people: 'from 3 rolls up and 3 down'
    double stimp_m = 0;
    double lowest_m = 0, highest_m = 0;  ///< that single readings would have given
    std::size_t count = 0;               ///< of single answers; with one there is no spread
    std::optional<double> slope_over_resistance{};
    Json readings = Json::array();
    std::vector<std::string> notes{};
};

double mean(const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

/// The two halves of 'a,b'.
std::pair<std::string, std::string> pair_of(const std::string& text, const char* option,
                                            const char* example) {
    const std::size_t comma = text.find(',');
    if (comma == text.npos || text.find(',', comma + 1) != text.npos)
        throw InputError(
            fmt::format("{} '{}' is not two figures with a comma between", option, text),
            fmt::format("write it like {} {}", option, example));
    return {text.substr(0, comma), text.substr(comma + 1)};
}

std::vector<double> distances_m(const std::vector<std::string>& texts, const Units& units,
                                const char* what) {
    std::vector<double> distances;
    for (const std::string& text : texts) distances.push_back(parse_distance_m(text, units, what));
    return distances;
}

/// Spreads the answers, averages them.
void take_answers(GreenSpeed& speed, const std::vector<double>& stimps_m) {
    const auto [lowest, highest] = std::minmax_element(stimps_m.begin(), stimps_m.end());
    speed.stimp_m = mean(stimps_m);
    speed.lowest_m = *lowest;
    speed.highest_m = *highest;
    speed.count = stimps_m.size();
}

void note_slope(GreenSpeed& speed, double up_m, double down_m) {
    if (down_m > steep_ratio * up_m)
        speed.notes.push_back(
            "steep: down is more than three times up, where every inch counts; find a flatter "
            "place");
    if (down_m < up_m)
        speed.notes.push_back(
            "down is shorter than up: if it is not level there, the two were swapped");
}

void note_scatter(GreenSpeed& speed, const std::vector<double>& rolls_m, const char* way,
                  const Units& units) {
    const auto [least, most] = std::minmax_element(rolls_m.begin(), rolls_m.end());
    if (*most - *least <= close_together_m) return;
    speed.notes.push_back(fmt::format("the rolls {} differ by {}; within {} is usual, roll again",
                                      way, format_length(*most - *least, units),
                                      format_length(close_together_m, units)));
}

void add_rolls(Json& readings, const char* way, const std::vector<double>& rolls_m) {
    for (const double roll_m : rolls_m)
        readings.push_back({{"way", way}, {"distance_m", number(roll_m)}});
}

GreenSpeed up_and_down(const SpeedOptions& options, const Units& units) {
    if (options.up.empty() || options.down.empty())
        throw InputError("up and down belong together",
                         "roll both ways on one line: --up 8ft --down 12ft");
    const std::vector<double> up_m = distances_m(options.up, units, "up");
    const std::vector<double> down_m = distances_m(options.down, units, "down");
    const TwoWayReading both = stimp_from_up_and_down(mean(up_m), mean(down_m));

    GreenSpeed speed{.method = "up_and_down", .stimp_m = both.stimp_m};
    speed.how = fmt::format("{} up and {} down", counted(up_m.size(), "roll"), down_m.size());
    const auto [least_up, most_up] = std::minmax_element(up_m.begin(), up_m.end());
    const auto [least_down, most_down] = std::minmax_element(down_m.begin(), down_m.end());
    speed.lowest_m = stimp_from_up_and_down(*least_up, *least_down).stimp_m;
    speed.highest_m = stimp_from_up_and_down(*most_up, *most_down).stimp_m;
    speed.count = std::max(up_m.size(), down_m.size());
    speed.slope_over_resistance = both.slope_over_resistance;
    add_rolls(speed.readings, "up", up_m);
    add_rolls(speed.readings, "down", down_m);

    note_scatter(speed, up_m, "up", units);
    note_scatter(speed, down_m, "down", units);
    const double apart_m = std::abs(mean(down_m) - mean(up_m));
    if (apart_m > questionable_m)
        speed.notes.push_back(fmt::format(
            "up and down differ by {}: their plain mean, {}, would be questionable and is not used",
            format_distance(apart_m, units),
            format_distance((mean(up_m) + mean(down_m)) / 2, units)));
    note_slope(speed, mean(up_m), mean(down_m));
    return speed;
}

GreenSpeed timed(const SpeedOptions& options, const Units& units) {
    GreenSpeed speed{.method = "timed"};
    std::vector<double> stimps_m;
    for (const std::string& text : options.timed) {
        const auto [distance, time] = pair_of(text, "--timed", "12ft,3.1s");
        const double distance_m = parse_distance_m(distance, units, "timed distance");
        const double time_s = parse_time_s(time, "timed roll");
        stimps_m.push_back(stimp_from_timed_roll_m(distance_m, time_s));
        speed.readings.push_back({{"distance_m", number(distance_m)},
                                  {"time_s", number(time_s)},
                                  {"stimp_ft", number(stimps_m.back() / metres_per_foot)}});
    }
    take_answers(speed, stimps_m);
    speed.how = counted(stimps_m.size(), "timed roll");
    return speed;
}

/// One stroke leaves at one speed wherever it is made, so its level roll grows as the stimp does.
GreenSpeed same_stroke(const SpeedOptions& options, const Units& units) {
    if (!options.usual)
        throw InputError("--same-stroke needs to know what that stroke rolls elsewhere",
                         "add --usual 8paces,10: its level roll, and the stimp there");
    const auto [usual_roll, usual_stimp] = pair_of(*options.usual, "--usual", "8paces,10");
    const double usual_roll_m = parse_distance_m(usual_roll, units, "usual roll");
    const double usual_stimp_m = parse_stimp_ft(usual_stimp, "usual stimp") * metres_per_foot;

    GreenSpeed speed{.method = "same_stroke"};
    std::vector<double> stimps_m, ups_m, downs_m;
    for (const std::string& text : options.same_stroke) {
        const auto [up, down] = pair_of(text, "--same-stroke", "7paces,9paces");
        ups_m.push_back(parse_distance_m(up, units, "same stroke up"));
        downs_m.push_back(parse_distance_m(down, units, "same stroke down"));
        const double level_roll_m = stimp_from_up_and_down(ups_m.back(), downs_m.back()).stimp_m;
        stimps_m.push_back(usual_stimp_m * level_roll_m / usual_roll_m);
        speed.readings.push_back({{"up_m", number(ups_m.back())},
                                  {"down_m", number(downs_m.back())},
                                  {"stimp_ft", number(stimps_m.back() / metres_per_foot)}});
    }
    take_answers(speed, stimps_m);
    speed.slope_over_resistance =
        stimp_from_up_and_down(mean(ups_m), mean(downs_m)).slope_over_resistance;
    speed.how = fmt::format(
        "{} both ways, against {} on stimp {}", counted(stimps_m.size(), "stroke"),
        format_distance(usual_roll_m, units), format_stimp(usual_stimp_m / metres_per_foot));
    note_slope(speed, mean(ups_m), mean(downs_m));
    return speed;
}

GreenSpeed measure(const SpeedOptions& options, const Units& units) {
    const bool two_way = !options.up.empty() || !options.down.empty();
    const bool by_stroke = !options.same_stroke.empty() || options.usual;
    const int methods = two_way + !options.timed.empty() + by_stroke;
    if (methods != 1)
        throw InputError(methods == 0 ? "nothing to take the speed from"
                                      : "more than one way of measuring at once",
                         "give one of: --up with --down, --timed, --same-stroke with --usual");
    if (two_way) return up_and_down(options, units);
    if (!options.timed.empty()) return timed(options, units);
    if (options.same_stroke.empty())
        throw InputError("--usual alone says nothing about this green",
                         "add --same-stroke 7paces,9paces: the same stroke here, up and down");
    return same_stroke(options, units);
}

/// Rise over run; a level read the wrong way round has the same slope.
std::optional<double> slope_of(const GreenSpeed& speed) {
    if (!speed.slope_over_resistance) return std::nullopt;
    return std::abs(*speed.slope_over_resistance) * resistance_of_stimp(speed.stimp_m);
}

void note_range(GreenSpeed& speed) {
    const double stimp_ft = speed.stimp_m / metres_per_foot;
    if (stimp_ft < least_stimp_ft || stimp_ft > most_stimp_ft)
        speed.notes.push_back(fmt::format(
            "stimp {:.3g} is outside the {:.0f}-{:.0f} ft that reads are made for; check "
            "the readings",
            stimp_ft, least_stimp_ft, most_stimp_ft));
}

std::optional<double> spread_ft(const GreenSpeed& speed) {
    if (speed.count < 2) return std::nullopt;
    return (speed.highest_m - speed.lowest_m) / metres_per_foot;
}

Json as_json(const GreenSpeed& speed) {
    return {{"speed",
             {{"stimp_ft", number(speed.stimp_m / metres_per_foot)},
              {"method", speed.method},
              {"readings", speed.readings},
              {"lowest_ft", number(speed.lowest_m / metres_per_foot)},
              {"highest_ft", number(speed.highest_m / metres_per_foot)},
              {"spread_ft", number(spread_ft(speed))},
              {"slope", number(slope_of(speed))},
              {"slope_over_resistance", number(speed.slope_over_resistance)},
              {"resistance", number(resistance_of_stimp(speed.stimp_m))}}},
            {"notes", speed.notes}};
}

void print_text(std::ostream& out, const GreenSpeed& speed, const Units& units) {
    out << fmt::format("stimp {} ({})\n", format_stimp(speed.stimp_m / metres_per_foot),
                       format_distance(speed.stimp_m, units));
    print_row(out, "from", speed.how);
    if (speed.count > 1)
        print_row(out, "spread",
                  fmt::format("{} to {}", format_distance(speed.lowest_m, units),
                              format_distance(speed.highest_m, units)));
    if (const auto slope = slope_of(speed))
        print_row(out, "slope there",
                  fmt::format("{}, {} of the resistance", format_slope(*slope),
                              format_percent(std::abs(*speed.slope_over_resistance))));
    for (const std::string& note : speed.notes) print_row(out, "note", note);
}

Exit run_speed(const SpeedOptions& options, Session& session) {
    GreenSpeed speed = measure(options, session.units());
    note_range(speed);
    if (session.json())
        session.print(as_json(speed));
    else
        print_text(session.out(), speed, session.units());
    return Exit::done;
}

constexpr const char* speed_footer =
    "Give one way of measuring; its readings may be repeated and are averaged.\n"
    "A timed roll counts from when the ball no longer skids until it rests.\n\n"
    "Examples:\n"
    "  dewtrail speed --up 8ft 8ft2in --down 12ft 12ft4in\n"
    "      stimpmeter both ways on one line; the slope drops out and is told\n"
    "  dewtrail speed --same-stroke 7paces,9paces --usual 8paces,10\n"
    "      a stroke that rolls 8 paces where the stimp is 10, made here up and down";

}  // namespace

void add_speed_command(const Command& app, Session& session) {
    auto options = std::make_shared<SpeedOptions>();
    const Command command = app.add_subcommand("speed", "Green speed from what one has");
    command.add_option("--up", options->up, "Stimpmeter roll up the slope, e.g. 8ft");
    command.add_option("--down", options->down, "Stimpmeter roll down the same line, e.g. 12ft");
    command.add_option("--timed", options->timed, "A level roll to rest and its time: 12ft,3.1s");
    command.add_option("--same-stroke", options->same_stroke,
                       "One stroke made up and down the same line: 7paces,9paces");
    command.add_option("--usual", options->usual,
                       "What that stroke rolls on the level, and the stimp there: 8paces,10");
    session.add_common_options(command);
    command.footer(speed_footer);
    command.callback([options, &session] {
        session.run = [options, &session] { return run_speed(*options, session); };
    });
}

}  // namespace dewtrail
