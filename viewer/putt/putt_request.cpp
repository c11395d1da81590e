#include "viewer/putt/putt_request.hpp"

#include <fmt/format.h>

#include <boost/math/special_functions/cos_pi.hpp>
#include <boost/math/special_functions/sin_pi.hpp>
#include <cmath>

#include "greens/green_file.hpp"
#include "greens/input_error.hpp"
#include "greens/number.hpp"
#include "physics/roll/green_speed.hpp"
#include "physics/surface/line_profile.hpp"
#include "viewer/text/clock_and_angle.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"
#include "viewer/text/reading.hpp"

namespace dewtrail {
namespace {

constexpr double hours_per_rad = 6 / M_PI;
constexpr double least_slope_with_clock = 1e-3;
constexpr double usual_step_width_m = 4 * metres_per_foot;

/// Clockwise from +y; quarter turns come out exact, so that 12 o'clock is straight downhill.
Vec2 clock_direction(double clock_h) {
    return {boost::math::sin_pi(clock_h / 6), boost::math::cos_pi(clock_h / 6)};
}

/// Notes to add about a level that was turned end for end.
void note_instrument(const std::optional<double>& error, std::vector<std::string>& notes) {
    if (error)
        notes.push_back(fmt::format("the level itself shows {:.2g} % too {}; taken out",
                                    100 * std::abs(*error), *error < 0 ? "little" : "much"));
}

/// How the slope was given. Exactly one way, or none at all (level).
enum class SlopeWay { none, total, level, readings, height, green };

SlopeWay way_of(const PuttRequest& r) {
    struct Way {
        SlopeWay way;
        bool used;
        const char* name;
    };
    const Way ways[] = {
        {SlopeWay::green, r.green.has_value(), "--green"},
        {SlopeWay::total, r.slope.has_value(), "--slope"},
        {SlopeWay::readings, !r.readings.empty(), "--reading"},
        {SlopeWay::height, r.rise || r.drop, "--rise or --drop"},
        {SlopeWay::level, r.up || r.down, "--up or --down"},
    };
    const Way* found = nullptr;
    for (const Way& way : ways) {
        if (!way.used) continue;
        if (found)
            throw InputError(fmt::format("{} and {} both give the slope", found->name, way.name),
                             "Give the slope in one way only.");
        found = &way;
    }
    const bool falls = r.falls_left || r.falls_right;
    if (!found) return falls ? SlopeWay::level : SlopeWay::none;
    if (falls && found->way != SlopeWay::level && found->way != SlopeWay::height)
        throw InputError(
            fmt::format("--falls-left and --falls-right do not go with {}", found->name),
            "Use them with --up or --down: --up 1% --falls-left 2%.");
    return found->way;
}

void refuse_both(bool a, bool b, const char* names, const char* remedy) {
    if (a && b) throw InputError(fmt::format("{} contradict each other", names), remedy);
}

void refuse_unless(bool needed, bool given, const char* message, const char* remedy) {
    if (given && !needed) throw InputError(message, remedy);
}

/// Signed slope from a pair of opposite options: the first counts positive.
double either_slope(const std::optional<std::string>& plus, const std::optional<std::string>& minus,
                    const char* plus_name, const char* minus_name,
                    std::vector<std::string>& notes) {
    const auto& given = plus ? plus : minus;
    if (!given) return 0;
    const auto reading = parse_level_reading(*given, plus ? plus_name : minus_name);
    note_instrument(reading.instrument_error, notes);
    return plus ? reading.slope : -reading.slope;
}

class Planner {
  public:
    Planner(const PuttRequest& request, const PuttDefaults& defaults)
        : request_(request), defaults_(defaults) {}

    PlannedPutt plan() {
        check_request();
        if (way_ == SlopeWay::green)
            place_on_green();
        else
            place_bare();
        choose_stimp();
        choose_finish();
        measure();
        set_conditions(request_.conditions, defaults_.units, plan_.putt, plan_.notes);
        choose_sure();
        return std::move(plan_);
    }

  private:
    void check_request() {
        way_ = way_of(request_);
        const PuttRequest& r = request_;
        refuse_both(r.up.has_value(), r.down.has_value(), "--up and --down", "Give one of them.");
        refuse_both(r.falls_left.has_value(), r.falls_right.has_value(),
                    "--falls-left and --falls-right", "Give one of them.");
        refuse_both(r.rise.has_value(), r.drop.has_value(), "--rise and --drop",
                    "Give one of them.");
        const bool height = way_ == SlopeWay::height;
        refuse_unless(height, r.step_at || r.step_width, "--step-at needs a height",
                      "Add --rise or --drop: --rise 10in --step-at 12ft.");
        refuse_unless(r.step_at.has_value(), r.step_width.has_value(),
                      "--step-width needs --step-at", "Say where the step is: --step-at 12ft.");
        const bool green = way_ == SlopeWay::green;
        refuse_unless(green, r.ball.has_value(), "--ball needs a green", "Add --green NAME.");
        refuse_unless(green, r.hole.has_value(), "--hole needs a green", "Add --green NAME.");
        const bool clock_used = green || way_ == SlopeWay::total || way_ == SlopeWay::none;
        refuse_unless(clock_used, r.clock.has_value(),
                      "--clock does not go with this way to give the slope",
                      "The clock comes from the readings; leave --clock out.");
        const int finishes = r.past.has_value() + r.hole_speed.has_value() + r.die;
        if (finishes > 1)
            throw InputError("more than one finish was given",
                             "Use one of --past, --hole-speed and --die.");
    }

    // ---- without a green file

    void place_bare() {
        if (!request_.distance)
            throw InputError("no distance was given",
                             "Say how long the putt is: dewtrail read 12ft …");
        distance_m_ = parse_distance_m(*request_.distance, defaults_.units);
        switch (way_) {
            case SlopeWay::readings:
                return place_readings();
            case SlopeWay::height:
                return place_height();
            case SlopeWay::level:
                return place_level();
            default:
                return place_total();
        }
    }

    /// Hole at the origin, ground rising toward +y.
    void place_ball(const Vec2& direction) {
        plan_.putt.hole = Vec2::Zero();
        plan_.putt.ball = distance_m_ * direction;
    }

    void place_total() {
        const double slope = total_slope();
        if (slope > 0 && !request_.clock)
            throw InputError(
                fmt::format("slope {} has no direction", format_slope(slope)),
                "Say where the ball lies round the hole (--clock 3), or give the slope as "
                "the level shows it (--up 1% --falls-left 2%).");
        const double clock_h = request_.clock ? parse_clock_h(*request_.clock) : 6;
        if (request_.clock) plan_.clock_h = clock_h;
        if (way_ == SlopeWay::none) plan_.notes.push_back("no slope given: taken as level");
        place_ball(clock_direction(clock_h));
        plan_.putt.surface = std::make_shared<Plane>(Vec2(0, slope));
    }

    double total_slope() {
        if (!request_.slope) return 0;
        const auto reading = parse_level_reading(*request_.slope, "slope");
        note_instrument(reading.instrument_error, plan_.notes);
        return std::abs(reading.slope);
    }

    void place_level() {
        const double up = either_slope(request_.up, request_.down, "up", "down", plan_.notes);
        const double falls_left = either_slope(request_.falls_left, request_.falls_right,
                                               "falls-left", "falls-right", plan_.notes);
        place_along_across(up, falls_left);
        plan_.putt.surface = std::make_shared<Plane>(Vec2(0, std::hypot(up, falls_left)));
    }

    /// Puts the ball where the line to the hole has this grade and cross slope at the hole.
    void place_along_across(double up, double falls_left) {
        const double slope = std::hypot(up, falls_left);
        if (slope > 0.2)
            throw InputError(fmt::format("slope {} is outside 0-20 %", format_slope(slope)),
                             "Along and across together make a steeper slope than a green has.");
        const bool has_clock = slope >= least_slope_with_clock;
        place_ball(has_clock ? Vec2(falls_left, -up) / slope : Vec2(0, -1));
    }

    void place_readings() {
        std::vector<LineReading> readings;
        for (const std::string& text : request_.readings) {
            const auto typed = parse_line_reading(text, defaults_.units);
            note_instrument(typed.instrument_error, plan_.notes);
            readings.push_back({typed.at_m.value_or(distance_m_), typed.up, typed.falls_left});
        }
        for (std::size_t i = 1; i < readings.size(); ++i)
            if (!(readings[i].along_m > readings[i - 1].along_m))
                throw InputError(fmt::format("reading '{}' is not beyond the one before it",
                                             request_.readings[i]),
                                 "Give the readings in order from the ball to the hole.");
        place_profile(readings);
    }

    void place_profile(const std::vector<LineReading>& readings) {
        // The hole can be placed only once the profile says how the ground falls there.
        const Vec2 south(0, -distance_m_);
        const LineProfile trial(south, Vec2::Zero(), readings);
        const Vec2 gradient = trial.at(0, 0).gradient();
        place_along_across(gradient.y(), gradient.x());
        plan_.putt.surface =
            std::make_shared<LineProfile>(plan_.putt.ball, plan_.putt.hole, readings);
    }

    void place_height() {
        const bool rises = request_.rise.has_value();
        const double height = parse_short_length_m(rises ? *request_.rise : *request_.drop,
                                                   defaults_.units, rises ? "rise" : "drop");
        const double rise = rises ? height : -height;
        const double falls_left = either_slope(request_.falls_left, request_.falls_right,
                                               "falls-left", "falls-right", plan_.notes);
        if (request_.step_at) return place_step(rise, falls_left);
        const double up = rise / distance_m_;
        refuse_steep(std::abs(up));
        place_along_across(up, falls_left);
        plan_.putt.surface = std::make_shared<Plane>(Vec2(0, std::hypot(up, falls_left)));
    }

    /// Steepest in its middle at twice the mean grade.
    void place_step(double rise, double falls_left) {
        const double centre = parse_distance_m(*request_.step_at, defaults_.units, "step-at");
        const double width = request_.step_width ? parse_distance_m(*request_.step_width,
                                                                    defaults_.units, "step-width")
                                                 : usual_step_width_m;
        if (!request_.step_width)
            plan_.notes.push_back(
                fmt::format("step taken as {} wide", format_distance(width, defaults_.units)));
        if (centre - width / 2 < 0 || centre + width / 2 > distance_m_)
            throw InputError(
                "the step does not lie between ball and hole",
                fmt::format("It reaches from {} to {} of {}: move it with --step-at, or "
                            "make it narrower with --step-width.",
                            format_distance(std::max(0.0, centre - width / 2), defaults_.units),
                            format_distance(centre + width / 2, defaults_.units),
                            format_distance(distance_m_, defaults_.units)));
        const double steepest = 2 * rise / width;
        if (std::abs(steepest) > 0.2)
            throw InputError(
                fmt::format("a step that high over {} has a slope of {}, outside 0-20 %",
                            format_distance(width, defaults_.units), format_slope(steepest)),
                fmt::format("Check the height, or give it at least {} with --step-width.",
                            format_distance(10 * std::abs(rise), defaults_.units)));
        place_profile({{centre - width / 2, 0, falls_left},
                       {centre, steepest, falls_left},
                       {centre + width / 2, 0, falls_left}});
    }

    static void refuse_steep(double slope) {
        if (slope > 0.2)
            throw InputError(
                fmt::format("that height makes a slope of {}, outside 0-20 %", format_slope(slope)),
                "Check the height, or make the step wider with --step-width.");
    }

    // ---- on a green file

    void place_on_green() {
        plan_.green = load_green(*request_.green, defaults_.green_folders);
        const Green& green = *plan_.green;
        plan_.putt.surface = green.surface;
        plan_.putt.outline = std::make_shared<Outline>(green.outline);
        plan_.putt.hole = place(request_.hole, green.holes, "hole", plan_.hole_name);
        if (request_.distance || request_.clock) return place_by_clock();
        plan_.putt.ball = place(request_.ball, green.balls, "ball", plan_.ball_name);
        check_on_green();
    }

    void place_by_clock() {
        if (request_.ball)
            throw InputError("--ball and a distance with a clock both place the ball",
                             "Use --ball, or a distance with --clock.");
        if (!request_.distance || !request_.clock)
            throw InputError("a ball placed round the hole needs a distance and a clock",
                             "Give both: dewtrail read 12ft --clock 3 --green NAME.");
        const double distance = parse_distance_m(*request_.distance, defaults_.units);
        plan_ = with_ball_at(plan_, distance, parse_clock_h(*request_.clock));
        check_on_green();
    }

    void check_on_green() {
        if (!(plan_.green->outline.inside_by(plan_.putt.ball) > 0))
            throw InputError("the ball lies off the green", "Put it inside the outline.");
    }

    static std::string names(const std::map<std::string, Vec2>& places) {
        std::string all;
        for (const auto& [name, at] : places) all += (all.empty() ? "" : ", ") + name;
        return all;
    }

    /// A named place, or x,y in metres of the green's plan. One that is not said must be the only
    /// one.
    Vec2 place(const std::optional<std::string>& text, const std::map<std::string, Vec2>& places,
               const char* what, std::string& name) {
        if (!text) {
            if (places.size() != 1)
                throw InputError(
                    fmt::format("no {} was chosen on green '{}'", what, plan_.green->name),
                    fmt::format("Use --{}; this green has: {}.", what, names(places)));
            name = places.begin()->first;
            return places.begin()->second;
        }
        if (const auto found = places.find(*text); found != places.end()) {
            name = found->first;
            return found->second;
        }
        return measured(*text, places, what);
    }

    Vec2 measured(const std::string& text, const std::map<std::string, Vec2>& places,
                  const char* what) {
        double x = 0, y = 0;
        int used = 0;
        if (std::sscanf(text.c_str(), "%lf,%lf%n", &x, &y, &used) != 2 ||
            used != static_cast<int>(text.size()) || !(std::abs(x) <= 200) || !(std::abs(y) <= 200))
            throw InputError(
                fmt::format("green '{}' has no {} '{}'", plan_.green->name, what, text),
                fmt::format("It has: {}. Or give x,y in metres of its plan: --{} 3.5,7.2",
                            names(places), what));
        const Vec2 at(x, y);
        if (!(plan_.green->outline.inside_by(at) > 0))
            throw InputError(
                fmt::format("{} {} lies off green '{}'", what, text, plan_.green->name),
                "Put it inside the outline.");
        return at;
    }

    // ---- for both

    void choose_stimp() {
        double stimp = usual_stimp_ft;
        const auto grain = parse_grain(request_.conditions);
        refuse_both(grain.has_value(), request_.stimp.has_value(), "--grain and --stimp",
                    "--grain holds the stimp: the mean of its two readings.");
        if (grain)
            stimp = grain->stimp_m / metres_per_foot;
        else if (request_.stimp)
            stimp = parse_stimp_ft(*request_.stimp);
        else if (plan_.green)
            stimp = plan_.green->stimp_ft;
        else if (defaults_.stimp_ft)
            plan_.notes.push_back(fmt::format("stimp {}: the player's usual",
                                              format_stimp(stimp = *defaults_.stimp_ft)));
        else
            plan_.notes.push_back("no stimp given: taken as 10");
        if (request_.wet) {
            stimp -= wet_stimp_ft;
            plan_.notes.push_back(
                fmt::format("wet: 1½ ft taken off, stimp {}", format_stimp(stimp)));
            if (stimp < 3)
                throw InputError(
                    fmt::format("stimp {} when wet is outside 3-18 ft", format_stimp(stimp)),
                    "Give the stimp as it is now, without --wet.");
        }
        plan_.stimp_ft = stimp;
        plan_.putt.resistance = resistance_of_stimp(stimp * metres_per_foot);
    }

    void choose_finish() {
        Finish& finish = plan_.putt.finish;
        if (request_.die)
            finish = Finish::past(0);
        else if (request_.past)
            finish = Finish::past(parse_past_m(*request_.past, defaults_.units));
        else if (request_.hole_speed)
            finish =
                Finish::hole_speed(parse_hole_speed_m_s(*request_.hole_speed, defaults_.units));
        else if (plan_.putt.distance_m() > lag_distance_m) {
            finish = Finish::past(lag_past_m);
            plan_.notes.push_back("beyond 30 ft: finish taken as 3 in past");
        } else {
            finish = Finish::past(defaults_.usual_past_m);
        }
    }

    void measure() {
        const Putt& putt = plan_.putt;
        const double distance = putt.distance_m();
        if (!(distance > hole_radius_m))
            throw InputError("the ball lies inside the hole", "Move the ball or the hole.");
        if (!putt_range::distance_m.holds(distance))
            throw InputError(fmt::format("distance {} is outside 0.15-40 m",
                                         format_distance(distance, defaults_.units)),
                             "Move the ball or the hole.");
        plan_.slope_at_hole = putt.surface->at(putt.hole.x(), putt.hole.y()).gradient().norm();
        if (!plan_.clock_h) plan_.clock_h = clock_of(putt, putt.ball);
        const auto height = [&](const Vec2& p) { return putt.surface->at(p.x(), p.y()).h; };
        plan_.mean_up = (height(putt.hole) - height(putt.ball)) / distance;
    }

    void choose_sure() {
        if (request_.slope_sure) plan_.slope_sure = parse_slope(*request_.slope_sure, "slope-sure");
        if (request_.stimp_sure)
            plan_.stimp_sure_ft = parse_stimp_change_ft(*request_.stimp_sure, "stimp-sure");
    }

    const PuttRequest& request_;
    const PuttDefaults& defaults_;
    PlannedPutt plan_;
    SlopeWay way_ = SlopeWay::none;
    double distance_m_ = 0;
};

}  // namespace

std::optional<double> clock_of(const Putt& putt, const Vec2& place) {
    const auto uphill = uphill_at_hole(putt);
    if (!uphill) return std::nullopt;
    const double round = bearing_of(place - putt.hole) - bearing_of(*uphill);
    double hours = std::remainder(round, 2 * M_PI) * hours_per_rad;
    if (hours <= 0) hours += 12;
    return hours;
}

PlannedPutt with_ball_at(const PlannedPutt& plan, double distance_m, double clock_h) {
    PlannedPutt moved = plan;
    const Vec2 uphill = uphill_at_hole(plan.putt).value_or(Vec2(0, 1));
    const Vec2 right_of_uphill(uphill.y(), -uphill.x()), clock = clock_direction(clock_h);
    moved.putt.ball =
        plan.putt.hole + distance_m * (clock.y() * uphill + clock.x() * right_of_uphill);
    moved.clock_h = clock_h;
    const auto height = [&](const Vec2& p) { return plan.putt.surface->at(p.x(), p.y()).h; };
    moved.mean_up = (height(moved.putt.hole) - height(moved.putt.ball)) / distance_m;
    return moved;
}

PlannedPutt plan_putt(const PuttRequest& request, const PuttDefaults& defaults) {
    return Planner(request, defaults).plan();
}

}  // namespace dewtrail
