#include "viewer/terminal/odds_report.hpp"

#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <cmath>
#include <ostream>

#include "physics/read/aim_offset.hpp"
#include "physics/roll/green_speed.hpp"
#include "viewer/terminal/read_report.hpp"
#include "viewer/terminal/spread_options.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/clock_and_angle.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

std::string aim_text(const PlacedPutt& plan, const PlayedChoice& choice, const Units& units) {
    const auto offset = aim_offset_m(plan.putt, choice.stroke.angle_rad);
    if (!offset) return "no aim spot";
    const std::string words = aim_words(*offset, units);
    if (aim_beside(*offset, units).empty()) return words;
    return fmt::format("{} ({})", words, format_aim(*offset, units));
}

/// A chance for a table: one in two hundred still shows.
std::string format_chance(double chance) {
    return chance < 0.095 ? fmt::format("{:.1f} %", 100 * chance) : format_percent(chance);
}

std::vector<std::string> odds_cells(const Odds& odds, const Units& units) {
    return {format_chance(odds.holed), format_putts(odds.putts), format_chance(odds.three_putt),
            format_percent(odds.inside_3ft), format_length(odds.usual_leave_m, units)};
}

std::vector<std::string> row(const PlacedPutt& plan, const std::string& name,
                             const PlayedChoice& choice, const Units& units) {
    std::vector<std::string> cells{name, aim_text(plan, choice, units)};
    for (std::string& cell : odds_cells(choice.odds, units)) cells.push_back(std::move(cell));
    return cells;
}

/// What the plain read costs, in words that mean something on the green.
std::string cost_words(double putts) {
    const std::string strokes = putts > 0 ? strokes_words(putts) : "nothing";
    if (strokes == "nothing") return "nothing: it is the best choice";
    return fmt::format("{:.3f} putts: {}", putts, strokes);
}

std::string choice_words(const PlacedPutt& plan, const PlayedChoice& choice, const Units& units) {
    return fmt::format("{} past, aim {}: holed {}, {} putts", format_past(choice.past_m, units),
                       aim_text(plan, choice, units), format_chance(choice.odds.holed),
                       format_putts(choice.odds.putts));
}

}  // namespace

Json spread_json(const Spread& spread) {
    return {{"line_deg", number(spread.line_deg)},
            {"pace", number(spread.pace)},
            {"pace_floor_m", number(spread.pace_floor_m)},
            {"slope_read", number(spread.slope_read)},
            {"fall_read_deg", number(spread.fall_read_deg)}};
}

Json choice_json(const PlacedPutt& plan, const PlayedChoice& choice,
                 const std::optional<PlayedChoice>& against) {
    const Odds& o = choice.odds;
    Json json = {{"past_m", number(choice.past_m)},
                 {"angle_deg", number(choice.stroke.angle_rad * degrees_per_rad)},
                 {"aim_shift_deg", number(choice.aim_shift_rad * degrees_per_rad)},
                 {"aim_offset_m", number(aim_offset_m(plan.putt, choice.stroke.angle_rad))},
                 {"speed_m_s", number(choice.stroke.speed_m_s)},
                 {"level_roll_m", number(choice.level_roll_m)},
                 {"holed", number(o.holed)},
                 {"putts", number(o.putts)},
                 {"three_putt", number(o.three_putt)},
                 {"inside_3ft", number(o.inside_3ft)},
                 {"short_of_hole", number(o.short_of_hole)},
                 {"usual_leave_m", number(o.usual_leave_m)}};
    if (against) json["saves_putts"] = number(against->odds.putts - o.putts);
    return json;
}

Json best_choice_json(const PlacedPutt& plan, const Spread& spread, const BestChoice& best) {
    Json finishes = Json::array();
    for (const PlayedChoice& choice : best.by_past)
        finishes.push_back(choice_json(plan, choice, std::nullopt));
    return {{"putt", putt_json(plan)},
            {"spread", spread_json(spread)},
            {"plain", best.plain ? choice_json(plan, *best.plain, std::nullopt) : Json(nullptr)},
            {"finishes", finishes},
            {"fewest_putts", choice_json(plan, best.fewest_putts, best.plain)},
            {"most_holed", choice_json(plan, best.most_holed, best.plain)},
            {"notes", plan.notes}};
}

void print_best_choice(std::ostream& out, const PlacedPutt& plan, const Spread& spread,
                       const BestChoice& best, const Units& units) {
    out << putt_words(plan, units) << "\n";
    print_row(out, "Spread", spread_words(spread, units));
    if (best.plain) {
        const Odds& o = best.plain->odds;
        print_row(
            out, "This read",
            odds_words(o.holed, o.inside_3ft, o.usual_leave_m, plan.putt.distance_m(), units) +
                fmt::format(", {} putts", format_putts(o.putts)));
    }
    out << '\n';
    std::vector<std::vector<std::string>> table{
        {"past", "aim", "holed", "putts", "three-putt", "inside 3 ft", "usual leave"}};
    for (const PlayedChoice& choice : best.by_past)
        table.push_back(row(plan, format_past(choice.past_m, units), choice, units));
    print_table(out, table);
    out << '\n';
    print_row(out, "Fewest putts", choice_words(plan, best.fewest_putts, units));
    print_row(out, "Most holed", choice_words(plan, best.most_holed, units));
    if (best.plain)
        print_row(out, "This read costs",
                  cost_words(best.plain->odds.putts - best.fewest_putts.odds.putts));
    print_notes(out, plan.notes);
}

}  // namespace dewtrail
