#include "viewer/practice/review/review.hpp"

#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <algorithm>
#include <cmath>

#include "physics/odds/stroke_map.hpp"
#include "physics/read/told_stroke.hpp"
#include "physics/roll/green_speed.hpp"
#include "physics/surface/tilted.hpp"
#include "viewer/practice/drill/random_stream.hpp"
#include "viewer/putt/presets.hpp"

namespace dewtrail {
namespace {

using Vec4 = Eigen::Vector4d;
using Jacobian = Eigen::Matrix<double, 2, 4>;

std::shared_ptr<const Surface> steeper(const Putt& putt, double slope) {
    const Vec2 uphill = uphill_at_hole(putt).value_or(putt.line().normalized());
    if (const auto* plane = dynamic_cast<const Plane*>(putt.surface.get()))
        return std::make_shared<Plane>(plane->gradient() + slope * uphill);
    return std::make_shared<Tilted>(putt.surface, slope * uphill, putt.hole);
}

bool holds_a_ball(const Putt& putt) {
    const auto* plane = dynamic_cast<const Plane*>(putt.surface.get());
    return !plane || plane->gradient().norm() < 0.98 * putt.resistance;
}

/// Along the ball-hole line and to its right, from the hole.
Eigen::Vector2d seen_from_ball(const Putt& putt, const Vec2& green) {
    const Vec2 e = putt.line().normalized(), away = green - putt.hole;
    return {away.dot(e), away.dot({e.y(), -e.x()})};
}

/// Where the ball rests, along and across the line from the hole, if the four things were off by
/// `x`; none where it would not stop.
std::optional<Eigen::Vector2d> rest_with(const PlayedPutt& played, const Vec4& x) {
    Putt putt = played.putt;
    const double stimp_ft = played.stimp_ft + x[1];
    if (stimp_ft < 2) return std::nullopt;
    putt.surface = steeper(putt, x[0]);
    putt.resistance = resistance_of_stimp(stimp_ft * metres_per_foot);
    if (!holds_a_ball(putt)) return std::nullopt;
    // A stroke is a speed: a faster green rolls it farther.
    const double level = level_roll_m(played.meant.speed_m_s, putt.resistance, putt.conditions);
    const StrokeRoller roller(putt);
    const Vec2 rest =
        roller.rest(played.meant.angle_rad + x[2], level * std::max(least_pace, 1 + x[3]));
    return seen_from_ball(putt, rest);
}

std::optional<Jacobian> derivative(const PlayedPutt& played, const Vec4& x) {
    const Vec4 steps(2e-4, 0.02, 1e-3, 2e-3);
    Jacobian j;
    for (int i = 0; i < 4; ++i) {
        const Vec4 step = steps[i] * Vec4::Unit(i);
        const auto more = rest_with(played, x + step), less = rest_with(played, x - step);
        if (!more || !less) return std::nullopt;
        j.col(i) = (*more - *less) / (2 * steps[i]);
    }
    return j;
}

/// Prior variances of what is common to all putts, and of one stroke beside that.
struct Prior {
    Vec4 common;
    Eigen::Vector2d stroke;  ///< line, pace
};

Prior prior_of(const PlayedPutt& played, const Doubts& doubts, bool several) {
    const double level =
        level_roll_m(played.meant.speed_m_s, played.putt.resistance, played.putt.conditions);
    const double pace2 = std::pow(doubts.pace, 2) + std::pow(doubts.pace_floor_m / level, 2);
    const double line2 = std::pow(doubts.line_rad, 2);
    const double habit = several ? 0.25 : 1;
    Prior prior;
    prior.common << std::pow(doubts.slope, 2), std::pow(doubts.stimp_ft, 2), habit * line2,
        habit * pace2;
    prior.stroke = several ? Eigen::Vector2d(line2, pace2) : Eigen::Vector2d::Zero();
    return prior;
}

struct Posterior {
    Vec4 mean = Vec4::Zero();
    Eigen::Matrix4d covariance = Eigen::Matrix4d::Zero();
    std::vector<Jacobian> derivatives;
};

/// What the putts say at the point of linearisation: added to precision and pull.
bool add_putt(const PlayedPutt& played, const Prior& prior, const Vec4& at, Posterior& posterior,
              Eigen::Matrix4d& precision, Vec4& pull) {
    const auto j = derivative(played, at);
    const auto rest = rest_with(played, at);
    if (!j || !rest) return false;
    posterior.derivatives.push_back(*j);
    const Eigen::Matrix2d by_stroke = j->rightCols<2>();
    const Eigen::Matrix2d noise = Eigen::Matrix2d(played.rest_sd_m.cwiseAbs2().asDiagonal()) +
                                  by_stroke * prior.stroke.asDiagonal() * by_stroke.transpose();
    const Eigen::Vector2d seen = seen_from_ball(played.putt, played.rest);
    const Eigen::Matrix<double, 4, 2> weighted = j->transpose() * noise.inverse();
    precision += weighted * *j;
    pull += weighted * (seen - *rest + *j * at);
    return true;
}

std::optional<Posterior> posterior_of(const std::vector<PlayedPutt>& putts, const Doubts& doubts) {
    constexpr int most_rounds = 25;
    constexpr double settled = 1e-6;  // of the doubts
    const bool several = putts.size() > 1;
    const Vec4 common = prior_of(putts.front(), doubts, several).common;
    Posterior posterior;
    for (int round = 0; round < most_rounds; ++round) {
        posterior.derivatives.clear();
        Eigen::Matrix4d precision = common.cwiseInverse().asDiagonal();
        Vec4 pull = Vec4::Zero();
        for (const PlayedPutt& played : putts)
            if (!add_putt(played, prior_of(played, doubts, several), posterior.mean, posterior,
                          precision, pull))
                return std::nullopt;
        posterior.covariance = precision.inverse();
        const Vec4 next = posterior.covariance * pull;
        const Vec4 step = (next - posterior.mean).cwiseQuotient(common.cwiseSqrt());
        // Far steps overshoot where the ground nearly does not hold the ball.
        posterior.mean += (next - posterior.mean) * std::min(1.0, 1.5 / step.cwiseAbs().maxCoeff());
        if (step.cwiseAbs().maxCoeff() < settled) break;
    }
    return posterior;
}

/// How far a cause moves the ball, on average over the putts.
double moved_m(const Posterior& posterior, int cause, double size) {
    double sum = 0;
    for (const Jacobian& j : posterior.derivatives) sum += std::abs(size) * j.col(cause).norm();
    return sum / static_cast<double>(posterior.derivatives.size());
}

/// Whether a part is large enough to be told.
bool is_told(Cause cause, double size, double distance_m) {
    switch (cause) {
        case Cause::slope:
            return std::abs(size) >= 0.0005;
        case Cause::stimp:
            return std::abs(size) >= 0.05;
        case Cause::line:
            return distance_m * std::abs(size) >= 0.125 * metres_per_inch;
        case Cause::pace:
            return std::abs(size) >= 0.005;
    }
    return false;
}

/// How often each of the causes that moved the ball moves it farthest, over draws from the
/// posterior; the same each time. A cause that is not known well but moved nothing takes no part:
/// it explains nothing of what was seen.
void give_chances(const Posterior& posterior, Split& split) {
    constexpr int draws = 4000;
    RandomStream random(1);
    const Eigen::Matrix4d root = posterior.covariance.llt().matrixL();
    Vec4 weights, counts = Vec4::Zero();
    for (int i = 0; i < cause_count; ++i)
        weights[i] = split.parts[i].moved ? moved_m(posterior, i, 1) : 0;
    for (int draw = 0; draw < draws; ++draw) {
        Vec4 z;
        for (int i = 0; i < cause_count; ++i) z[i] = random.normal();
        const Vec4 x = posterior.mean + root * z;
        int first = 0;
        x.cwiseAbs().cwiseProduct(weights).maxCoeff(&first);
        ++counts[first];
    }
    for (const Cause cause : split.likely)
        split.parts[static_cast<int>(cause)].chance = counts[static_cast<int>(cause)] / draws;
}

/// Newton's step on (angle, level roll) toward a place of rest.
std::optional<Eigen::Vector2d> newton_step(const StrokeRoller& roller, const Eigen::Vector2d& at,
                                           const Vec2& wanted) {
    const double da = 1e-5, dl = 1e-5 * at[1];
    Eigen::Matrix2d j;
    const auto rest = [&](double angle, double level) {
        const Vec2 green = roller.rest(angle, level);
        return Eigen::Vector2d(green.x(), green.y());
    };
    j.col(0) = (rest(at[0] + da, at[1]) - rest(at[0] - da, at[1])) / (2 * da);
    j.col(1) = (rest(at[0], at[1] + dl) - rest(at[0], at[1] - dl)) / (2 * dl);
    const Eigen::Vector2d goal(wanted.x(), wanted.y());
    const Eigen::Vector2d step = j.fullPivLu().solve(goal - rest(at[0], at[1]));
    if (!step.allFinite()) return std::nullopt;
    return step;
}

}  // namespace

Reviewed means_of(const std::vector<PlayedPutt>& putts) {
    Reviewed means;
    for (const PlayedPutt& played : putts) {
        const Vec2 hole = played.putt.hole;
        means.distance_m += played.putt.distance_m() / static_cast<double>(putts.size());
        means.slope += played.putt.surface->at(hole.x(), hole.y()).gradient().norm() /
                       static_cast<double>(putts.size());
    }
    return means;
}

Doubts doubts_of(const Spread& spread) {
    Doubts doubts;
    const Scatter scatter = scatter_of(spread);
    doubts.slope = std::max(scatter.slope_read, 1e-4);
    doubts.line_rad = std::max(scatter.line_rad, 1e-4);
    doubts.pace = std::max(scatter.pace, 1e-3);
    doubts.pace_floor_m = scatter.pace_floor_m;
    return doubts;
}

std::optional<SolvedStroke> stroke_that_ends_at(const PlayedPutt& played) {
    constexpr int most_steps = 60;
    constexpr double close_m = 1e-6, most_error_m = 1e-3;
    const Putt& putt = played.putt;
    if (!holds_a_ball(putt)) return std::nullopt;
    const StrokeRoller roller(putt);
    Eigen::Vector2d at(played.meant.angle_rad,
                       level_roll_m(played.meant.speed_m_s, putt.resistance, putt.conditions));
    for (int i = 0; i < most_steps; ++i) {
        const auto step = newton_step(roller, at, played.rest);
        if (!step) return std::nullopt;
        const double share = std::min({1.0, 0.3 / std::max(std::abs((*step)[0]), 1e-12),
                                       0.3 * at[1] / std::max(std::abs((*step)[1]), 1e-12)});
        at += share * *step;
        if ((roller.rest(at[0], at[1]) - played.rest).norm() < close_m) break;
    }
    SolvedStroke solved;
    solved.stroke = {at[0], launch_speed_m_s(putt, at[1])};
    solved.level_roll_m = at[1];
    const Roll check = roll(*putt.surface, putt.resistance, putt.launch(solved.stroke));
    solved.error_m = (check.last.at - played.rest).norm();
    if (check.end != RollEnd::at_rest || solved.error_m > most_error_m) return std::nullopt;
    return solved;
}

std::optional<Split> split_of(const std::vector<PlayedPutt>& putts, const Doubts& doubts) {
    if (putts.empty()) return std::nullopt;
    const auto posterior = posterior_of(putts, doubts);
    if (!posterior) return std::nullopt;
    Split split;
    split.putts = static_cast<int>(putts.size());
    const double distance_m = means_of(putts).distance_m;
    for (int i = 0; i < cause_count; ++i) {
        const double size = posterior->mean[i];
        const Cause cause = static_cast<Cause>(i);
        const bool moved = is_told(cause, size, distance_m);
        split.parts[i] = {size, std::sqrt(posterior->covariance(i, i)), moved,
                          moved_m(*posterior, i, size), 0};
        if (moved) split.likely.push_back(cause);
    }
    give_chances(*posterior, split);
    std::stable_sort(split.likely.begin(), split.likely.end(),
                     [&](Cause a, Cause b) { return split.part(a).chance > split.part(b).chance; });
    return split;
}

std::array<int, cause_count> Split::told_chances() const {
    std::array<int, cause_count> told{};
    std::array<double, cause_count> left{};
    double all = 0;
    for (std::size_t i = 0; i < told.size(); ++i) {
        const double percent = 100 * parts[i].chance;
        told[i] = static_cast<int>(std::floor(percent));
        left[i] = percent - told[i];
        all += left[i];
    }
    // What is left over goes to those that are nearest to the next whole one.
    for (auto more = std::lround(all); more > 0; --more) {
        const auto most = std::max_element(left.begin(), left.end());
        ++told[static_cast<std::size_t>(most - left.begin())];
        *most = -1;
    }
    return told;
}

}  // namespace dewtrail
