#include "greens/green_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numbers>
#include <set>

#include "greens/input_error.hpp"
#include "greens/survey_csv.hpp"
#include "greens/text_file.hpp"
#include "greens/toml_section.hpp"
#include "greens/units.hpp"
#include "physics/base/ball_and_hole.hpp"

namespace dewtrail {
namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t most_green_bytes = 1u << 20;
constexpr std::size_t most_corners = 1000;

Outline outline_of(const TomlSection& green) {
    try {
        return Outline(green.points("outline", most_corners, green_reach_m));
    } catch (const std::invalid_argument& error) {
        green.fail("outline", error.what(), "list the corners once around, metres");
    }
}

std::map<std::string, Vec2> places_inside(const TomlSection& section, const char* kind,
                                          const Outline& outline, double by_m) {
    const auto places = section.named_points(green_reach_m);
    for (const auto& [name, at] : places) {
        const double inside_m = outline.inside_by(at);
        if (inside_m <= 0)
            section.fail(name, fmt::format("{} '{}' lies outside the outline", kind, name),
                         "move it, or correct the outline");
        if (inside_m < by_m)
            section.fail(name,
                         fmt::format("{} '{}' is {:.3f} m from the edge", kind, name, inside_m),
                         fmt::format("move it {:.3f} m or more inside", by_m));
    }
    return places;
}

Plane plane_of(const TomlSection& surface) {
    surface.allow_only({"kind", "slope_percent", "falls_toward_deg"});
    const double slope = surface.number("slope_percent", {0, 20}) / 100;
    const double bearing_rad =
        surface.number("falls_toward_deg", {-360, 360}) * std::numbers::pi / 180;
    return Plane(-slope * along_bearing(bearing_rad));
}

/// The survey file a key names: a plain relative path that, links followed, stays in the folder.
fs::path survey_file(const TomlSection& surface, const char* key, const fs::path& folder) {
    const fs::path given = surface.text(key);
    const bool climbs = std::find(given.begin(), given.end(), "..") != given.end();
    const fs::path file = folder / given;
    std::error_code unknown;
    const fs::path inside = fs::weakly_canonical(folder.empty() ? "." : folder, unknown);
    const fs::path real = fs::weakly_canonical(file, unknown);
    const bool stays =
        std::mismatch(inside.begin(), inside.end(), real.begin(), real.end()).first == inside.end();
    if (given.is_absolute() || climbs || unknown || !stays)
        surface.fail(key, fmt::format("{} '{}' leaves the green's folder", key, given.string()),
                     "put the table beside the green file and name it alone");
    if (!fs::is_regular_file(file, unknown))
        surface.fail(key, fmt::format("{} '{}' is not there", key, given.string()),
                     "put the table beside the green file, or correct its name");
    return file;
}

Survey survey_of(const TomlSection& surface, const fs::path& folder) {
    const double level_sd =
        surface.optional_number("level_sd_percent", {0.01, 5}).value_or(100 * default_level_sd) /
        100;
    const double height_sd_m =
        surface.optional_number("height_sd_m", {0.0001, 0.1}).value_or(default_height_sd_m);
    Survey survey;
    if (surface.has("levels"))
        survey.levels =
            read_levels_csv(survey_file(surface, "levels", folder), level_sd,
                            surface.optional_number("pace_m", {least_pace_m, most_pace_m})
                                .value_or(usual_pace_m))
                .readings;
    if (surface.has("heights"))
        survey.heights = read_heights_csv(survey_file(surface, "heights", folder), height_sd_m);
    return survey;
}

SurfaceFit fit_of(const TomlSection& surface, const Survey& survey, const Outline& outline) {
    SurveyFitOptions options{.cover = outline.corners()};
    options.spacing_m = surface.optional_number("spacing_m", {0.2, 10});
    try {
        SurfaceFit fit = fit_survey(survey, options);
        if (fit.status != FitStatus::fitted)
            surface.fail("kind", fit.message, "add readings that spread over the green");
        return fit;
    } catch (const std::invalid_argument& error) {
        surface.fail("spacing_m", error.what(), "choose another spacing, or leave it out");
    }
}

/// Looks on a lattice of half a metre, or of a hundredth of the green where that is coarser.
void check_steepness(const TomlSection& section, const Surface& surface, const Outline& outline) {
    Vec2 least = outline.corners().front(), most = least;
    for (const Vec2& corner : outline.corners()) {
        least = least.cwiseMin(corner);
        most = most.cwiseMax(corner);
    }
    const double step = std::max(0.5, (most - least).maxCoeff() / 100);
    for (double y = least.y(); y <= most.y(); y += step)
        for (double x = least.x(); x <= most.x(); x += step) {
            const double slope = surface.at(x, y).gradient().norm();
            if (slope > putt_range::slope.most && outline.inside_by({x, y}) > 0)
                section.fail("kind",
                             fmt::format("the surface falls {:.0f} % at ({:.1f}, {:.1f}), "
                                         "over the limit of 20 %",
                                         100 * slope, x, y),
                             "look for a wrong reading near there");
        }
}

void add_surface(Green& green, const TomlSection& section, const fs::path& folder) {
    const std::string kind = section.text("kind");
    if (kind == "plane") {
        green.surface = std::make_shared<const Plane>(plane_of(section));
        return;
    }
    if (kind != "fitted")
        section.fail("kind", fmt::format("surface kind '{}' is not known", kind),
                     "write kind = \"plane\" or \"fitted\"");
    section.allow_only(
        {"kind", "levels", "heights", "spacing_m", "level_sd_percent", "height_sd_m", "pace_m"});
    if (!section.has("levels") && !section.has("heights"))
        section.fail("kind", "a fitted surface has neither levels nor heights",
                     "add levels = \"FILE.csv\" or heights = \"FILE.csv\"");
    green.survey = survey_of(section, folder);
    green.spacing_m = section.optional_number("spacing_m", {0.2, 10});
    green.fit = fit_of(section, *green.survey, green.outline);
    green.surface = green.fit->surface;
    check_steepness(section, *green.surface, green.outline);
}

bool is_file(const fs::path& path) {
    std::error_code unknown;
    return fs::is_regular_file(path, unknown);
}

}  // namespace

Green load_green(const fs::path& path) {
    const TomlSection section =
        TomlSection::parse(path.string(), "the green", read_text_file(path, most_green_bytes));
    section.allow_only({"name", "stimp", "outline", "holes", "balls", "surface"});

    Green green{.name = section.text("name"),
                .stimp_ft = section.number("stimp", putt_range::stimp_ft),
                .outline = outline_of(section),
                .file = path};
    green.holes = places_inside(section.section("holes"), "hole", green.outline, hole_radius_m);
    if (green.holes.empty()) section.fail("holes", "no hole is given", "add front = [x, y]");
    if (section.has("balls"))
        green.balls = places_inside(section.section("balls"), "ball", green.outline, 0);
    add_surface(green, section.section("surface"), path.parent_path());
    return green;
}

Green load_green(const std::string& name, const std::vector<fs::path>& folders) {
    const fs::path given(name);
    std::error_code unknown;
    if (given.has_parent_path() && !fs::status_known(fs::status(given, unknown)))
        return load_green(given);  // which says why it cannot be read
    if ((given.has_parent_path() || given.extension() == ".toml") && is_file(given))
        return load_green(given);
    for (const fs::path& folder : folders)
        for (const fs::path& candidate : {folder / given, folder / (name + ".toml")})
            if (!name.empty() && !given.has_parent_path() && is_file(candidate))
                return load_green(candidate);
    const auto known = known_greens(folders);
    throw InputError(fmt::format("no green '{}'", name),
                     known.empty() ? "give the path of a green file"
                                   : fmt::format("greens there are: {}", fmt::join(known, ", ")));
}

namespace {

/// Fixed sets of putts to practise are TOML files as well, and may lie beside the greens.
bool is_putt_set(const fs::path& path) {
    try {
        return TomlSection::parse(path.string(), "the file", read_text_file(path, most_green_bytes))
            .has("putt");
    } catch (const InputError&) {
        return false;  // a damaged green is reported when it is opened
    }
}

}  // namespace

std::vector<std::string> known_greens(const std::vector<fs::path>& folders) {
    std::set<std::string> names;
    for (const fs::path& folder : folders) {
        std::error_code unknown;
        for (const auto& entry : fs::directory_iterator(folder, unknown))
            if (entry.path().extension() == ".toml" && is_file(entry.path()) &&
                !is_putt_set(entry.path()))
                names.insert(entry.path().stem().string());
    }
    return {names.begin(), names.end()};
}

}  // namespace dewtrail
