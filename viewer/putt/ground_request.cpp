#include "viewer/putt/ground_request.hpp"

#include <fmt/format.h>

#include <cmath>
#include <utility>

#include "greens/green_file.hpp"
#include "greens/input_error.hpp"
#include "viewer/text/clock_and_angle.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"
#include "viewer/text/reading.hpp"

namespace dewtrail {
namespace {

constexpr double usual_step_width_m = 4 * metres_per_foot;

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

class GroundReader {
  public:
    GroundReader(Setup& setup, const PuttRequest& request, const PuttDefaults& defaults,
                 std::vector<std::string>& notes)
        : setup_(setup),
          request_(request),
          defaults_(defaults),
          notes_(notes),
          way_(way_of(request)) {}

    void place() {
        check();
        if (way_ == SlopeWay::green)
            place_on_green();
        else
            place_bare();
    }

  private:
    void check() const {
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
    }

    // ---- without a green file

    void place_bare() {
        if (!request_.distance)
            throw InputError("no distance was given",
                             "Say how long the putt is: dewtrail read 12ft …");
        setup_.distance_m = parse_distance_m(*request_.distance, defaults_.units);
        setup_.clock_h = 6;
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

    void place_total() {
        const double slope = total_slope();
        if (slope > 0 && !request_.clock)
            throw InputError(
                fmt::format("slope {} has no direction", format_slope(slope)),
                "Say where the ball lies round the hole (--clock 3), or give the slope as "
                "the level shows it (--up 1% --falls-left 2%).");
        if (request_.clock) setup_.clock_h = parse_clock_h(*request_.clock);
        if (way_ == SlopeWay::none) notes_.push_back("no slope given: taken as level");
        setup_.slope = slope;
    }

    double total_slope() {
        if (!request_.slope) return 0;
        const auto reading = parse_level_reading(*request_.slope, "slope");
        note_instrument(reading.instrument_error, notes_);
        return std::abs(reading.slope);
    }

    void place_level() {
        const double up = either_slope(request_.up, request_.down, "up", "down", notes_);
        const double falls_left = either_slope(request_.falls_left, request_.falls_right,
                                               "falls-left", "falls-right", notes_);
        place_along_across({up, falls_left});
    }

    void place_along_across(const AlongAcross& seen) {
        refuse_steep(seen);
        set_along_across(setup_, seen);
    }

    static void refuse_steep(const AlongAcross& seen) {
        if (seen.slope() > most_slope)
            throw InputError(fmt::format("slope {} is outside 0-20 %", format_slope(seen.slope())),
                             "Along and across together make a steeper slope than a green has.");
    }

    void place_readings() {
        std::vector<LineReading> readings;
        for (const std::string& text : request_.readings) {
            const auto typed = parse_line_reading(text, defaults_.units);
            note_instrument(typed.instrument_error, notes_);
            readings.push_back(
                {typed.at_m.value_or(setup_.distance_m), typed.up, typed.falls_left});
        }
        for (std::size_t i = 1; i < readings.size(); ++i)
            if (!(readings[i].along_m > readings[i - 1].along_m))
                throw InputError(fmt::format("reading '{}' is not beyond the one before it",
                                             request_.readings[i]),
                                 "Give the readings in order from the ball to the hole.");
        place_profile(std::move(readings));
    }

    void place_profile(std::vector<LineReading> readings) {
        set_readings(setup_, std::move(readings));
        refuse_steep(along_across(setup_));
    }

    void place_height() {
        const bool rises = request_.rise.has_value();
        const double height = parse_short_length_m(rises ? *request_.rise : *request_.drop,
                                                   defaults_.units, rises ? "rise" : "drop");
        const double rise = rises ? height : -height;
        const double falls_left = either_slope(request_.falls_left, request_.falls_right,
                                               "falls-left", "falls-right", notes_);
        if (request_.step_at) return place_step(rise, falls_left);
        const double up = rise / setup_.distance_m;
        if (std::abs(up) > most_slope)
            throw InputError(fmt::format("that height makes a slope of {}, outside 0-20 %",
                                         format_slope(std::abs(up))),
                             "Check the height, or make the step wider with --step-width.");
        place_along_across({up, falls_left});
    }

    /// Steepest in its middle at twice the mean grade.
    void place_step(double rise, double falls_left) {
        const double centre = parse_distance_m(*request_.step_at, defaults_.units, "step-at");
        const double width = request_.step_width ? parse_distance_m(*request_.step_width,
                                                                    defaults_.units, "step-width")
                                                 : usual_step_width_m;
        if (!request_.step_width)
            notes_.push_back(
                fmt::format("step taken as {} wide", format_distance(width, defaults_.units)));
        if (centre - width / 2 < 0 || centre + width / 2 > setup_.distance_m)
            throw InputError(
                "the step does not lie between ball and hole",
                fmt::format("It reaches from {} to {} of {}: move it with --step-at, or "
                            "make it narrower with --step-width.",
                            format_distance(std::max(0.0, centre - width / 2), defaults_.units),
                            format_distance(centre + width / 2, defaults_.units),
                            format_distance(setup_.distance_m, defaults_.units)));
        const double steepest = 2 * rise / width;
        if (std::abs(steepest) > most_slope)
            throw InputError(
                fmt::format("a step that high over {} has a slope of {}, outside 0-20 %",
                            format_distance(width, defaults_.units), format_slope(steepest)),
                fmt::format("Check the height, or give it at least {} with --step-width.",
                            format_distance(10 * std::abs(rise), defaults_.units)));
        place_profile({{centre - width / 2, 0, falls_left},
                       {centre, steepest, falls_left},
                       {centre + width / 2, 0, falls_left}});
    }

    // ---- on a green file

    void place_on_green() {
        setup_.green =
            std::make_shared<const Green>(load_green(*request_.green, defaults_.green_folders));
        const Green& green = *setup_.green;
        setup_.hole = place(request_.hole, green.holes, "hole", setup_.hole_name);
        if (request_.distance || request_.clock)
            place_by_clock();
        else
            setup_.ball = place(request_.ball, green.balls, "ball", setup_.ball_name);
        if (!(green.outline.inside_by(setup_.ball) > 0))
            throw InputError("the ball lies off the green", "Put it inside the outline.");
        check_distance();
    }

    void place_by_clock() {
        if (request_.ball)
            throw InputError("--ball and a distance with a clock both place the ball",
                             "Use --ball, or a distance with --clock.");
        if (!request_.distance || !request_.clock)
            throw InputError("a ball placed round the hole needs a distance and a clock",
                             "Give both: dewtrail read 12ft --clock 3 --green NAME.");
        set_distance_and_clock(setup_, parse_distance_m(*request_.distance, defaults_.units),
                               parse_clock_h(*request_.clock));
    }

    void check_distance() const {
        const double distance = distance_of(setup_);
        if (!(distance > hole_radius_m))
            throw InputError("the ball lies inside the hole", "Move the ball or the hole.");
        if (!(distance >= least_distance_m && distance <= most_distance_m))
            throw InputError(fmt::format("distance {} is outside 0.15-40 m",
                                         format_distance(distance, defaults_.units)),
                             "Move the ball or the hole.");
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
                    fmt::format("no {} was chosen on green '{}'", what, setup_.green->name),
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
                fmt::format("green '{}' has no {} '{}'", setup_.green->name, what, text),
                fmt::format("It has: {}. Or give x,y in metres of its plan: --{} 3.5,7.2",
                            names(places), what));
        const Vec2 at(x, y);
        if (!(setup_.green->outline.inside_by(at) > 0))
            throw InputError(
                fmt::format("{} {} lies off green '{}'", what, text, setup_.green->name),
                "Put it inside the outline.");
        return at;
    }

    Setup& setup_;
    const PuttRequest& request_;
    const PuttDefaults& defaults_;
    std::vector<std::string>& notes_;
    SlopeWay way_;
};

}  // namespace

void set_ground(Setup& setup, const PuttRequest& request, const PuttDefaults& defaults,
                std::vector<std::string>& notes) {
    GroundReader(setup, request, defaults, notes).place();
}

}  // namespace dewtrail
