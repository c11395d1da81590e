#include "physics/survey/survey_layout.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace dewtrail {
namespace {

constexpr double one_spot_m = 0.1;  // closer together, places say nothing about a green's shape
constexpr double finest_m = 0.5, coarsest_m = 1.25;
constexpr double most_value = 1e4;  // metres or slope; beyond it squares lose their meaning
constexpr double least_sd = 1e-6, most_sd = 1e3;
constexpr double least_spacing_m = 0.2, most_spacing_m = 10;
constexpr double usual_coefficients = 4000;
constexpr double most_coefficients = 10000;

std::vector<Vec2> places_of(const Survey& survey) {
    std::vector<Vec2> places;
    for (const LevelReading& r : survey.levels) places.push_back(r.at);
    for (const HeightReading& r : survey.heights) places.push_back(r.at);
    return places;
}

void check_sd(const char* name, double sd) {
    if (!(sd >= least_sd && sd <= most_sd))
        throw std::invalid_argument(std::string(name) + " " + std::to_string(sd) +
                                    ": must be within 1e-6 to 1e3");
}

bool is_sane(const Vec2& v) {
    return std::abs(v.x()) <= most_value && std::abs(v.y()) <= most_value;
}

/// Of the places' scatter: its direction of least extent, square to the axis of the greatest.
Vec2 narrow_direction(const std::vector<Vec2>& places, const Vec2& middle) {
    double xx = 0, xy = 0, yy = 0;
    for (const Vec2& p : places) {
        const Vec2 away = p - middle;
        xx += away.x() * away.x();
        xy += away.x() * away.y();
        yy += away.y() * away.y();
    }
    const double greatest = 0.5 * std::atan2(2 * xy, xx - yy);
    return {-std::sin(greatest), std::cos(greatest)};
}

/// Along x and y; empty until a point is in it.
struct Box {
    static constexpr double far = std::numeric_limits<double>::max();
    Vec2 low{far, far}, high{-far, -far};

    void extend(const Vec2& p) {
        low = low.cwiseMin(p);
        high = high.cwiseMax(p);
    }
    /// With a margin all round, and at least a metre either way.
    Vec2 size(double margin_m = 0) const {
        return (high - low + 2 * margin_m * Vec2(1, 1)).cwiseMax({1, 1});
    }
    Vec2 middle() const { return (low + high) / 2; }
};

Box box_of(const std::vector<Vec2>& points, const std::vector<Vec2>& more = {}) {
    Box box;
    for (const Vec2& p : points) box.extend(p);
    for (const Vec2& p : more) box.extend(p);
    return box;
}

/// The mean distance between readings, were they spread evenly over their box.
double mean_spacing_m(const std::vector<Vec2>& places) {
    const Vec2 size = box_of(places).size();
    return std::sqrt(size.x() * size.y() / static_cast<double>(places.size()));
}

double count_coefficients(const Vec2& size, double spacing_m) {
    return (std::ceil(size.x() / spacing_m) + 3) * (std::ceil(size.y() / spacing_m) + 3);
}

double choose_spacing_m(const std::vector<Vec2>& places, const Vec2& size) {
    double spacing_m = std::clamp(mean_spacing_m(places), finest_m, coarsest_m);
    while (count_coefficients(size, spacing_m) > usual_coefficients) spacing_m *= 1.05;
    return spacing_m;
}

void check_spacing(double spacing_m, const Vec2& size) {
    const std::string name = "spacing_m " + std::to_string(spacing_m) + ": ";
    if (!(spacing_m >= least_spacing_m && spacing_m <= most_spacing_m))
        throw std::invalid_argument(name + "must be within 0.2 to 10");
    if (count_coefficients(size, spacing_m) > most_coefficients)
        throw std::invalid_argument(name + "too fine for this extent (over 10000 coefficients)");
}

}  // namespace

void check_readings(const Survey& survey) {
    for (const LevelReading& r : survey.levels) {
        check_sd("level sd", r.sd);
        if (!is_sane(r.at) || !is_sane(r.gradient))
            throw std::invalid_argument("level reading: must be finite and within 1e4");
    }
    for (const HeightReading& r : survey.heights) {
        check_sd("height sd_m", r.sd_m);
        if (!is_sane(r.at) || !is_sane({r.height_m, 0}))
            throw std::invalid_argument("height reading: must be finite and within 1e4");
    }
}

Vec2 middle_of(const Survey& survey) {
    Vec2 sum(0, 0);
    const std::vector<Vec2> places = places_of(survey);
    for (const Vec2& p : places) sum += p;
    return places.empty() ? sum : Vec2(sum / static_cast<double>(places.size()));
}

std::optional<SurveyLack> what_is_missing(const Survey& survey) {
    const std::vector<Vec2> places = places_of(survey);
    if (places.size() < 3)
        return SurveyLack{
            FitStatus::too_few_readings,
            "a surface needs at least three readings, " + std::to_string(places.size()) + " given"};
    const Vec2 middle = middle_of(survey), narrow = narrow_direction(places, middle);
    const auto all_near = [&](auto distance) {
        return std::all_of(places.begin(), places.end(),
                           [&](const Vec2& p) { return distance(p - middle) < one_spot_m; });
    };
    if (all_near([](const Vec2& d) { return d.norm(); }))
        return SurveyLack{FitStatus::on_one_spot, "all readings are at one spot"};
    if (survey.levels.empty() && all_near([&](const Vec2& d) { return std::abs(d.dot(narrow)); }))
        return SurveyLack{FitStatus::on_one_line,
                          "all heights lie on one line, so the slope across it is unknown"};
    return std::nullopt;
}

SplineGrid lay_grid(const Survey& survey, const SurveyFitOptions& options) {
    if (!(options.margin_m >= 0 && options.margin_m <= most_value))
        throw std::invalid_argument("margin_m: must be within 0 to 1e4");
    for (const Vec2& p : options.cover)
        if (!is_sane(p)) throw std::invalid_argument("cover: must be finite and within 1e4");
    const std::vector<Vec2> places = places_of(survey);
    const Box box = box_of(places, options.cover);
    const Vec2 size = box.size(options.margin_m);
    if (options.spacing_m) check_spacing(*options.spacing_m, size);
    const double spacing_m = options.spacing_m.value_or(choose_spacing_m(places, size));

    SplineGrid grid;
    grid.spacing_m = {spacing_m, spacing_m};
    grid.cells_x = static_cast<int>(std::ceil(size.x() / spacing_m));
    grid.cells_y = static_cast<int>(std::ceil(size.y() / spacing_m));
    grid.origin = box.middle() - 0.5 * spacing_m * Vec2(grid.cells_x, grid.cells_y);
    return grid;
}

}  // namespace dewtrail
