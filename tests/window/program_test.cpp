/// What a machine may do to the program as a whole: a narrow terminal, no fonts.

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include "tests/window/driven_window.hpp"

using namespace dewtrail;
using namespace dewtrail::driven;
namespace fs = std::filesystem;

namespace {

/// As a terminal of so many columns shows it.
std::vector<std::string> on_terminal(int columns, const std::string& arguments) {
    const ShellOutcome outcome =
        run_in_shell("script -qec 'stty cols " + std::to_string(columns) + "; " +
                     DEWTRAIL_PROGRAM " " + arguments + "' /dev/null");
    REQUIRE(outcome.code == 0);
    std::vector<std::string> lines;
    std::istringstream text(outcome.written);
    for (std::string line; std::getline(text, line);) {
        while (!line.empty() && line.back() == '\r') line.pop_back();
        // Progress is written over by what follows.
        const std::string wiped = "\033[K";
        if (const std::size_t at = line.rfind(wiped); at != line.npos)
            line.erase(0, at + wiped.size());
        lines.push_back(line);
    }
    return lines;
}

int widest(const std::vector<std::string>& lines) {
    int most = 0;
    for (const std::string& line : lines) {
        int width = 0;
        for (const char c : line) width += (static_cast<unsigned char>(c) & 0xC0) != 0x80;
        most = std::max(most, width);
    }
    return most;
}

/// The text with all white space made single.
std::string words_of(const std::vector<std::string>& lines) {
    std::string all;
    for (const std::string& line : lines) {
        std::istringstream words(line);
        for (std::string word; words >> word;) all += word + " ";
    }
    return all;
}

/// Fontconfig, told of no folder with fonts.
std::string without_fonts() {
    const fs::path file = fs::temp_directory_path() / "dewtrail-no-fonts.conf";
    std::ofstream(file) << "<?xml version=\"1.0\"?><fontconfig></fontconfig>\n";
    return "env FONTCONFIG_FILE=" + file.string() + " " + DEWTRAIL_PROGRAM " ";
}

}  // namespace

TEST_CASE("on a terminal of 40 columns text is folded between words, and nothing is lost") {
    for (const char* arguments :
         {"read 12ft --slope 2% --clock 3", "odds 8ft --slope 3% --clock 12", "read --help"}) {
        const auto narrow = on_terminal(40, arguments), wide = on_terminal(300, arguments);
        INFO(arguments);
        CHECK(widest(narrow) <= 40);
        CHECK(widest(wide) > 60);
        CHECK(words_of(narrow) == words_of(wide));
    }
}

TEST_CASE("JSON is never folded, however narrow the terminal") {
    const auto lines = on_terminal(12, "read 12ft --slope 2% --clock 3 --json");
    std::string text;
    for (const std::string& line : lines) text += line + "\n";
    CHECK(Json::parse(text.substr(text.find('{')), nullptr, false).is_object());
    CHECK(widest(lines) > 40);
}

TEST_CASE("without a font: one sentence and exit code 3, and no picture") {
    const fs::path picture = fs::temp_directory_path() / "dewtrail-no-fonts.png";
    fs::remove(picture);
    for (const std::string& arguments :
         {std::string("window 12ft --slope 2% --clock 3"),
          "sheet read 12ft --slope 2% --clock 3 --out " + picture.string()}) {
        const ShellOutcome outcome = run_in_shell(without_fonts() + arguments + " 2>&1 >/dev/null");
        INFO(arguments);
        CHECK(outcome.code == 3);
        CHECK(outcome.written.find("install fonts-sil-gentiumplus and fonts-lato") !=
              std::string::npos);
    }
    CHECK_FALSE(fs::exists(picture));
}

TEST_CASE("without the window's own program beside it the other says so, and reads all the same") {
    const TemporaryFolder folder;
    const fs::path alone = folder.path() / "dewtrail";
    fs::copy_file(DEWTRAIL_PROGRAM, alone);
    const ShellOutcome window = run_in_shell(alone.string() + " window 2>&1");
    CHECK(window.code == 3);
    CHECK(window.written.find("dewtrail-window") != std::string::npos);
    CHECK(run_in_shell(alone.string() + " read 10ft --slope 2% --clock 3 2>&1").code == 0);
}
