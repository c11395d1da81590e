#include "viewer/practice/drill/plain_read.hpp"

#include <algorithm>
#include <cmath>

#include "physics/roll/green_speed.hpp"
#include "viewer/text/outcome.hpp"

namespace dewtrail {
namespace {

/// What a read with a ball this fast at the hole asks for.
struct AtSpeed {
    double angle_rad, level_roll_m;
};

std::optional<AtSpeed> line_at_speed(Putt putt, double speed_m_s) {
    putt.finish = speed_m_s > 0 ? Finish::hole_speed(speed_m_s) : Finish::past(0);
    const auto found = plain_read(putt, 0);
    if (!found) return std::nullopt;
    return AtSpeed{found->stroke.angle_rad, found->level_roll_m};
}

}  // namespace

std::optional<Read> plain_read(const Putt& putt, double player_past_m) {
    ReadOptions options;
    options.look_for_others = options.room = options.costs = false;
    options.usual_past_m = player_past_m;
    ReadResult result = read(putt, options);
    if (result.lines.empty()) return std::nullopt;
    return std::move(result.lines.front());
}

std::optional<FittingLine> line_for_pace(const Putt& putt, double level_roll_m) {
    const auto dying = line_at_speed(putt, 0);
    if (!dying) return std::nullopt;
    if (level_roll_m <= dying->level_roll_m) return FittingLine{dying->angle_rad, false};
    // The level roll grows almost straight with the square of the speed at the hole: secants.
    constexpr double close_m = 1e-7;
    double x0 = 0, f0 = dying->level_roll_m - level_roll_m;
    double x1 = -f0 * 2 * level_deceleration_m_s2(putt.resistance);
    for (int i = 0; i < 30; ++i) {
        const auto at = line_at_speed(putt, std::sqrt(x1));
        if (!at) return std::nullopt;
        const double f1 = at->level_roll_m - level_roll_m;
        if (std::abs(f1) < close_m) return FittingLine{at->angle_rad, true};
        if (f1 == f0) return std::nullopt;
        const double x2 = std::max(x1 - f1 * (x1 - x0) / (f1 - f0), 0.5 * std::min(x0, x1));
        x0 = x1, f0 = f1, x1 = x2;
    }
    return std::nullopt;
}

std::string_view miss_side(const Putt& putt, double offset_m) {
    return side_word(side_of(putt, offset_m));
}

}  // namespace dewtrail
