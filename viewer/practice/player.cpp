#include "viewer/practice/player.hpp"

#include <fmt/format.h>

#include <string>

#include "greens/input_error.hpp"
#include "greens/text_file.hpp"
#include "greens/toml_section.hpp"
#include "viewer/files/folders.hpp"

namespace dewtrail {
namespace fs = std::filesystem;
namespace {

constexpr double format_number = 1.0;
constexpr std::uintmax_t most_bytes = 1'000'000;
constexpr double nothing = 1e-6;  // lower end of ranges that exclude zero
constexpr Range stroke_backswing_m{nothing, 2.0};
constexpr Range stroke_level_roll_m{nothing, 100.0};
constexpr std::size_t most_strokes = 100;

/// Where a number lives in the file, where it lives in the program, and what it may be.
template <class Owner>
struct Entry {
    const char* key;
    double Owner::*value;
    Range range;
};

constexpr Entry<Player> player_entries[] = {{"pace_m", &Player::pace_m, {0.3, 1.5}},
                                            {"usual_past_m", &Player::usual_past_m, {0.0, 3.0}}};
constexpr Entry<Spread> spread_entries[] = {{"line_deg", &Spread::line_deg, {0.0, 20.0}},
                                            {"pace", &Spread::pace, {0.0, 1.0}},
                                            {"pace_floor_m", &Spread::pace_floor_m, {0.0, 1.0}},
                                            {"slope_read", &Spread::slope_read, {0.0, 0.05}}};

struct OptionalEntry {
    const char* key;
    std::optional<double> Player::*value;
    Range range;
};

constexpr OptionalEntry optional_entries[] = {{"stimp_ft", &Player::stimp_ft, {3.0, 18.0}},
                                              {"handicap", &Player::handicap, {-10.0, 54.0}}};

template <class Owner, std::size_t n>
void read_entries(const TomlSection& section, const Entry<Owner> (&entries)[n], Owner& owner) {
    for (const auto& [key, value, range] : entries) {
        owner.*value = section.optional_number(key, range).value_or(owner.*value);
    }
}

bool within(double value, Range range) {
    return value >= range.least && value <= range.most;
}

void check_format(const TomlSection& file) {
    const double format = file.number("format", {1.0, 1e6});
    if (format == format_number) return;
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

bool grows(const StrokeRow& shorter, const StrokeRow& longer) {
    return longer.backswing_m > shorter.backswing_m && longer.level_roll_m > shorter.level_roll_m;
}

StrokeRow read_row(const TomlSection& file, const Vec2& pair) {
    const StrokeRow row{pair.x(), pair.y()};
    if (!within(row.backswing_m, stroke_backswing_m) ||
        !within(row.level_roll_m, stroke_level_roll_m)) {
        file.fail("strokes", fmt::format("the stroke [{}, {}] is out of range", pair.x(), pair.y()),
                  "write [backswing, level roll] in metres, up to 2 and up to 100");
    }
    return row;
}

std::vector<StrokeRow> read_stroke_table(const TomlSection& file) {
    std::vector<StrokeRow> rows;
    if (!file.has("strokes")) return rows;
    for (const Vec2& pair : file.points("strokes", most_strokes, stroke_level_roll_m.most)) {
        rows.push_back(read_row(file, pair));
        if (rows.size() > 1 && !grows(rows[rows.size() - 2], rows.back())) {
            file.fail("strokes", "the stroke table does not grow from row to row",
                      "order it by backswing; a longer one must roll farther");
        }
    }
    return rows;
}

Player parse_player(const std::string& name, std::string_view text) {
    const TomlSection file = TomlSection::parse(name, "the player file", text);
    check_format(file);  // first: a newer file may hold keys that this program cannot know
    file.allow_only(
        {"format", "units", "pace_m", "usual_past_m", "stimp_ft", "handicap", "strokes", "spread"});
    Player player;
    if (file.has("units")) player.metric = read_metric(file);
    read_entries(file, player_entries, player);
    for (const auto& [key, value, range] : optional_entries) {
        player.*value = file.optional_number(key, range);
    }
    player.stroke_table = read_stroke_table(file);
    if (file.has("spread")) {
        const TomlSection spread = file.section("spread");
        spread.allow_only({"line_deg", "pace", "pace_floor_m", "slope_read"});
        read_entries(spread, spread_entries, player.spread);
    }
    return player;
}

void check(const char* key, double value, Range range) {
    if (within(value, range)) return;
    throw std::invalid_argument(
        fmt::format("{} {} is outside {} to {}", key, value, range.least, range.most));
}

void check(const Player& player) {
    for (const auto& [key, value, range] : player_entries) check(key, player.*value, range);
    for (const auto& [key, value, range] : spread_entries) check(key, player.spread.*value, range);
    for (const auto& [key, value, range] : optional_entries) {
        if (player.*value) check(key, *(player.*value), range);
    }
    if (player.stroke_table.size() > most_strokes) {
        throw std::invalid_argument("stroke_table has more than 100 rows");
    }
    for (const StrokeRow& row : player.stroke_table) {
        check("backswing_m", row.backswing_m, stroke_backswing_m);
        check("level_roll_m", row.level_roll_m, stroke_level_roll_m);
        if (&row != player.stroke_table.data() && !grows(*(&row - 1), row)) {
            throw std::invalid_argument("stroke_table does not grow from row to row");
        }
    }
}

// fmt prints the shortest digits that read back to the same double, whatever the locale.
std::string write_line(const char* key, double value) {
    return fmt::format("{} = {}\n", key, value);
}

std::string write_strokes(const std::vector<StrokeRow>& rows) {
    std::string text = "\n# Backswing and how far it rolls on the level, metres.\nstrokes = [";
    for (const StrokeRow& row : rows) {
        text += fmt::format("\n    [{}, {}],", row.backswing_m, row.level_roll_m);
    }
    return text + "\n]\n";
}

std::string write_player(const Player& player) {
    std::string text = write_line("format", format_number);
    text += fmt::format("units = \"{}\"\n", player.metric ? "metric" : "imperial");
    for (const auto& [key, value, range] : player_entries) text += write_line(key, player.*value);
    for (const auto& [key, value, range] : optional_entries) {
        if (player.*value) text += write_line(key, *(player.*value));
    }
    if (!player.stroke_table.empty()) text += write_strokes(player.stroke_table);
    text += "\n# One standard deviation each.\n[spread]\n";
    for (const auto& [key, value, range] : spread_entries) {
        text += write_line(key, player.spread.*value);
    }
    return text;
}

}  // namespace

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
    return parse_player(found->string(), read_text_file(*found, most_bytes));
}

void save_player(const std::optional<fs::path>& path, const Player& player) {
    check(player);
    const std::optional<fs::path> named = path ? path : usual_player_path();
    if (!named) {
        throw OutsideError("the player cannot be saved: neither XDG_CONFIG_HOME nor HOME is set");
    }
    const std::string text = write_player(player);
    load_player(*named);  // a file that is not understood is not rewritten
    save_whole_file(*named, text);
}

}  // namespace dewtrail
