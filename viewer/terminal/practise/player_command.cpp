#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "greens/input_error.hpp"
#include "greens/measure.hpp"
#include "viewer/files/dates.hpp"
#include "viewer/practice/player.hpp"
#include "viewer/putt/presets.hpp"
#include "viewer/terminal/odds_report.hpp"
#include "viewer/terminal/practise/player_fit.hpp"
#include "viewer/terminal/session.hpp"
#include "viewer/terminal/spread_options.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {
namespace {
namespace fs = std::filesystem;

using Typed = std::optional<std::string>;

/// As typed; unset: not given.
struct PlayerChanges {
    Typed system, units, pace, past, stimp, handicap;
    SpreadRequest spread;
    std::vector<std::string> strokes;

    bool operator==(const PlayerChanges&) const = default;
    bool none() const { return *this == PlayerChanges(); }
};

void check_range(double value, double least, double most, const char* what, const std::string& text,
                 const char* range) {
    if (value >= least && value <= most) return;
    throw InputError(fmt::format("{} {} is outside {}", what, text, range),
                     fmt::format("give a {} within {}", what, range));
}

bool parse_metric(const std::string& system) {
    if (system != "imperial" && system != "metric")
        throw InputError(fmt::format("units '{}' are not known", system),
                         "say --system imperial or --system metric");
    return system == "metric";
}

/// Golfers write a handicap better than scratch with a plus; it counts as negative.
double parse_handicap(const std::string& text) {
    const Subject subject{"handicap", "18, or +2 for better than scratch"};
    std::string plain = plain_text(text);
    const bool plus = drop_beginning(plain, "+");
    const Term term = read_term(plain.empty() ? text : plain, subject);
    if (term.unit != Unit::none) refuse(subject, text, "is not a handicap");
    const double handicap = plus ? 0.0 - term.number : term.number;
    check_range(handicap, -10, 54, "handicap", text, "+10 to 54");
    return handicap;
}

StrokeRow parse_stroke(const std::string& text, const Units& units) {
    const std::size_t comma = text.find(',');
    if (comma == text.npos)
        throw InputError(fmt::format("stroke '{}' is not a backswing and a roll", text),
                         "write it like --stroke 20cm,3m");
    const StrokeRow row{parse_short_length_m(text.substr(0, comma), units, "backswing"),
                        parse_level_roll_m(text.substr(comma + 1), units, "level roll")};
    check_range(row.backswing_m, 1e-6, 2, "backswing", text, "0-2 m, above nothing");
    check_range(row.level_roll_m, 1e-6, 100, "level roll", text, "0-100 m, above nothing");
    return row;
}

std::vector<StrokeRow> parse_strokes(const std::vector<std::string>& texts, const Units& units) {
    std::vector<StrokeRow> rows;
    for (const std::string& text : texts) rows.push_back(parse_stroke(text, units));
    std::sort(rows.begin(), rows.end(),
              [](const StrokeRow& a, const StrokeRow& b) { return a.backswing_m < b.backswing_m; });
    for (std::size_t i = 1; i < rows.size(); ++i)
        if (rows[i].backswing_m == rows[i - 1].backswing_m ||
            rows[i].level_roll_m <= rows[i - 1].level_roll_m)
            throw InputError(fmt::format("the strokes of {} and {} do not grow together",
                                         format_length(rows[i - 1].backswing_m, units),
                                         format_length(rows[i].backswing_m, units)),
                             "a longer backswing must roll farther");
    return rows;
}

void change_system(Player& player, const PlayerChanges& changes) {
    if (changes.system && changes.units && *changes.system != *changes.units)
        throw InputError(fmt::format("--system {} and --units {} contradict each other",
                                     *changes.system, *changes.units),
                         "give one of them");
    if (changes.units) player.metric = parse_metric(*changes.units);
    if (changes.system) player.metric = parse_metric(*changes.system);
}

/// Set by hand, not taken from a preset.
bool own_spread(const Player& player) {
    return std::none_of(spread_presets.begin(), spread_presets.end(),
                        [&](const SpreadPreset& p) { return p.spread == player.spread; });
}

/// Units and pace first: the other values may be typed in them.
void change(Player& player, const PlayerChanges& changes) {
    change_system(player, changes);
    if (changes.pace) player.pace_m = parse_pace_m(*changes.pace, player.units());
    const Units units = player.units();
    if (changes.past) player.usual_past_m = parse_past_m(*changes.past, units);
    if (changes.stimp) player.stimp_ft = parse_stimp_ft(*changes.stimp);
    if (changes.handicap) {
        player.handicap = parse_handicap(*changes.handicap);
        if (!own_spread(player))
            player.adopt(preset_for_handicap(*player.handicap).spread, "handicap", today());
    }
    player.adopt(plan_spread(changes.spread, player), "by hand", today());
    if (!changes.strokes.empty()) player.stroke_table = parse_strokes(changes.strokes, units);
}

/// One value of the player as it is shown, and whether it is what the program assumes anyway.
struct Entry {
    const char* key;
    const char* label;
    std::string text;
    Json json;
    bool is_default;
    bool says_so = false;  ///< its words tell that it is
};

std::string stroke_text(const std::vector<StrokeRow>& rows, const Units& units) {
    std::string text;
    for (const StrokeRow& row : rows)
        text += fmt::format("{}{} back rolls {}", text.empty() ? "" : "\n",
                            format_length(row.backswing_m, units),
                            format_distance(row.level_roll_m, units));
    return text.empty() ? "none yet" : text;
}

std::string handicap_text(const Player& player) {
    if (!player.handicap) return "not asked yet";
    const double handicap = *player.handicap;
    const std::string figure =
        handicap < 0 ? fmt::format("+{:g}", -handicap) : fmt::format("{:g}", handicap);
    const SpreadPreset& preset = preset_for_handicap(handicap);
    return figure + (preset.spread == player.spread ? fmt::format(", spread '{}'", preset.name)
                                                    : ", the spread is set by hand");
}

Json stroke_json(const std::vector<StrokeRow>& rows) {
    Json strokes = Json::array();
    for (const StrokeRow& row : rows)
        strokes.push_back({{"backswing_m", row.backswing_m}, {"level_roll_m", row.level_roll_m}});
    return strokes;
}

std::string spread_source(const Player& player) {
    if (player.spread_from.empty()) return "the usual";
    return player.spread_from + ", " + player.spread_since;
}

Json source_json(const Player& player) {
    if (player.spread_from.empty()) return nullptr;
    return {{"from", player.spread_from}, {"since", player.spread_since}};
}

/// The newest first.
std::string earlier_text(const Player& player, const Units& units) {
    std::string text;
    for (auto at = player.earlier.rbegin(); at != player.earlier.rend(); ++at)
        text += fmt::format("{}{}{}", text.empty() ? "" : "\n", spread_words(at->spread, units),
                            at->from.empty() ? "" : fmt::format(" ({}, {})", at->from, at->since));
    return text.empty() ? "none" : text;
}

Json earlier_json(const Player& player) {
    Json rows = Json::array();
    for (const KnownSpread& known : player.earlier) {
        Json row = spread_json(known.spread);
        row["from"] = known.from;
        row["since"] = known.since;
        rows.push_back(std::move(row));
    }
    return rows;
}

std::vector<Entry> entries_of(const Player& player, const Units& units) {
    const Player usual;
    const Spread& spread = player.spread;
    const std::string stimp = player.stimp_ft ? format_stimp(*player.stimp_ft) : "not set: 10";
    return {{"units", "units", player.metric ? "metric" : "imperial",
             player.metric ? "metric" : "imperial", player.metric == usual.metric},
            {"pace_m", "pace length", format_length(player.pace_m, units), number(player.pace_m),
             player.pace_m == usual.pace_m},
            {"usual_past_m", "usual past", format_past(player.usual_past_m, units),
             number(player.usual_past_m), player.usual_past_m == usual.usual_past_m},
            {"stimp_ft", "stimp", stimp, number(player.stimp_ft), !player.stimp_ft},
            {"handicap", "handicap", handicap_text(player), number(player.handicap),
             !player.handicap, true},
            {"line_deg", "start line", format_given_degrees(spread.line_deg),
             number(spread.line_deg), spread.line_deg == usual.spread.line_deg},
            {"pace", "pace", format_given_percent(spread.pace), number(spread.pace),
             spread.pace == usual.spread.pace},
            {"pace_floor_m", "pace floor", format_length(spread.pace_floor_m, units),
             number(spread.pace_floor_m), spread.pace_floor_m == usual.spread.pace_floor_m},
            {"slope_read", "slope read", format_given_percent(spread.slope_read),
             number(spread.slope_read), spread.slope_read == usual.spread.slope_read},
            {"fall_read_deg", "fall read", format_given_degrees(spread.fall_read_deg),
             number(spread.fall_read_deg), spread.fall_read_deg == usual.spread.fall_read_deg},
            {"spread_from", "spread from", spread_source(player), source_json(player),
             player.spread_from.empty(), true},
            {"earlier_spreads", "before it", earlier_text(player, units), earlier_json(player),
             player.earlier.empty(), true},
            {"strokes", "stroke table", stroke_text(player.stroke_table, units),
             stroke_json(player.stroke_table), player.stroke_table.empty(), true}};
}

void print_player(const Session& session, const Player& player, const Units& units,
                  const std::optional<fs::path>& path, bool saved) {
    const std::vector<Entry> entries = entries_of(player, units);
    if (session.json()) {
        Json values = Json::object(), defaults = Json::array();
        for (const Entry& entry : entries) {
            values[entry.key] = entry.json;
            if (entry.is_default) defaults.push_back(entry.key);
        }
        session.print({{"file", path ? Json(path->string()) : Json(nullptr)},
                       {"saved", saved},
                       {"player", values},
                       {"defaults", defaults}});
        return;
    }
    const std::string file = path ? path->string() : "no place for one: HOME is not set";
    print_row(session.out(), "player file", file + (saved ? "" : " (not there yet)"));
    for (const Entry& entry : entries) {
        const bool tell = entry.is_default && !entry.says_so;
        print_row(session.out(), entry.label, entry.text + (tell ? "  (default)" : ""));
    }
}

std::optional<fs::path> file_of(const Session& session) {
    return session.player_path() ? session.player_path() : usual_player_path();
}

Exit show(Session& session) {
    const Units units = session.units();  // refuses a file named that is not there
    session.say_whose();
    const auto path = file_of(session);
    std::error_code unknown;
    print_player(session, load_player(session.player_path()), units, path,
                 path && fs::exists(*path, unknown));
    return Exit::done;
}

Exit set(const PlayerChanges& changes, Session& session) {
    if (changes.none())
        throw InputError("nothing to set",
                         "give one or more of --system, --pace, --past, --stimp, --line, "
                         "--pace-spread, --pace-floor, --slope-read, --handicap, --stroke");
    session.say_whose();
    Player player = load_player(session.player_path(), IfMissing::defaults);
    change(player, changes);
    save_player(session.player_path(), player);
    print_player(session, player, player.units(), file_of(session), true);
    return Exit::done;
}

constexpr const char* show_footer =
    "Examples:\n"
    "  dewtrail player show\n"
    "  dewtrail player show --units metric --json";

constexpr const char* set_footer =
    "The spread is one standard deviation. The strokes given become the whole table.\n\n"
    "Examples:\n"
    "  dewtrail player set --system metric --pace 0.85m --stimp 10.5\n"
    "  dewtrail player set --stroke 20cm,3m 30cm,5m 40cm,7.5m";

void add_show(const Command& player, Session& session) {
    const Command command = player.add_subcommand("show", "What is remembered, and where");
    session.add_common_options(command);
    command.footer(show_footer);
    command.callback([&session] { session.run = [&session] { return show(session); }; });
}

void add_set(const Command& player, Session& session) {
    auto changes = std::make_shared<PlayerChanges>();
    const Command command = player.add_subcommand("set", "Change what is remembered");
    command.add_option("--system", changes->system, "imperial or metric (--units does the same)");
    command.add_option("--pace", changes->pace, "Length of one pace, e.g. 0.9m");
    command.add_option("--past", changes->past, "Usual distance past the hole, e.g. 12in");
    command.add_option("--stimp", changes->stimp, "Stimp of the usual greens, e.g. 10");
    add_own_spread_options(command, changes->spread);
    command.add_option(
        "--handicap", changes->handicap,
        "e.g. 18; +2 for better than scratch. Chooses the spread, unless you set your own");
    command.add_option("--stroke", changes->strokes, "Backswing and its level roll: 20cm,3m");
    session.add_common_options(command);
    command.footer(set_footer);
    const Option units = command.option("--units");
    command.callback([changes, units, &session] {
        if (const auto given = units.last()) changes->units = *given;
        session.run = [changes, &session] { return set(*changes, session); };
    });
}

Exit fit(Session& session, const std::string& file, bool from_log) {
    if (file.empty() != from_log)
        throw InputError(from_log ? "a file and --from-log were both given" : "no putts were given",
                         "name a CSV file, or use --from-log");
    return from_log ? run_player_fit_from_log(session) : run_player_fit(session, file);
}

void add_fit(const Command& player, Session& session) {
    auto file = std::make_shared<std::string>();
    auto from_log = std::make_shared<bool>(false);
    const Command command =
        player.add_subcommand("fit", "Spread and reading bias from putts made and missed");
    command.add_option("file", *file, "CSV with distance_ft,tries,holed or distance_ft,holed");
    command.add_flag("--from-log", *from_log, "Take the logged putts, and the answers of practice");
    session.add_memory_option(command);
    session.add_common_options(command);
    command.footer(
        "Examples:\n"
        "  printf 'distance_ft,tries,holed\\n4,20,17\\n10,20,5\\n' > putts.csv && dewtrail player "
        "fit putts.csv\n"
        "  dewtrail player fit --from-log --json");
    command.callback([&session, file, from_log] {
        session.run = [&session, file, from_log] { return fit(session, *file, *from_log); };
    });
}

}  // namespace

void add_player_command(const Command& app, Session& session) {
    const Command command =
        app.add_subcommand("player", "Show and set units, pace length, spread, stroke table");
    command.require_subcommand(1);
    command.footer(
        "Examples:\n"
        "  dewtrail player show\n"
        "  dewtrail player set --handicap 18 --past 18in");
    add_show(command, session);
    add_set(command, session);
    add_fit(command, session);
}

}  // namespace dewtrail
