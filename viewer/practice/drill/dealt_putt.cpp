#include "viewer/practice/drill/dealt_putt.hpp"

#include <fmt/format.h>

#include <utility>

#include "greens/green_file.hpp"
#include "greens/number.hpp"

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
    const AlongAcross seen{up, falls_left};
    DealtPutt putt;
    putt.slope = seen.slope();
    const Vec2 ball = distance_m * clock_direction(clock_of(seen));
    putt.ball_x_m = ball.x();
    putt.ball_y_m = ball.y();
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
    const Vec2 ball = turned(putt.ball(), hours);
    other.ball_x_m = ball.x();
    other.ball_y_m = ball.y();
    return other;
}

const Green& Greenkeeper::green(const std::string& name) {
    return *shared(name);
}

std::shared_ptr<const Green> Greenkeeper::shared(const std::string& name) {
    auto& green = greens_[name];
    if (!green) green = std::make_shared<const Green>(load_green(name, folders_));
    return green;
}

PlacedPutt Greenkeeper::set_up(const DealtPutt& dealt) {
    Setup setup;
    if (dealt.green.empty()) {
        setup.distance_m = dealt.ball().norm();
        setup.clock_h = clock_of_direction(dealt.ball());
        setup.slope = dealt.slope;
    } else {
        setup.green = shared(dealt.green);
        setup.ball = dealt.ball();
        setup.hole = dealt.hole();
    }
    setup.stimp_ft = dealt.stimp_ft;
    setup.finish = Finish::past(dealt.past_m);
    return placed(std::move(setup));
}

}  // namespace dewtrail
