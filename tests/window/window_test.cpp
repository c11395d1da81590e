#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>
#include <SFML/Graphics/Image.hpp>

#include <catch2/catch.hpp>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <thread>

#include "viewer/picture/palette.hpp"
#include "viewer/putt/presets.hpp"
#include "window/driven_window.hpp"

using namespace dewtrail;
using namespace dewtrail::driven;
using Catch::WithinAbs;

namespace {

constexpr double exact = 1e-12;  // the same function called with the same numbers
constexpr double a_minute = 1.0 / 60;

/// What the command line says to the same putt.
Json told(const std::string& arguments) {
    const ShellOutcome outcome =
        run_in_shell(DEWTRAIL_PROGRAM " read --json " + arguments + " 2>/dev/null");
    return Json::parse(outcome.written);
}

void check_same_read(const Json& line, const std::string& arguments) {
    INFO(line.dump());
    const Json expected = told(arguments);
    REQUIRE_THAT(line["start"]["angle_deg"].get<double>(),
                 WithinAbs(expected["start"]["angle_deg"].get<double>(), exact));
    REQUIRE_THAT(line["start"]["speed_m_s"].get<double>(),
                 WithinAbs(expected["start"]["speed_m_s"].get<double>(), exact));
    REQUIRE(line["aim"]["words"] == expected["aim"]["words"]);
}

/// The ball's place comes by another way and differs by a rounding; on that may turn where the
/// search for an edge stops, and it stops within 2e-4 of the room: as much of a chance of one in
/// ten.
constexpr double same_odds = 2e-5;

void check_same_odds(const Json& line, const std::string& arguments) {
    INFO(line.dump());
    const Json expected = told(arguments)["odds"];
    REQUIRE(line["odds"]["fresh"] == true);
    for (const char* key : {"holed", "three_putt", "putts", "inside_3ft", "line_deg", "pace"})
        REQUIRE_THAT(line["odds"][key].get<double>(),
                     WithinAbs(expected[key].get<double>(), same_odds));
}

sf::Image screenshot(const std::string& arguments) {
    const auto file = std::filesystem::temp_directory_path() / "dewtrail-window-test.png";
    const ShellOutcome outcome = run_in_shell(DEWTRAIL_PROGRAM " window " + arguments +
                                              " --screenshot " + file.string() + " 2>&1");
    INFO(outcome.written);
    REQUIRE(outcome.code == 0);
    sf::Image image;
    REQUIRE(image.loadFromFile(file.string()));
    std::filesystem::remove(file);
    return image;
}

/// How many pixels of a box are nearly this colour: feathered edges leave a few in full.
int pixels_of(const sf::Image& image, const Colour& c, unsigned x, unsigned y, unsigned w,
              unsigned h) {
    const auto near = [](int a, int b) { return std::abs(a - b) <= 12; };
    int n = 0;
    for (unsigned j = y; j < y + h; ++j)
        for (unsigned i = x; i < x + w; ++i) {
            const sf::Color p = image.getPixel(i, j);
            n += near(p.r, c.r) && near(p.g, c.g) && near(p.b, c.b);
        }
    return n;
}

}  // namespace

TEST_CASE("the window shows the putt of the command line") {
    DrivenWindow window("12ft --slope 2% --clock 3 --stimp 10");
    check_same_read(window.last(), "12ft --slope 2% --clock 3 --stimp 10");
    REQUIRE(window.last()["undo"] == 0);
}

TEST_CASE("keys change the putt, and undo brings it back") {
    DrivenWindow window("12ft --slope 2% --clock 3 --stimp 10");
    window.key("bracketright");
    const Json moved = window.await("clock");
    REQUIRE_THAT(moved["putt"]["clock_h"].get<double>(), WithinAbs(3 + 5 * a_minute, 1e-9));
    REQUIRE(moved["undo"] == 1);
    window.key("period");
    REQUIRE_THAT(window.await("distance")["putt"]["distance_m"].get<double>(),
                 WithinAbs(13 * 0.3048, 1e-9));
    window.key("ctrl+z");
    window.await("undo");
    window.key("ctrl+z");
    check_same_read(window.await("undo"), "12ft --slope 2% --clock 3 --stimp 10");
    window.key("ctrl+y");
    REQUIRE_THAT(window.await("redo")["putt"]["clock_h"].get<double>(),
                 WithinAbs(3 + 5 * a_minute, 1e-9));
}

TEST_CASE("the ball is dragged round the hole in five-minute steps, one drag one step") {
    DrivenWindow window("12ft --slope 2% --clock 3 --stimp 10");
    const Json places = window.last()["places"];
    const double reach = places["ball"][0].get<double>() - places["hole"][0].get<double>();
    window.drag(places["ball"], -0.1 * reach, 0.45 * reach);
    const Json line = window.await("drop");
    REQUIRE(line["undo"] == 1);
    const double clock = line["putt"]["clock_h"];
    REQUIRE(clock > 3.5);
    REQUIRE_THAT(clock * 12, WithinAbs(std::round(clock * 12), 1e-6));
    REQUIRE_THAT(line["putt"]["distance_m"].get<double>(), WithinAbs(12 * 0.3048, 1e-9));
    window.key("ctrl+z");
    check_same_read(window.await("undo"), "12ft --slope 2% --clock 3 --stimp 10");
}

TEST_CASE("Esc puts a running drag back") {
    DrivenWindow window("12ft --slope 2% --clock 3 --stimp 10");
    const Json ball = window.last()["places"]["ball"];
    window.tool("mousemove " + std::to_string(ball[0].get<int>()) + " " +
                std::to_string(ball[1].get<int>()));
    window.tool("mousedown 1");
    window.tool("mousemove_relative -- -60 160");
    REQUIRE(window.await("drag-ball")["putt"]["clock_h"].get<double>() > 3);
    window.key("Escape");
    const Json line = window.await("cancel");
    window.tool("mouseup 1");
    REQUIRE(line["undo"] == 0);
    REQUIRE_THAT(line["putt"]["clock_h"].get<double>(), WithinAbs(3, exact));
}

TEST_CASE("a field is typed into, and what cannot be read is said") {
    DrivenWindow window("12ft --slope 2% --clock 3 --stimp 10");
    const Json stimp = window.last()["places"]["stimp"];
    window.click(stimp[0], stimp[1], 2);
    window.await("type");
    window.tool("type --delay 90 11.5");
    window.key("Return");
    check_same_read(window.await("typed-stimp"), "12ft --slope 2% --clock 3 --stimp 11.5");
    window.key("f");
    window.key("Return");
    window.await("type");
    window.tool("type --delay 90 nine");
    window.key("Return");
    const Json line = window.await("message");
    REQUIRE(line["message"].get<std::string>().find("nine") != std::string::npos);
    REQUIRE_THAT(line["putt"]["past_m"].get<double>(), WithinAbs(0.3048, exact));
}

TEST_CASE("Esc leaves the value, and nothing of what was typed is there the next time") {
    DrivenWindow window("12ft --slope 2% --clock 3 --stimp 10");
    window.key("t");
    window.key("Return");
    window.await("type");
    window.tool("type --delay 90 99");
    window.key("Escape");
    window.key("Return");
    REQUIRE(window.await("type")["putt"]["stimp_ft"] == 10);
    window.tool("type --delay 90 11");
    window.key("Return");
    check_same_read(window.await("typed-stimp"), "12ft --slope 2% --clock 3 --stimp 11");
}

TEST_CASE("Space rolls, J and L scrub, M slows") {
    DrivenWindow window("12ft --slope 2% --clock 3 --stimp 10");
    window.key("space");
    REQUIRE(window.await("roll")["running"] == true);
    const Json rolled = window.await("rolled");
    REQUIRE_FALSE(rolled.is_null());
    REQUIRE(rolled["time_s"] == rolled["end_s"]);
    window.key("j");
    const Json back = window.await("scrub");
    REQUIRE_THAT(back["end_s"].get<double>() - back["time_s"].get<double>(), WithinAbs(0.05, 1e-9));
    window.key("m");
    REQUIRE_FALSE(window.await("slow").is_null());
}

TEST_CASE("views, theme, units, detail and commit by their keys") {
    DrivenWindow window("12ft --slope 2% --clock 3 --stimp 10");
    for (const char* place : {"crouched", "standing", "behind the hole", "low side"}) {
        window.key("e");
        REQUIRE(window.await("eye")["view"].get<std::string>().find(place) != std::string::npos);
    }
    window.key("p");
    REQUIRE(window.await("plan")["view"] == "plan");
    window.key("d");
    REQUIRE(window.await("dusk")["theme"] == "dusk");
    window.key("u");
    REQUIRE(window.await("units")["units"] == "metric");
    window.key("k");
    REQUIRE(window.await("detail")["detail"] == true);
    window.key("c");
    REQUIRE(window.await("commit")["commit"] == true);
    window.key("ctrl+plus");
    REQUIRE(window.await("text")["text"] == 1.25);
    REQUIRE(window.running());
}

TEST_CASE("the odds are those of the command line, also after the ball has moved") {
    DrivenWindow window("12ft --slope 2% --clock 3 --stimp 10");
    check_same_odds(window.await("odds"), "12ft --slope 2% --clock 3 --stimp 10");
    window.key("period");
    const Json moved = window.await("distance");
    // Until they are worked out they are said to be old; on a slow screen they are there at once.
    if (moved["odds"]["fresh"] == true)
        check_same_odds(moved, "13ft --slope 2% --clock 3 --stimp 10");
    REQUIRE(moved["odds"]["chance"].is_number());
    check_same_odds(window.await("odds"), "13ft --slope 2% --clock 3 --stimp 10");
}

TEST_CASE("the spread is opened, chosen, kept in the player's file, and undone") {
    DrivenWindow window("12ft --slope 2% --clock 3 --stimp 10");
    window.await("odds");
    const Json words = window.last()["places"]["spread"];
    window.click(words[0], words[1]);
    window.await("spread");
    window.key("Tab");
    const Json tour = window.await("focus")["places"]["preset0"];
    window.click(tour[0], tour[1]);
    window.await("preset");
    const std::string player = " --player " + window.player_file();
    check_same_odds(window.await("odds"), "12ft --slope 2% --clock 3 --stimp 10" + player);
    REQUIRE(window.last()["odds"]["line_deg"] == find_spread("tour")->line_deg);
    window.key("ctrl+z");
    window.await("undo");
    check_same_odds(window.await("odds"), "12ft --slope 2% --clock 3 --stimp 10" + player);
    REQUIRE(window.last()["odds"]["line_deg"] == find_spread("middle")->line_deg);
    window.key("Escape");
    REQUIRE_FALSE(window.await("close-spread").is_null());
}

TEST_CASE("Room: a diamond and B take the best choice into the read") {
    DrivenWindow window("12ft --slope 2% --clock 3 --stimp 10");
    window.await("odds");
    window.key("r");
    REQUIRE(window.await("room")["view"] == "room");
    window.key("k");
    const Json most = window.await("detail")["places"]["most holed"];
    window.click(most[0], most[1]);
    const Json taken = window.await("best");
    REQUIRE(taken["undo"] == 1);
    REQUIRE(taken["putt"]["past_m"].get<double>() > 0.4);
    REQUIRE(window.await("odds")["odds"]["taken"].get<std::string>().find("most holed") !=
            std::string::npos);
    window.key("b");
    REQUIRE(window.await("best")["putt"]["past_m"].get<double>() < 0.4);
    window.key("p");
    REQUIRE(window.await("plan")["view"] == "plan");
    window.key("ctrl+z");
    window.await("undo");
    window.key("ctrl+z");
    check_same_read(window.await("undo"), "12ft --slope 2% --clock 3 --stimp 10");
}

TEST_CASE("where nothing stops, the button takes the slowest arrival") {
    DrivenWindow window("12ft --slope 9% --clock 12 --stimp 12");
    const Json line = window.last();
    REQUIRE(line["start"].is_null());
    REQUIRE(line["message"].get<std::string>().find("Nothing stops") == 0);
    window.click(line["places"]["offer"][0], line["places"]["offer"][1]);
    REQUIRE_FALSE(window.await("use-offer")["start"].is_null());
}

TEST_CASE("a green is opened from the list, and its ball goes where it is dragged") {
    DrivenWindow window("12ft --slope 2% --clock 3");
    window.key("ctrl+o");
    window.await("greens");
    window.key("Down");
    window.key("Return");
    const Json line = window.await("open-green");
    REQUIRE_FALSE(line["putt"]["green"].is_null());
    window.drag(window.last()["places"]["ball"], 30, -40);
    const Json dropped = window.await("drop");
    REQUIRE_FALSE(dropped.is_null());
    REQUIRE(dropped["putt"]["ball_x_m"] != line["putt"]["ball_x_m"]);
}

TEST_CASE("the picture holds trail, start line and hole in their colours, in both themes") {
    for (const Theme theme : {Theme::dew, Theme::dusk}) {
        const bool dew = theme == Theme::dew;
        const sf::Image image =
            screenshot(std::string("12ft --slope 2% --clock 3 --theme ") + (dew ? "dew" : "dusk"));
        const Palette& c = palette(theme);
        REQUIRE(image.getSize() == sf::Vector2u(1280, 800));
        // On the green: a trail some 700 px long and 9 wide, a start line 2.6 px wide.
        CHECK(pixels_of(image, c.trail, 0, 60, 900, 570) > 3000);
        CHECK(pixels_of(image, c.copper, 0, 60, 900, 570) > 1000);
        CHECK(pixels_of(image, c.paper, 910, 60, 360, 730) > 200000);
    }
}

TEST_CASE("the window goes no smaller than its least size, and works there") {
    DrivenWindow window("12ft --slope 2% --clock 3 --stimp 10");
    window.tool("search --onlyvisible --name Dewtrail windowsize 200 150");
    window.key("bracketright");
    REQUIRE_FALSE(window.await("clock").is_null());
    const std::string size =
        run_in_shell("xdotool search --onlyvisible --name Dewtrail getwindowgeometry --shell")
            .written;
    INFO(size);
    CHECK(size.find("WIDTH=1024\n") != std::string::npos);
    CHECK(size.find("HEIGHT=640\n") != std::string::npos);
    const Json places = window.last()["places"];
    INFO(places.dump());
    window.drag(places["ball"], -30, 80);
    REQUIRE_FALSE(window.await("drop").is_null());
}

TEST_CASE("the largest picture is drawn whole") {
    const sf::Image image = screenshot("12ft --slope 2% --clock 3 --size 7680x4320");
    REQUIRE(image.getSize() == sf::Vector2u(7680, 4320));
    const Palette& c = palette(Theme::dew);
    CHECK(pixels_of(image, c.trail, 0, 60, 7300, 4000) > 3000);
    CHECK(pixels_of(image, c.paper, 7310, 60, 360, 4200) > 1'000'000);
}

TEST_CASE("a page that was printed is opened, and so is its folder, by the desktop") {
    DrivenWindow window("12ft --slope 2% --clock 3");
    const std::filesystem::path shown = window.folder() + "/shown",
                                opener = window.folder() + "/xdg-open";
    std::ofstream(opener) << "#!/bin/sh\necho \"$1\" >> " << shown.string() << "\n";
    std::filesystem::permissions(opener, std::filesystem::perms::owner_all);
    window.key("ctrl+p");
    window.await("pages");
    window.key("Return");
    const Json places = window.await("print")["places"];
    const std::string page = window.folder() + "/read-12ft-2pct-at-3.00.pdf";
    CHECK(content_of(page).starts_with("%PDF"));
    for (const char* button : {"made0", "made1"}) {
        window.click(places[button][0], places[button][1]);
        window.await("show-file");
    }
    window.end_it();
    CHECK(window.exit_code() == 0);
    std::ifstream lines(shown);
    std::vector<std::string> told(2);
    for (std::string& line : told) std::getline(lines, line);
    std::sort(told.begin(), told.end());
    CHECK(told == std::vector<std::string>{window.folder(), page});
}

TEST_CASE("without a display: one sentence and exit code 3") {
    for (const std::string display : {"env -u DISPLAY ", "env DISPLAY=:987 "}) {
        const ShellOutcome outcome =
            run_in_shell(display + DEWTRAIL_PROGRAM " window 12ft --slope 2% --clock 3 2>&1");
        REQUIRE(outcome.code == 3);
        REQUIRE(outcome.written.find("display") != std::string::npos);
    }
}

TEST_CASE("told to end, the window closes as by hand; its putt is found again") {
    DrivenWindow window("");
    window.key("bracketright");
    REQUIRE_FALSE(window.await("clock").is_null());
    window.end_it();
    CHECK(window.exit_code() == 0);
    const std::string text = content_of(window.folder() + "/dewtrail/putt.toml");
    CHECK(text.find("clock_h = 3.08") != std::string::npos);  // five minutes past three
}

TEST_CASE("a display that goes away ends the window with one line; its putt is found again") {
    // A server of its own, to be killed.
    const std::string number = ":" + std::to_string(200 + getpid() % 500);
    const pid_t server = fork();
    if (server == 0) {
        execlp("Xvfb", "Xvfb", number.c_str(), "-screen", "0", "1300x820x24", nullptr);
        _exit(127);
    }
    const std::string before = std::getenv("DISPLAY");
    setenv("DISPLAY", number.c_str(), 1);
    std::this_thread::sleep_for(std::chrono::seconds(1));
    {
        DrivenWindow window("");
        window.key("bracketright");
        REQUIRE_FALSE(window.await("clock").is_null());
        std::this_thread::sleep_for(std::chrono::milliseconds(500));
        kill(server, SIGKILL);
        CHECK(window.exit_code() == 3);
        setenv("DISPLAY", before.c_str(), 1);
        const std::string text = content_of(window.folder() + "/dewtrail/putt.toml");
        CHECK(text.find("clock_h = 3.08") != std::string::npos);  // five minutes past three
    }
    waitpid(server, nullptr, 0);
    setenv("DISPLAY", before.c_str(), 1);
}
