/// Every example that a help page, the README or the coach's page prints, run as it is printed, in
/// a folder with the shipped greens.

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "tests/support/shell.hpp"
#include "tests/support/temporary_folder.hpp"

using namespace dewtrail;
namespace fs = std::filesystem;

namespace {

/// One to type, and the lines that the page says come of it.
struct Example {
    std::string typed;
    std::vector<std::string> answers{};
};

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
}

std::string trimmed(const std::string& line) {
    const std::size_t from = std::min(line.find_first_not_of(' '), line.size());
    return line.substr(from, line.find_last_not_of(' ') + 1 - from);
}

/// The folder of somebody who has logged putts: the greens, a home, and the program where README
/// and help say it is.
class Desk {
  public:
    Desk() {
        for (const auto& green : fs::directory_iterator(fs::path(DEWTRAIL_SOURCE_DIR) / "greens"))
            if (green.path().extension() == ".toml" || green.path().extension() == ".csv" ||
                green.path().extension() == ".asc")
                fs::copy_file(green, folder_.path() / green.path().filename());
        fs::create_directories(folder_.path() / "viewer");
        fs::create_directories(folder_.path() / "bin");
        fs::create_symlink(DEWTRAIL_PROGRAM, folder_.path() / "viewer/run");
        fs::create_symlink(DEWTRAIL_PROGRAM, folder_.path() / "bin/dewtrail");
        fs::create_directories(folder_.path() / "home");
        std::string played = "distance,result\n";
        for (int i = 0; i < 20; ++i)
            played += std::string("4ft,") + (i % 7 ? "holed" : "missed") + "\n10ft," +
                      (i % 4 ? "missed" : "holed") + "\n";
        folder_.write("played.csv", played);
        REQUIRE(run("dewtrail log import played.csv && dewtrail log export putts.csv && "
                    "dewtrail log 12ft --slope 2% --clock 3 --left '2ft past'")
                    .code == 0);
    }

    /// What it writes, both streams, without a display and with nobody to answer.
    ShellOutcome run(const std::string& typed) const {
        const std::string here = folder_.path().string();
        std::ofstream(folder_ / "typed")
            << "cd " << here << "\nexport HOME=" << here << "/home PATH=" << here
            << "/bin:$PATH\nunset DISPLAY XDG_DATA_HOME "
               "XDG_CONFIG_HOME XDG_STATE_HOME\n"
            << typed << '\n';
        return run_in_shell("bash " + (folder_ / "typed").string() + " 2>&1 </dev/null");
    }

  private:
    TemporaryFolder folder_;
};

/// The commands below a command, as its help lists them.
std::vector<std::string> commands_below(const std::string& help) {
    std::vector<std::string> names;
    bool listed = false;
    for (const std::string& line : lines_of(help)) {
        if (line == "Subcommands:") {
            listed = true;
        } else if (listed && line.starts_with("  ") && line.size() > 2 && line[2] != ' ') {
            names.push_back(line.substr(2, line.find(' ', 2) - 2));
        } else if (line.empty() || line[0] != ' ') {
            listed = false;
        }
    }
    return names;
}

bool is_typed(const std::string& words) {
    for (const char* begin : {"dewtrail ", "./viewer/run ", "printf ", "source "})
        if (words.starts_with(begin)) return true;
    return false;
}

/// What follows 'Examples:' two blanks in; a backslash goes on with the next line.
std::vector<Example> examples_of_help(const std::string& help) {
    std::vector<Example> examples;
    bool begun = false, goes_on = false;
    for (const std::string& line : lines_of(help)) {
        const std::string words = trimmed(line);
        if (goes_on)
            examples.back().typed += '\n' + words;
        else if (begun && line.starts_with("  ") && line[2] != ' ' && is_typed(words))
            examples.push_back({words});
        else {
            begun = begun || words == "Examples:";
            continue;
        }
        goes_on = words.ends_with('\\');
    }
    return examples;
}

void add_help(const Desk& desk, const std::string& command, std::vector<Example>& examples) {
    const ShellOutcome help = desk.run(command + " --help");
    INFO(command);
    REQUIRE(help.code == 0);
    const auto own = examples_of_help(help.written);
    const auto below = commands_below(help.written);
    CHECK((!own.empty() || !below.empty() || command.starts_with("dewtrail sheet ")));
    for (const Example& example : own) {
        // Below 'sheet' all show the same ones.
        const auto same = [&](const Example& other) { return other.typed == example.typed; };
        if (std::none_of(examples.begin(), examples.end(), same)) examples.push_back(example);
    }
    for (const std::string& name : below) add_help(desk, command + " " + name, examples);
}

/// What stands four blanks in; behind a '$' its answer follows, up to a line that is not indented.
std::vector<Example> examples_of_page(const std::string& page) {
    std::vector<Example> examples;
    bool answers = false;
    for (const std::string& line : lines_of(content_of(fs::path(DEWTRAIL_SOURCE_DIR) / page))) {
        const bool block = line.starts_with("    ");
        const std::string words = trimmed(line),
                          shown = words.starts_with("$ ") ? words.substr(2) : words;
        if (block && is_typed(shown)) {
            examples.push_back({shown});
            answers = shown != words;
        } else if (block && answers && words != "…") {
            examples.back().answers.push_back(words);
        } else if (!block && !line.empty()) {
            answers = false;
        }
    }
    return examples;
}

/// What this machine or this build may lack.
bool lacks_something(const ShellOutcome& outcome) {
    if (outcome.code != 2 && outcome.code != 3) return false;
    for (const char* why :
         {"no display to open", "has no window", "ffmpeg, which makes animations, is not",
          "this build cannot read elevation files", "the page is not built yet"})
        if (outcome.written.find(why) != std::string::npos) return true;
    return false;
}

void check(const Desk& desk, const std::vector<Example>& examples) {
    for (const Example& example : examples) {
        const ShellOutcome outcome = desk.run(example.typed);
        INFO(example.typed << "\n" << outcome.written);
        CHECK((outcome.code == 0 || lacks_something(outcome)));
        for (const std::string& answer : example.answers) {
            INFO(answer);
            CHECK(outcome.written.find(answer) != std::string::npos);
        }
    }
}

}  // namespace

TEST_CASE("Every example of every help page runs as printed", "[examples]") {
    const Desk desk;
    std::vector<Example> examples;
    add_help(desk, "dewtrail", examples);
    CHECK(examples.size() > 50);
    check(desk, examples);
}

TEST_CASE("Every example of the README and of the coach's page runs as printed", "[examples]") {
    const auto first = examples_of_page("README.md"), coach = examples_of_page("viewer/COACH.md");
    CHECK(first.size() > 20);
    CHECK(coach.size() > 5);
    check(Desk(), first);
    check(Desk(), coach);
}
