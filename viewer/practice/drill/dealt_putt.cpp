#include "viewer/practice/drill/dealt_putt.hpp"

#include <fmt/format.h>

#include <cmath>

#include "greens/green_file.hpp"
#include "greens/number.hpp"
#include "physics/roll/green_speed.hpp"

namespace dewtrail {

std::string out_of_range(const DealtPutt& putt) {
    struct Figure {
        const char* name;
        double value;
        Range range;
    };
    const Figure figures[] = {
        {"its length in metres", (putt.ball() - putt.hole()).norm(), putt_range::distance_m},
        {"its slope", putt.slope, putt_range::slope},
        {"its stimp", putt.stimp_ft, putt_range::stimp_ft},
        {"its finish in metres past", putt.past_m, putt_range::past_m}};
    for (const auto& [name, value, range] : figures)
        if (!range.holds(value))
            return fmt::format("{} is {:.4g}, outside {} to {}", name, value, range.least,
                               range.most);
    return "";
}

DealtPutt plane_putt(double distance_m, double up, double falls_left, double stimp_ft,
                     double past_m) {
    DealtPutt putt;
    putt.slope = std::hypot(up, falls_left);
    const Vec2 toward = putt.slope > 0 ? Vec2(falls_left, -up) / putt.slope : Vec2(0, -1);
    putt.ball_x_m = distance_m * toward.x();
    putt.ball_y_m = distance_m * toward.y();
    putt.stimp_ft = stimp_ft;
    putt.past_m = past_m;
    return putt;
}

DealtPutt mirrored(const DealtPutt& putt) {
    DealtPutt other = putt;
    if (putt.green.empty()) other.ball_x_m = 0.0 - putt.ball_x_m;
    return other;
}

DealtPutt turned(const DealtPutt& putt, double hours) {
    DealtPutt other = putt;
    if (!putt.green.empty()) return other;
    const double angle = hours * M_PI / 6, c = std::cos(angle), s = std::sin(angle);
    other.ball_x_m = c * putt.ball_x_m + s * putt.ball_y_m;
    other.ball_y_m = c * putt.ball_y_m - s * putt.ball_x_m;
    return other;
}

const Green& Greenkeeper::green(const std::string& name) {
    const auto found = greens_.find(name);
    if (found != greens_.end()) return found->second;
    return greens_.emplace(name, load_green(name, folders_)).first->second;
}

PlannedPutt Greenkeeper::set_up(const DealtPutt& dealt) {
    PlannedPutt plan;
    Putt& putt = plan.putt;
    if (dealt.green.empty()) {
        putt.surface = std::make_shared<Plane>(Vec2(0, dealt.slope));
    } else {
        plan.green = green(dealt.green);
        putt.surface = plan.green->surface;
        putt.outline = std::make_shared<Outline>(plan.green->outline);
    }
    putt.ball = dealt.ball();
    putt.hole = dealt.hole();
    putt.resistance = resistance_of_stimp(dealt.stimp_ft * metres_per_foot);
    putt.finish = Finish::past(dealt.past_m);
    plan.stimp_ft = dealt.stimp_ft;
    plan.slope_at_hole = putt.surface->at(putt.hole.x(), putt.hole.y()).gradient().norm();
    plan.clock_h = clock_of(putt, putt.ball);
    plan.mean_up = line_slope(putt).up;
    return plan;
}

}  // namespace dewtrail
