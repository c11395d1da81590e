#include "viewer/practice/drill/diagnosis.hpp"

#include <algorithm>
#include <cmath>

#include "physics/odds/misses.hpp"
#include "physics/odds/odds.hpp"
#include "physics/read/told_stroke.hpp"
#include "viewer/practice/drill/plain_read.hpp"

namespace dewtrail {
namespace {

constexpr double least_aim_m = metres_per_inch;  ///< the step that aims are typed in
constexpr double halved_by = 0.15;               ///< strokes

/// Start angle and level roll, as the physics spreads them.
struct Played {
    double angle_rad, level_roll_m;
};

/// Of a stroke that is given: nothing is misread.
StrokeSpread spread_round(const Played& stroke, const Scatter& scatter) {
    Scatter struck = scatter;
    struck.slope_read = struck.fall_read_rad = 0;
    return stroke_spread(stroke.angle_rad, stroke.level_roll_m, struck, SlopeSensitivity::Zero());
}

StrokeWindow window_round(const std::vector<StrokeSpread>& spreads) {
    StrokeWindow window = window_of(spreads.front());
    for (const StrokeSpread& spread : spreads) window = joined(window, window_of(spread));
    return window;
}

/// Fills in what a ball struck exactly so does.
void roll_it(const Putt& putt, const Stroke& stroke, double player_past_m, Diagnosis& d) {
    ReadOptions options;
    options.look_for_others = options.room = options.costs = false;
    options.keep_path = options.open_hole = true;
    options.usual_past_m = player_past_m;
    d.played = describe_stroke(putt, stroke, options);
    const Roll& roll = d.played.roll;
    const PathPoint& rest = d.played.open->last;
    d.holed = d.played.open->holed;
    const PlayerPoint passed = in_player_frame(putt, roll.pass.value_or(roll.last).at);
    d.passed_there = !d.holed && miss_side(putt, passed.offset_m) == d.side;
    d.past_m = in_player_frame(putt, rest.at).along_m - putt.distance_m();
    d.away_m = (rest.at - putt.hole).norm();
}

/// `lost`, shared out between aim and pace by what each costs.
void blame(double lost, double aim_lost, Diagnosis& d) {
    d.lost = lost;
    d.aim_lost = aim_lost;
    d.pace_lost = d.lost - d.aim_lost;
    d.score = score_of(d.lost);
    if (d.lost < costs_nothing) return;
    d.fault = d.aim_lost >= d.pace_lost ? Fault::aim : Fault::pace;
}

}  // namespace

struct Examiner::Known {
    Putt putt;
    Scatter scatter;
    double past_m;
    Read best;
    NextPutts next;
    StrokeMap map;  ///< round the read
};

Examiner::Examiner(std::unique_ptr<Known> known) : known_(std::move(known)) {}
Examiner::Examiner(Examiner&&) noexcept = default;
Examiner& Examiner::operator=(Examiner&&) noexcept = default;
Examiner::~Examiner() = default;

std::optional<Examiner> Examiner::make(const Putt& putt, const Spread& spread,
                                       double player_past_m) {
    const auto best = plain_read(putt, player_past_m);
    if (!best || !best->aim_offset_m) return std::nullopt;
    // As far as a stroke may leave it that is topped, or runs by as if nobody had read it.
    constexpr double well_past_m = 2;
    const auto surround = HoleSurround::make(putt, putt.distance_m() + well_past_m);
    if (!surround) return std::nullopt;
    const Scatter scatter = scatter_of(spread);
    const StrokeSpread of_read =
        spread_round(Played{best->stroke.angle_rad, best->level_roll_m}, scatter);
    const auto map = StrokeMap::make(putt, best->stroke, window_of(of_read));
    if (!map) return std::nullopt;
    return Examiner(std::make_unique<Known>(
        Known{putt, scatter, player_past_m, *best, NextPutts(*surround, scatter), *map}));
}

const Read& Examiner::best() const {
    return known_->best;
}

std::optional<Diagnosis> Examiner::diagnose(Drill drill, double aim_m, double level_putt_m) const {
    const Putt& putt = known_->putt;
    const Read& best = known_->best;
    Diagnosis d;
    d.drill = drill;
    d.best = best;
    d.aim_m = kind_of(drill).asks_aim ? aim_m : *best.aim_offset_m;
    d.level_putt_m = kind_of(drill).asks_pace ? level_putt_m : best.level_putt_m;
    const Played truth{best.stroke.angle_rad, best.level_roll_m};
    const Played said{start_angle_rad(putt, d.aim_m),
                      level_roll_of_putt_m(d.level_putt_m, known_->past_m)};
    const Played aim_true{truth.angle_rad, said.level_roll_m},
        pace_true{said.angle_rad, truth.level_roll_m};
    std::vector<StrokeSpread> spreads;
    for (const Played& stroke : {said, aim_true, pace_true, truth})
        spreads.push_back(spread_round(stroke, known_->scatter));
    const auto map = known_->map.over(window_round(spreads));
    if (!map) return std::nullopt;
    const auto putts = [&](const StrokeSpread& spread) {
        return play(*map, spread, known_->next.table(), fine).putts;
    };
    const double lost = std::max(0.0, putts(spreads[0]) - putts(spreads[3]));
    double aim_lost = kind_of(drill).asks_aim ? lost : 0;
    if (kind_of(drill).asks_aim && kind_of(drill).asks_pace)
        aim_lost = std::clamp(0.5 * (lost + putts(spreads[2]) - putts(spreads[1])), 0.0, lost);
    blame(lost, aim_lost, d);

    if (std::abs(*best.aim_offset_m) >= least_break_m) d.break_share = d.aim_m / *best.aim_offset_m;
    d.wrong_side = is_wrong_side(d.aim_m, *best.aim_offset_m);
    d.pace_share = said.level_roll_m / best.level_roll_m;
    d.side = miss_side(putt, d.aim_m - *best.aim_offset_m);
    roll_it(putt, told_stroke(putt, d.aim_m, said.level_roll_m), known_->past_m, d);
    return d;
}

std::optional<Diagnosis> diagnose(const Putt& putt, Drill drill, double aim_m, double level_putt_m,
                                  const Spread& spread, double player_past_m) {
    const auto examiner = Examiner::make(putt, spread, player_past_m);
    if (!examiner) return std::nullopt;
    return examiner->diagnose(drill, aim_m, level_putt_m);
}

double score_of(double lost) {
    return std::round(10 * std::exp2(-std::max(lost, 0.0) / halved_by));
}

bool is_wrong_side(double aim_m, double true_aim_m) {
    return aim_m * true_aim_m < 0 && std::abs(aim_m) >= least_aim_m &&
           std::abs(true_aim_m) >= least_break_m;
}

std::string_view name_of(Fault fault) {
    constexpr std::string_view names[] = {"none", "aim", "pace"};
    return names[static_cast<int>(fault)];
}

}  // namespace dewtrail
