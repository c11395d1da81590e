#include "viewer/practice/player.hpp"

#include <fmt/format.h>

#include <string>

#include "greens/green_writer.hpp"
#include "greens/input_error.hpp"
#include "greens/text_file.hpp"
#include "greens/toml_section.hpp"
#include "viewer/files/folders.hpp"
#include "viewer/putt/presets.hpp"

namespace dewtrail {
namespace fs = std::filesystem;
namespace {

/// In a file of format 1 a misread slope errs in its size alone, in one of format 2 in every
/// direction alike; the presets are others.
constexpr double format_number = 3.0;
constexpr std::uintmax_t most_player_bytes = 1'000'000;
constexpr double nothing = 1e-6;  // lower end of ranges that exclude zero
constexpr Range backswing_m{nothing, 2.0}, level_roll_m{nothing, 100.0};
constexpr std::size_t most_strokes = 100, most_earlier = 50;

/// Every number of the file by its key, and what it may be; `visit` takes those of the player, or
/// those of the spread.
template <class AnyPlayer, class Visit>
void visit_numbers(AnyPlayer& player, Visit visit) {
    visit("pace_m", player.pace_m, Range{0.3, 1.5});
    visit("usual_past_m", player.usual_past_m, putt_range::past_m);
    visit("stimp_ft", player.stimp_ft, putt_range::stimp_ft);
    visit("handicap", player.handicap, Range{-10.0, 54.0});
}
template <class AnySpread, class Visit>
void visit_spread(AnySpread& spread, Visit visit) {
    visit("line_deg", spread.line_deg, Range{0.0, 20.0});
    visit("pace", spread.pace, Range{0.0, 1.0});
    visit("pace_floor_m", spread.pace_floor_m, Range{0.0, 1.0});
    visit("slope_read", spread.slope_read, Range{0.0, most_slope_read});
    visit("fall_read_deg", spread.fall_read_deg, Range{0.0, most_fall_read_deg});
}

auto read_from(const TomlSection& section) {
    return [&section](const char* key, auto& value, Range range) {
        if (const auto number = section.optional_number(key, range)) value = number.value();
    };
}

double read_format(const TomlSection& file) {
    const double format = file.number("format", {1.0, 1e6});
    if (format <= format_number) return format;
    file.fail("format", fmt::format("format {} is newer than this program", format),
              "use the newer program; the file is left as it is");
}

bool read_metric(const TomlSection& file) {
    const std::string units = file.text("units");
    if (units != "imperial" && units != "metric") {
        file.fail("units", fmt::format("units '{}' are not known", units),
                  "write units = \"imperial\" or \"metric\"");
    }
    return units == "metric";
}

/// What is wrong with the table, or nothing.
std::string wrong_strokes(const std::vector<StrokeRow>& rows) {
    if (rows.size() > most_strokes) return "the stroke table has more than 100 rows";
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (!backswing_m.holds(rows[i].backswing_m) || !level_roll_m.holds(rows[i].level_roll_m))
            return fmt::format("the stroke [{}, {}] is out of range", rows[i].backswing_m,
                               rows[i].level_roll_m);
        if (i > 0 && !(rows[i].backswing_m > rows[i - 1].backswing_m &&
                       rows[i].level_roll_m > rows[i - 1].level_roll_m))
            return "the stroke table does not grow from row to row";
    }
    return "";
}

std::vector<StrokeRow> read_stroke_table(const TomlSection& file) {
    std::vector<StrokeRow> rows;
    if (!file.has("strokes")) return rows;
    for (const Vec2& pair : file.points("strokes", most_strokes, level_roll_m.most))
        rows.push_back({pair.x(), pair.y()});
    if (const std::string wrong = wrong_strokes(rows); !wrong.empty())
        file.fail("strokes", wrong,
                  "write [backswing, level roll] in metres, up to 2 and up to 100, a longer "
                  "backswing below a shorter one, and farther");
    return rows;
}

KnownSpread spread_of(const Player& player) {
    return {player.spread, player.spread_from, player.spread_since};
}

KnownSpread read_spread(const TomlSection& section, double format) {
    section.allow_only(
        {"line_deg", "pace", "pace_floor_m", "slope_read", "fall_read_deg", "from", "since"});
    KnownSpread known;
    visit_spread(known.spread, read_from(section));
    if (section.has("from")) known.from = section.text("from");
    if (section.has("since")) known.since = section.text("since");
    if (format < format_number) known.spread = renewed(known.spread);
    return known;
}

void check(const Player& player) {
    const auto check_number = [](const char* key, std::optional<double> value, Range range) {
        if (value && !range.holds(*value))
            throw std::invalid_argument(
                fmt::format("{} {} is outside {} to {}", key, *value, range.least, range.most));
    };
    visit_numbers(player, check_number);
    visit_spread(player.spread, check_number);
    for (const KnownSpread& earlier : player.earlier) visit_spread(earlier.spread, check_number);
    const std::string wrong = wrong_strokes(player.stroke_table);
    if (!wrong.empty()) throw std::invalid_argument(wrong);
}

std::string write_strokes(const std::vector<StrokeRow>& rows) {
    std::string text = "\n# Backswing and how far it rolls on the level, metres.\nstrokes = [";
    for (const StrokeRow& row : rows) {
        text += fmt::format("\n    [{}, {}],", row.backswing_m, row.level_roll_m);
    }
    return text + "\n]\n";
}

}  // namespace

Player read_player(const std::string& name, std::string_view text) {
    const TomlSection file = TomlSection::parse(name, "the player file", text);
    const double format =
        read_format(file);  // first: a newer file may hold keys that this program cannot know
    file.allow_only({"format", "units", "pace_m", "usual_past_m", "stimp_ft", "handicap", "strokes",
                     "spread", "earlier_spread"});
    Player player;
    if (file.has("units")) player.metric = read_metric(file);
    visit_numbers(player, read_from(file));
    player.stroke_table = read_stroke_table(file);
    if (file.has("spread")) {
        const KnownSpread known = read_spread(file.section("spread"), format);
        player.spread = known.spread;
        player.spread_from = known.from;
        player.spread_since = known.since;
    }
    if (file.has("earlier_spread"))
        for (const TomlSection& earlier : file.sections("earlier_spread", most_earlier))
            player.earlier.push_back(read_spread(earlier, format));
    return player;
}

std::string write_player(const Player& player) {
    std::string text;
    // fmt prints the shortest digits that read back to the same double, whatever the locale.
    const auto write = [&](const char* key, std::optional<double> value, Range) {
        if (value) text += fmt::format("{} = {}\n", key, *value);
    };
    write("format", format_number, {});
    text += fmt::format("units = \"{}\"\n", player.metric ? "metric" : "imperial");
    visit_numbers(player, write);
    if (!player.stroke_table.empty()) text += write_strokes(player.stroke_table);
    const auto write_spread = [&](const char* head, const KnownSpread& known) {
        text += fmt::format("\n{}\n", head);
        visit_spread(known.spread, write);
        if (!known.from.empty()) text += fmt::format("from = {}\n", toml_string(known.from));
        if (!known.since.empty()) text += fmt::format("since = {}\n", toml_string(known.since));
    };
    write_spread("# One standard deviation each.\n[spread]", spread_of(player));
    for (const KnownSpread& earlier : player.earlier) write_spread("[[earlier_spread]]", earlier);
    return text;
}

void Player::adopt(const Spread& now, const std::string& from, const std::string& today) {
    if (now == spread) return;
    if (spread_from != from || spread_since != today) earlier.push_back(spread_of(*this));
    if (earlier.size() > most_earlier) earlier.erase(earlier.begin());
    spread = now;
    spread_from = from;
    spread_since = today;
}

std::optional<fs::path> usual_player_path() {
    const auto folder = config_folder();
    return folder ? std::optional(*folder / "player.toml") : std::nullopt;
}

Player load_player(const std::optional<fs::path>& path, IfMissing if_missing) {
    const std::optional<fs::path> found = path ? path : usual_player_path();
    std::error_code unknown;
    const bool missing =
        !found || fs::symlink_status(*found, unknown).type() == fs::file_type::not_found;
    if (missing && (!path || if_missing == IfMissing::defaults)) return {};
    return read_player(found->string(), read_text_file(*found, most_player_bytes));
}

void save_player(const std::optional<fs::path>& path, const Player& player) {
    check(player);
    const std::optional<fs::path> named = path ? path : usual_player_path();
    if (!named) {
        throw OutsideError("the player cannot be saved: neither XDG_CONFIG_HOME nor HOME is set");
    }
    const std::string text = write_player(player);
    load_player(*named);  // a file that is not understood is not rewritten
    if (!path) make_folder_of(*named);
    save_whole_file(*named, text);
}

}  // namespace dewtrail
