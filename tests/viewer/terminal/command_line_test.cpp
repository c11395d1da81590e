// Every command line: help, exit codes, and thirty and more ways to get it wrong.

#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include "tests/viewer/terminal/command_line.hpp"

using namespace dewtrail;
using Catch::WithinAbs;
using Catch::Matchers::Contains;

namespace {

/// The folder the program is run in.
class InFolder {
  public:
    explicit InFolder(const std::filesystem::path& folder) {
        std::filesystem::current_path(folder);
    }
    InFolder(const InFolder&) = delete;
    InFolder& operator=(const InFolder&) = delete;
    ~InFolder() { std::filesystem::current_path(before_); }

  private:
    std::filesystem::path before_ = std::filesystem::current_path();
};

std::size_t files_below(const std::filesystem::path& folder) {
    std::size_t count = 0;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder))
        if (!entry.is_directory()) ++count;
    return count;
}

/// C0 but for the end of a line, DEL, C1, and the bytes that an eight-bit terminal takes for C1.
bool has_controls(const std::string& text) {
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        if ((byte < 0x20 && byte != '\n') || byte == 0x7f) return true;
        const bool led = i > 0 && static_cast<unsigned char>(text[i - 1]) >= 0x80;
        const bool second_of_c1 = led && static_cast<unsigned char>(text[i - 1]) == 0xc2;
        if (byte >= 0x80 && byte < 0xa0 && (!led || second_of_c1)) return true;
    }
    return false;
}

}  // namespace

TEST_CASE("Help everywhere, with examples, exit 0") {
    CHECK_THAT(dewtrail_says("").out, Contains("Examples:"));
    for (const std::string command : {"read", "ring", "roll", "speed", "green", "player"}) {
        INFO(command);
        const Said help = dewtrail_says(command + " --help");
        CHECK(help.exit == Exit::done);
        CHECK_THAT(help.out, Contains("xamples:"));
        CHECK(help.err.empty());
        CHECK(dewtrail_says("help " + command).out == help.out);
    }
    CHECK(dewtrail_says("help green fit").out == dewtrail_says("green fit --help").out);
    CHECK(dewtrail_says("help nosuch").exit == Exit::not_understood);
}

TEST_CASE("Bad command lines: exit 2, one line that names the value, one that says what to do") {
    struct Bad {
        std::string arguments;
        const char* says;
    };
    const std::vector<Bad> cases = {
        {"reed", "reed"},
        {"read", "no distance"},
        {"read 12ft --slop 2%", "--slop"},
        {"read 12ft 13ft", "13ft"},
        {"read '10 6'", "10 6"},
        {"read -12ft", "-1"},
        {"read twelve", "twelve"},
        {"read 12%", "12"},
        {"read 0.1ft", "0.1"},
        {"read 200ft", "200"},
        {"read 12ft --slope 2%", "direction"},
        {"read 12ft --slope 25% --clock 3", "25 %"},
        {"read 12ft --slope nan --clock 3", "nan"},
        {"read 12ft --slope 2% --clock 13", "13"},
        {"read 12ft --slope 2% --clock 3:75", "3:75"},
        {"read 12ft --slope 2% --clock noon", "noon"},
        {"read 12ft --stimp 30", "30"},
        {"read 12ft --stimp 2", "2"},
        {"read 12ft --stimp 3 --wet", "wet"},
        {"read 12ft --stimp quickish", "quickish"},
        {"read 12ft --past 4m", "4"},
        {"read 12ft --past -3in", "-3"},
        {"read 12ft --hole-speed 9m/s", "9"},
        {"read 12ft --past 12in --die", "finish"},
        {"read 12ft --up 1% --down 1%", "contradict"},
        {"read 12ft --up 1% --slope 2% --clock 3", "both give the slope"},
        {"read 12ft --up 1% --clock 3", "clock"},
        {"read 12ft --reading '0,sideways 2%'", "sideways"},
        {"read 12ft --reading 'hole,up 1%' --reading '3ft,up 1%'", "not beyond"},
        {"read 12ft --rise 10ft", "20 %"},
        {"read 12ft --step-at 3ft", "--step-at"},
        {"read 20ft --rise 2in --step-at 25ft", "between ball and hole"},
        {"read 20ft --rise 10in --step-at 12ft", "0-20 %"},
        {"compare --show uphill --stimp 12", "its own putts"},
        {"read 12ft --ball left", "--green"},
        {"read --green no-such-green", "no-such-green"},
        {"read --green meadow --hole moon", "moon"},
        {"read --green meadow --hole 900,900", "900"},
        {"read 12ft --units cubits", "cubits"},
        {"read 12ft --player /no/such/player.toml", "player.toml"},
        {"read 12ft --slope-sure 40%", "40"},
        {"roll 12ft --aim '2 cups'", "2 cups"},
        {"roll 12ft --aim centre --angle 3", "more than one line"},
        {"roll 12ft --speed 0", "not move"},
        {"ring --slope 2%", "no distance"},
        {"speed", "nothing to take the speed from"},
        {"player set", ""},
        {"compare 12ft --slope 2% --clock 3 --with 'klock 4'", "'klock' is not known"},
        {"compare 12ft --slope 2% --clock 3 --with 'clock 4' --png a.jpg", "a.jpg"},
        {"read 12ft --slope 2% --clock 3 --png a.jpg", "a.jpg is no name of a picture"},
        {"read 12ft --slope 2% --clock 3 --png a.png/b.png", "there is no folder a.png"},
        {"read 12ft --slope 2% --clock 3 --view eye", "--view is that of a picture"},
        {"read 12ft --slope 2% --clock 3 --theme dusk", "--theme is that of a picture"},
        {"read 12ft --slope 2% --clock 3 --png a.png --view side",
         "'side' is not one of plan, eye"},
        {"roll 12ft --slope 2% --clock 3 --png a.jpg", "a.jpg"},
        {"roll 12ft --slope 2% --clock 3 --png a.png --animate a.webm", "a.webm is no name"},
        {"green show bench --png a.svg", "a.svg is no name"},
        {"green show bench --svg a.png", "a.png is no name"},
        {"odds 12ft --slope 2% --clock 3 --map --png a.jpg", "a.jpg is no name"},
        {"odds 12ft --slope 2% --clock 3 --png a.png", "draw a map"},
        {"sheet ladder --out mistyped/ladder.pdf", "there is no folder mistyped"},
        {"sheet ladder --out ladder.jpg", "ladder.jpg is no name of a page"},
        {"sheet", "'dewtrail sheet' needs one more word"},
        {"green", "'dewtrail green' needs one more word"},
        {"ring 6ft --slope 2% --every abc", "--every 'abc' is not a number"},
        {"log list --last abc", "--last 'abc' is not a number"},
        {"log import", "file is missing"},
        {"log list --data mistyped", "there is no folder mistyped"},
        {"log 12ft --holed --data mistyped/anna", "there is no folder mistyped"},
        {"log export mistyped/putts.csv", "there is no folder mistyped"},
        {"practise --progress --data mistyped", "there is no folder mistyped"},
        {"practise --export mistyped/answers.csv", "there is no folder mistyped"},
        {"player set --stimp 9 --player mistyped/anna.toml", "mistyped"},
        {"green fit --levels semicolons --hole a=1,1", "semicolons stand between the columns"},
        {"log import semicolons", "semicolons stand between the columns"},
        {"green fit --levels semicolons --hole a=1,1 --out mistyped/a.toml", "there is no folder"},
        {"log 12ft --holed --date 2026-05-+1", "2026-05-+1"},
        {"rehearse --swell a.mp3", "a.mp3 is no name of a sound"},
        {"nosuch --help", "not expected: nosuch"},
        {"read 12ft --nosuch --help", "not expected: --nosuch"},
    };
    CHECK(cases.size() >= 30);
    for (const Bad& bad : cases) {
        INFO(bad.arguments);
        const CommandLine line;
        const InFolder here(line.home().path());
        line.home().write("semicolons", "x_m;y_m;slope_percent;falls_toward_deg\n1,5;2;3;4\n");
        const Said said = line.run(bad.arguments);
        INFO(said.err);
        CHECK(said.exit == Exit::not_understood);
        CHECK(said.out.empty());
        CHECK_THAT(said.err, Contains(bad.says));
        CHECK(lines_in(said.err) == 2);
        const Said json = line.run(bad.arguments + " --json");
        CHECK(json.exit == Exit::not_understood);
        CHECK(json.json()["error"]["kind"] == "not_understood");
        CHECK(json.err.empty());
        CHECK(files_below(line.home().path()) == 1);
    }
}

TEST_CASE("A table that is printed is no JSON, and no file of that name") {
    const CommandLine line;
    const InFolder here(line.home().path());
    CHECK(line.run("practise --export - --json").json()["error"]["reason"] ==
          "--export - prints a table");
    const Said said = line.run("practise --export -");
    CHECK(said.exit == Exit::done);
    CHECK_THAT(said.out, Contains("at,drill,occasion"));
    CHECK_FALSE(std::filesystem::exists("-"));
}

TEST_CASE("An option without its value") {
    const Said said = dewtrail_says("read 12ft --slope");
    CHECK(said.exit == Exit::not_understood);
    CHECK_THAT(said.err, Contains("--slope has too few values"));
}

TEST_CASE("A green that is not there: what there is instead, also where several are checked") {
    CHECK_THAT(dewtrail_says("green check nosuch").out,
               Contains("no green 'nosuch': greens there are: bench"));
}

TEST_CASE("Control characters of what was typed reach no terminal, in words or as JSON") {
    const CommandLine line;
    const InFolder here(line.home().path());
    // ESC [, DEL, and the one that is ESC [ in one letter or in one byte.
    for (const std::string odd : {"a\x1b[31mb",
                                  "a\x7f"
                                  "b",
                                  "a\u009b31mb",
                                  "a\x9b"
                                  "31mb"}) {
        for (const std::vector<std::string>& typed : std::vector<std::vector<std::string>>{
                 {odd},
                 {"read", odd},
                 {"read", "12ft", "--" + odd},
                 {"read", "--green", odd},
                 {"ring", "6ft", "--slope", "2%", "--every", odd},
                 {"read", "12ft", "--slope", "2%", "--clock", "3", "--png", odd + ".png"},
                 {"read", "12ft", "--slope", "2%", "--clock", "3", "--png", odd + "/a.png"},
                 {"green", "show", "bench", "--svg", odd + ".svg"},
                 {"log", "12ft", "--holed", "--green", odd},
                 {"log", "list"},
                 {"log", "export", odd},
                 {"practise", "--export", odd},
                 {"sheet", "survey", "--out", odd + ".svg", "--force"},
                 {"rehearse", "--tick", odd + ".wav", "--force"},
                 {"green", "check", odd},
                 {"player", "set", "--stimp", "9", "--player", odd},
                 {"completion", odd}}) {
            for (const bool json : {false, true}) {
                auto words = typed;
                if (json && typed.front() != "completion") words.push_back("--json");
                const Said said = line.run(words);
                INFO(fmt::format("{}", fmt::join(words, " ")) << said.out << said.err);
                CHECK_FALSE(has_controls(said.out));
                CHECK_FALSE(has_controls(said.err));
            }
        }
        const Said answered = line.run("log --round", odd + "\n");
        CHECK_FALSE(has_controls(answered.out + answered.err));
    }
}
