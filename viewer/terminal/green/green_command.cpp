#include "viewer/terminal/green/green_command.hpp"

#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "greens/green_file.hpp"
#include "greens/input_error.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/text/english.hpp"

namespace dewtrail {
namespace {

constexpr double level_enough = 0.001;

std::string surface_words(const Green& green) {
    return green.survey ? readings_words(*green.survey) : "a plane";
}

Json checked_json(const std::string& file, const Green& green) {
    return {{"file", file},
            {"ok", true},
            {"name", green.name},
            {"holes", green.holes.size()},
            {"balls", green.balls.size()},
            {"levels", green.survey ? green.survey->levels.size() : 0},
            {"heights", green.survey ? green.survey->heights.size() : 0}};
}

Json refused_json(const std::string& file, const InputError& error) {
    const auto place = [](int n) { return n > 0 ? Json(n) : Json(nullptr); };
    return {{"file", file},
            {"ok", false},
            {"error",
             {{"kind", "not_understood"},
              {"reason", error.what()},
              {"line", place(error.line())},
              {"column", place(error.column())},
              {"remedy", error.remedy()}}}};
}

/// One line for each file, whatever is wrong with the ones before it.
Exit check(const std::vector<std::string>& files, Session& session) {
    Json results = Json::array();
    Exit exit = Exit::done;
    for (const std::string& file : files) {
        std::string line;
        try {
            const Green green = load_green(file, green_folders());
            results.push_back(checked_json(file, green));
            line = fmt::format("{}: ok, {}, {}, {}", file, counted(green.holes.size(), "hole"),
                               counted(green.balls.size(), "ball"), surface_words(green));
        } catch (const InputError& error) {
            results.push_back(refused_json(file, error));
            line = error.what();
            if (!error.remedy().empty()) line += ": " + error.remedy();
            exit = Exit::not_understood;
        }
        if (!session.json()) session.out() << printable(line) << '\n';
    }
    if (session.json()) session.print({{"greens", results}});
    return exit;
}

}  // namespace

Fall fall_at(const Surface& surface, const Vec2& at) {
    const Vec2 gradient = surface.at(at.x(), at.y()).gradient();
    if (gradient.norm() < level_enough) return {gradient.norm(), {}};
    const double toward_deg = bearing_of(-gradient) * 180 / std::numbers::pi;
    return {gradient.norm(), toward_deg < 0 ? toward_deg + 360 : toward_deg + 0.0};
}

std::string toward_words(const Fall& fall) {
    if (!fall.toward_deg) return "level";
    return fmt::format("{}°", std::lround(*fall.toward_deg / 5) * 5 % 360);
}

std::string tenths_percent(double share) {
    // What rounds to 0.0 gets one more digit.
    return fmt::format("{:.{}f} %", 100 * share, share < 0.0005 ? 2 : 1);
}

std::string readings_words(const Survey& survey) {
    const std::string levels = counted(survey.levels.size(), "level");
    const std::string heights = counted(survey.heights.size(), "height");
    if (survey.heights.empty()) return levels;
    return survey.levels.empty() ? heights : levels + " and " + heights;
}

Json fit_json(const Survey& survey, const SurfaceFit& fit, const SlopeTrust& trust) {
    const bool levels = !survey.levels.empty(), heights = !survey.heights.empty();
    return {{"levels", survey.levels.size()},
            {"heights", survey.heights.size()},
            {"level_rms", levels ? number(fit.level_rms) : Json(nullptr)},
            {"height_rms_m", heights ? number(fit.height_rms_m) : Json(nullptr)},
            {"slope_sd_median", number(trust.median)},
            {"slope_sd_worst", number(trust.worst)},
            {"slope_sd_worst_at_m", {number(trust.worst_at.x()), number(trust.worst_at.y())}},
            {"lambda", number(fit.lambda)},
            {"degrees_of_freedom", number(fit.degrees_of_freedom)},
            {"sd_scale", number(fit.sd_scale)}};
}

void print_fit(const Session& session, const Survey& survey, const SurfaceFit& fit,
               const SlopeTrust& trust) {
    std::string within;
    if (!survey.levels.empty()) within = "levels within " + tenths_percent(fit.level_rms);
    if (!survey.heights.empty())
        within += fmt::format("{}heights within {:.1f} mm", within.empty() ? "" : ", ",
                              1000 * fit.height_rms_m);
    print_row(session.out(), "fitted to", readings_words(survey));
    print_row(session.out(), "fits", within + " (rms)");
    print_row(session.out(), "slope known to",
              fmt::format("{}, at worst {} at ({:.1f}, {:.1f}) m", tenths_percent(trust.median),
                          tenths_percent(trust.worst), trust.worst_at.x(), trust.worst_at.y()));
}

void add_green_check(const Command& green, Session& session) {
    auto files = std::make_shared<std::vector<std::string>>();
    const Command command = green.add_subcommand("check", "Say whether green files can be used");
    command.add_option("file", *files, "Green files, or names of greens").required();
    session.add_common_options(command);
    command.footer(
        "Examples:\n"
        "  dewtrail green check meadow\n"
        "  dewtrail green check ./*.toml --json");
    command.callback(
        [files, &session] { session.run = [files, &session] { return check(*files, session); }; });
}

void add_green_command(const Command& app, Session& session) {
    const Command command = app.add_subcommand("green", "Check, show and fit greens");
    command.require_subcommand(1);
    command.footer(
        "Examples:\n"
        "  dewtrail green show meadow --contours\n"
        "  dewtrail green fit --levels meadow-levels.csv --out orchard.toml");
    add_green_check(command, session);
    add_green_show(command, session);
    add_green_fit(command, session);
}

}  // namespace dewtrail
