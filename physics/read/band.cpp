#include "physics/read/band.hpp"

#include <cmath>
#include <stdexcept>
#include <vector>

#include "physics/roll/green_speed.hpp"
#include "physics/surface/tilted.hpp"

namespace dewtrail {
namespace {

constexpr double most_band_bend = 0.1;  ///< of the half-width

Putt with_tilt(Putt putt, const Vec2& tilt) {
    if (const auto* plane = dynamic_cast<const Plane*>(putt.surface.get()))
        putt.surface = std::make_shared<Plane>(plane->gradient() + tilt);
    else
        putt.surface = std::make_shared<Tilted>(putt.surface, tilt, putt.hole);
    return putt;
}

Putt with_stimp(Putt putt, double more_m) {
    const double stimp = stimp_of_resistance(putt.resistance) + more_m;
    putt.resistance = stimp > 0 ? resistance_of_stimp(stimp) : 0;
    return putt;
}

std::optional<Read> line_of(const Putt& putt, double usual_past_m) {
    if (!(putt.resistance > 0)) return std::nullopt;
    ReadOptions options;
    options.usual_past_m = usual_past_m;
    options.look_for_others = options.room = options.costs = false;
    ReadResult result = read(putt, options);
    if (result.lines.empty()) return std::nullopt;
    return result.lines.front();
}

struct Ends {
    std::optional<double> aim_m, level_putt_m;
};

Ends ends_of(const std::optional<Read>& read) {
    if (!read) return {};
    return {read->aim_offset_m, read->level_putt_m};
}

/// Whether `mid` lies on the line between what both ends give.
bool straight(const std::optional<double>& mid, const std::optional<double>& low,
              const std::optional<double>& high, const std::optional<double>& half) {
    if (!mid || !half) return true;
    return low && high && std::abs(0.5 * (*low + *high) - *mid) <= most_band_bend * *half;
}

std::optional<double> root_sum(double a, const std::optional<double>& per_a, double b,
                               const std::optional<double>& per_b) {
    if ((a > 0 && !per_a) || (b > 0 && !per_b)) return std::nullopt;
    return std::hypot(a * per_a.value_or(0), b * per_b.value_or(0));
}

/// By the slope as it is known: up the fall line, or, where there is none, whichever way it may
/// fall.
std::optional<double> per_slope(const std::optional<double>& up, const std::optional<double>& cross,
                                bool falls) {
    return falls || !up || !cross ? up : std::hypot(*up, *cross);
}

}  // namespace

Band band_of(const Putt& putt, const Read& read, const Sure& sure) {
    if (!(sure.slope >= 0) || !(sure.stimp_m >= 0))
        throw std::invalid_argument("band: half-widths must not be negative");
    const Costs& c = read.costs;
    const auto uphill = uphill_at_hole(putt);
    const auto aim_per_slope =
        per_slope(c.aim_m_per_slope, c.aim_m_per_cross_slope, uphill.has_value());
    const auto pace_per_slope =
        per_slope(c.level_putt_m_per_slope, c.level_putt_m_per_cross_slope, uphill.has_value());
    Band band{root_sum(sure.slope, aim_per_slope, sure.stimp_m, c.aim_m_per_stimp_m),
              root_sum(sure.slope, pace_per_slope, sure.stimp_m, c.level_putt_m_per_stimp_m)};
    const auto compare = [&](const Putt& low, const Putt& high) {
        const double usual = read.level_roll_m - read.level_putt_m;
        const Ends a = ends_of(line_of(low, usual)), b = ends_of(line_of(high, usual));
        band.aim_linear &= straight(read.aim_offset_m, a.aim_m, b.aim_m, band.aim_m);
        band.level_putt_linear &=
            straight(read.level_putt_m, a.level_putt_m, b.level_putt_m, band.level_putt_m);
    };
    if (sure.slope > 0) {
        const Vec2 ahead = putt.line().normalized();
        const std::vector<Vec2> ways =
            uphill ? std::vector{*uphill} : std::vector{ahead, Vec2(ahead.y(), -ahead.x())};
        for (const Vec2& way : ways)
            compare(with_tilt(putt, -sure.slope * way), with_tilt(putt, sure.slope * way));
    }
    if (sure.stimp_m > 0) compare(with_stimp(putt, -sure.stimp_m), with_stimp(putt, sure.stimp_m));
    return band;
}

}  // namespace dewtrail
