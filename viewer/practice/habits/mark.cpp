#include "viewer/practice/habits/mark.hpp"

#include <algorithm>
#include <cmath>

#include "physics/odds/best_choice.hpp"
#include "physics/odds/misses.hpp"
#include "physics/roll/green_speed.hpp"
#include "viewer/putt/presets.hpp"
#include "viewer/putt/putt_request.hpp"
#include "viewer/text/outcome.hpp"

namespace dewtrail {
namespace {

ReadOptions plain_options() {
    ReadOptions options;
    options.look_for_others = options.room = options.costs = false;
    return options;
}

/// Start angle and level roll, as the physics spreads them.
struct Played {
    double angle_rad, level_roll_m;
};

Played played_of(const Read& read) {
    return {read.stroke.angle_rad, read.level_roll_m};
}

/// The finish with a ball this fast at the hole.
std::optional<Played> line_at_speed(Putt putt, double speed_m_s) {
    putt.finish = speed_m_s > 0 ? Finish::hole_speed(speed_m_s) : Finish::past(0);
    const auto found = plain_read(putt, 0);
    if (!found) return std::nullopt;
    return played_of(*found);
}

/// Expected putts and chances of strokes on one putt.
class Table {
  public:
    Table(const Putt& putt, const Scatter& scatter, const NextPutts& next)
        : putt_(putt), scatter_(scatter), next_(next) {}

    /// Takes all strokes at once: the map must cover them.
    bool make(const std::vector<Played>& strokes, const Stroke& around) {
        StrokeWindow window = window_of(spread(strokes.front(), 1));
        for (const Played& stroke : strokes) {
            const StrokeWindow more = window_of(spread(stroke, 1));
            window.angle_rad.lo = std::min(window.angle_rad.lo, more.angle_rad.lo);
            window.angle_rad.hi = std::max(window.angle_rad.hi, more.angle_rad.hi);
            window.level_roll_m.lo = std::min(window.level_roll_m.lo, more.level_roll_m.lo);
            window.level_roll_m.hi = std::max(window.level_roll_m.hi, more.level_roll_m.hi);
        }
        map_ = StrokeMap::make(putt_, around, window);
        return map_.has_value();
    }

    double putts(const Played& stroke) const {
        return play(*map_, spread(stroke, 1), next_.table(), fine).putts;
    }

    /// What the score is based on, with half the spread.
    double chance(const Played& stroke) const {
        const StrokeSpread half = spread(stroke, 0.5);
        if (putt_.distance_m() <= lag_distance_m) return chance_to_hole(*map_, half);
        return odds(*map_, half, next_).inside_3ft;
    }

  private:
    StrokeSpread spread(const Played& stroke, double share) const {
        const Scatter less{scatter_.line_rad * share, scatter_.pace * share,
                           scatter_.pace_floor_m * share, 0};
        return stroke_spread(stroke.angle_rad, stroke.level_roll_m, less, Eigen::Matrix2d::Zero());
    }

    const Putt& putt_;
    Scatter scatter_;
    const NextPutts& next_;
    std::optional<StrokeMap> map_;
};

double fewest_putts(const Putt& putt, const Scatter& scatter, const NextPutts& next) {
    Scatter struck = scatter;
    struck.slope_read = 0;
    const auto best = best_choice(putt, struck, next);
    return best ? best->fewest_putts.odds.putts : HUGE_VAL;
}

bool is_high(const Putt& putt, double offset_m) {
    return miss_side(putt, offset_m) == "high";
}

}  // namespace

std::optional<Read> plain_read(const Putt& putt, double player_past_m) {
    ReadOptions options = plain_options();
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

std::string_view head_words(ReadOutcome outcome) {
    switch (outcome) {
        case ReadOutcome::holed:
            return "Holed";
        case ReadOutcome::high_edge:
            return "Holed, off the high edge";
        case ReadOutcome::just_low:
            return "Just missed, low side";
        case ReadOutcome::just_high:
            return "Just missed, high side";
        case ReadOutcome::low:
            return "Missed low";
        case ReadOutcome::high:
            return "Missed high";
        case ReadOutcome::just_wide:
            return "Just missed";
        case ReadOutcome::wide:
            return "Missed wide";
        case ReadOutcome::short_of_hole:
            return "Short";
        case ReadOutcome::past_hole:
            return "Long";
    }
    return "";
}

ReadOutcome read_outcome(const Putt& putt, const Read& rolled) {
    const Roll& roll = rolled.roll;
    if (roll.rim && rolled.entry.holed) {
        const bool edge = std::abs(rolled.entry.offset_m) > 0.5 * hole_radius_m;
        return edge && is_high(putt, rolled.entry.offset_m) ? ReadOutcome::high_edge
                                                            : ReadOutcome::holed;
    }
    if (roll.rim) return ReadOutcome::past_hole;
    const Vec2 nearest = roll.pass.value_or(roll.last).at;
    const PlayerPoint at = in_player_frame(putt, nearest);
    const double miss_m = (nearest - putt.hole).norm();
    // Farther before the hole than to its side: it was not hit enough.
    const double before_m = putt.distance_m() - at.along_m;
    if (before_m > std::max(hole_radius_m, std::abs(at.offset_m)))
        return ReadOutcome::short_of_hole;
    const bool just = miss_m - hole_radius_m < 2 * ball_radius_m;
    const std::string_view side = miss_side(putt, at.offset_m);
    if (side == "low") return just ? ReadOutcome::just_low : ReadOutcome::low;
    if (side == "high") return just ? ReadOutcome::just_high : ReadOutcome::high;
    return just ? ReadOutcome::just_wide : ReadOutcome::wide;
}

std::optional<Mark> mark(const Putt& putt, double aim_m, double level_putt_m, const Spread& spread,
                         double player_past_m) {
    const auto best = plain_read(putt, player_past_m);
    const double level_roll = std::max(level_putt_m + player_past_m, metres_per_inch);
    const auto fitting = line_for_pace(putt, level_roll);
    const auto surround = HoleSurround::make(putt.surface, putt.resistance, putt.hole);
    if (!best || !fitting || !surround) return std::nullopt;

    Mark result;
    result.best = *best;
    result.fitting = *fitting;
    const double distance = putt.distance_m(), angle = std::atan2(aim_m, distance);
    const Played read = played_of(*best), said{angle, level_roll};
    const Played line_only{read.angle_rad + angle - fitting->angle_rad, read.level_roll_m};
    const Played pace_only{fitting->angle_rad, level_roll};
    const Scatter scatter = scatter_of(spread);
    const NextPutts next(*surround, scatter);
    Table table(putt, scatter, next);
    if (!table.make({read, said, line_only, pace_only}, best->stroke)) return std::nullopt;

    const double plain = table.putts(read);
    const double fewest = std::min(plain, fewest_putts(putt, scatter, next));
    result.lost = std::max(0.0, table.putts(said) - fewest);
    result.line_lost = std::max(0.0, table.putts(line_only) - plain);
    result.pace_lost = std::max(0.0, table.putts(pace_only) - plain);
    const double chance = table.chance(read);
    result.score = chance > 0 ? std::min(10.0, std::round(10 * table.chance(said) / chance)) : 10;
    result.fit_aim_m = distance * std::tan(fitting->angle_rad);
    if (std::abs(result.fit_aim_m) >= least_break_m) result.break_share = aim_m / result.fit_aim_m;
    result.pace_share = level_roll / best->level_roll_m;
    ReadOptions options = plain_options();
    options.usual_past_m = player_past_m;
    result.played = describe_stroke(
        putt, {angle, speed_of_level_roll_m_s(level_roll, putt.resistance)}, options);
    result.outcome = read_outcome(putt, result.played);
    return result;
}

}  // namespace dewtrail
