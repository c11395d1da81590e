#include "viewer/survey/fit_trust.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "greens/contours.hpp"

namespace dewtrail {
namespace {

void check(const SurfaceFit& fit) {
    if (fit.status != FitStatus::fitted)
        throw std::invalid_argument("fit_trust: the survey is not fitted");
}

double turn(const Vec2& a, const Vec2& b, const Vec2& c) {
    return (b - a).x() * (c - a).y() - (b - a).y() * (c - a).x();
}

/// The lower side of the hull of sorted points, without its last corner.
template <class Iterator>
std::vector<Vec2> half_hull(Iterator begin, Iterator end) {
    std::vector<Vec2> side;
    for (Iterator point = begin; point != end; ++point) {
        while (side.size() >= 2 && turn(side[side.size() - 2], side.back(), *point) <= 0)
            side.pop_back();
        side.push_back(*point);
    }
    if (!side.empty()) side.pop_back();
    return side;
}

/// Points of a lattice inside the hull, and its corners.
std::vector<Vec2> surveyed_points(const std::vector<Vec2>& hull) {
    constexpr int cells = 16;
    std::vector<Vec2> points = hull;
    if (hull.size() < 3) return points;
    const Outline outline(hull);
    const Box box = box_round(hull);
    for (int j = 0; j < cells; ++j)
        for (int i = 0; i < cells; ++i) {
            const Vec2 at =
                box.least + box.size().cwiseProduct(Vec2((i + 0.5) / cells, (j + 0.5) / cells));
            if (outline.inside_by(at) >= 0) points.push_back(at);
        }
    return points;
}

}  // namespace

std::vector<Disagreement> disagreements(const Survey& survey, const SurfaceFit& fit) {
    check(fit);
    std::vector<Disagreement> all;
    for (std::size_t i = 0; i < survey.levels.size(); ++i) {
        const double off = fit.level_residuals[i].norm();
        const double sds = off / (fit.sd_scale * survey.levels[i].sd);
        all.push_back({true, i, survey.levels[i].at, off, sds, off > doubtful_level});
    }
    for (std::size_t i = 0; i < survey.heights.size(); ++i) {
        const double off_m = std::abs(fit.height_residuals_m[i]);
        const double sds = off_m / (fit.sd_scale * survey.heights[i].sd_m);
        all.push_back({false, i, survey.heights[i].at, off_m, sds, sds > doubtful_height_sds});
    }
    std::stable_sort(all.begin(), all.end(),
                     [](const Disagreement& a, const Disagreement& b) { return a.sds > b.sds; });
    return all;
}

double largest_slope_sd(const SurfaceFit& fit, const Vec2& at) {
    return largest_slope_sds(fit, {at}).front();
}

std::vector<double> largest_slope_sds(const SurfaceFit& fit, const std::vector<Vec2>& places) {
    check(fit);
    constexpr std::size_t at_once = 16;  // pairs of places are of no use
    std::vector<double> sds;
    for (std::size_t from = 0; from < places.size(); from += at_once) {
        std::vector<SurfaceFunctional> slopes;
        for (std::size_t i = from; i < std::min(from + at_once, places.size()); ++i)
            for (const Vec2& way : {Vec2(1, 0), Vec2(0, 1)})
                slopes.push_back({{places[i], 0, way}});
        const Eigen::MatrixXd all = fit.covariance(slopes);
        for (Eigen::Index k = 0; k < all.rows(); k += 2) {
            const Eigen::Matrix2d c = all.block<2, 2>(k, k);
            // The larger eigenvalue of a symmetric 2 by 2 matrix.
            const double mean = c.trace() / 2;
            sds.push_back(std::sqrt(mean + std::hypot((c(0, 0) - c(1, 1)) / 2, c(0, 1))));
        }
    }
    return sds;
}

SlopeTrust slope_trust(const Survey& survey, const SurfaceFit& fit) {
    SlopeTrust trust;
    const std::vector<Vec2> places = surveyed_points(convex_hull(places_of(survey)));
    std::vector<double> sds = largest_slope_sds(fit, places);
    for (std::size_t i = 0; i < places.size(); ++i) {
        if (sds[i] <= trust.worst) continue;
        trust.worst = sds[i];
        trust.worst_at = places[i];
    }
    const auto middle = sds.begin() + static_cast<std::ptrdiff_t>(sds.size() / 2);
    std::nth_element(sds.begin(), middle, sds.end());
    trust.median = *middle;
    return trust;
}

std::vector<Vec2> places_of(const Survey& survey) {
    std::vector<Vec2> places;
    for (const auto& level : survey.levels) places.push_back(level.at);
    for (const auto& height : survey.heights) places.push_back(height.at);
    return places;
}

std::vector<Vec2> convex_hull(std::vector<Vec2> points) {
    std::sort(points.begin(), points.end(), [](const Vec2& a, const Vec2& b) {
        return a.x() != b.x() ? a.x() < b.x() : a.y() < b.y();
    });
    points.erase(std::unique(points.begin(), points.end()), points.end());
    if (points.size() < 3) return points;
    std::vector<Vec2> hull = half_hull(points.begin(), points.end());
    const std::vector<Vec2> upper = half_hull(points.rbegin(), points.rend());
    hull.insert(hull.end(), upper.begin(), upper.end());
    return hull;
}

}  // namespace dewtrail
