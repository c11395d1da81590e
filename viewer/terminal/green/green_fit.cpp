#include "viewer/terminal/green/green_fit.hpp"

#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <cstdio>

#include "greens/contours.hpp"
#include "greens/input_error.hpp"
#include "greens/number.hpp"
#include "greens/survey_csv.hpp"
#include "physics/base/ball_and_hole.hpp"
#include "viewer/terminal/busy.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {
namespace {

namespace fs = std::filesystem;
using Typed = std::optional<std::string>;

constexpr double usual_margin_m = 1;  // a ball may rest a little beyond the last reading

[[noreturn]] void refuse_range(const char* what, const std::string& text, const char* range) {
    throw InputError(fmt::format("{} {} is outside {}", what, text, range),
                     fmt::format("give one within {}", range));
}

std::optional<double> length_m(const Typed& text, const Units& units, const char* what,
                               double least, double most, const char* range) {
    if (!text) return std::nullopt;
    const double length = parse_level_roll_m(*text, units, what);
    if (length < least || length > most) refuse_range(what, *text, range);
    return length;
}

double coordinate(std::string_view text, const char* kind, const std::string& whole) {
    const auto value = plain_number(text);
    if (!value || std::abs(*value) > 200)
        throw InputError(fmt::format("{} '{}' has no place in metres within 200", kind, whole),
                         fmt::format("write it like --{} front=12,5.5", kind));
    return *value;
}

/// 'front=12,5.5': metres, as in the tables. `kind`: hole or ball.
std::pair<std::string, Vec2> parse_place(const char* kind, const std::string& text) {
    const std::size_t equals = text.rfind('='), comma = text.rfind(',');
    if (equals == text.npos || equals == 0 || comma == text.npos || comma < equals)
        throw InputError(fmt::format("{} '{}' is not a name and a place", kind, text),
                         fmt::format("write it like --{} front=12,5.5", kind));
    const std::string_view view = text;
    return {text.substr(0, equals),
            {coordinate(view.substr(equals + 1, comma - equals - 1), kind, text),
             coordinate(view.substr(comma + 1), kind, text)}};
}

std::vector<HeightReading> read_heights(const fs::path& path, const NewGreen& green) {
    const double sd_m = green.height_sd_m.value_or(default_height_sd_m);
    return path.extension() == ".xyz" ? read_heights_xyz(path, sd_m) : read_heights_csv(path, sd_m);
}

/// 'x,y,x,y' in the file's coordinates, either pair of corners.
ElevationCut::Window parse_window(const std::string& text) {
    double a = 0, b = 0, c = 0, d = 0;
    int used = 0;
    if (std::sscanf(text.c_str(), "%lf,%lf,%lf,%lf%n", &a, &b, &c, &d, &used) != 4 ||
        used != static_cast<int>(text.size()) || !(std::abs(a) + std::abs(b) < 1e9) ||
        !(std::abs(c) + std::abs(d) < 1e9))
        throw InputError(
            fmt::format("window '{}' is not two corners", text),
            "write it in the file's coordinates: --window 512010,5401020,512040,5401050");
    return {{std::min(a, c), std::min(b, d)}, {std::max(a, c), std::max(b, d)}};
}

void read_levels(const fs::path& path, NewGreen& green, Survey& survey, const Units& units) {
    LevelTable table =
        read_levels_csv(path, green.level_sd.value_or(default_level_sd), units.pace_m);
    survey.levels = std::move(table.readings);
    green.instrument_errors = std::move(table.instrument_errors);
    if (table.on_foot) green.pace_m = units.pace_m;
}

ElevationCut cut_of(const FitOptions& options) {
    ElevationCut cut;
    if (options.window) cut.window = parse_window(*options.window);
    if (options.cut_out) cut.polygon = read_corners_csv(*options.cut_out);
    return cut;
}

Survey read_survey(const FitOptions& options, NewGreen& green, const Units& units) {
    if (!options.levels && !options.heights && !options.elevation)
        throw InputError("nothing to fit a green to",
                         "give --levels FILE.csv, --heights FILE.csv, or --elevation FILE.tif");
    if (options.heights && options.elevation)
        throw InputError("--heights and --elevation both give heights", "give one of them");
    if (!options.elevation && (options.window || options.cut_out))
        throw InputError("--window and --cut-out need --elevation", "add --elevation FILE.tif");
    if (options.level_sd) green.level_sd = parse_slope(*options.level_sd, "level sd");
    if (green.level_sd && (*green.level_sd < 1e-4 || *green.level_sd > 0.05))
        refuse_range("level sd", *options.level_sd, "0.01-5 %");
    green.height_sd_m =
        length_m(options.height_sd, {.metric = true}, "height sd", 1e-4, 0.1, "0.1-100 mm");
    Survey survey;
    if (options.levels) read_levels(*options.levels, green, survey, units);
    if (options.heights) survey.heights = read_heights(*options.heights, green);
    if (options.elevation) {
        green.elevation = read_elevation(*options.elevation, cut_of(options));
        survey.heights = green.elevation->heights;
        if (green.height_sd_m)
            for (HeightReading& h : survey.heights) h.sd_m = *green.height_sd_m;
        else
            green.height_sd_m = survey.heights.front().sd_m;
    }
    return survey;
}

std::vector<Vec2> corners_round(const Survey& survey, double margin_m) {
    const Box box = box_round(places_of(survey));
    const Vec2 least = box.least - Vec2(margin_m, margin_m),
               most = box.most + Vec2(margin_m, margin_m);
    return {least, {most.x(), least.y()}, most, {least.x(), most.y()}};
}

std::map<std::string, Vec2> named_places(const char* kind, const std::vector<std::string>& texts,
                                         const Outline& outline, double inside_by_m) {
    std::map<std::string, Vec2> places;
    for (const std::string& text : texts) {
        const auto [name, at] = parse_place(kind, text);
        if (outline.inside_by(at) < inside_by_m)
            throw InputError(fmt::format("{} '{}' lies outside the surveyed ground", kind, name),
                             "correct its place, or give a wider --margin");
        if (!places.emplace(name, at).second)
            throw InputError(fmt::format("{} '{}' is named twice", kind, name),
                             "give each its own name");
    }
    return places;
}

void place_holes_and_balls(NewGreen& green, const FitOptions& options) {
    const Outline outline(green.corners);
    green.holes = named_places("hole", options.holes, outline, hole_radius_m);
    green.balls = named_places("ball", options.balls, outline, 0);
    if (green.holes.empty()) green.holes.emplace("middle", box_round(green.corners).middle());
}

std::vector<LineOfPlay> lines_of_play(const NewGreen& green) {
    std::vector<LineOfPlay> lines;
    const Outline outline(green.corners);
    const auto& [hole, hole_at] = *green.holes.begin();
    for (const auto& [ball, at] : green.balls) {
        if ((at - hole_at).norm() < hole_radius_m)
            throw InputError(fmt::format("ball '{}' lies in hole '{}'", ball, hole),
                             "move one of them");
        lines.push_back({ball, hole, line_doubt(green.fit, at, hole_at),
                         next_spot(green.fit, at, hole_at, &outline,
                                   green.level_sd.value_or(default_level_sd))});
    }
    return lines;
}

std::string name_of(const FitOptions& options) {
    if (options.name) return *options.name;
    return options.out ? fs::path(*options.out).stem().string() : "New green";
}

NewGreen fit_green(const FitOptions& options, const Player& player) {
    const Units units = player.units();
    NewGreen green{.name = name_of(options), .stimp_ft = player.stimp_ft.value_or(usual_stimp_ft)};
    if (options.stimp) green.stimp_ft = parse_stimp_ft(*options.stimp);
    green.spacing_m = length_m(options.spacing, units, "spacing", 0.2, 10, "0.2-10 m");
    const double margin_m =
        length_m(options.margin, units, "margin", 0.1, 20, "0.1-20 m").value_or(usual_margin_m);
    green.survey = read_survey(options, green, units);
    if (green.elevation && green.elevation->outline.size() > 2)
        green.corners = green.elevation->outline;
    else
        green.corners = corners_round(green.survey, green.elevation ? 0 : margin_m);
    place_holes_and_balls(green, options);

    SurveyFitOptions fit_options{.cover = green.corners};
    fit_options.spacing_m = green.spacing_m;
    green.fit = fit_survey(green.survey, fit_options);
    if (green.fit.status != FitStatus::fitted) return green;
    green.trust = slope_trust(green.survey, green.fit);
    green.lines = lines_of_play(green);
    return green;
}

Exit explain_no_fit(const SurfaceFit& fit, const Session& session) {
    if (session.json())
        session.print({{"error", {{"kind", "no_fit"}, {"reason", fit.message}}}});
    else
        session.err() << "No fit: " << fit.message << '\n'
                      << "Add readings that spread over the green.\n";
    return Exit::no_answer;
}
Exit fit(const FitOptions& options, Session& session) {
    check_out(options);
    const Player& player = session.player();
    const NewGreen green =
        while_busy(session, "Fitting the surface …", [&] { return fit_green(options, player); });
    if (green.fit.status != FitStatus::fitted) return explain_no_fit(green.fit, session);
    if (options.out) save_green(green, options);
    session.caution();
    const std::vector<Disagreement> all = disagreements(green.survey, green.fit);
    if (session.json())
        session.print(new_green_json(green, all, options));
    else
        print_new_green(session, green, all, options);
    return Exit::done;
}

constexpr const char* footer =
    "A table of levels begins with one of\n"
    "  x_m,y_m,slope_percent,falls_toward_deg         x_m,y_m,up_percent,falls_left_percent\n"
    "  paces,walked_deg,slope_percent,falls_toward_deg\n"
    "  paces,walked_deg,up_percent,falls_left_percent\n"
    "paces and bearing are those from the spot before; up and left are seen the way you walked, "
    "or\n"
    "up the plan. A slope is percent, or has its unit: 1.1deg, 6mm/60cm, or 1.6deg/-0.9deg for a\n"
    "level turned end for end. Heights: x_m,y_m,z_m. The green reaches a margin beyond the\n"
    "readings. Nothing is written without --out.\n\n"
    "Examples:\n"
    "  dewtrail green fit --levels meadow-levels.csv --hole front=12,5.5 --ball left=4,4\n"
    "  dewtrail green fit --levels meadow-levels.csv --heights meadow-heights.csv \\\n"
    "      --hole front=12,5.5 --stimp 10 --out lawn.toml\n"
    "  dewtrail green fit --elevation slant.asc --window 512005,5401005,512035,5401035 \\\n"
    "      --out slant.toml";

void add_options(const Command& command, FitOptions& options) {
    command.add_option("--levels", options.levels, "Level readings, CSV");
    command.add_option("--heights", options.heights, "Heights, CSV, or x y z line by line (.xyz)");
    command.add_option("--elevation", options.elevation,
                       "An elevation file: GeoTIFF, ASCII grid; where GDAL is installed");
    command.add_option("--window", options.window,
                       "… only between two corners, in its coordinates: x,y,x,y");
    command.add_option("--cut-out", options.cut_out,
                       "… only inside a polygon, its corners in its coordinates: CSV x,y");
    command.add_option("--level-sd", options.level_sd, "How well a level was read, e.g. 0.2%");
    command.add_option("--height-sd", options.height_sd, "How well a height was read, e.g. 3mm");
    command.add_option("--spacing", options.spacing, "Size of the surface's cells, e.g. 1m");
    command.add_option("--margin", options.margin, "Ground beyond the readings, 1m if not given");
    command.add_option("--hole", options.holes, "A hole and its place in metres: front=12,5.5");
    command.add_option("--ball", options.balls,
                       "A ball and its place: says how well that putt is known, and where to lay\n"
                       "the level next");
    command.add_option("--name", options.name, "Name of the green");
    command.add_option("--stimp", options.stimp, "Its green speed, feet");
    command.add_option("--out", options.out, "Green file to write, beside the tables");
    command.add_flag("--force", options.force, "Replace a file that is there");
    command.add_flag("--detail", options.detail, "All readings, and what the fit chose");
}

}  // namespace

void add_green_fit(const Command& green, Session& session) {
    auto options = std::make_shared<FitOptions>();
    const Command command = green.add_subcommand("fit", "Fit a green to levels and heights");
    add_options(command, *options);
    session.add_common_options(command);
    command.footer(footer);
    command.callback([options, &session] {
        session.run = [options, &session] { return fit(*options, session); };
    });
}

}  // namespace dewtrail