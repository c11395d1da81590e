// The command read as a user sees it: text and JSON.

#include <catch2/catch.hpp>
#include <cmath>

#include "tests/viewer/terminal/command_line.hpp"
#include "viewer/text/english.hpp"
#include "viewer/text/glossary.hpp"

using namespace dewtrail;
using Catch::WithinAbs;
using Catch::Matchers::Contains;

namespace {

Said read_says(const std::string& more) {
    return dewtrail_says("read " + more);
}

}  // namespace

TEST_CASE("A read leads with what a player uses") {
    const Said said = dewtrail_says(of_side_hill("read"));
    REQUIRE(said.exit == Exit::done);
    CHECK_THAT(said.out, Contains("12 ft, 2 %, ball at 3:00, stimp 10, a foot past"));
    CHECK_THAT(said.out, Contains("Right to left"));
    CHECK_THAT(said.out, Contains("three cups out right (15 in from the centre)"));
    CHECK_THAT(said.out, Contains("play it as a straight level 12-footer"));
    CHECK_THAT(said.out, Contains("just past halfway, 5 in high; start line passes 4 in above it"));
    CHECK_THAT(said.out, !Contains("deg"));
    CHECK_THAT(said.err, Contains("Rule 4.3a"));
    CHECK(lines_in(said.err) == 1);
}

TEST_CASE("The usual finish is explained where nobody chose it, and in the help") {
    const std::string sentence(explained(finish_word)->sentence);
    CHECK_THAT(sentence, Contains("a foot until you type another"));
    CHECK_THAT(dewtrail_says("read --help").out, Contains(sentence));
    const std::string told = "The finish (--past) is " + uncapital(sentence);
    CHECK_THAT(dewtrail_says(of_side_hill("read")).out, Contains(told));
    for (const char* chosen : {"--past 12in", "--past firm", "--die", "--hole-speed 0.7m/s"})
        CHECK_THAT(dewtrail_says(of_side_hill("read", chosen)).out, !Contains(told));
    // Beyond 30 ft it is another, which a note says.
    CHECK_THAT(dewtrail_says("read 40ft --slope 1% --clock 3").out, !Contains(told));
}

TEST_CASE("Coach detail adds degrees and speeds") {
    const std::string arguments = of_side_hill("read", "--detail");
    const Said said = dewtrail_says(arguments);
    CHECK_THAT(said.out, Contains("5.9° right"));
    CHECK_THAT(said.out, Contains("6.8 ft/s"));
}

TEST_CASE("JSON has the contract's keys, SI, and reads back to the same doubles") {
    const std::string arguments = of_side_hill("read", "--json");
    const Said said = dewtrail_says(arguments);
    REQUIRE(said.exit == Exit::done);
    const Json json = said.json();
    using Names = std::vector<std::string>;
    const auto keys = [](const Json& object) {
        Names names;
        for (const auto& [key, value] : object.items()) names.push_back(key);
        return names;
    };
    CHECK(keys(json) == Names{"putt", "start", "aim", "stand_in_hole", "apex", "turns", "arrival",
                              "entry", "room", "odds", "costs", "sure", "check", "notes"});
    CHECK(keys(json["putt"]) == Names{"green", "ball", "hole", "ball_x_m", "ball_y_m", "hole_x_m",
                                      "hole_y_m", "distance_m", "stimp_ft", "slope", "clock_h",
                                      "past_m", "hole_speed_m_s"});
    CHECK(keys(json["start"]) == Names{"angle_deg", "speed_m_s", "level_roll_m", "level_putt_m",
                                       "spot_along_m", "spot_offset_m"});
    CHECK(keys(json["apex"]) == Names{"along_m", "offset_m", "line_above_m"});
    CHECK(keys(json["entry"]) ==
          Names{"speed_m_s", "offset_m", "time_s", "clock_h", "holed", "how"});
    CHECK(keys(json["check"]) == Names{"miss_m", "finish_error_m", "finish_error_m_s"});
    CHECK(json["putt"]["ball_x_m"].get<double>() == 3.6576);
    CHECK(json["putt"]["ball_y_m"].get<double>() == 0.0);
    // Computed for the design pages by other means, to the digits given there.
    CHECK_THAT(json["start"]["angle_deg"].get<double>(), WithinAbs(5.91, 0.005));
    CHECK_THAT(json["aim"]["offset_m"].get<double>() / 0.0254, WithinAbs(14.90, 0.005));
    CHECK_THAT(json["entry"]["clock_h"].get<double>(), WithinAbs(5 + 34.0 / 60, 0.5 / 60));
    CHECK(json["check"]["miss_m"].get<double>() < 1e-4);
    CHECK(Json::parse(json.dump()) == json);
}

TEST_CASE("The same slope in every way gives the same read") {
    const double expected =
        read_says("12ft --slope 2% --clock 3 --stimp 10 --json").json()["start"]["angle_deg"];
    const std::vector<std::string> ways = {
        "12ft --falls-left 2% --stimp 10",
        "\"12'\" --slope 1:50 --clock 3:00 --stimp 10ft",
        "3.6576m --slope 2 --clock 3 --stimp 3.048m",
        "12ft --reading '0,left 2%' --reading 'hole,left 2%' --stimp 10",
        "12ft --slope 12mm/60cm --clock 3 --stimp 10",
        "12ft --slope 2.5%/-1.5% --clock 3 --stimp 10",
        "12ft --falls-left 2% --rise 0in --stimp 10"};
    for (const std::string& way : ways) {
        INFO(way);
        const Said said = read_says(way + " --json");
        REQUIRE(said.exit == Exit::done);
        // Curved surfaces are solved by shooting: 1e-6 m at 3.7 m.
        CHECK_THAT(said.json()["start"]["angle_deg"].get<double>(), WithinAbs(expected, 5e-5));
    }
}

TEST_CASE("A height is a slope over the whole putt, or a step") {
    const Json whole = read_says("20ft --rise 4.8in --stimp 10 --json").json();
    CHECK_THAT(whole["putt"]["slope"].get<double>(), WithinAbs(0.02, 1e-12));
    CHECK_THAT(whole["putt"]["clock_h"].get<double>(), WithinAbs(6, 1e-12));
    const Json step = read_says("20ft --rise 4.8in --step-at 10ft --json").json();
    // Climbing early or late costs the same energy; only the load on the step differs a little.
    CHECK_THAT(step["start"]["speed_m_s"].get<double>(),
               WithinAbs(whole["start"]["speed_m_s"].get<double>(), 0.03));
}

TEST_CASE("Mirrored putts read mirrored") {
    const Json right = read_says("15ft --slope 2.5% --clock 2 --json").json();
    const Json left = read_says("15ft --slope 2.5% --clock 10 --json").json();
    CHECK_THAT(right["start"]["angle_deg"].get<double>(),
               WithinAbs(-left["start"]["angle_deg"].get<double>(), 1e-9));
    CHECK_THAT(right["apex"]["line_above_m"].get<double>(),
               WithinAbs(left["apex"]["line_above_m"].get<double>(), 1e-9));
}

TEST_CASE("Defaults that were used are told") {
    const Json plain = dewtrail_says("read 12ft --json").json();
    CHECK_THAT(plain["notes"].dump(), Contains("no slope given: taken as level"));
    CHECK_THAT(plain["notes"].dump(), Contains("no stimp given: taken as 10"));
    CHECK(plain["apex"].is_null());
    CHECK(plain["putt"]["clock_h"].is_null());
    const Json lag = dewtrail_says("read 40ft --json").json();
    CHECK_THAT(lag["notes"].dump(), Contains("beyond 30 ft: finish taken as 3 in past"));
    CHECK_THAT(lag["putt"]["past_m"].get<double>(), WithinAbs(0.0762, 1e-12));
    const Json wet = dewtrail_says("read 12ft --stimp fast --wet --json").json();
    CHECK_THAT(wet["putt"]["stimp_ft"].get<double>(), WithinAbs(11, 1e-12));
}

TEST_CASE("Dead weight has no heading at the hole") {
    const Json json = read_says("10ft --slope 2% --clock 3 --stimp 10 --die --json").json();
    CHECK(json["arrival"]["angle_deg"].is_null());
    CHECK_THAT(json["arrival"]["past_m"].get<double>(), WithinAbs(0, 1e-6));
    CHECK_THAT(json["putt"]["past_m"].get<double>(), WithinAbs(0, 0));
}

TEST_CASE("No line: why, with the numbers, exit 1") {
    const std::string steep = "35ft --slope 9% --clock 12 --stimp 12 --past 12in";
    const Said text = read_says(steep);
    CHECK(text.exit == Exit::no_answer);
    CHECK(text.out.empty());
    CHECK_THAT(text.err, Contains("No line: on 9 % at stimp 12 nothing stops"));
    const Json error = read_says(steep + " --json").json()["error"];
    CHECK(error["kind"] == "no_line");
    CHECK(error["friction_over_slope"].get<double>() < 1);
    // Straight down: v^2 = 2 (g' - f) d, derived here.
    const double tangent = 0.09, cosine = 1 / std::sqrt(1 + tangent * tangent);
    const double rho = 0.7 * 1.8288 * 1.8288 / (9.80665 * 12 * 0.3048);
    const double pull = 5.0 / 7 * 9.80665 * cosine * (tangent - rho);
    CHECK_THAT(error["least_arrival_m_s"].get<double>(),
               WithinAbs(std::sqrt(2 * pull * 35 * 0.3048 / cosine), 1e-9));
}

TEST_CASE("A steep slope has two lines for a hole speed, and --all-lines lists both") {
    const std::string steep = "10ft --slope 9% --clock 3 --stimp 12 --hole-speed 1.8m/s --json";
    const Json one = read_says(steep).json();
    CHECK_THAT(one["notes"].dump(), Contains("another line holes it too"));
    const Json both = read_says(steep + " --all-lines").json();
    REQUIRE(both["lines"].size() == 2);
    CHECK(std::abs(both["lines"][0]["start"]["angle_deg"].get<double>()) <
          std::abs(both["lines"][1]["start"]["angle_deg"].get<double>()));
}

TEST_CASE("Too fast to drop is still a read") {
    const Said said = dewtrail_says("read 12ft --hole-speed 2m/s --json");
    CHECK(said.exit == Exit::done);
    CHECK(said.json()["entry"]["holed"] == false);
    CHECK(said.json()["room"].is_null());
    CHECK_THAT(said.json()["notes"].dump(), Contains("too fast to drop"));
}

TEST_CASE("The path runs from ball to rest") {
    const std::string arguments = of_side_hill("read", "--path --json");
    const Json path = dewtrail_says(arguments).json()["path"];
    REQUIRE(path.size() > 50);
    CHECK(path.front()[0] == 0.0);
    CHECK_THAT(path.front()[1].get<double>(), WithinAbs(3.6576, 1e-12));
    CHECK(path.back()[3] == 0.0);
}

TEST_CASE("A band for what is not known for sure") {
    const std::string arguments = of_side_hill("read", "--slope-sure 0.5% --stimp-sure 1ft --json");
    const Json json = dewtrail_says(arguments).json();
    const double half = std::hypot(0.5 * json["costs"]["aim_m_per_slope_percent"].get<double>(),
                                   json["costs"]["aim_m_per_stimp_ft"].get<double>());
    const double aim = json["aim"]["offset_m"];
    CHECK_THAT(json["sure"]["aim_m"][0].get<double>(), WithinAbs(aim - half, 1e-12));
    CHECK_THAT(json["sure"]["aim_m"][1].get<double>(), WithinAbs(aim + half, 1e-12));
}

TEST_CASE("Skid, wind and grain are read, told and marked") {
    const std::string arguments =
        of_side_hill("read", "--launch-spin 0 --wind 4m/s --wind-from left --wind-at ball --json");
    const Said said = dewtrail_says(arguments);
    REQUIRE(said.exit == Exit::done);
    const Json json = said.json();
    CHECK(json["putt"]["conditions"]["launch_spin"] == 0);
    CHECK(json["skid"]["roll_speed_m_s"].get<double>() < json["start"]["speed_m_s"].get<double>());
    CHECK(json["skid"]["length_m"].get<double>() > 0.3);
    CHECK(json["check"]["miss_m"].get<double>() < 1e-4);
    CHECK(json["notes"].dump().find("estimate") != std::string::npos);
    // The plain read holds no trace of it, and its odds are others.
    const Json plain = dewtrail_says(of_side_hill("read", "--json")).json();
    CHECK_FALSE(plain.contains("skid"));
    const double chance = json["odds"]["holed"].get<double>();
    CHECK(chance > 0);
    CHECK(chance < 1);
    CHECK(chance != plain["odds"]["holed"].get<double>());
}

TEST_CASE("A read on a shipped green, with named and measured places") {
    const Said named = dewtrail_says("read --green bench --hole front --json 12ft --clock 4");
    REQUIRE(named.exit == Exit::done);
    CHECK(named.json()["putt"]["hole"] == "front");
    CHECK_THAT(named.json()["putt"]["distance_m"].get<double>(), WithinAbs(3.6576, 1e-9));
    CHECK_THAT(named.json()["putt"]["clock_h"].get<double>(), WithinAbs(4, 1e-9));
    for (const std::string green : {"turtle", "stairs", "saddle", "meadow"}) {
        INFO(green);
        const Said shown = dewtrail_says("green show " + green + " --json");
        CHECK(shown.exit == Exit::done);
    }
}
