#include "viewer/terminal/putt_options.hpp"

#include <fmt/format.h>

#include "viewer/text/glossary.hpp"

namespace dewtrail {
namespace {

constexpr const char* ground = "Ground";
constexpr const char* finish = "Finish";

void add_level_options(const Command& command, PuttRequest& r) {
    command.add_option("--up", r.up, "Uphill to the hole, as a level on the line shows: 1%")
        .group(ground);
    command.add_option("--down", r.down, "Downhill to the hole: 1%").group(ground);
    command.add_option("--falls-left", r.falls_left, "Across the line, falling to the left: 2%")
        .group(ground);
    command.add_option("--falls-right", r.falls_right, "Across the line, falling to the right: 2%")
        .group(ground);
}

void add_profile_options(const Command& command, PuttRequest& r) {
    command
        .add_option("--reading", r.readings,
                    "A reading on the line, again for each: '0,up 1%,left 2%' '5paces,…' 'hole,…'")
        .take_all()
        .group(ground);
    command.add_option("--rise", r.rise, "The hole is this much higher than the ball: 10in")
        .group(ground);
    command.add_option("--drop", r.drop, "The hole is this much lower: 10in").group(ground);
    command.add_option("--step-at", r.step_at, "The height is a step, its middle this far on: 12ft")
        .group(ground);
    command.add_option("--step-width", r.step_width, "… over this much of the line (4 ft)")
        .group(ground);
}

}  // namespace

void add_ground_options(const Command& command, PuttRequest& r) {
    command.add_option("--slope", r.slope, "Slope at the hole: 2%, 1.1deg, 1:40; 0 to 20 %")
        .group(ground);
    command.add_option("--green", r.green, "A green file, or the name of a known green")
        .group(ground);
    command.add_option("--hole", r.hole, "On a green: a hole's name, or x,y in metres")
        .group(ground);
    command
        .add_option("--stimp", r.stimp,
                    "Green speed: 10, 3m, slow, medium, quick, fast; 3 to 18 ft")
        .group(ground);
    command.add_flag("--wet", r.wet, "A wet green: takes 1½ ft off the stimp").group(ground);
}

void add_finish_options(const Command& command, PuttRequest& r) {
    command
        .add_option("--past", r.past,
                    fmt::format("Run this far past the hole: 12in, 'barely in', firm. {}",
                                explained(finish_word)->sentence))
        .group(finish);
    command.add_option("--hole-speed", r.hole_speed, "… or be this fast at the hole: 0.7m/s")
        .group(finish);
    command.add_flag("--die", r.die, "… or die at the hole (past 0)").group(finish);
}

void add_putt_options(const Command& command, PuttRequest& r) {
    command.add_option("distance", r.distance,
                       "Ball to hole: 12ft, 12ft6in, 3.6m, 4½paces; 0.15 to 40 m");
    add_ground_options(command, r);
    command
        .add_option("--clock", r.clock,
                    "Where the ball lies: 12 straight above the hole, 3 right of it")
        .group(ground);
    command.add_option("--ball", r.ball, "On a green: a ball spot's name, or x,y in metres")
        .group(ground);
    add_level_options(command, r);
    add_profile_options(command, r);
    add_finish_options(command, r);
}

void add_sure_options(const Command& command, PuttRequest& r) {
    command.add_option("--slope-sure", r.slope_sure,
                       "Slope known within this, 19 times in 20: 0.3%");
    command.add_option("--stimp-sure", r.stimp_sure,
                       "Stimp known within this, 19 times in 20: 0.5ft");
}

void add_condition_options(const Command& command, ConditionRequest& r) {
    constexpr const char* group = "Beyond the plain roll (all off)";
    command
        .add_option("--launch-spin", r.launch_spin,
                    "The ball skids first; its spin off the face, as a share of rolling: 0, -0.3")
        .group(group);
    command.add_option("--wind", r.wind, "Wind: 4m/s, 10mph, 15km/h").group(group);
    command
        .add_option("--wind-from", r.wind_from,
                    "… from the player's left or right, from the hole or the ball, or 90deg")
        .group(group);
    command.add_option("--wind-at", r.wind_at, "… read at this height (2m): 10m, ball")
        .group(group);
    command.add_option("--grain", r.grain, "Stimp down the grain and into it: 11ft/9ft")
        .group(group);
    command
        .add_option("--grain-toward", r.grain_toward,
                    "… the grass lies toward left, right, hole, ball, or 90deg")
        .group(group);
    command
        .add_option("--slow-share", r.slow_share,
                    "Resistance near rest, as a share of the stimp's average: 75%")
        .group(group);
}

PuttDefaults defaults_of(Session& session) {
    const Player& player = session.player();
    return {player.units(), player.usual_past_m, player.stimp_ft, green_folders()};
}

}  // namespace dewtrail
