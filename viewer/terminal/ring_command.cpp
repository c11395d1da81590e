#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <ostream>

#include "greens/input_error.hpp"
#include "physics/odds.hpp"
#include "viewer/practice/presets.hpp"
#include "viewer/scene/aim.hpp"
#include "viewer/scene/figures.hpp"
#include "viewer/scene/quantity.hpp"
#include "viewer/scene/words.hpp"
#include "viewer/terminal/odds_report.hpp"
#include "viewer/terminal/putt_options.hpp"
#include "viewer/terminal/read_report.hpp"

namespace dewtrail {
namespace {

struct RingArguments {
    PuttRequest putt;
    double every_min = 60;
};

constexpr const char* footer =
    "Examples:\n"
    "  dewtrail ring 6ft --slope 2% --stimp 10\n"
    "      Twelve balls round a hole, and the spot above it that all the start lines nearly "
    "share.\n"
    "  dewtrail ring 10ft --green meadow --hole flag --every 30";

struct RingRow {
    PlannedPutt plan;
    double clock_h;
    ReadResult result;
    std::optional<Odds> odds;
    std::optional<double> spot_m;  ///< where the start line crosses the fall line, above the hole
};

/// The start line's crossing with the fall line through the hole; none for balls on or near it.
std::optional<double> shared_spot(const Putt& putt, const Read& read) {
    constexpr double least_crossing = 0.17;  // about 10 degrees: flatter crossings say nothing
    const auto uphill = uphill_at_hole(putt);
    if (!uphill) return std::nullopt;
    const Vec2 start = along_bearing(putt.launch(read.stroke).bearing_rad);
    const auto cross = [](const Vec2& a, const Vec2& b) { return a.x() * b.y() - a.y() * b.x(); };
    const double crossing = cross(*uphill, start);
    if (std::abs(crossing) < least_crossing) return std::nullopt;
    return cross(putt.ball - putt.hole, start) / crossing;
}

std::vector<RingRow> read_ring(const PlannedPutt& plan, double distance_m, double every_min,
                               const ReadOptions& options) {
    std::vector<RingRow> rows;
    const int count = static_cast<int>(std::lround(720 / every_min));
    for (int i = 1; i <= count; ++i) {
        const double clock_h = 12.0 * i / count;
        RingRow row{with_ball_at(plan, distance_m, clock_h), clock_h, {}, {}, {}};
        const Putt& putt = row.plan.putt;
        if (putt.outline && putt.outline->inside_by(putt.ball) <= 0)
            row.result.none = NoLine{};
        else
            row.result = read(putt, options);
        if (!row.result.lines.empty()) row.spot_m = shared_spot(putt, row.result.lines.front());
        rows.push_back(std::move(row));
    }
    return rows;
}

/// The odds of all rows for one player, from one table of next putts.
void add_odds(std::vector<RingRow>& rows, const Scatter& scatter) {
    const Putt& putt = rows.front().plan.putt;
    const auto surround = HoleSurround::make(putt.surface, putt.resistance, putt.hole);
    if (!surround) return;
    const NextPutts next(*surround, scatter);
    for (RingRow& row : rows)
        if (!row.result.lines.empty())
            row.odds = odds_of(row.plan.putt, row.result.lines.front(), scatter, next);
}

bool off_green(const RingRow& row) {
    return row.plan.putt.outline && row.plan.putt.outline->inside_by(row.plan.putt.ball) <= 0;
}

std::string reason(const RingRow& row, const Units& units) {
    return off_green(row) ? "the ball would lie off the green"
                          : no_line_words(row.plan, *row.result.none, units);
}

struct Spots {
    double median, least, most;
};

std::optional<Spots> spots_of(const std::vector<RingRow>& rows) {
    std::vector<double> spots;
    for (const RingRow& row : rows)
        if (row.spot_m) spots.push_back(*row.spot_m);
    if (spots.empty()) return std::nullopt;
    std::sort(spots.begin(), spots.end());
    return Spots{spots[spots.size() / 2], spots.front(), spots.back()};
}

void print_ring_json(Session& session, const std::vector<RingRow>& rows, double distance_m) {
    const Spread& spread = session.player().spread;
    const auto spots = spots_of(rows);
    Json json = {{"ring",
                  {{"distance_m", number(distance_m)},
                   {"stimp_ft", number(rows.front().plan.stimp_ft)},
                   {"slope", number(rows.front().plan.slope_at_hole)},
                   {"spot_m", spots ? number(spots->median) : Json(nullptr)},
                   {"spot_range_m", spots ? Json::array({number(spots->least), number(spots->most)})
                                          : Json(nullptr)}}},
                 {"rows", Json::array()},
                 {"notes", rows.front().plan.notes}};
    for (const RingRow& row : rows) {
        Json entry = {{"clock_h", number(row.clock_h)}, {"putt", putt_json(row.plan)}};
        if (row.result.lines.empty()) {
            entry["read"] = nullptr;
            entry["reason"] = reason(row, session.units());
        } else {
            entry["read"] =
                read_json(row.plan, row.result.lines.front(), odds_json(spread, row.odds));
            entry["spot_m"] = number(row.spot_m);
        }
        json["rows"].push_back(std::move(entry));
    }
    session.print(json);
}

void print_ring_text(Session& session, const std::vector<RingRow>& rows, double distance_m) {
    std::ostream& out = session.out();
    const Units units = session.units();
    const PlannedPutt& plan = rows.front().plan;
    out << fmt::format("{} all round the hole, {}, stimp {}\n\n",
                       format_distance(distance_m, units), format_slope(plan.slope_at_hole),
                       format_stimp(plan.stimp_ft));
    std::vector<std::vector<std::string>> table{
        {"ball at", "aim", "from centre", "level putt", "holed", ""}};
    for (const RingRow& row : rows) {
        if (row.result.lines.empty()) {
            table.push_back(
                {format_clock(row.clock_h), absent, absent, absent, absent, reason(row, units)});
            continue;
        }
        const Read& read = row.result.lines.front();
        table.push_back({format_clock(row.clock_h),
                         read.aim_offset_m ? aim_words(*read.aim_offset_m, units) : "no aim spot",
                         read.aim_offset_m ? format_aim(*read.aim_offset_m, units) : absent,
                         format_level_putt(read.level_putt_m, units),
                         row.odds ? chance_words(row.odds->holed) : absent,
                         direction_words(read.stroke.angle_rad, distance_m, row.plan.mean_up)});
    }
    print_table(out, table);
    if (const auto spots = spots_of(rows))
        out << fmt::format(
            "\nAll these lines pass near one spot on the fall line, {} above the hole ({} to "
            "{}).\n",
            format_length(spots->median, units), format_length(spots->least, units),
            format_length(spots->most, units));
    for (const std::string& note : plan.notes) out << "Note: " << note << ".\n";
}

Exit run_ring(Session& session, const RingArguments& arguments) {
    if (!arguments.putt.distance)
        throw InputError("no distance was given",
                         "Say how far from the hole the balls lie: dewtrail ring 6ft …");
    const double count = 720 / arguments.every_min;
    if (!(arguments.every_min >= 5 && arguments.every_min <= 360) ||
        std::abs(count - std::round(count)) > 1e-9)
        throw InputError(fmt::format("--every {:g} does not divide the clock", arguments.every_min),
                         "Use minutes of clock that divide 720, 5 to 360: 60, 30, 15.");
    PuttRequest request = arguments.putt;
    request.clock = "12";  // any; each row sets its own
    const PuttDefaults defaults = defaults_of(session);
    const PlannedPutt plan = plan_putt(request, defaults);
    if (plan.slope_at_hole < 1e-3)
        throw InputError("on level ground a ring has no clock", "Give a slope: --slope 2%.");
    const double distance = parse_distance_m(*request.distance, defaults.units);
    ReadOptions options;
    options.usual_past_m = session.player().usual_past_m;
    options.open_hole = true;
    auto rows = read_ring(plan, distance, arguments.every_min, options);
    add_odds(rows, scatter_of(session.player().spread));
    session.caution();
    if (session.json())
        print_ring_json(session, rows, distance);
    else
        print_ring_text(session, rows, distance);
    const bool any = std::any_of(rows.begin(), rows.end(),
                                 [](const RingRow& r) { return !r.result.lines.empty(); });
    return any ? Exit::done : Exit::no_answer;
}

}  // namespace

void add_ring_command(CLI::App& app, Session& session) {
    auto* command = app.add_subcommand("ring", "Reads for balls all round a hole at one distance");
    auto arguments = std::make_shared<RingArguments>();
    command->add_option("distance", arguments->putt.distance, "Balls this far from the hole: 6ft");
    add_ground_options(*command, arguments->putt);
    add_finish_options(*command, arguments->putt);
    command->add_option("--every", arguments->every_min,
                        "A ball every so many minutes of clock (60)");
    session.add_common_options(*command);
    command->footer(footer);
    command->callback([&session, arguments] {
        session.run = [&session, arguments] { return run_ring(session, *arguments); };
    });
}

}  // namespace dewtrail
