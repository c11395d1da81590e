#include "viewer/practice/drill/deal.hpp"

#include <algorithm>
#include <cmath>

#include "viewer/practice/drill/plain_read.hpp"

namespace dewtrail {
namespace {

constexpr int most_tries = 3000;
constexpr double round_slope = 0.0025, round_hours = 0.25, round_m = 0.5 * metres_per_foot;
constexpr double hidden_slope = 0.0012;  ///< under half of the step that slopes are shown in
constexpr double longest_angle_rad = M_PI / 3;

double rounded(double value, double step) {
    return step * std::round(value / step);
}

double reach_least(Reach reach, const DealRanges& ranges) {
    const double least[] = {0, short_below_m, long_above_m + 1e-9};
    return std::max(ranges.least_m, least[static_cast<int>(reach)]);
}

double reach_most(Reach reach, const DealRanges& ranges) {
    const double most[] = {short_below_m - 1e-9, long_above_m, 40};
    return std::min(ranges.most_m, most[static_cast<int>(reach)]);
}

double past_for(double distance_m, const DealRanges& ranges) {
    return distance_m > lag_distance_m ? lag_past_m : ranges.past_m;
}

/// A slope of this sign, or next to none.
double component(int sign, double least, double most, RandomStream& random) {
    if (sign == 0) return random.between(-0.8, 0.8) * least;
    return sign * random.between(1.2 * least, std::max(most, 1.3 * least));
}

/// Rounded to the figures shown; none if rounding made it another kind.
std::optional<DealtPutt> round_plane_putt(const Category& kind, const DealRanges& ranges,
                                          RandomStream& random) {
    const int up_sign = kind.grade == Grade::level ? 0 : kind.grade == Grade::uphill ? 1 : -1;
    const int left_sign = kind.side == BreakSide::straight        ? 0
                          : kind.side == BreakSide::right_to_left ? 1
                                                                  : -1;
    const double distance = rounded(
        random.between(reach_least(kind.reach, ranges), reach_most(kind.reach, ranges)), round_m);
    const double up = component(up_sign, level_below, ranges.most_slope, random);
    const double left = component(left_sign, straight_below, ranges.most_slope, random);
    double slope = rounded(std::hypot(up, left), round_slope);
    const double hours = rounded(clock_of(AlongAcross{up, left}), round_hours);
    if (slope > ranges.most_slope) return std::nullopt;
    if (slope > 0) slope += random.between(-hidden_slope, hidden_slope);
    const AlongAcross seen = along_across(slope, hours);
    if (!(category_of(distance, seen.up, seen.falls_left) == kind)) return std::nullopt;
    const double stimp = rounded(random.between(ranges.least_stimp_ft, ranges.most_stimp_ft), 0.5);
    return plane_putt(distance, seen.up, seen.falls_left, stimp, past_for(distance, ranges));
}

DealtPutt putt_on_green(const std::string& name, const DealRanges& ranges, RandomStream& random,
                        Greenkeeper& keeper) {
    const Green& green = keeper.green(name);
    auto hole = green.holes.begin();
    std::advance(hole, random.below(static_cast<int>(green.holes.size())));
    DealtPutt putt;
    putt.green = name;
    putt.hole_x_m = hole->second.x();
    putt.hole_y_m = hole->second.y();
    const double distance = random.between(ranges.least_m, ranges.most_m);
    const Vec2 ball = hole->second + distance * along_bearing(2 * M_PI * random.unit());
    putt.ball_x_m = ball.x();
    putt.ball_y_m = ball.y();
    putt.stimp_ft = green.stimp_ft;
    putt.past_m = past_for(distance, ranges);
    return putt;
}

std::optional<DealtPutt> deal_on_green(const Category& kind, const DealRanges& ranges,
                                       RandomStream& random, Greenkeeper& keeper) {
    constexpr double least_inside_m = 0.5;
    std::optional<DealtPutt> other_kind;
    const std::string& name = ranges.greens[random.below(static_cast<int>(ranges.greens.size()))];
    for (int i = 0; i < most_tries; ++i) {
        const DealtPutt putt = putt_on_green(name, ranges, random, keeper);
        if (keeper.green(name).outline.inside_by(putt.ball()) < least_inside_m) continue;
        const bool right_kind = category_of(keeper.set_up(putt).putt) == kind;
        if (!right_kind && (other_kind || i < most_tries / 10)) continue;
        if (!has_read(keeper.set_up(putt))) continue;
        if (right_kind) return putt;
        other_kind = putt;
    }
    return other_kind;
}

}  // namespace

bool has_read(const PlacedPutt& plan) {
    const auto found = plain_read(plan.putt, 0);
    return found && found->past_m && found->aim_offset_m &&
           std::abs(found->stroke.angle_rad) < longest_angle_rad;
}

std::optional<DealtPutt> deal(const Category& kind, const DealRanges& ranges, RandomStream& random,
                              Greenkeeper& keeper) {
    if (!ranges.greens.empty()) return deal_on_green(kind, ranges, random, keeper);
    if (reach_least(kind.reach, ranges) > reach_most(kind.reach, ranges)) return std::nullopt;
    for (int i = 0; i < most_tries; ++i) {
        const auto putt = round_plane_putt(kind, ranges, random);
        if (putt && has_read(keeper.set_up(*putt))) return putt;
    }
    return std::nullopt;
}

std::vector<Category> kinds_within(const DealRanges& ranges) {
    std::vector<Category> kinds;
    for (int i = 0; i < category_count; ++i) {
        const Category kind = category_at(i);
        const bool sloped = kind.grade != Grade::level || kind.side != BreakSide::straight;
        if (reach_least(kind.reach, ranges) > reach_most(kind.reach, ranges)) continue;
        if (kind.side == BreakSide::both_ways && ranges.greens.empty()) continue;  // on no plane
        if (sloped && ranges.most_slope < 2 * level_below) continue;
        kinds.push_back(kind);
    }
    return kinds;
}

}  // namespace dewtrail
