#include "viewer/practice/review/review_log.hpp"

#include <algorithm>
#include <cmath>

#include "physics/read/told_stroke.hpp"
#include "viewer/practice/drill/plain_read.hpp"

namespace dewtrail {
namespace {

constexpr double in = metres_per_inch, ft = metres_per_foot;

bool says(std::string_view missed, std::string_view word) {
    return missed.find(word) != missed.npos;
}

Eigen::Vector2d by_words(const Putt& putt, std::string_view missed, Eigen::Vector2d& sd) {
    Eigen::Vector2d at(1 * ft, 0);
    sd = {1 * ft, 4 * in};
    if (says(missed, "short")) at[0] = -1.5 * ft;
    if (says(missed, "long")) at[0] = 2.5 * ft, sd[0] = 1.5 * ft;
    for (const int right : {-1, 1}) {
        const bool here =
            says(missed, miss_side(putt, right)) || says(missed, right > 0 ? "right" : "left");
        if (here) at[1] = right * 8 * in, sd[1] = 5 * in;
    }
    return at;
}

}  // namespace

std::optional<ToldRest> told_rest(const Putt& putt, const Leave& leave, std::string_view missed) {
    ToldRest told;
    if (leave.past_m) {
        told.at = {*leave.past_m, leave.right_m.value_or(0)};
        told.sd.setConstant(1 * in + 0.05 * told.at.norm());
        told.exact = true;
        return told;
    }
    if (missed.empty() && !leave.left_m) return std::nullopt;
    told.at = by_words(putt, missed, told.sd);
    if (leave.left_m) {
        const double size = told.at.norm();
        told.at *= *leave.left_m / size;
        told.sd *= std::min(1.0, *leave.left_m / size);
    }
    told.sd = told.sd.cwiseMax(1 * in);
    return told;
}

std::optional<PlayedPutt> played_putt(const PlacedPutt& plan, std::optional<double> aim_m,
                                      std::optional<double> level_putt_m, const ToldRest& rest,
                                      double player_past_m) {
    PlayedPutt played;
    played.putt = plan.putt;
    played.stimp_ft = plan.setup.stimp_ft;
    if (!aim_m || !level_putt_m) {
        const auto best = plain_read(plan.putt, player_past_m);
        if (!best) return std::nullopt;
        played.meant = best->stroke;
    }
    if (aim_m) played.meant.angle_rad = start_angle_rad(plan.putt, *aim_m);
    if (level_putt_m)
        played.meant.speed_m_s =
            launch_speed_m_s(plan.putt, level_roll_of_putt_m(*level_putt_m, player_past_m));
    played.rest = on_green(plan.putt, {plan.putt.distance_m() + rest.at[0], rest.at[1]});
    played.rest_sd_m = rest.sd;
    return played;
}

std::optional<PlayedPutt> played_putt(const LoggedPutt& logged, const Player& player) {
    const bool level =
        logged.side == name_of(BreakSide::straight) && logged.grade == name_of(Grade::level);
    const bool known = logged.slope && (logged.clock_h || *logged.slope < least_told_slope);
    if (logged.holed || (!known && !level)) return std::nullopt;
    const PlacedPutt plan = placed(setup_of(logged, player));
    const auto rest =
        told_rest(plan.putt, {logged.past_m, logged.right_m, logged.left_m}, logged.missed);
    if (!rest) return std::nullopt;
    return played_putt(plan, logged.aim_m, logged.level_putt_m, *rest, player.usual_past_m);
}

}  // namespace dewtrail
