#include "viewer/terminal/read_report.hpp"

#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <cmath>
#include <ostream>

#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/hole_words.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

constexpr double degrees = 180 / M_PI;
constexpr double hours = 6 / M_PI;

Json player_point(const std::optional<PlayerPoint>& p) {
    if (!p) return nullptr;
    return {{"along_m", number(p->along_m)}, {"offset_m", number(p->offset_m)}};
}

Json name_or_null(const std::string& name) {
    return name.empty() ? Json(nullptr) : Json(name);
}

Json range(double lo, double hi) {
    return Json::array({number(lo), number(hi)});
}

Json apex_json(const Read& read) {
    if (!read.apex) return nullptr;
    return {{"along_m", number(read.apex->along_m)},
            {"offset_m", number(read.apex->offset_m)},
            {"line_above_m", number(read.line_above_apex_m)}};
}

/// How it left the hole: null if it did not.
Json exit_json(const OpenRoll& roll) {
    if (roll.meetings.empty() || roll.meetings.front().outcome.holed) return nullptr;
    const HoleOutcome& outcome = roll.meetings.front().outcome;
    return {{"exit_speed_m_s", number(outcome.exit_speed_m_s)},
            {"turn_deg", number(outcome.turn_rad * degrees)}};
}

Json entry_json(const Putt& putt, const Read& read) {
    const Entry& entry = read.entry;
    Json json = {{"speed_m_s", number(entry.speed_m_s)},
                 {"offset_m", number(entry.offset_m)},
                 {"time_s", number(entry.time_s)},
                 {"clock_h", number(entry.clock_rad > 0 ? entry.clock_rad * hours : 12)},
                 {"holed", entry.holed},
                 {"how", read.open ? Json(how_words(putt, *read.open)) : Json(nullptr)}};
    if (read.open)
        if (const Json exit = exit_json(*read.open); !exit.is_null()) json.update(exit);
    return json;
}

Json room_json(const std::optional<Room>& room) {
    if (!room) return nullptr;
    return {{"line_deg", range(room->angle_lo_rad * degrees, room->angle_hi_rad * degrees)},
            {"pace", range(room->pace_lo, room->pace_hi)}};
}

std::optional<double> scaled(const std::optional<double>& value, double factor) {
    if (!value) return std::nullopt;
    return *value * factor;
}

Json costs_json(const Costs& c) {
    return {
        {"aim_m_per_slope_percent", number(scaled(c.aim_m_per_slope, 0.01))},
        {"aim_m_per_stimp_ft", number(scaled(c.aim_m_per_stimp_m, metres_per_foot))},
        {"level_putt_m_per_slope_percent", number(scaled(c.level_putt_m_per_slope, 0.01))},
        {"level_putt_m_per_stimp_ft", number(scaled(c.level_putt_m_per_stimp_m, metres_per_foot))}};
}

Json sure_json(const PlacedPutt& plan, const Read& read) {
    const auto band = sure_band(plan, read);
    if (!band) return nullptr;
    const auto around = [](const std::optional<double>& centre, const std::optional<double>& half) {
        return centre && half ? range(*centre - *half, *centre + *half) : Json(nullptr);
    };
    return {{"slope", number(plan.setup.slope_sure)},
            {"stimp_ft", number(plan.setup.stimp_sure_ft)},
            {"aim_m", around(read.aim_offset_m, band->aim_m)},
            {"level_putt_m", around(read.level_putt_m, band->level_putt_m)},
            {"aim_linear", band->aim_linear},
            {"level_putt_linear", band->level_putt_linear}};
}

Json conditions_json(const Conditions& c) {
    return {{"launch_spin", number(c.launch_spin)}, {"wind_x_m_s", number(c.wind_m_s.x())},
            {"wind_y_m_s", number(c.wind_m_s.y())}, {"grain_x", number(c.grain.x())},
            {"grain_y", number(c.grain.y())},       {"slow_share", number(c.slow_share)}};
}

/// From the face to where the ball rolls.
Json skid_json(const PathPoint& rolls) {
    return {{"length_m", number(rolls.arc_m)},
            {"time_s", number(rolls.time_s)},
            {"roll_speed_m_s", number(rolls.speed_m_s)}};
}

Json check_json(const Check& check) {
    return {{"miss_m", number(check.miss_m)},
            {"finish_error_m", number(check.finish_error_m)},
            {"finish_error_m_s", number(check.finish_error_m_s)}};
}

double absent_or(const std::optional<double>& value) {
    return value.value_or(NAN);
}

/// The aim that a changed green would need, for 'a misread costs'.
std::string misread_words(const Read& read, const Units& units) {
    if (!read.aim_offset_m) return "";
    const double aim = *read.aim_offset_m;
    // Left out where the changed green needs no other aim, and where the read changes so fast that
    // its derivative says nothing any more.
    const auto tells = [&](double change) {
        const bool wild =
            std::abs(change) > 12 * metres_per_inch && std::abs(change) > 0.3 * std::abs(aim);
        return !wild && format_aim(aim + change, units) != format_aim(0, units);
    };
    std::string text;
    if (const double change = 0.005 * read.costs.aim_m_per_slope.value_or(0);
        read.costs.aim_m_per_slope && tells(change))
        text = misread_slope_words(0.005, aim + change, units);
    if (const double change = metres_per_foot * read.costs.aim_m_per_stimp_m.value_or(0);
        read.costs.aim_m_per_stimp_m && tells(change))
        text += (text.empty() ? "" : "\n") + misread_stimp_words(1, aim + change, units);
    return text;
}

std::string room_text(const PlacedPutt& plan, const Read& read, const Units& units) {
    if (!read.room) return "none: it does not drop";
    const Room& room = *read.room;
    const double distance = plan.putt.distance_m();
    const auto aim_at = [&](double off) { return distance * std::tan(off); };
    return room_words(aim_at(room.angle_hi_rad), aim_at(-room.angle_lo_rad),
                      -room.pace_lo * read.level_roll_m, room.pace_hi * read.level_roll_m, units);
}

std::string band_text(const PlacedPutt& plan, const Read& read, const Units& units) {
    const auto band = sure_band(plan, read);
    if (!band) return "";
    const auto roughly = [](bool linear) { return linear ? "" : "roughly "; };
    std::string text;
    if (band->aim_m)
        text = fmt::format("aim {}{} either side of that", roughly(band->aim_linear),
                           format_length(*band->aim_m, units));
    if (band->level_putt_m)
        text += fmt::format("{}level putt {}{} shorter to longer", text.empty() ? "" : ", ",
                            roughly(band->level_putt_linear),
                            format_length(*band->level_putt_m, units));
    return text;
}

}  // namespace

std::optional<Band> sure_band(const PlacedPutt& plan, const Read& read) {
    if (!plan.setup.slope_sure && !plan.setup.stimp_sure_ft) return std::nullopt;
    return band_of(plan.putt, read,
                   {plan.setup.slope_sure.value_or(0),
                    plan.setup.stimp_sure_ft.value_or(0) * metres_per_foot});
}

std::vector<std::string> notes_of(const PlacedPutt& plan, const Read& read, int other_lines) {
    std::vector<std::string> notes = plan.notes;
    if (!read.entry.holed)
        notes.push_back("too fast to drop" +
                        (read.open ? ": it " + how_words(plan.putt, *read.open) : ""));
    if (read.roll.end == RollEnd::keeps_rolling)
        notes.push_back("too steep to stop: on this slope the ball keeps rolling below the hole");
    if (read.roll.end == RollEnd::left_the_green) notes.push_back("a miss runs off the green");
    if (!plan.putt.conditions.plain())
        notes.push_back("no odds: they are known for the plain roll only");
    else if (read.roll.end == RollEnd::keeps_rolling)
        notes.push_back("no odds: what is left after a miss cannot be putted");
    if (read.level_putt_m <= 0)
        notes.push_back("softer than the usual past: no stand-in hole, just set it rolling");
    if (other_lines == 1) notes.push_back("another line holes it too; --all-lines lists both");
    if (other_lines > 1)
        notes.push_back(
            fmt::format("{} other lines hole it too; --all-lines lists them", other_lines));
    return notes;
}

Json putt_json(const PlacedPutt& plan) {
    const Putt& putt = plan.putt;
    Json json = {{"green", plan.setup.green ? Json(plan.setup.green->name) : Json(nullptr)},
                 {"ball", name_or_null(plan.setup.ball_name)},
                 {"hole", name_or_null(plan.setup.hole_name)},
                 {"ball_x_m", number(putt.ball.x())},
                 {"ball_y_m", number(putt.ball.y())},
                 {"hole_x_m", number(putt.hole.x())},
                 {"hole_y_m", number(putt.hole.y())},
                 {"distance_m", number(putt.distance_m())},
                 {"stimp_ft", number(plan.setup.stimp_ft)},
                 {"slope", number(plan.putt.slope_at_hole())},
                 {"clock_h", number(clock_of(plan.setup))},
                 {"past_m", asks_past(plan) ? number(putt.finish.value) : Json(nullptr)},
                 {"hole_speed_m_s", asks_past(plan) ? Json(nullptr) : number(putt.finish.value)}};
    if (!putt.conditions.plain()) json["conditions"] = conditions_json(putt.conditions);
    // Without a fall line there is no clock; the ball's place is then given by its bearing.
    if (!clock_of(plan.setup)) {
        const double bearing = bearing_of(putt.ball - putt.hole) * degrees;
        json["ball_bearing_deg"] = number(bearing < 0 ? bearing + 360 : bearing);
    }
    return json;
}

Json read_json(const PlacedPutt& plan, const Read& read, const Json& odds) {
    const Units units;
    Json json = {{"start",
                  {{"angle_deg", number(read.stroke.angle_rad * degrees)},
                   {"speed_m_s", number(read.stroke.speed_m_s)},
                   {"level_roll_m", number(read.level_roll_m)},
                   {"level_putt_m", number(read.level_putt_m)},
                   {"spot_along_m", number(read.start_spot.along_m)},
                   {"spot_offset_m", number(read.start_spot.offset_m)}}},
                 {"aim", read.aim_offset_m ? Json{{"offset_m", number(*read.aim_offset_m)},
                                                  {"words", aim_words(*read.aim_offset_m, units)}}
                                           : Json(nullptr)},
                 {"stand_in_hole", player_point(read.stand_in_hole)},
                 {"apex", apex_json(read)},
                 {"arrival",
                  {{"speed_m_s", number(read.arrival_speed_m_s)},
                   {"angle_deg", number(scaled(read.arrival_angle_rad, degrees))},
                   {"time_s", number(read.arrival_time_s)},
                   {"past_m", number(read.past_m)}}},
                 {"entry", entry_json(plan.putt, read)},
                 {"room", room_json(read.room)},
                 {"odds", odds},
                 {"costs", costs_json(read.costs)},
                 {"sure", sure_json(plan, read)},
                 {"check", check_json(read.check)}};
    if (read.rolls_from) json["skid"] = skid_json(*read.rolls_from);
    return json;
}

double followed_arc_m(const Roll& roll) {
    return roll.end == RollEnd::keeps_rolling && roll.pass ? roll.pass->arc_m + 3 : HUGE_VAL;
}

Json path_json(const std::vector<PathPoint>& points, double most_arc_m) {
    Json path = Json::array();
    for (const PathPoint& p : points) {
        if (p.arc_m > most_arc_m) break;
        path.push_back({number(p.time_s), number(p.at.x()), number(p.at.y()), number(p.speed_m_s)});
    }
    return path;
}

Json no_line_json(const PlacedPutt& plan, const NoLine& none, const Units& units) {
    Json error = {{"kind", "no_line"},
                  {"reason", no_line_words(plan, none, units)},
                  {"holds_up_to_slope", number(none.holds_up_to_slope)},
                  {"friction_over_slope", number(none.friction_over_slope)},
                  {"least_arrival_m_s", number(none.least_arrival_m_s)}};
    if (none.nearest_finish)
        error[asks_past(plan) ? "nearest_past_m" : "nearest_hole_speed_m_s"] =
            number(*none.nearest_finish);
    return error;
}

void print_read(std::ostream& out, const PlacedPutt& plan, const Read& read,
                const std::optional<StrokeOdds>& odds, const Units& units) {
    const double distance = plan.putt.distance_m();
    out << putt_words(plan, units) << "\n\n";
    out << direction_words(read.stroke.angle_rad, distance, plan.putt.mean_rise()) << '\n';
    print_row(out, "Aim",
              read.aim_offset_m
                  ? fmt::format("{} ({} from the centre)", aim_words(*read.aim_offset_m, units),
                                format_aim(*read.aim_offset_m, units))
                  : "no aim spot: pick a mark on the start line");
    print_row(out, "Pace",
              level_putt_words(read.level_putt_m, units) +
                  (read.stand_in_hole ? ", to the stand-in hole" : ""));
    const std::string above = apex_line_words(absent_or(read.line_above_apex_m), units);
    print_row(out, "Apex",
              read.apex ? apex_words(read.apex->along_m, read.apex->offset_m, distance, units) +
                              (above.empty() ? "" : "; " + above)
                        : "none, it runs straight");
    print_row(out, "Finish",
              arrival_words(absent_or(read.past_m), read.arrival_speed_m_s,
                            read.entry.clock_rad * hours, units));
    print_row(out, "Room", room_text(plan, read, units));
    if (odds)
        print_row(out, "Odds",
                  odds_words(odds->holed, odds->inside_3ft, odds->usual_leave_m, distance, units) +
                      " for your spread");
    if (const std::string band = band_text(plan, read, units); !band.empty())
        print_row(out, "19 in 20", band);
    if (const std::string costs = misread_words(read, units); !costs.empty())
        print_row(out, "A misread costs", costs);
}

void print_detail(std::ostream& out, const PlacedPutt& plan, const Read& read,
                  const std::optional<Odds>& odds, const Units& units) {
    const double angle = read.stroke.angle_rad * degrees;
    print_row(
        out, "Coach detail",
        fmt::format("start angle {} {}, leaves at {}", format_degrees(std::abs(angle)),
                    angle < 0 ? "left" : "right", format_speed(read.stroke.speed_m_s, units)));
    print_row(out, "",
              fmt::format("start spot {} on, {} {}", format_spot(read.start_spot.along_m),
                          format_spot(std::abs(read.start_spot.offset_m)),
                          read.start_spot.offset_m < 0 ? "left" : "right"));
    print_row(out, "",
              fmt::format("level roll {}, level putt {}", format_distance(read.level_roll_m, units),
                          format_level_putt(read.level_putt_m, units)));
    if (read.apex)
        print_row(
            out, "",
            fmt::format("apex {} on, {} off the line", format_distance(read.apex->along_m, units),
                        format_length(read.apex->offset_m, units)));
    print_row(
        out, "",
        fmt::format("{} at the hole after {}, {} at {}",
                    format_speed(read.arrival_speed_m_s, units), format_time(read.arrival_time_s),
                    read.open ? how_words(plan.putt, *read.open) : "in",
                    format_entry_clock(read.entry.clock_rad * hours)));
    if (read.room)
        print_row(out, "",
                  fmt::format("room {} to {}, pace {} to {}",
                              format_degrees(read.room->angle_lo_rad * degrees),
                              format_degrees(read.room->angle_hi_rad * degrees),
                              format_half_percent(read.room->pace_lo),
                              format_half_percent(read.room->pace_hi)));
    if (read.rolls_from)
        print_row(
            out, "",
            fmt::format("skids {}, then rolls at {}", format_length(read.rolls_from->arc_m, units),
                        format_speed(read.rolls_from->speed_m_s, units)));
    if (odds)
        print_row(out, "",
                  "holed " + odds_detail_words(odds->holed, odds->three_putt, odds->putts));
    print_row(out, "",
              fmt::format("slope at the hole {}, friction over slope {:.2f}",
                          format_slope(plan.putt.slope_at_hole()),
                          plan.putt.resistance / plan.putt.slope_at_hole()));
}

}  // namespace dewtrail
