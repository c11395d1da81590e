#include "physics/read/survey_advice.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace dewtrail {
namespace {

constexpr int spots_along = 20;  ///< of the mean over a line
constexpr double beside_m = 2, beyond_m = 0.5, apart_m = 0.5;
constexpr int most_steps = 16;
constexpr std::size_t spots_at_once = 16;  ///< of all pairs only those with the line are used

void check(const SurfaceFit& fit, const Vec2& ball, const Vec2& hole) {
    if (fit.status != FitStatus::fitted) throw std::invalid_argument("no surface was fitted");
    if (ball == hole) throw std::invalid_argument("ball and hole lie on one spot");
}

/// The mean slopes along the line and to its right.
std::vector<SurfaceFunctional> mean_slopes(const Vec2& ball, const Vec2& hole) {
    const Vec2 along = (hole - ball).normalized(), right(along.y(), -along.x());
    std::vector<SurfaceFunctional> means(2);
    for (int i = 0; i < spots_along; ++i) {
        const Vec2 at = ball + (i + 0.5) / spots_along * (hole - ball);
        means[0].push_back({at, 0, along / spots_along});
        means[1].push_back({at, 0, right / spots_along});
    }
    return means;
}

LineDoubt doubt_of(const Eigen::Matrix2d& covariance) {
    return {std::sqrt(std::max(0.0, covariance(0, 0))), std::sqrt(std::max(0.0, covariance(1, 1)))};
}

/// A lattice on and beside the line, a little beyond both ends.
std::vector<Vec2> spots_beside(const Vec2& ball, const Vec2& hole, const Outline* outline) {
    const double distance = (hole - ball).norm(), length = distance + 2 * beyond_m;
    const Vec2 along = (hole - ball) / distance, right(along.y(), -along.x());
    const int steps = std::clamp(static_cast<int>(std::ceil(length / apart_m)), 1, most_steps);
    std::vector<Vec2> spots;
    for (int i = 0; i <= steps; ++i)
        for (int j = -4; j <= 4; ++j) {
            const Vec2 at =
                ball + (length * i / steps - beyond_m) * along + beside_m / 4 * j * right;
            if (!outline || outline->inside_by(at) >= 0) spots.push_back(at);
        }
    return spots;
}

}  // namespace

LineDoubt line_doubt(const SurfaceFit& fit, const Vec2& ball, const Vec2& hole) {
    check(fit, ball, hole);
    return doubt_of(fit.covariance(mean_slopes(ball, hole)));
}

std::optional<ReadDoubt> read_doubt(const Putt& putt, const Read& found, const SurfaceFit& fit,
                                    double usual_past_m, int draws, std::uint64_t seed) {
    check(fit, putt.ball, putt.hole);
    if (!found.aim_offset_m || draws < 2) return std::nullopt;
    ReadOptions options;
    options.usual_past_m = usual_past_m;
    options.look_for_others = options.room = options.costs = false;
    Putt drawn = putt;
    ReadDoubt squares;
    int answered = 0;
    for (const auto& surface : fit.drawn(draws, seed)) {
        drawn.surface = surface;
        const ReadResult result = read(drawn, options);
        if (result.lines.empty() || !result.lines[0].aim_offset_m) continue;
        ++answered;
        squares.aim_m += std::pow(*result.lines[0].aim_offset_m - *found.aim_offset_m, 2);
        squares.level_putt_m += std::pow(result.lines[0].level_putt_m - found.level_putt_m, 2);
    }
    if (2 * answered < draws) return std::nullopt;
    return ReadDoubt{std::sqrt(squares.aim_m / answered),
                     std::sqrt(squares.level_putt_m / answered)};
}

std::optional<NextSpot> next_spot(const SurfaceFit& fit, const Vec2& ball, const Vec2& hole,
                                  const Outline* outline, double sd) {
    check(fit, ball, hole);
    const std::vector<Vec2> spots = spots_beside(ball, hole, outline);
    const std::vector<SurfaceFunctional> line = mean_slopes(ball, hole);
    const Eigen::Matrix2d before = fit.covariance(line);
    const double noise = std::pow(sd * fit.sd_scale, 2);
    std::optional<NextSpot> best;
    double least = before.trace();
    for (std::size_t from = 0; from < spots.size(); from += spots_at_once) {
        const std::size_t to = std::min(from + spots_at_once, spots.size());
        std::vector<SurfaceFunctional> all = line;
        for (std::size_t i = from; i < to; ++i)
            for (const Vec2& way : {Vec2(1, 0), Vec2(0, 1)}) all.push_back({{spots[i], 0, way}});
        const Eigen::MatrixXd c = fit.covariance(all);
        for (std::size_t i = from; i < to; ++i) {
            const auto k = static_cast<Eigen::Index>(2 + 2 * (i - from));
            const Eigen::Matrix2d shared = c.block<2, 2>(0, k),
                                  read = c.block<2, 2>(k, k) + noise * Eigen::Matrix2d::Identity();
            const Eigen::Matrix2d after = before - shared * read.inverse() * shared.transpose();
            if (!(after.trace() < least)) continue;
            least = after.trace();
            best = NextSpot{spots[i], doubt_of(before), doubt_of(after)};
        }
    }
    return best;
}

}  // namespace dewtrail
