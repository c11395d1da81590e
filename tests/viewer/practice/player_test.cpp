#include "viewer/practice/player.hpp"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <limits>
#include <string>
#include <vector>

#include "greens/input_error.hpp"
#include "tests/support/ordinary_user.hpp"
#include "tests/support/temporary_folder.hpp"
#include "tests/support/variable.hpp"
#include "viewer/putt/presets.hpp"

using namespace dewtrail;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

Player someone() {
    Player player;
    player.metric = true;
    player.pace_m = 0.85;
    player.usual_past_m = 1.0 / 3.0;
    player.stimp_ft = 9.7;
    player.handicap = 18;
    player.spread = {1.3, 0.11, 0.1, 0.004};
    player.stroke_table = {{0.15, 1.5}, {0.3, 4.25}};
    return player;
}

}  // namespace

TEST_CASE("A player comes back to the last bit", "[player]") {
    const TemporaryFolder folder;
    const Player saved = someone();
    save_player(folder / "player.toml", saved);
    const Player loaded = load_player(folder / "player.toml", IfMissing::refuse);
    REQUIRE(loaded.metric == saved.metric);
    REQUIRE(loaded.pace_m == saved.pace_m);
    REQUIRE(loaded.usual_past_m == saved.usual_past_m);
    REQUIRE(loaded.stimp_ft == saved.stimp_ft);
    REQUIRE(loaded.handicap == saved.handicap);
    REQUIRE(loaded.spread.line_deg == saved.spread.line_deg);
    REQUIRE(loaded.spread.pace == saved.spread.pace);
    REQUIRE(loaded.spread.pace_floor_m == saved.spread.pace_floor_m);
    REQUIRE(loaded.spread.slope_read == saved.spread.slope_read);
    REQUIRE(loaded.spread.fall_read_deg == saved.spread.fall_read_deg);
    REQUIRE(loaded.stroke_table.size() == 2);
    REQUIRE(loaded.stroke_table[1].backswing_m == 0.3);
    REQUIRE(loaded.stroke_table[1].level_roll_m == 4.25);
    REQUIRE(folder.count() == 1);  // nothing left beside it
}

TEST_CASE("An older file's preset is the preset of today", "[player]") {
    const TemporaryFolder folder;
    const std::string rest =
        "\npace = 0.14\npace_floor_m = 0.09144000000000001\nslope_read = 0.005\n";
    const auto player = [&](const std::string& format, const std::string& line) {
        folder.write("p.toml", "format = " + format + "\n[spread]\nline_deg = " + line + rest +
                                   "[[earlier_spread]]\nline_deg = " + line + rest);
        return load_player(folder / "p.toml");
    };
    const Spread middle = *find_spread("middle");
    REQUIRE(player("1", "1.85").spread == middle);
    REQUIRE(player("2", "1.66").spread == middle);
    REQUIRE(player("2", "1.66").earlier.front().spread == middle);
    // The player's own, and what was typed since: as it was, the fall seen without error.
    for (const auto& [format, line] : {std::pair("1", "1.86"), {"2", "1.84"}}) {
        const Player own = player(format, line);
        for (const Spread& spread : {own.spread, own.earlier.front().spread}) {
            REQUIRE(spread.line_deg == std::stod(line));
            REQUIRE(spread.slope_read == 0.005);
            REQUIRE(spread.fall_read_deg == 0);
        }
    }
    // Today's keeps it, and where the key is left out it is the usual one.
    REQUIRE(player("3", "1.66").spread.line_deg == 1.66);
    REQUIRE(player("3", "1.66").spread.fall_read_deg == middle.fall_read_deg);
}

TEST_CASE("Keys left out keep their defaults", "[player]") {
    const TemporaryFolder folder;
    folder.write("p.toml", "format = 1\nstimp_ft = 11\n[spread]\nline_deg = 2\n");
    const Player player = load_player(folder / "p.toml");
    REQUIRE(player.stimp_ft == 11.0);
    REQUIRE(player.spread.line_deg == 2.0);
    REQUIRE(player.spread.pace == 0.14);
    REQUIRE_FALSE(player.metric);
    REQUIRE(player.usual_past_m == 0.3048);
    REQUIRE_FALSE(player.handicap);
}

TEST_CASE("A file that is not right is refused at its place", "[player]") {
    struct Bad {
        std::string text;
        std::string message;
    };
    const std::string head = "format = 1\n";
    const std::vector<Bad> cases = {
        {"", "no 'format'"},
        {"format = 4\nshoes = \"brown\"\n", "p.toml:1:10: format 4 is newer"},
        {"format = \"1\"\n", "format is not a number"},
        {head + "shoes = 3\n", "p.toml:2:1: unknown key 'shoes'"},
        {head + "pace_m = \n", "p.toml:2:"},
        {head + "pace_m = 0.1\n", "p.toml:2:10: pace_m 0.1 is outside 0.3 to 1.5"},
        {head + "pace_m = nan\n", "pace_m is not a number"},
        {head + "pace_m = \"0.9\"\n", "pace_m is not a number"},
        {head + "usual_past_m = -0.1\n", "usual_past_m -0.1 is outside 0 to 3"},
        {head + "stimp_ft = 30\n", "stimp_ft 30 is outside 3 to 18"},
        {head + "units = \"roman\"\n", "p.toml:2:9: units 'roman' are not known"},
        {head + "units = 3\n", "units is not a text"},
        {head + "spread = 3\n", "'spread' is not a table"},
        {head + "[spread]\nwidth = 3\n", "p.toml:3:1: unknown key 'width'"},
        {head + "[spread]\nline_deg = 21\n", "p.toml:3:12: line_deg 21 is outside 0 to 20"},
        {head + "[spread]\nslope_read = inf\n", "slope_read is not a number"},
        {head + "[spread]\nfall_read_deg = 46\n", "fall_read_deg 46 is outside 0 to 45"},
        {head + "strokes = 3\n", "p.toml:2:11: strokes is not a list"},
        {head + "strokes = [3]\n", "strokes"},
        {head + "strokes = [[0.2]]\n", "strokes"},
        {head + "strokes = [[0, 1]]\n", "p.toml:2:11: the stroke [0, 1] is out of range"},
        {head + "strokes = [[2.1, 9]]\n", "the stroke [2.1, 9] is out of range"},
        {head + "strokes = [[0.2, -1]]\n", "the stroke [0.2, -1] is out of range"},
        {head + "strokes = [[0.2, 2], [0.3, 1]]\n", "the stroke table does not grow"}};
    const TemporaryFolder folder;
    const fs::path path = folder / "p.toml";
    for (const Bad& bad : cases) {
        INFO(bad.text);
        folder.write("p.toml", bad.text);
        try {
            load_player(path);
            FAIL("was taken");
        } catch (const InputError& error) {
            REQUIRE_THAT(error.what(), Contains(bad.message));
            REQUIRE_FALSE(error.remedy().empty());
        }
        REQUIRE_THROWS_AS(save_player(path, Player{}), InputError);
        REQUIRE(content_of(path) == bad.text);
        REQUIRE(folder.count() == 1);
    }
}

TEST_CASE("A file that is not there", "[player]") {
    const TemporaryFolder folder;
    REQUIRE(load_player(folder / "none.toml").pace_m == 0.9);
    REQUIRE_THROWS_AS(load_player(folder / "none.toml", IfMissing::refuse), InputError);
    fs::create_directory(folder / "folder.toml");
    REQUIRE_THROWS_AS(load_player(folder / "folder.toml"), InputError);
}

TEST_CASE("The usual place follows the environment", "[player]") {
    const TemporaryFolder folder;
    const std::string home = (folder / "home").string();
    const std::string config = (folder / "config").string();
    {
        const Variable a("XDG_CONFIG_HOME", config.c_str()), b("HOME", home.c_str());
        REQUIRE(usual_player_path() == fs::path(config) / "dewtrail" / "player.toml");
        REQUIRE(load_player().pace_m == 0.9);
        save_player({}, someone());  // makes the folders too
        REQUIRE(load_player().pace_m == 0.85);
        REQUIRE(fs::exists(fs::path(config) / "dewtrail" / "player.toml"));
    }
    for (const char* unset : {static_cast<const char*>(nullptr), "", "somewhere/else"}) {
        const Variable a("XDG_CONFIG_HOME", unset), b("HOME", home.c_str());
        REQUIRE(usual_player_path() == fs::path(home) / ".config" / "dewtrail" / "player.toml");
    }
    const Variable a("XDG_CONFIG_HOME", nullptr), b("HOME", nullptr);
    REQUIRE_FALSE(usual_player_path());
    REQUIRE(load_player(std::nullopt, IfMissing::refuse).pace_m == 0.9);
    REQUIRE_THROWS_AS(save_player({}, Player{}), OutsideError);
}

TEST_CASE("A save that fails leaves the old file", "[player]") {
    const TemporaryFolder folder;
    folder.write("in-the-way", "not a folder");
    REQUIRE_THROWS_AS(save_player(folder / "in-the-way" / "player.toml", Player{}), OutsideError);
    REQUIRE(content_of(folder / "in-the-way") == "not a folder");

    const fs::path path = folder / "player.toml";
    save_player(path, someone());
    const std::string before = content_of(path);
    Player wrong;
    wrong.pace_m = std::numeric_limits<double>::quiet_NaN();
    REQUIRE_THROWS_AS(save_player(path, wrong), std::invalid_argument);
    wrong = Player{};
    wrong.stroke_table = {{0.3, 2.0}, {0.2, 3.0}};
    REQUIRE_THROWS_AS(save_player(path, wrong), std::invalid_argument);
    REQUIRE(content_of(path) == before);
    REQUIRE(folder.count() == 2);

    fs::permissions(folder.path(), fs::perms(0555));
    {
        const OrdinaryUser user;
        REQUIRE_THROWS_AS(save_player(path, Player{}), OutsideError);
    }
    fs::permissions(folder.path(), fs::perms::owner_all);
    REQUIRE(content_of(path) == before);
}

TEST_CASE("A symbolic link stays one, and a bare name is saved here", "[player]") {
    const TemporaryFolder folder;
    folder.write("real.toml", "format = 1\n");
    fs::create_symlink(folder / "real.toml", folder / "player.toml");
    save_player(folder / "player.toml", someone());
    REQUIRE(fs::is_symlink(folder / "player.toml"));
    REQUIRE(load_player(folder / "real.toml").pace_m == 0.85);

    const fs::path before = fs::current_path();
    fs::current_path(folder.path());
    save_player("here.toml", someone());
    fs::current_path(before);
    REQUIRE(load_player(folder / "here.toml").pace_m == 0.85);
}
