#include "physics/odds/hole_surround.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numbers/in_parallel.hpp"
#include "physics/odds/line_mean.hpp"
#include "physics/odds/odds.hpp"
#include "physics/read/plane_line.hpp"
#include "physics/read/surface_line.hpp"
#include "physics/read/told_stroke.hpp"
#include "physics/roll/green_speed.hpp"
#include "physics/roll/lockstep_roll.hpp"

namespace dewtrail {
namespace {

constexpr double steepest_share = 0.9;  ///< of the slope that holds a ball
constexpr double least_slope = 1e-9;
constexpr double near_m = 0.5;         ///< to the hole: there a green is a plane
constexpr double several_below = 1.6;  ///< friction over slope: strokes drop in several intervals
constexpr int edge_rows = 19;          ///< 49 for one putt of its own: 0.0003 putts
constexpr RestGrid::Size surround_grid{13, 9};  ///< 25 x 17 for one putt of its own

using Option = HoleSurround::Option;
using Spot = HoleSurround::Spot;
constexpr auto& pasts_m = HoleSurround::pasts_m;
constexpr int finishes = static_cast<int>(pasts_m.size());

bool is_plain_plane(const Putt& putt) {
    return putt.conditions.plain() && dynamic_cast<const Plane*>(putt.surface.get());
}

// ---- on the plane that lies on average between spot and hole

Option option_on_plane(const Putt& putt) {
    const auto* plane = dynamic_cast<const Plane*>(putt.surface.get());
    const Stroke stroke =
        lines_on_plane(plane->gradient(), putt.resistance, putt.line(), putt.finish)
            .strokes.front();
    return {stroke.angle_rad, level_roll_m(stroke.speed_m_s, putt.resistance),
            read_slope_sensitivity(putt, stroke).value_or(SlopeSensitivity::Zero())};
}

/// Wind and grain taken as tilt.
Vec2 mean_gradient(const Putt& putt) {
    return mean_on_line(putt, [&](const Vec2& at) -> Vec2 { return -putt.pull_at(at); });
}

std::optional<Spot> spot_on_plane(Putt putt) {
    const double steepest = steepest_share * putt.resistance;
    const Vec2 mean = mean_gradient(putt);
    putt.surface = std::make_shared<Plane>(
        mean.norm() > steepest ? Vec2(mean * (steepest / mean.norm())) : mean);
    putt.conditions = {};
    putt.outline.reset();
    auto map = StrokeMap::make(putt, std::nullopt, {}, {.edge_rows = edge_rows});
    if (!map) return std::nullopt;
    Spot spot{std::move(*map), {}};
    for (int i = 0; i < finishes; ++i) {
        putt.finish = Finish::past(pasts_m[i]);
        spot.options[i] = option_on_plane(putt);
    }
    return spot;
}

// ---- on the ground itself

/// A level roll, the start angle in the middle of what drops, and how far past the hole that ends.
struct Finishing {
    double level_roll_m, angle_rad, past_m;
};

/// From the softest that drops to firm ones, dense at the soft end.
std::array<Finishing, lockstep_lanes> finishings(const Putt& putt, const StrokeMap& map) {
    const StrokePanel& panel = map.panels().front();
    const auto [soft, firm] = panel.level_rolls;
    std::array<Finishing, lockstep_lanes> ends;
    std::array<LevelStroke, lockstep_lanes> strokes;
    std::array<Vec2, lockstep_lanes> rests;
    for (int i = 0; i < lockstep_lanes; ++i) {
        const double share = (i + 0.02) / lockstep_lanes;
        const double level = soft + share * share * (firm - soft);
        const Drops drops = panel.at(level);
        const double angle =
            drops.empty() ? panel.edges.front().lo : 0.5 * (drops.begin()->lo + drops.begin()->hi);
        strokes[i] = {angle, level};
    }
    StrokeRoller(putt).rests(strokes, rests);
    const Vec2 e = putt.line().normalized();
    for (int i = 0; i < lockstep_lanes; ++i) {
        const Vec2 beyond = rests[i] - putt.hole;
        ends[i] = {strokes[i].level_roll_m, strokes[i].angle_rad,
                   std::copysign(beyond.norm(), beyond.dot(e))};
    }
    return ends;
}

/// The stroke for one finish, by straight lines between those that were rolled; none if they do
/// not end one beyond the other.
std::optional<LevelStroke> stroke_for(const std::array<Finishing, lockstep_lanes>& ends,
                                      double past_m) {
    for (int i = 1; i < lockstep_lanes; ++i) {
        const Finishing &a = ends[i - 1], &b = ends[i];
        if (b.past_m <= a.past_m) return std::nullopt;
        if (b.past_m < past_m && i + 1 < lockstep_lanes) continue;
        const double t = (past_m - a.past_m) / (b.past_m - a.past_m);
        return LevelStroke{a.angle_rad + t * (b.angle_rad - a.angle_rad),
                           a.level_roll_m + t * (b.level_roll_m - a.level_roll_m)};
    }
    return std::nullopt;
}

/// Sensitivities of three finishes, parabolas between.
bool add_sensitivities(Putt putt, Spot& spot) {
    constexpr std::array<int, 3> at{1, 3, finishes - 1};
    std::array<SlopeSensitivity, 3> known;
    for (int k = 0; k < 3; ++k) {
        const Option& option = spot.options[at[k]];
        putt.finish = Finish::past(pasts_m[at[k]]);
        const auto found = read_slope_sensitivity(
            putt, {option.angle_rad, launch_speed_m_s(putt, option.level_roll_m)});
        if (!found) return false;
        known[k] = *found;
    }
    for (int i = 0; i < finishes; ++i) {
        SlopeSensitivity sum = SlopeSensitivity::Zero();
        for (int k = 0; k < 3; ++k) {
            double weight = 1;
            for (int j = 0; j < 3; ++j)
                if (j != k)
                    weight *= (pasts_m[i] - pasts_m[at[j]]) / (pasts_m[at[k]] - pasts_m[at[j]]);
            sum += weight * known[k];
        }
        spot.options[i].sensitivity = sum;
    }
    return true;
}

/// None where the ground is near the hole, steep, or has no direct line.
std::optional<Spot> spot_on_ground(Putt putt) {
    constexpr double easy_past_m = 0.3, tolerance = 1e-8;
    if (putt.conditions.plain() && putt.distance_m() < near_m) return std::nullopt;
    if (putt.least_friction_over_pull() < several_below) return std::nullopt;
    putt.finish = Finish::past(easy_past_m);
    const auto line = direct_line_on_surface(putt, tolerance);
    if (!line) return std::nullopt;
    auto map = StrokeMap::make_edges(putt, *line, {.edge_rows = edge_rows, .scans = false});
    if (!map) return std::nullopt;
    Spot spot{std::move(*map), {}};
    const auto ends = finishings(putt, spot.map);
    for (int i = 0; i < finishes; ++i) {
        const auto stroke = stroke_for(ends, pasts_m[i]);
        if (!stroke) return std::nullopt;
        spot.options[i].angle_rad = stroke->angle_rad;
        spot.options[i].level_roll_m = stroke->level_roll_m;
    }
    if (!add_sensitivities(putt, spot)) return std::nullopt;
    return spot;
}

bool is_level(const Putt& putt) {
    return putt.slope_at_hole() < least_slope;
}

std::optional<Spot> spot_at(Putt putt) {
    if (!putt.ball_on_green()) putt.outline.reset();
    if (!is_plain_plane(putt))
        if (auto spot = spot_on_ground(putt)) return spot;
    return spot_on_plane(std::move(putt));
}

}  // namespace

HoleSurround::HoleSurround(const Putt& putt, double reach_m)
    : putt_(putt),
      empty_(putt.hole, is_level(putt) ? Vec2(0, 1) : putt.gradient_at_hole().normalized(),
             ProspectTable::rings_within(reach_m)),
      state_(putt.holds_a_ball() ? State::growing : State::none) {}

HoleSurround::State HoleSurround::grow(const std::function<bool()>& go_on) {
    const bool plane = is_plain_plane(putt_);
    const int hours = !plane ? ProspectTable::hours : is_level(putt_) ? 1 : 7;
    const int all = empty_.used() * hours, at_once = plane ? all : hours;
    while (state_ == State::growing) {
        if (!plane && go_on && !go_on()) break;
        const int first = static_cast<int>(spots_.size());
        std::vector<std::optional<Spot>> spots(at_once);
        in_parallel(at_once, [&](int i) {
            Putt from = putt_;
            from.ball = empty_.place((first + i) / hours, (first + i) % hours);
            spots[i] = spot_at(std::move(from));
        });
        for (auto& spot : spots) {
            if (!spot) return state_ = State::none;
            spots_.push_back(std::move(*spot));
        }
        if (static_cast<int>(spots_.size()) == all) state_ = State::whole;
    }
    return state_;
}

std::optional<HoleSurround> HoleSurround::make(const Putt& putt, double reach_m) {
    HoleSurround surround(putt, reach_m);
    if (surround.grow() != State::whole) return std::nullopt;
    return surround;
}

std::optional<HoleSurround> HoleSurround::make(std::shared_ptr<const Surface> surface,
                                               double resistance, const Vec2& hole,
                                               double reach_m) {
    Putt putt;
    putt.surface = std::move(surface);
    putt.resistance = resistance;
    putt.hole = hole;
    return make(putt, reach_m);
}

StrokeMap Spot::map_for(const Scatter& scatter) const {
    constexpr double tail = 4.4;  // four, and the shift of aim that is tried
    const auto window = [&](const Option& o) {
        return window_of(stroke_spread(o.angle_rad, o.level_roll_m, scatter, o.sensitivity), tail);
    };
    return map.with_rests(joined(window(options.front()), window(options.back())), surround_grid);
}

Option Spot::option(double past_m) const {
    int i = 1;
    while (i < finishes - 2 && past_m > pasts_m[i]) ++i;
    const double a = pasts_m[i - 1], b = pasts_m[i], c = pasts_m[i + 1], x = past_m;
    const double wa = (x - b) * (x - c) / ((a - b) * (a - c));
    const double wb = (x - a) * (x - c) / ((b - a) * (b - c));
    const double wc = (x - a) * (x - b) / ((c - a) * (c - b));
    const Option &p = options[i - 1], &q = options[i], &r = options[i + 1];
    return {wa * p.angle_rad + wb * q.angle_rad + wc * r.angle_rad,
            wa * p.level_roll_m + wb * q.level_roll_m + wc * r.level_roll_m,
            wa * p.sensitivity + wb * q.sensitivity + wc * r.sensitivity};
}

}  // namespace dewtrail
