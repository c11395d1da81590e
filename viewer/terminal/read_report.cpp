#include "viewer/terminal/read_report.hpp"

#include <cmath>
#include <ostream>

#include "viewer/text/clock_and_angle.hpp"

namespace dewtrail {
namespace {

Json name_or_null(const std::string& name) {
    return name.empty() ? Json(nullptr) : Json(name);
}

Json conditions_json(const Conditions& c) {
    return {{"launch_spin", number(c.launch_spin)}, {"wind_x_m_s", number(c.wind_m_s.x())},
            {"wind_y_m_s", number(c.wind_m_s.y())}, {"grain_x", number(c.grain.x())},
            {"grain_y", number(c.grain.y())},       {"slow_share", number(c.slow_share)}};
}

struct AsJson {
    Json operator()(const std::optional<double>& value) const { return number(value); }
    Json operator()(bool value) const { return value; }
    Json operator()(const std::string& value) const { return value; }
    Json operator()(const std::pair<double, double>& range) const {
        return Json::array({number(range.first), number(range.second)});
    }
};

}  // namespace

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
        const double bearing = bearing_of(putt.ball - putt.hole) * degrees_per_rad;
        json["ball_bearing_deg"] = number(bearing < 0 ? bearing + 360 : bearing);
    }
    return json;
}

Json read_json(const Account& account) {
    // The contract's order.
    Json json = {{"start",
                  {{"angle_deg", nullptr},
                   {"speed_m_s", nullptr},
                   {"level_roll_m", nullptr},
                   {"level_putt_m", nullptr}}},
                 {"aim", nullptr},
                 {"stand_in_hole", nullptr},
                 {"apex", nullptr},
                 {"turns", nullptr},
                 {"arrival", nullptr},
                 {"entry", nullptr},
                 {"room", nullptr},
                 {"odds", nullptr},
                 {"costs", nullptr},
                 {"sure", nullptr},
                 {"check", nullptr}};
    for (const AccountRow& row : account.rows)
        for (const Figure& figure : row.figures) {
            const auto dot = figure.key.find('.');
            json[std::string(figure.key.substr(0, dot))][std::string(figure.key.substr(dot + 1))] =
                std::visit(AsJson(), figure.value);
        }
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

void print_row(std::ostream& out, const AccountRow& row, bool detail) {
    std::string text = told(row);
    for (const std::string* more : {&row.detail, &row.more})
        if (detail && !more->empty()) text += "\n" + *more;
    if (!text.empty()) print_row(out, row.name, text);
}

void print_account(std::ostream& out, const Account& account, bool detail) {
    out << account.heading << '\n';
    for (const AccountRow& row : account.rows) print_row(out, row, detail);
}

void print_notes(std::ostream& out, const std::vector<std::string>& notes) {
    for (const std::string& note : notes) out << "Note: " << note << ".\n";
}

}  // namespace dewtrail
