#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <ostream>

#include "greens/input_error.hpp"
#include "physics/odds/odds.hpp"
#include "viewer/putt/presets.hpp"
#include "viewer/putt/ring.hpp"
#include "viewer/terminal/busy.hpp"
#include "viewer/terminal/putt_options.hpp"
#include "viewer/terminal/read_report.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

struct RingArguments {
    PuttRequest putt;
    double every_min = 60;
};

constexpr const char* ring_footer =
    "Examples:\n"
    "  dewtrail ring 6ft --slope 2% --stimp 10\n"
    "      Twelve balls round a hole, and the spot above it that all the start lines nearly "
    "share.\n"
    "  dewtrail ring 10ft --green meadow --hole flag --every 30";

/// The odds of all rows for one player, from one table of next putts.
void add_odds(std::vector<RingRow>& rows, const Scatter& scatter) {
    const Putt& putt = rows.front().plan.putt;
    const auto surround = HoleSurround::make(putt);
    if (!surround) return;
    const NextPutts next(*surround, scatter);
    for (RingRow& row : rows)
        if (!row.result.lines.empty())
            row.odds = odds_of(row.plan.putt, row.result.lines.front(), scatter, next);
}

std::string reason(const RingRow& row, const Units& units) {
    return row.off_green ? "the ball would lie off the green"
                         : no_line_words(row.plan, *row.result.none, units);
}

Account account_of_row(const RingRow& row, const Spread& spread, const Units& units) {
    KnownBeside known = known_of(row.plan.setup);
    if (row.odds) known.odds = known_odds(spread, *row.odds);
    return account_of(row.plan.putt, row.result.lines.front(), units, known);
}

void print_ring_json(Session& session, const std::vector<RingRow>& rows, double distance_m) {
    const Spread& spread = session.player().spread;
    const auto spot = shared_spot(rows);
    Json json = {
        {"ring",
         {{"distance_m", number(distance_m)},
          {"stimp_ft", number(rows.front().plan.setup.stimp_ft)},
          {"slope", number(rows.front().plan.putt.slope_at_hole())},
          {"spot_m", spot ? number(spot->median_m) : Json(nullptr)},
          {"spot_range_m",
           spot ? Json::array({number(spot->least_m), number(spot->most_m)}) : Json(nullptr)}}},
        {"rows", Json::array()},
        {"notes", rows.front().plan.notes}};
    for (const RingRow& row : rows) {
        Json entry = {{"clock_h", number(row.clock_h)}, {"putt", putt_json(row.plan)}};
        if (row.result.lines.empty()) {
            entry["read"] = nullptr;
            entry["reason"] = reason(row, session.units());
        } else {
            entry["read"] = read_json(account_of_row(row, spread, session.units()));
            entry["spot_m"] = number(row.spot_m);
        }
        json["rows"].push_back(std::move(entry));
    }
    session.print(json);
}

void print_ring_text(Session& session, const std::vector<RingRow>& rows, double distance_m) {
    std::ostream& out = session.out();
    const Units units = session.units();
    const PlacedPutt& plan = rows.front().plan;
    out << fmt::format("{} all round the hole, {}, stimp {}\n\n",
                       format_distance(distance_m, units), slope_figure(plan.setup, units),
                       stimp_figure(plan.setup, units));
    std::vector<std::vector<std::string>> table{
        {"ball at", "aim", "from centre", "level putt", "holed", ""}};
    for (const RingRow& row : rows) {
        if (row.result.lines.empty()) {
            table.push_back(
                {format_clock(row.clock_h), absent, absent, absent, absent, reason(row, units)});
            continue;
        }
        const Read& read = row.result.lines.front();
        const Account account = account_of_row(row, session.player().spread, units);
        table.push_back({format_clock(row.clock_h), account.row(Glyph::aim)->words,
                         read.aim_offset_m ? format_aim(*read.aim_offset_m, units) : absent,
                         format_level_putt(read.level_putt_m, units),
                         row.odds ? chance_words(row.odds->holed) : absent, account.heading});
    }
    print_table(out, table);
    const auto spot = shared_spot(rows);
    if (spot && spot->most_m - spot->least_m < distance_m / 6)
        out << fmt::format(
            "\nAll these lines pass near one spot on the fall line, {} above the hole ({} to "
            "{}).\n",
            format_length(spot->median_m, units), format_length(spot->least_m, units),
            format_length(spot->most_m, units));
    print_notes(out, plan.notes);
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
    const double distance = parse_distance_m(*request.distance, defaults.units);
    // On a green some of the balls may lie off it: that is for their rows to say.
    if (request.green) request.distance = "2ft";
    PlacedPutt plan = set_up(request, defaults);
    const bool finish_given = request.past || request.hole_speed || request.die;
    if (request.green && !finish_given && distance > lag_distance_m) {
        plan.setup.finish = Finish::past(lag_past_m);
        plan.notes.push_back("beyond 30 ft: finish taken as 3 in past");
    }
    if (!uphill_at_hole(plan.putt))
        throw InputError("on level ground a ring has no clock", "Give a slope: --slope 2%.");
    ReadOptions options;
    options.usual_past_m = session.player().usual_past_m;
    options.open_hole = true;
    const Scatter scatter = scatter_of(session.player().spread);
    const auto rows = while_busy(session, "Reading all round the hole …", [&] {
        auto read = read_ring(plan, distance, static_cast<int>(std::lround(count)), options);
        add_odds(read, scatter);
        return read;
    });
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

void add_ring_command(const Command& app, Session& session) {
    const Command command =
        app.add_subcommand("ring", "Reads for balls all round a hole at one distance");
    auto arguments = std::make_shared<RingArguments>();
    command.add_option("distance", arguments->putt.distance, "Balls this far from the hole: 6ft");
    add_ground_options(command, arguments->putt);
    add_finish_options(command, arguments->putt);
    command.add_option("--every", arguments->every_min,
                       "A ball every so many minutes of clock (60)");
    session.add_common_options(command);
    command.footer(ring_footer);
    command.callback([&session, arguments] {
        session.run = [&session, arguments] { return run_ring(session, *arguments); };
    });
}

}  // namespace dewtrail
