#pragma once

#include <filesystem>
#include <optional>
#include <vector>

#include "greens/units.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/putt/spread.hpp"

/// The player file: what the program remembers about one player's hands and habits.
namespace dewtrail {

/// One row of the player's own stroke table: a backswing this long rolls this far on the level.
struct StrokeRow {
    double backswing_m;
    double level_roll_m;
};

/// A spread, where it came from ('20 balls', 'by hand'; empty: the usual one) and the day it was
/// taken.
struct KnownSpread {
    Spread spread;
    std::string from, since;

    bool operator==(const KnownSpread&) const = default;
};

/// Ranges, ends included: pace_m 0.3-1.5, usual_past_m 0-3, stimp_ft 3-18, handicap -10 to 54
/// (below zero: better than scratch), line_deg 0-20, pace 0-1, pace_floor_m 0-1, slope_read 0-0.05,
/// fall_read_deg 0-45, backswing_m above 0 to 2, level_roll_m above 0 to 100; the stroke table
/// grows in both columns, 100 rows at most; of earlier spreads the last 50 are kept.
struct Player {
    bool metric = false;
    double pace_m = 0.9;
    double usual_past_m = dewtrail::usual_past_m;
    std::optional<double> stimp_ft;
    std::optional<double> handicap;  ///< as asked once; none: not asked yet
    Spread spread;
    std::string spread_from, spread_since;  ///< as in KnownSpread
    std::vector<KnownSpread> earlier;       ///< spreads that were the player's before, oldest first
    std::vector<StrokeRow> stroke_table;

    /// From now on this is the player's spread; the one until now is kept among the earlier ones,
    /// unless it was taken from the same source on the same day.
    void adopt(const Spread& spread, const std::string& from, const std::string& today);

    Units units() const { return {metric, pace_m}; }
};

/// $XDG_CONFIG_HOME/dewtrail/player.toml, else $HOME/.config/dewtrail/player.toml; none where
/// neither is set (a folder that is not absolute counts as not set, as the XDG base directory
/// specification asks).
std::optional<std::filesystem::path> usual_player_path();

/// A player file's text, and back to the last bit; errors of read_player as of load_player, `name`
/// in them.
std::string write_player(const Player& player);
Player read_player(const std::string& name, std::string_view text);

/// What a file that is not there means.
enum class IfMissing { defaults, refuse };

/// Reads a player file; without a path the usual one, and defaults where there is none. Keys left
/// out keep their defaults. Throws InputError with file, line and column for a file that is no
/// TOML, an unknown key, a value of the wrong kind or out of range, a format newer than this
/// program's, or a file that cannot be read.
Player load_player(const std::optional<std::filesystem::path>& path = {},
                   IfMissing if_missing = IfMissing::defaults);

/// Writes the whole file beside the old one, then puts it in its place, so that a failure leaves
/// the old file. A symbolic link stays one. Throws OutsideError if that fails or no folder is
/// known, InputError if the file that is there cannot be understood (newer or damaged files are
/// never rewritten), std::invalid_argument if `player` is out of range.
void save_player(const std::optional<std::filesystem::path>& path, const Player& player);

}  // namespace dewtrail
