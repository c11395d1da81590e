#include "physics/roll/roll.hpp"

#include <stdexcept>
#include <string>

#include "physics/roll/following.hpp"

namespace dewtrail {
namespace {

constexpr std::size_t usual_path = 160;  // points of a few seconds

template <int P>
SensitiveRoll rolled(const Surface& surface, double resistance, const Launch& launch,
                     const RollOptions& options) {
    check_roll(resistance, launch, options);
    RollLog log;
    log.from = launch.from;
    log.bearing_rad = launch.bearing_rad;
    log.heading = along_bearing(launch.bearing_rad);
    if (options.hole) log.line = (*options.hole - launch.from).normalized();
    Roll& roll = log.result.roll;
    const Conditions& conditions = options.conditions;
    std::optional<Forces> forces;
    if (!conditions.plain()) forces.emplace(conditions);
    const Forces* acting = forces ? &*forces : nullptr;
    Asked asked;
    if (options.keep_path) {
        roll.path.reserve(usual_path);
        roll.path.push_back({0, launch.from, launch.bearing_rad, launch.speed_m_s, 0});
    }

    auto start = RollingBall<P>::start(surface, launch);
    bool over = false;
    if (conditions.launch_spin && *conditions.launch_spin != 1) {
        Following skid(SkiddingBall<P>{surface, acting, &asked}, options, log);
        over = skid.run(SkiddingBall<P>::start(surface, launch, *conditions.launch_spin));
        start = SkiddingBall<P>::rolling(skid.state());
        if (!over) roll.rolls_from = skid.point(skid.state());
    }
    if (!over)
        Following(RollingBall<P>{surface, resistance, acting, &asked}, options, log).run(start);
    roll.evaluations = asked.evaluations;
    if (options.keep_path) roll.path.push_back(roll.last);
    return log.result;
}

}  // namespace

const char* describe(RollEnd end) {
    switch (end) {
        case RollEnd::at_rest:
            return "at rest";
        case RollEnd::left_the_green:
            return "left the green";
        case RollEnd::airborne:
            return "left the ground";
        case RollEnd::keeps_rolling:
            return "keeps rolling";
        case RollEnd::budget_used_up:
            return "step budget used up";
        case RollEnd::at_rim:
            return "at the rim";
    }
    return "";
}

void check_roll(double resistance, const Launch& launch, const RollOptions& options) {
    const auto positive = [](double value, const char* name) {
        if (!(value > 0) || !std::isfinite(value))
            throw std::invalid_argument(std::string(name) + " must be positive and finite, got " +
                                        std::to_string(value));
    };
    positive(resistance, "resistance");
    positive(launch.speed_m_s, "speed_m_s");
    positive(options.tolerance, "tolerance");
    check(options.conditions);
    if (!launch.from.allFinite() || !std::isfinite(launch.bearing_rad))
        throw std::invalid_argument("launch place and bearing must be finite");
}

Roll roll(const Surface& surface, double resistance, const Launch& launch,
          const RollOptions& options) {
    return rolled<0>(surface, resistance, launch, options).roll;
}

SensitiveRoll roll_with_sensitivities(const Surface& surface, double resistance,
                                      const Launch& launch, const RollOptions& options,
                                      bool with_ground) {
    return with_ground ? rolled<5>(surface, resistance, launch, options)
                       : rolled<2>(surface, resistance, launch, options);
}

}  // namespace dewtrail
