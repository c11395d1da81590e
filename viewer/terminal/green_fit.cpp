#include <fmt/format.h>

#include <charconv>
#include <numbers>
#include <optional>
#include <string>
#include <vector>

#include "greens/green_file.hpp"
#include "greens/input_error.hpp"
#include "greens/survey_csv.hpp"
#include "physics/ball_and_hole.hpp"
#include "viewer/practice/whole_file.hpp"
#include "viewer/scene/contours.hpp"
#include "viewer/scene/figures.hpp"
#include "viewer/scene/measure.hpp"
#include "viewer/scene/printable.hpp"
#include "viewer/scene/putt_request.hpp"
#include "viewer/scene/quantity.hpp"
#include "viewer/terminal/green_command.hpp"

namespace dewtrail {
namespace {
namespace fs = std::filesystem;

using Text = std::optional<std::string>;

constexpr double usual_margin_m = 1;  // a ball may rest a little beyond the last reading
constexpr std::size_t rows_shown = 12;

struct FitOptions {
    Text levels, heights, level_sd, height_sd, spacing, margin, name, stimp, out;
    std::vector<std::string> holes;
    bool force = false, detail = false;
};

/// All that goes into a green, with its fit. Positions in the green frame, metres.
struct NewGreen {
    std::string name;
    double stimp_ft = usual_stimp_ft;
    std::map<std::string, Vec2> holes{};
    std::vector<Vec2> corners{};
    std::optional<double> spacing_m{}, level_sd{}, height_sd_m{};  ///< as given
    Survey survey{};
    SurfaceFit fit{};
    SlopeTrust trust{};
};

[[noreturn]] void refuse_range(const char* what, const std::string& text, const char* range) {
    throw InputError(fmt::format("{} {} is outside {}", what, text, range),
                     fmt::format("give one within {}", range));
}

std::optional<double> length_m(const Text& text, const Units& units, const char* what, double least,
                               double most, const char* range) {
    if (!text) return std::nullopt;
    const double length = parse_level_roll_m(*text, units, what);
    if (length < least || length > most) refuse_range(what, *text, range);
    return length;
}

double coordinate(std::string_view text, const std::string& whole) {
    double value = 0;
    const auto [stop, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || stop != text.data() + text.size() || !(std::abs(value) <= 200))
        throw InputError(fmt::format("hole '{}' has no place in metres within 200", whole),
                         "write it like --hole front=12,5.5");
    return value;
}

/// 'front=12,5.5': metres, as in the tables.
std::pair<std::string, Vec2> parse_hole(const std::string& text) {
    const std::size_t equals = text.rfind('='), comma = text.rfind(',');
    if (equals == text.npos || equals == 0 || comma == text.npos || comma < equals)
        throw InputError(fmt::format("hole '{}' is not a name and a place", text),
                         "write it like --hole front=12,5.5");
    const std::string_view view = text;
    return {text.substr(0, equals),
            {coordinate(view.substr(equals + 1, comma - equals - 1), text),
             coordinate(view.substr(comma + 1), text)}};
}

Survey read_survey(const FitOptions& options, NewGreen& green) {
    if (!options.levels && !options.heights)
        throw InputError("nothing to fit a green to",
                         "give --levels FILE.csv, --heights FILE.csv, or both");
    if (options.level_sd) green.level_sd = parse_slope(*options.level_sd, "level sd");
    if (green.level_sd && (*green.level_sd < 1e-4 || *green.level_sd > 0.05))
        refuse_range("level sd", *options.level_sd, "0.01-5 %");
    green.height_sd_m =
        length_m(options.height_sd, {.metric = true}, "height sd", 1e-4, 0.1, "0.1-100 mm");
    Survey survey;
    if (options.levels)
        survey.levels = read_levels_csv(*options.levels, green.level_sd.value_or(default_level_sd));
    if (options.heights)
        survey.heights =
            read_heights_csv(*options.heights, green.height_sd_m.value_or(default_height_sd_m));
    return survey;
}

std::vector<Vec2> corners_round(const Survey& survey, double margin_m) {
    const Box box = box_round(places_of(survey));
    const Vec2 least = box.least - Vec2(margin_m, margin_m),
               most = box.most + Vec2(margin_m, margin_m);
    return {least, {most.x(), least.y()}, most, {least.x(), most.y()}};
}

void place_holes(NewGreen& green, const std::vector<std::string>& texts) {
    const Outline outline(green.corners);
    for (const std::string& text : texts) {
        const auto [name, at] = parse_hole(text);
        if (outline.inside_by(at) < hole_radius_m)
            throw InputError(fmt::format("hole '{}' lies outside the surveyed ground", name),
                             "correct its place, or give a wider --margin");
        if (!green.holes.emplace(name, at).second)
            throw InputError(fmt::format("hole '{}' is named twice", name),
                             "give each its own name");
    }
    if (green.holes.empty()) green.holes.emplace("middle", box_round(green.corners).middle());
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
    green.survey = read_survey(options, green);
    green.corners = corners_round(green.survey, margin_m);
    place_holes(green, options.holes);

    SurveyFitOptions fit_options{.cover = green.corners};
    fit_options.spacing_m = green.spacing_m;
    green.fit = fit_survey(green.survey, fit_options);
    if (green.fit.status == FitStatus::Fitted) green.trust = slope_trust(green.survey, green.fit);
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

// The file.

std::string quoted(const std::string& text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f)
            out += fmt::format("\\u{:04x}", static_cast<unsigned char>(c));
        else
            out += c;
    }
    return out + '"';
}

/// The table as the green file will name it: in the same folder, or below.
std::string beside(const fs::path& table, const fs::path& green_file) {
    std::error_code unknown;
    const fs::path folder = fs::weakly_canonical(fs::absolute(green_file).parent_path(), unknown);
    const fs::path relative = fs::weakly_canonical(table, unknown).lexically_relative(folder);
    if (relative.empty() || *relative.begin() == "..")
        throw InputError(
            fmt::format("{} is not in the folder of {}", table.string(), green_file.string()),
            "write the green beside its tables");
    return relative.string();
}

std::string surface_text(const NewGreen& green, const FitOptions& options) {
    std::string text = "[surface]\nkind = \"fitted\"\n";
    if (options.levels)
        text += fmt::format("levels = {}\n", quoted(beside(*options.levels, *options.out)));
    if (options.heights)
        text += fmt::format("heights = {}\n", quoted(beside(*options.heights, *options.out)));
    if (green.spacing_m) text += fmt::format("spacing_m = {}\n", *green.spacing_m);
    if (green.level_sd) text += fmt::format("level_sd_percent = {}\n", 100 * *green.level_sd);
    if (green.height_sd_m) text += fmt::format("height_sd_m = {}\n", *green.height_sd_m);
    return text;
}

std::string green_text(const NewGreen& green, const FitOptions& options) {
    std::string text = fmt::format("name = {}\nstimp = {}  # feet\noutline = [\n",
                                   quoted(green.name), green.stimp_ft);
    for (const Vec2& corner : green.corners)
        text += fmt::format("    [{}, {}],\n", corner.x(), corner.y());
    text += "]\n\n[holes]  # metres\n";
    for (const auto& [name, at] : green.holes)
        text += fmt::format("{} = [{}, {}]\n", quoted(name), at.x(), at.y());
    return text + "\n" + surface_text(green, options);
}

void check_out(const FitOptions& options) {
    if (!options.out) return;
    check_may_be_file(*options.out);
    std::error_code unknown;
    if (fs::exists(*options.out, unknown) && !options.force)
        throw InputError(fmt::format("{} is there already", *options.out),
                         "choose another name, or replace it with --force");
}

/// A file of that name in the same folder; gone at the end unless it was renamed.
struct Draft {
    fs::path path;
    ~Draft() {
        std::error_code ignored;
        fs::remove(path, ignored);
    }
};

/// Written under another name and read back first: what cannot be read is never put there.
void save_green(const NewGreen& green, const FitOptions& options) {
    const Draft draft{*options.out + ".draft"};
    save_whole_file(draft.path, green_text(green, options));
    try {
        load_green(draft.path);
    } catch (const InputError& error) {
        throw InputError(fmt::format("{} was not written: {}", *options.out, error.problem()),
                         error.remedy());
    }
    std::error_code error;
    fs::rename(draft.path, *options.out, error);
    if (error)
        throw OutsideError(fmt::format("{} could not be saved: {}", *options.out, error.message()));
}

// The report.

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

Json as_json(const NewGreen& green, const std::vector<Disagreement>& all,
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
    return {{"name", green.name},
            {"fit", fit_json(green.survey, green.fit, green.trust)},
            {"holes", holes},
            {"residuals", residuals},
            {"file", options.out ? Json(*options.out) : Json(nullptr)}};
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

void print_text(const Session& session, const NewGreen& green, const std::vector<Disagreement>& all,
                const FitOptions& options) {
    session.out() << printable(green.name) << '\n';
    print_fit(session, green.survey, green.fit, green.trust);
    print_holes(session, green);
    if (options.detail)
        print_row(session.out(), "detail",
                  fmt::format("lambda {:.3g}, {:.1f} degrees of freedom, sds times {:.2f}",
                              green.fit.lambda, green.fit.degrees_of_freedom, green.fit.sd_scale));
    print_residuals(session, green, all, options.detail);
    if (options.out) print_row(session.out(), "written to", *options.out);
}

Exit fit(const FitOptions& options, Session& session) {
    check_out(options);
    const NewGreen green = fit_green(options, session.player());
    if (green.fit.status != FitStatus::Fitted) return explain_no_fit(green.fit, session);
    if (options.out) save_green(green, options);
    session.caution();
    const std::vector<Disagreement> all = disagreements(green.survey, green.fit);
    if (session.json())
        session.print(as_json(green, all, options));
    else
        print_text(session, green, all, options);
    return Exit::done;
}

constexpr const char* footer =
    "Tables: x_m,y_m,slope_percent,falls_toward_deg and x_m,y_m,z_m. The green reaches a margin\n"
    "beyond the readings. Nothing is written without --out.\n\n"
    "Examples:\n"
    "  dewtrail green fit --levels orchard-levels.csv\n"
    "  dewtrail green fit --levels orchard-levels.csv --heights orchard-heights.csv \\\n"
    "      --hole front=12,5.5 --stimp 10 --out orchard.toml";

void add_options(CLI::App& command, FitOptions& options) {
    command.add_option("--levels", options.levels, "Level readings, CSV");
    command.add_option("--heights", options.heights, "Heights, CSV");
    command.add_option("--level-sd", options.level_sd, "How well a level was read, e.g. 0.2%");
    command.add_option("--height-sd", options.height_sd, "How well a height was read, e.g. 3mm");
    command.add_option("--spacing", options.spacing, "Size of the surface's cells, e.g. 1m");
    command.add_option("--margin", options.margin, "Ground beyond the readings, 1m if not given");
    command.add_option("--hole", options.holes, "A hole and its place in metres: front=12,5.5");
    command.add_option("--name", options.name, "Name of the green");
    command.add_option("--stimp", options.stimp, "Its green speed, feet");
    command.add_option("--out", options.out, "Green file to write, beside the tables");
    command.add_flag("--force", options.force, "Replace a file that is there");
    command.add_flag("--detail", options.detail, "All readings, and what the fit chose");
}

}  // namespace

void add_green_fit(CLI::App& green, Session& session) {
    auto options = std::make_shared<FitOptions>();
    CLI::App* command = green.add_subcommand("fit", "Fit a green to levels and heights");
    add_options(*command, *options);
    session.add_common_options(*command);
    command->footer(footer);
    command->callback([options, &session] {
        session.run = [options, &session] { return fit(*options, session); };
    });
}

}  // namespace dewtrail
