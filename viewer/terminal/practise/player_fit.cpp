#include "viewer/terminal/practise/player_fit.hpp"

#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <cmath>
#include <ostream>

#include "greens/input_error.hpp"
#include "greens/text_file.hpp"
#include "physics/odds/spread_fit.hpp"
#include "physics/roll/green_speed.hpp"
#include "viewer/practice/habits/low_misses.hpp"
#include "viewer/practice/habits/practice_words.hpp"
#include "viewer/practice/log/holed_rows.hpp"
#include "viewer/practice/memory.hpp"
#include "viewer/putt/presets.hpp"
#include "viewer/putt/putt_request.hpp"
#include "viewer/terminal/odds_report.hpp"
#include "viewer/terminal/practise/practise.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

std::string found_words(const SpreadFit& fit) {
    switch (fit.outcome) {
        case SpreadFit::Outcome::both:
            return "line and pace";
        case SpreadFit::Outcome::line_only:
            return "the line; these putts do not tell the pace, so that was kept";
        case SpreadFit::Outcome::none:
            break;
    }
    return "nothing: too few putts, or all holed or all missed; the spread was kept";
}

void print_text(Session& session, const std::vector<HoledRow>& rows, const SpreadFit& fit,
                const Spread& spread) {
    std::ostream& out = session.out();
    print_row(out, "Found", found_words(fit));
    const double line_error = fit.line_error_rad * 180 / M_PI;
    if (fit.outcome != SpreadFit::Outcome::none)
        print_row(out, "Line", fmt::format("{:.2f}° ± {:.2f}°", spread.line_deg, line_error));
    if (fit.outcome != SpreadFit::Outcome::none)
        print_row(out, "Slope read",
                  fmt::format("{:.2f} %, its fall {:.1f}°, in proportion to the line",
                              100 * spread.slope_read, spread.fall_read_deg));
    if (fit.outcome == SpreadFit::Outcome::both)
        print_row(out, "Pace",
                  fmt::format("{:.1f} % ± {:.1f} %", 100 * spread.pace, 100 * fit.pace_error));
    std::vector<std::vector<std::string>> table{{"from", "putts", "holed", "the fit says"}};
    for (std::size_t i = 0; i < rows.size(); ++i)
        table.push_back({format_distance(rows[i].distance_m, session.units()),
                         fmt::format("{:.0f}", rows[i].tries),
                         format_percent(rows[i].holed / rows[i].tries),
                         format_percent(fit.expected[i])});
    print_table(out, table);
    if (fit.outcome != SpreadFit::Outcome::none)
        out << fmt::format(
            "Keep it with: dewtrail player set --line {:.2f}deg --pace-spread {:.1f}% "
            "--slope-read {:.2f}% --fall-read {:.1f}deg\n",
            spread.line_deg, 100 * spread.pace, 100 * spread.slope_read, spread.fall_read_deg);
}

Json fit_json(const std::vector<HoledRow>& rows, const SpreadFit& fit, const Spread& spread) {
    const bool both = fit.outcome == SpreadFit::Outcome::both;
    const bool any = fit.outcome != SpreadFit::Outcome::none;
    Json list = Json::array();
    for (std::size_t i = 0; i < rows.size(); ++i)
        list.push_back({{"distance_m", number(rows[i].distance_m)},
                        {"tries", number(rows[i].tries)},
                        {"holed", number(rows[i].holed)},
                        {"expected", number(fit.expected[i])}});
    return {{"found", both  ? "line_and_pace"
                      : any ? "line"
                            : "nothing"},
            {"spread", spread_json(spread)},
            {"line_error_deg", any ? number(fit.line_error_rad * 180 / M_PI) : Json(nullptr)},
            {"pace_error", both ? number(fit.pace_error) : Json(nullptr)},
            {"deviance", number(fit.deviance)},
            {"rows", list}};
}

SpreadFit fit_rows(const std::vector<HoledRow>& rows, const Player& player) {
    FitGround ground;
    ground.resistance =
        resistance_of_stimp(player.stimp_ft.value_or(usual_stimp_ft) * metres_per_foot);
    ground.past_m = player.usual_past_m;
    return fit_spread(rows, scatter_of(player.spread), ground);
}

/// `more`: what else the JSON says.
Exit print_fit(Session& session, const std::vector<HoledRow>& rows, const Json& more) {
    const Player& player = session.player();
    const SpreadFit fit = fit_rows(rows, player);
    Spread spread = player.spread;
    spread.line_deg = fit.scatter.line_rad * 180 / M_PI;
    spread.pace = fit.scatter.pace;
    spread.slope_read = fit.scatter.slope_read;
    spread.fall_read_deg = fit.scatter.fall_read_rad * 180 / M_PI;
    if (session.json()) {
        Json json = fit_json(rows, fit, spread);
        json.update(more);
        session.print(json);
    } else {
        print_text(session, rows, fit, spread);
    }
    return fit.outcome == SpreadFit::Outcome::none ? Exit::no_answer : Exit::done;
}

void print_habits(Session& session, const LowMisses& misses, const std::vector<Answer>& answers) {
    std::ostream& out = session.out();
    if (misses.low + misses.high > 0)
        print_row(out, "Misses",
                  fmt::format("by a side, {} of {} low", misses.low, misses.low + misses.high));
    if (misses.break_share)
        print_row(out, "Break",
                  fmt::format("you play {} of it on the course", share_words(*misses.break_share)));
    if (!answers.empty())
        for (const std::string& words : all_finding_words(findings_of(answers)))
            out << words << '\n';
    if (!misses.break_share)
        out << "The sides of six misses tell the break: dewtrail log 12ft --side rl --missed low\n";
}

}  // namespace

Exit run_player_fit(Session& session, const std::string& path) {
    constexpr std::uintmax_t most_bytes = 10'000'000;
    return print_fit(session, read_holed_rows(path, read_text_file(path, most_bytes)),
                     Json::object());
}

Exit run_player_fit_from_log(Session& session) {
    const Player& player = session.player();
    const Memory memory = memory_of(session, Session::Use::looks);
    const auto putts = memory.putts();
    const auto answers = counting(memory.answers());
    if (putts.empty())
        throw InputError("no putt is logged", "log some first: dewtrail log 12ft --holed");
    const LowMisses misses = low_misses(putts, player);
    const Findings findings = findings_of(answers);
    const Json more = {{"misses", {{"low", misses.low}, {"high", misses.high}}},
                       {"break_on_course", share_json(misses.break_share)},
                       {"break", finding_json(findings.aim)},
                       {"pace_habits", finding_json(findings.pace)}};
    const Exit exit = print_fit(session, holed_rows(putts), more);
    if (!session.json()) print_habits(session, misses, answers);
    return exit;
}

}  // namespace dewtrail
