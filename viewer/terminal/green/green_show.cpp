#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <optional>
#include <string>
#include <vector>

#include "greens/contours.hpp"
#include "greens/green_file.hpp"
#include "greens/input_error.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/paper/green_picture.hpp"
#include "viewer/paper/sheet.hpp"
#include "viewer/terminal/busy.hpp"
#include "viewer/terminal/green/contour_text.hpp"
#include "viewer/terminal/green/green_command.hpp"
#include "viewer/terminal/picture_options.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

struct ShowOptions {
    std::string green, hole;
    std::optional<std::string> png, svg;
    bool contours = false, detail = false;
};

/// A green, and what show says about it.
struct Shown {
    Green green;
    std::string hole;   ///< heights count from it
    double base_m = 0;  ///< height of that hole
    Ground ground;
    std::optional<SlopeTrust> trust{};

    double height_above_hole_m(const Vec2& at) const {
        return green.surface->at(at.x(), at.y()).h - base_m;
    }
};

std::string hole_named(const Green& green, const std::string& name) {
    if (name.empty()) return green.holes.begin()->first;
    if (green.holes.count(name)) return name;
    std::vector<std::string> names;
    for (const auto& [known, at] : green.holes) names.push_back(known);
    throw InputError(fmt::format("hole '{}' is not on {}", name, green.name),
                     fmt::format("holes there are: {}", fmt::join(names, ", ")));
}

Shown look_at(const ShowOptions& options) {
    Shown shown{.green = load_green(options.green, green_folders()), .hole = {}, .ground = {}};
    const Green& green = shown.green;
    shown.hole = hole_named(green, options.hole);
    shown.base_m = shown.height_above_hole_m(green.holes.at(shown.hole));
    shown.ground = look_at_ground(*green.surface, green.outline);
    if (green.fit) shown.trust = slope_trust(*green.survey, *green.fit);
    return shown;
}

Json place_json(const Shown& shown, const std::string& name, const Vec2& at) {
    const Fall fall = fall_at(*shown.green.surface, at);
    const auto& fit = shown.green.fit;
    return {{"name", name},
            {"x_m", number(at.x())},
            {"y_m", number(at.y())},
            {"slope", number(fall.slope)},
            {"falls_toward_deg", number(fall.toward_deg)},
            {"slope_sd", fit ? number(largest_slope_sd(*fit, at)) : Json(nullptr)},
            {"height_m", number(shown.height_above_hole_m(at))}};
}

Json places_json(const Shown& shown, const std::map<std::string, Vec2>& places) {
    Json list = Json::array();
    for (const auto& [name, at] : places) list.push_back(place_json(shown, name, at));
    return list;
}

Json contours_json(const Shown& shown, const Units& units) {
    const Box box = box_round(shown.green.outline.corners());
    const Ground& ground = shown.ground;
    const ContourSpacing spacing =
        contour_spacing(ground.typical_slope, box.size().maxCoeff() / 15, units.metric);
    const auto heights =
        contour_heights(shown.base_m, spacing.index_m, ground.lowest_m, ground.highest_m);
    Json list = Json::array();
    for (const ContourLine& line :
         inside(contour_lines(*shown.green.surface, box, heights), shown.green.outline)) {
        Json points = Json::array();
        for (const Vec2& point : line.points)
            points.push_back({number(point.x()), number(point.y())});
        list.push_back({{"height_m", number(line.height_m - shown.base_m)}, {"points_m", points}});
    }
    return list;
}

Json as_json(const Shown& shown, const ShowOptions& options, const Units& units) {
    const Green& green = shown.green;
    const Ground& ground = shown.ground;
    const Vec2 size_m = box_round(green.outline.corners()).size();
    Json json{
        {"green",
         {{"name", green.name},
          {"file", green.file.string()},
          {"stimp_ft", number(green.stimp_ft)},
          {"size_x_m", number(size_m.x())},
          {"size_y_m", number(size_m.y())},
          {"area_m2", number(ground.area_m2)},
          {"typical_slope", number(ground.typical_slope)},
          {"steepest", number(ground.steepest)},
          {"steepest_at_m", {number(ground.steepest_at.x()), number(ground.steepest_at.y())}},
          {"heights_from", shown.hole},
          {"lowest_m", number(ground.lowest_m - shown.base_m)},
          {"highest_m", number(ground.highest_m - shown.base_m)}}},
        {"holes", places_json(shown, green.holes)},
        {"balls", places_json(shown, green.balls)},
        {"fit", green.fit ? fit_json(*green.survey, *green.fit, *shown.trust) : Json(nullptr)}};
    if (options.contours) json["contours"] = contours_json(shown, units);
    if (options.png) json["png"] = *options.png;
    if (options.svg) json["svg"] = *options.svg;
    return json;
}

void add_rows(std::vector<std::vector<std::string>>& rows, const Shown& shown, const char* kind,
              const std::map<std::string, Vec2>& places, const Units& units) {
    for (const auto& [name, at] : places) {
        const Fall fall = fall_at(*shown.green.surface, at);
        rows.push_back({kind, printable(name), format_slope(fall.slope), toward_words(fall),
                        format_height(shown.height_above_hole_m(at), units)});
        const auto& fit = shown.green.fit;
        if (fit) rows.back().push_back("± " + tenths_percent(largest_slope_sd(*fit, at)));
    }
}

void print_places(const Session& session, const Shown& shown, const Units& units) {
    std::vector<std::vector<std::string>> rows{{"", "", "slope", "falls to", "height"}};
    if (shown.green.fit) rows.front().push_back("slope is known to");
    add_rows(rows, shown, "hole", shown.green.holes, units);
    add_rows(rows, shown, "ball", shown.green.balls, units);
    session.out() << '\n';
    print_table(session.out(), rows);
    session.out() << fmt::format("\nHeights are from {}. Bearings: 0° is up the plan, 90° right.\n",
                                 hole_called(shown.hole));
}

void print_contours(const Session& session, const Shown& shown, const Units& units) {
    const ContourText text = contour_text(shown.green, shown.base_m, units);
    session.out() << '\n';
    for (const std::string& line : text.lines) session.out() << line << '\n';
    const double rise_m = shown.ground.highest_m - shown.ground.lowest_m;
    if (rise_m < text.step_m) {
        session.out() << fmt::format("\nNo contours: level within {}.\n",
                                     format_length(text.step_m, units));
        return;
    }
    session.out() << fmt::format("\nA line every {}; figures in {} from {}.\n",
                                 format_length(text.step_m, units), units.metric ? "cm" : "inches",
                                 hole_called(shown.hole));
}

void print_text(const Session& session, const Shown& shown, const ShowOptions& options,
                const Units& units) {
    const Green& green = shown.green;
    const Ground& ground = shown.ground;
    const Vec2 size_m = box_round(green.outline.corners()).size();
    std::ostream& out = session.out();
    out << printable(green.name) << '\n';
    print_row(out, "size",
              fmt::format("{} by {}", format_distance(size_m.x(), units),
                          format_distance(size_m.y(), units)));
    print_row(out, "stimp", format_stimp(green.stimp_ft));
    print_row(out, "slope",
              fmt::format("{} as a rule, {} at the steepest", format_slope(ground.typical_slope),
                          format_slope(ground.steepest)));
    print_row(out, "rises", format_length(ground.highest_m - ground.lowest_m, units));
    if (green.fit) print_fit(session, *green.survey, *green.fit, *shown.trust);
    if (green.fit && options.detail)
        print_row(
            out, "detail",
            fmt::format("lambda {:.3g}, {:.1f} degrees of freedom, sds times {:.2f}",
                        green.fit->lambda, green.fit->degrees_of_freedom, green.fit->sd_scale));
    print_places(session, shown, units);
    if (options.contours) print_contours(session, shown, units);
    if (options.png) print_row(out, "picture", *options.png);
    if (options.svg) print_row(out, "picture", *options.svg);
}

/// Pictures first: a picture that could not be written must not be reported.
void save_pictures(const Shown& shown, const ShowOptions& options, const Units& units) {
    if (!options.png && !options.svg) return;
    const Sheet picture = green_picture(shown.green, shown.hole, units);
    if (options.png) save_whole_file(*options.png, sheet_png(picture));
    if (options.svg) save_whole_file(*options.svg, sheet_svg(picture));
}

Exit show(const ShowOptions& options, Session& session) {
    check_picture(options.png);
    check_picture(options.svg, ".svg");
    const Units units = session.units();
    const Shown shown =
        while_busy(session, "Looking at the green …", [&] { return look_at(options); });
    save_pictures(shown, options, units);
    session.caution();
    if (session.json())
        session.print(as_json(shown, options, units));
    else
        print_text(session, shown, options, units);
    return Exit::done;
}

}  // namespace

void add_green_show(const Command& green, Session& session) {
    auto options = std::make_shared<ShowOptions>();
    const Command command =
        green.add_subcommand("show", "A green in numbers, letters or a picture");
    command.add_option("green", options->green, "Name or file of the green").required();
    command.add_option("--hole", options->hole, "Hole that heights are told from");
    command.add_option("--png", options->png, "Picture to write, PNG");
    command.add_option("--svg", options->svg, "Picture to write, SVG");
    command.add_flag("--contours", options->contours, "Contours in letters (JSON: as points)");
    command.add_flag("--detail", options->detail, "What the fit chose, for a coach");
    session.add_common_options(command);
    command.footer(
        "Examples:\n"
        "  dewtrail green show meadow --contours\n"
        "  dewtrail green show bench.toml --hole back --png bench.png");
    command.callback([options, &session] {
        session.run = [options, &session] { return show(*options, session); };
    });
}

}  // namespace dewtrail
