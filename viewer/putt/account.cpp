#include "viewer/putt/account.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <tuple>

#include "physics/read/band.hpp"
#include "viewer/putt/misread_row.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/clock_and_angle.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/hole_words.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

using Maybe = std::optional<double>;
using Interval = std::pair<double, double>;

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

double or_nan(const Maybe& value) {
    return value.value_or(nan);
}

const char* side(double offset) {
    return offset >= 0 ? "right" : "left";
}

std::string angle_words(double angle_rad) {
    return fmt::format("{} {}", format_degrees(std::abs(angle_rad) * degrees_per_rad),
                       side(angle_rad));
}

// ---- aim, pace, apex

/// The aim in words, and what stands beside them.
std::pair<std::string, std::string> aim_told(const Read& read, const Units& units) {
    if (!read.aim_offset_m)
        return {angle_words(read.stroke.angle_rad), "of the hole: too far off for a spot"};
    return {aim_words(*read.aim_offset_m, units), aim_beside(*read.aim_offset_m, units)};
}

AccountRow aim_row(const Read& read, const Units& units) {
    const PlayerPoint& spot = read.start_spot;
    AccountRow row{Glyph::aim, "Aim"};
    std::tie(row.words, row.second) = aim_told(read, units);
    row.detail = angle_words(read.stroke.angle_rad);
    row.more = fmt::format("start spot {} on, {} {}", format_spot(spot.along_m),
                           format_spot(std::abs(spot.offset_m)), side(spot.offset_m));
    row.figures = {{"start.angle_deg", read.stroke.angle_rad * degrees_per_rad},
                   {"start.spot_along_m", spot.along_m},
                   {"start.spot_offset_m", spot.offset_m}};
    if (!read.aim_offset_m) return row;
    row.figures.push_back({"aim.offset_m", read.aim_offset_m});
    row.figures.push_back({"aim.words", row.words});
    return row;
}

AccountRow pace_row(const Read& read, const Units& units) {
    AccountRow row{Glyph::stand_in, read.stand_in_hole ? "Stand-in hole" : "Pace",
                   level_putt_words(read.level_putt_m, units)};
    row.detail = "leaves at " + format_speed(read.stroke.speed_m_s, units);
    row.more = "level roll " + format_distance(read.level_roll_m, units);
    row.figures = {{"start.speed_m_s", read.stroke.speed_m_s},
                   {"start.level_roll_m", read.level_roll_m},
                   {"start.level_putt_m", read.level_putt_m}};
    if (const auto& hole = read.stand_in_hole) {
        row.figures.push_back({"stand_in_hole.along_m", hole->along_m});
        row.figures.push_back({"stand_in_hole.offset_m", hole->offset_m});
    }
    if (const auto& rolls = read.rolls_from) {
        row.more += fmt::format(", skids {}, then rolls at {}", format_length(rolls->arc_m, units),
                                format_speed(rolls->speed_m_s, units));
        row.figures.push_back({"skid.length_m", rolls->arc_m});
        row.figures.push_back({"skid.time_s", rolls->time_s});
        row.figures.push_back({"skid.roll_speed_m_s", rolls->speed_m_s});
    }
    return row;
}

/// Which half costs most; the figures are null where costs were not asked for.
void add_half_costs(AccountRow& row, const std::optional<HalfCosts>& halves, const Units& units) {
    constexpr double half_percent = 0.005, percent = 0.01;
    Maybe bends_back_m, first, second;
    if (halves) {
        bends_back_m = halves->bends_back_m;
        first = halves->first_aim_m_per_slope;
        second = halves->second_aim_m_per_slope;
        row.detail = "bends back " + format_distance(*bends_back_m, units) + " on";
    }
    row.second = half_costs_words(or_nan(scaled(first, half_percent)),
                                  or_nan(scaled(second, half_percent)), units);
    row.figures.push_back({"turns.bends_back_m", bends_back_m});
    row.figures.push_back({"turns.first_aim_m_per_slope_percent", scaled(first, percent)});
    row.figures.push_back({"turns.second_aim_m_per_slope_percent", scaled(second, percent)});
}

std::vector<Figure> apex_figures(const Read& read) {
    return {{"apex.along_m", read.apex->along_m},
            {"apex.offset_m", read.apex->offset_m},
            {"apex.line_above_m", read.line_above_apex_m}};
}

/// Stands where the apex does: of a path that breaks both ways each half has one.
AccountRow turns_row(const Putt& putt, const Read& read, const Units& units) {
    const Turns& turns = *read.turns;
    const double distance = putt.distance_m();
    AccountRow row{Glyph::apex, "Turns"};
    row.words = fmt::format("{}, then {}", turn_words(turns.first, distance, units),
                            turn_words(turns.second, distance, units));
    row.figures = {{"turns.first_along_m", turns.first.along_m},
                   {"turns.first_offset_m", turns.first.offset_m},
                   {"turns.second_along_m", turns.second.along_m},
                   {"turns.second_offset_m", turns.second.offset_m}};
    add_half_costs(row, read.costs.halves, units);
    if (!read.apex) return row;
    const std::vector<Figure> apex = apex_figures(read);
    row.figures.insert(row.figures.end(), apex.begin(), apex.end());
    return row;
}

AccountRow apex_row(const Putt& putt, const Read& read, const Units& units) {
    if (read.turns) return turns_row(putt, read, units);
    const double along = read.apex ? read.apex->along_m : nan;
    const double offset = read.apex ? read.apex->offset_m : nan;
    AccountRow row{Glyph::apex, "Apex", apex_words(along, offset, putt.distance_m(), units)};
    if (row.words.rfind("none", 0) != 0)
        row.second = apex_line_words(or_nan(read.line_above_apex_m), units);
    if (!read.apex) return row;
    row.detail = format_distance(along, units) + " on";
    row.figures = apex_figures(read);
    return row;
}

// ---- at the hole

double leave_m(const Putt& putt, const OpenRoll& open) {
    return (open.last.at - putt.hole).norm();
}

Figure how_figure(const Putt& putt, const Read& read) {
    if (!read.open) return {"entry.how", Maybe()};
    return {"entry.how", how_words(putt, *read.open)};
}

std::vector<Figure> arrival_figures(const Putt& putt, const Read& read) {
    const Entry& entry = read.entry;
    const double clock_h = entry.clock_rad > 0 ? entry.clock_rad * hours_per_rad : 12;
    std::vector<Figure> figures = {
        {"arrival.speed_m_s", read.arrival_speed_m_s},
        {"arrival.angle_deg", scaled(read.arrival_angle_rad, degrees_per_rad)},
        {"arrival.time_s", read.arrival_time_s},
        {"arrival.past_m", read.past_m},
        {"entry.speed_m_s", entry.speed_m_s},
        {"entry.offset_m", entry.offset_m},
        {"entry.time_s", entry.time_s},
        {"entry.clock_h", clock_h},
        {"entry.holed", entry.holed},
        how_figure(putt, read),
        {"check.miss_m", read.check.miss_m},
        {"check.finish_error_m", read.check.finish_error_m},
        {"check.finish_error_m_s", read.check.finish_error_m_s}};
    if (!read.open || read.open->meetings.empty()) return figures;
    if (read.open->meetings.front().outcome.holed) return figures;
    const HoleOutcome& out = read.open->meetings.front().outcome;
    figures.push_back({"entry.exit_speed_m_s", out.exit_speed_m_s});
    figures.push_back({"entry.turn_deg", out.turn_rad * degrees_per_rad});
    const bool rests = read.open->end == RollEnd::at_rest && !read.open->holed;
    figures.push_back({"entry.leave_m", rests ? Maybe(leave_m(putt, *read.open)) : std::nullopt});
    return figures;
}

/// What the hole does with a ball that it does not take, and how far from it that ends: past is
/// told of the covered hole.
std::string not_taken_words(const Putt& putt, const Read& read, const Units& units) {
    if (!read.open) return "too fast to drop";
    const std::string words = "too fast to drop: " + how_words(putt, *read.open);
    if (read.open->end != RollEnd::at_rest) return words;
    return fmt::format("{}, {} left", words, format_distance(leave_m(putt, *read.open), units));
}

/// A ball that does not drop has no place where it goes in.
AccountRow finish_row(const Putt& putt, const Read& read, const Units& units) {
    const bool holed = read.entry.holed;
    const double clock_h = holed ? read.entry.clock_rad * hours_per_rad : nan;
    AccountRow row{Glyph::finish, "Finish",
                   arrival_words(or_nan(read.past_m), read.arrival_speed_m_s, clock_h, units)};
    if (!holed) row.second = not_taken_words(putt, read, units);
    row.detail = format_speed(read.arrival_speed_m_s, units);
    if (holed) row.detail += ", in at " + format_entry_clock(clock_h);
    row.more = "after " + format_time(read.arrival_time_s);
    if (read.open && holed) row.more += ", " + how_words(putt, *read.open);
    if (uphill_at_hole(putt))
        row.more +=
            fmt::format(", friction over slope {:.2f}", putt.resistance / putt.slope_at_hole());
    row.figures = arrival_figures(putt, read);
    return row;
}

/// How far a turn of the start line carries it at the hole's depth.
double at_hole_depth(const Read& read, double distance_m, double turn_rad) {
    constexpr double near_square_rad = 80 / degrees_per_rad;
    const double a = read.stroke.angle_rad;
    if (std::abs(a) > near_square_rad || std::abs(a + turn_rad) > near_square_rad)
        return distance_m * std::abs(turn_rad);
    return distance_m * std::abs(std::tan(a + turn_rad) - std::tan(a));
}

std::string room_detail(const Room& room) {
    const double left = -room.angle_lo_rad * degrees_per_rad,
                 right = room.angle_hi_rad * degrees_per_rad;
    const std::string turn =
        std::abs(left - right) < 0.06
            ? "±" + format_degrees(std::min(left, right))
            : fmt::format("−{} to +{}", format_degrees(left), format_degrees(right));
    return fmt::format("{}, {} to +{}", turn, format_halves(100 * room.pace_lo),
                       format_half_percent(room.pace_hi));
}

AccountRow room_row(const Putt& putt, const Read& read, const Units& units) {
    constexpr double narrow_rad = 0.2 / degrees_per_rad;
    const Room& room = *read.room;
    AccountRow row{Glyph::room, "Room", "under 0.1°"};
    row.detail = room_detail(room);
    if (room.angle_hi_rad - room.angle_lo_rad >= narrow_rad)
        row.words =
            room_words(at_hole_depth(read, putt.distance_m(), room.angle_hi_rad),
                       at_hole_depth(read, putt.distance_m(), room.angle_lo_rad),
                       -room.pace_lo * read.level_roll_m, room.pace_hi * read.level_roll_m, units);
    row.figures = {{"room.line_deg", Interval(room.angle_lo_rad * degrees_per_rad,
                                              room.angle_hi_rad * degrees_per_rad)},
                   {"room.pace", Interval(room.pace_lo, room.pace_hi)}};
    return row;
}

// ---- what may come of it

/// Where nobody means to hole it the row is named for that.
AccountRow odds_row(const OddsKnown& odds, double distance_m, const Units& units) {
    AccountRow row{Glyph::odds, "Odds",
                   odds_words(or_nan(odds.holed), or_nan(odds.inside_3ft),
                              or_nan(odds.usual_leave_m), distance_m, units),
                   "for your spread"};
    if (const auto colon = row.words.find(": "); colon != std::string::npos) {
        row.name = row.words.substr(0, colon);
        row.words = row.words.substr(colon + 2);
    }
    if (!odds.putts) return row;
    row.detail = odds_detail_words(or_nan(odds.holed), or_nan(odds.three_putt), *odds.putts);
    const Spread& spread = odds.spread;
    row.figures = {
        {"odds.line_deg", spread.line_deg},           {"odds.pace", spread.pace},
        {"odds.pace_floor_m", spread.pace_floor_m},   {"odds.slope_read", spread.slope_read},
        {"odds.fall_read_deg", spread.fall_read_deg}, {"odds.holed", odds.holed},
        {"odds.three_putt", odds.three_putt},         {"odds.putts", odds.putts},
        {"odds.inside_3ft", odds.inside_3ft}};
    return row;
}

Figure around(const char* key, const Maybe& centre, const Maybe& half) {
    if (!centre || !half) return {key, Maybe()};
    return {key, Interval(*centre - *half, *centre + *half)};
}

AccountRow sure_row(const Putt& putt, const Read& read, const KnownBeside& known,
                    const Units& units) {
    const Band band =
        band_of(putt, read,
                {known.slope_sure.value_or(0), known.stimp_sure_ft.value_or(0) * metres_per_foot});
    const auto roughly = [](bool linear) { return linear ? "" : "roughly "; };
    AccountRow row{Glyph::sure, "19 in 20"};
    if (band.aim_m)
        row.words = fmt::format("aim {}{} either side of that", roughly(band.aim_linear),
                                format_length(*band.aim_m, units));
    if (band.level_putt_m)
        row.words +=
            fmt::format("{}level putt {}{} shorter to longer", row.words.empty() ? "" : ", ",
                        roughly(band.level_putt_linear), format_length(*band.level_putt_m, units));
    row.figures = {{"sure.slope", known.slope_sure},
                   {"sure.stimp_ft", known.stimp_sure_ft},
                   around("sure.aim_m", read.aim_offset_m, band.aim_m),
                   around("sure.level_putt_m", read.level_putt_m, band.level_putt_m),
                   {"sure.aim_linear", band.aim_linear},
                   {"sure.level_putt_linear", band.level_putt_linear}};
    return row;
}

AccountRow survey_row(const ReadDoubt& doubt, const Units& units) {
    AccountRow row{Glyph::sure, "Survey"};
    row.words =
        fmt::format("leaves the aim open to {} either way, the pace to {}",
                    format_length(doubt.aim_m, units), format_length(doubt.level_putt_m, units));
    row.figures = {{"survey.aim_sd_m", doubt.aim_m},
                   {"survey.level_putt_sd_m", doubt.level_putt_m}};
    return row;
}

// ---- notes

std::string other_lines_words(int others) {
    if (others == 1) return "another line holes it too; --all-lines lists both";
    return fmt::format("{} other lines hole it too; --all-lines lists them", others);
}

std::vector<std::string> notes_of(const Putt& putt, const Read& read, int other_lines) {
    std::vector<std::string> notes;
    if (!read.entry.holed)
        notes.push_back("too fast to drop" +
                        (read.open ? ": it " + how_words(putt, *read.open) : ""));
    if (read.roll.end == RollEnd::keeps_rolling)
        notes.push_back("too steep to stop: on this slope the ball keeps rolling below the hole");
    if (read.roll.end == RollEnd::left_the_green) notes.push_back("a miss runs off the green");
    if (!putt.holds_a_ball())
        notes.push_back("no odds: what is left after a miss cannot be putted");
    if (read.level_putt_m <= 0)
        notes.push_back("softer than the usual past: no stand-in hole, just set it rolling");
    if (other_lines > 0) notes.push_back(other_lines_words(other_lines));
    return notes;
}

}  // namespace

const AccountRow* Account::row(Glyph glyph) const {
    const auto found = std::find_if(rows.begin(), rows.end(),
                                    [&](const AccountRow& r) { return r.glyph == glyph; });
    return found == rows.end() ? nullptr : &*found;
}

OddsKnown known_odds(const Spread& spread, const StrokeOdds& odds) {
    return {spread, odds.holed, odds.inside_3ft, odds.usual_leave_m, std::nullopt, std::nullopt};
}

OddsKnown known_odds(const Spread& spread, const Odds& odds) {
    return {spread, odds.holed, odds.inside_3ft, odds.usual_leave_m, odds.three_putt, odds.putts};
}

KnownBeside known_of(const Setup& setup, const std::optional<OddsKnown>& odds) {
    return {odds, setup.slope_sure, setup.stimp_sure_ft, std::nullopt, 0};
}

std::string heading_of(const Putt& putt, const Read& read) {
    if (read.turns) return both_ways_words(read.turns->first.offset_m, putt.mean_rise());
    return direction_words(read.stroke.angle_rad, putt.distance_m(), putt.mean_rise());
}

Account account_of(const Putt& putt, const Read& read, const Units& units,
                   const KnownBeside& known) {
    Account account{heading_of(putt, read), {}, notes_of(putt, read, known.other_lines)};
    std::vector<AccountRow>& rows = account.rows;
    rows.reserve(9);
    rows.push_back(aim_row(read, units));
    rows.push_back(pace_row(read, units));
    rows.push_back(apex_row(putt, read, units));
    rows.push_back(finish_row(putt, read, units));
    if (read.room) rows.push_back(room_row(putt, read, units));
    if (known.odds) rows.push_back(odds_row(*known.odds, putt.distance_m(), units));
    if (known.slope_sure || known.stimp_sure_ft) rows.push_back(sure_row(putt, read, known, units));
    if (known.survey) rows.push_back(survey_row(*known.survey, units));
    rows.push_back(misread_row(putt, read, units));
    return account;
}

std::string told(const AccountRow& row) {
    std::string text = row.words;
    for (const auto& [what, cost] : row.table)
        text += fmt::format("{}{}: {}", text.empty() ? "" : "\n", what, cost);
    if (row.second.empty()) return text;
    if (row.glyph == Glyph::odds || row.second.rfind("of the ", 0) == 0)
        return fmt::format("{} {}", text, row.second);
    if (row.glyph == Glyph::aim) return fmt::format("{} ({})", text, row.second);
    return fmt::format("{}; {}", text, row.second);
}

}  // namespace dewtrail
