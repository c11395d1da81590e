#include "viewer/practice/habits/low_misses.hpp"

#include <cmath>

#include "physics/numbers/normal.hpp"
#include "viewer/practice/drill/plain_read.hpp"
#include "viewer/putt/presets.hpp"

namespace dewtrail {
namespace {

constexpr double usual_slope = 0.02;

/// One miss by a side: the break there was, and the scatter of the aim, metres at the hole.
struct SideMiss {
    double break_m, sd_m;
    bool low;
};

std::optional<SideMiss> miss_of(const LoggedPutt& logged, const Player& player) {
    const bool low = logged.missed_in("low"), high = logged.missed_in("high");
    const auto side = find_side(logged.side);
    if (logged.holed || (!low && !high) || (side && !breaks_one_way(*side))) return std::nullopt;
    LoggedPutt usual = logged;
    if (!usual.slope) usual.slope = usual_slope;
    if (!usual.clock_h) usual.clock_h = 3;
    const Putt putt = putt_of(setup_of(usual, player));
    const auto best = plain_read(putt, player.usual_past_m);
    if (!best || !best->aim_offset_m) return std::nullopt;
    const auto moved = read_slope_sensitivity(putt, best->stroke);
    const Scatter scatter = scatter_of(player.spread);
    const Eigen::RowVector3d seen(scatter.slope_read, scatter.slope_read, scatter.fall_read_rad);
    const double by_read = moved ? moved->row(0).cwiseProduct(seen).norm() : 0;
    return SideMiss{std::abs(*best->aim_offset_m),
                    logged.distance_m * std::hypot(scatter.line_rad, by_read), low};
}

double log_likelihood(const std::vector<SideMiss>& misses, double share) {
    double sum = 0;
    for (const SideMiss& miss : misses) {
        const double low_by = (1 - share) * miss.break_m;
        const double low = normal_below((low_by - hole_radius_m) / miss.sd_m);
        const double high = normal_below((-low_by - hole_radius_m) / miss.sd_m);
        sum += std::log(std::max((miss.low ? low : high) / (low + high), 1e-12));
    }
    return sum;
}

Credible share_of(const std::vector<SideMiss>& misses) {
    constexpr int cells = 400;
    constexpr double most = 2, prior = 0.9, prior_sd = 0.4;
    std::vector<double> weights;
    double total = 0, mean = 0;
    for (int i = 0; i < cells; ++i) {
        const double share = most * (i + 0.5) / cells, z = (share - prior) / prior_sd;
        weights.push_back(std::exp(log_likelihood(misses, share) - 0.5 * z * z +
                                   static_cast<double>(misses.size()) * std::log(2.0)));
        total += weights.back();
        mean += weights.back() * share;
    }
    Credible result{mean / total, 0, most};
    double below = 0;
    for (int i = 0; i < cells; ++i) {
        if (below < 0.05 * total) result.lo = most * (i + 0.5) / cells;
        if (below < 0.95 * total) result.hi = most * (i + 0.5) / cells;
        below += weights[static_cast<std::size_t>(i)];
    }
    return result;
}

}  // namespace

LowMisses low_misses(const std::vector<LoggedPutt>& putts, const Player& player) {
    LowMisses result;
    std::vector<SideMiss> misses;
    for (const LoggedPutt& putt : putts) {
        const auto miss = miss_of(putt, player);
        if (!miss) continue;
        misses.push_back(*miss);
        ++(miss->low ? result.low : result.high);
    }
    if (static_cast<int>(misses.size()) >= least_putts) result.break_share = share_of(misses);
    return result;
}

}  // namespace dewtrail
