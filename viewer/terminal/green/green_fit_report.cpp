#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include "greens/input_error.hpp"
#include "viewer/terminal/green/green_fit.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr std::size_t rows_shown = 12;

Fall fall_of(const Vec2& gradient) {
    return fall_at(Plane(gradient), {0, 0});
}

Json residual_json(const NewGreen& green, const Disagreement& d) {
    Json json{{"kind", d.is_level ? "level" : "height"},
              {"number", d.index + 1},
              {"x_m", number(d.at.x())},
              {"y_m", number(d.at.y())}};
    if (d.is_level) {
        const Vec2& residual = green.fit.level_residuals[d.index];
        json["residual"] = {number(residual.x()), number(residual.y())};
    } else {
        json["residual_m"] = number(green.fit.height_residuals_m[d.index]);
    }
    json["sds"] = number(d.sds);
    json["doubtful"] = d.doubtful;
    return json;
}

/// Why an elevation file is not good enough to putt on; null if it is.
Json putting_warning(const NewGreen& green) {
    constexpr double coarse_m = 1, vague_slope = 0.005;
    const Elevation& e = *green.elevation;
    if (e.cell_m > coarse_m)
        return fmt::format("too coarse to putt on: cells of {:.1f} m miss what bends a putt",
                           e.cell_m);
    if (green.trust.median > vague_slope)
        return fmt::format("too noisy to putt on: slopes are known to {} only",
                           tenths_percent(green.trust.median));
    return nullptr;
}

std::string fall_words(const Fall& fall) {
    if (!fall.toward_deg) return tenths_percent(fall.slope);
    return fmt::format("{} to {}", tenths_percent(fall.slope), toward_words(fall));
}

std::vector<std::string> residual_row(const NewGreen& green, const Disagreement& d) {
    const std::string at = fmt::format("({:.1f}, {:.1f})", d.at.x(), d.at.y());
    const std::string flag = d.doubtful ? "read it again" : "";
    if (d.is_level) {
        const Vec2 read = green.survey.levels[d.index].gradient;
        const Vec2 fitted = read - green.fit.level_residuals[d.index];
        return {fmt::format("level {}", d.index + 1),
                at,
                fall_words(fall_of(read)),
                fall_words(fall_of(fitted)),
                tenths_percent(d.off),
                flag};
    }
    const double read_m = green.survey.heights[d.index].height_m;
    const double fitted_m = read_m - green.fit.height_residuals_m[d.index];
    return {fmt::format("height {}", d.index + 1),  at,
            fmt::format("{:.3f} m", read_m),        fmt::format("{:.3f} m", fitted_m),
            fmt::format("{:.1f} mm", 1000 * d.off), flag};
}

void print_residuals(const Session& session, const NewGreen& green,
                     const std::vector<Disagreement>& all, bool every) {
    std::vector<std::vector<std::string>> rows{{"", "at, m", "read", "fitted", "off by"}};
    for (const Disagreement& d : all) {
        if (!every && rows.size() > rows_shown) break;
        rows.push_back(residual_row(green, d));
    }
    session.out() << '\n';
    print_table(session.out(), rows);
    const std::size_t shown = rows.size() - 1;
    if (shown < all.size())
        session.out() << fmt::format("and {} more that agree better (--detail)\n",
                                     all.size() - shown);
}

void print_holes(const Session& session, const NewGreen& green) {
    for (const auto& [name, at] : green.holes)
        print_row(session.out(), "hole " + printable(name),
                  fmt::format("{} toward {}, known to {}",
                              format_slope(fall_at(*green.fit.surface, at).slope),
                              toward_words(fall_at(*green.fit.surface, at)),
                              tenths_percent(largest_slope_sd(green.fit, at))));
}

Json line_json(const LineOfPlay& line) {
    Json next = nullptr;
    if (line.next)
        next = {{"x_m", number(line.next->at.x())},
                {"y_m", number(line.next->at.y())},
                {"along_sd", number(line.next->after.along)},
                {"across_sd", number(line.next->after.across)}};
    return {{"ball", line.ball},
            {"hole", line.hole},
            {"along_sd", number(line.doubt.along)},
            {"across_sd", number(line.doubt.across)},
            {"next", next}};
}

/// 'left to front'.
void print_lines(const Session& session, const NewGreen& green) {
    const auto known = [](const LineDoubt& d) {
        return fmt::format("{} along, {} across", tenths_percent(d.along),
                           tenths_percent(d.across));
    };
    for (const LineOfPlay& line : green.lines) {
        print_row(session.out(), printable(line.ball + " to " + line.hole),
                  "slope known to " + known(line.doubt));
        if (line.next)
            print_row(session.out(), "",
                      fmt::format("read next at ({:.1f}, {:.1f}), m: then {}", line.next->at.x(),
                                  line.next->at.y(), known(line.next->after)));
    }
}

double mean(const std::vector<double>& values) {
    double sum = 0;
    for (const double v : values) sum += v;
    return sum / static_cast<double>(values.size());
}

void print_instrument(const Session& session, const NewGreen& green) {
    if (green.instrument_errors.empty()) return;
    const double error = mean(green.instrument_errors);
    print_row(
        session.out(), "level's own error",
        fmt::format("shows {} too {} ({} turned end for end)", tenths_percent(std::abs(error)),
                    error < 0 ? "little" : "much", green.instrument_errors.size()));
}

void print_elevation(const Session& session, const NewGreen& green) {
    const Elevation& e = *green.elevation;
    print_row(
        session.out(), "elevation",
        fmt::format("cells of {:.2f} m with {:.0f} mm of noise, averaged over {:.2f} m; {} empty",
                    e.cell_m, 1000 * e.noise_m, e.spacing_m, e.empty));
    if (const Json warning = putting_warning(green); !warning.is_null())
        print_row(session.out(), "", warning.get<std::string>());
    for (const std::string& note : e.notes) print_row(session.out(), "", note);
}

}  // namespace

Json new_green_json(const NewGreen& green, const std::vector<Disagreement>& all,
                    const FitOptions& options) {
    Json residuals = Json::array(), holes = Json::array();
    for (const Disagreement& d : all) residuals.push_back(residual_json(green, d));
    for (const auto& [name, at] : green.holes) {
        const Fall fall = fall_at(*green.fit.surface, at);
        holes.push_back({{"name", name},
                         {"x_m", number(at.x())},
                         {"y_m", number(at.y())},
                         {"slope", number(fall.slope)},
                         {"falls_toward_deg", number(fall.toward_deg)},
                         {"slope_sd", number(largest_slope_sd(green.fit, at))}});
    }
    Json lines = Json::array();
    for (const LineOfPlay& line : green.lines) lines.push_back(line_json(line));
    Json elevation = nullptr;
    if (green.elevation) {
        const Elevation& e = *green.elevation;
        elevation = {{"cell_m", number(e.cell_m)},
                     {"spacing_m", number(e.spacing_m)},
                     {"noise_m", number(e.noise_m)},
                     {"heights", e.heights.size()},
                     {"empty", e.empty},
                     {"notes", e.notes},
                     {"warning", putting_warning(green)}};
    }
    return {
        {"name", green.name},
        {"elevation", elevation},
        {"fit", fit_json(green.survey, green.fit, green.trust)},
        {"holes", holes},
        {"lines", lines},
        {"instrument_error",
         green.instrument_errors.empty() ? Json(nullptr) : number(mean(green.instrument_errors))},
        {"residuals", residuals},
        {"file", options.out ? Json(*options.out) : Json(nullptr)}};
}

void print_new_green(const Session& session, const NewGreen& green,
                     const std::vector<Disagreement>& all, const FitOptions& options) {
    session.out() << printable(green.name) << '\n';
    print_fit(session, green.survey, green.fit, green.trust);
    if (green.elevation) print_elevation(session, green);
    print_instrument(session, green);
    print_holes(session, green);
    print_lines(session, green);
    if (options.detail)
        print_row(session.out(), "detail",
                  fmt::format("lambda {:.3g}, {:.1f} degrees of freedom, sds times {:.2f}",
                              green.fit.lambda, green.fit.degrees_of_freedom, green.fit.sd_scale));
    print_residuals(session, green, all, options.detail);
    if (options.out) print_row(session.out(), "written to", *options.out);
}
}  // namespace dewtrail
