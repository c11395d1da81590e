#include "viewer/comparison/played_putts.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "physics/numbers/random_normals.hpp"
#include "physics/read/told_stroke.hpp"

namespace dewtrail {
namespace {

int count_if(const std::vector<PlayedStroke>& strokes, bool (*is)(const Outcome&)) {
    return static_cast<int>(std::count_if(strokes.begin(), strokes.end(),
                                          [is](const auto& s) { return is(s.outcome); }));
}

bool is_missed_on(const Outcome& o, HoleSide side) {
    return !o.holed && !o.too_fast && o.side == side;
}

PlayedStroke rolled(const Putt& putt, const Stroke& stroke) {
    ReadOptions bare;
    bare.room = bare.costs = false;
    const Read read = describe_stroke(putt, stroke, bare);
    PlayerPoint end = in_player_frame(putt, read.roll.last.at);
    end.along_m -= putt.distance_m();
    return {end, outcome_of(putt, read)};
}

}  // namespace

int PlayedPutts::holed() const {
    return count_if(strokes, [](const Outcome& o) { return o.holed; });
}
int PlayedPutts::missed_low() const {
    return count_if(strokes, [](const Outcome& o) { return is_missed_on(o, HoleSide::low); });
}
int PlayedPutts::missed_high() const {
    return count_if(strokes, [](const Outcome& o) { return is_missed_on(o, HoleSide::high); });
}
int PlayedPutts::over_the_hole() const {
    return count_if(strokes, [](const Outcome& o) { return o.too_fast; });
}
int PlayedPutts::stopped_short() const {
    return count_if(strokes, [](const Outcome& o) { return o.short_of; });
}

PlayedPutts play_putts(const Putt& putt, const Read& read, double share, const Scatter& scatter,
                       int count, std::uint64_t seed) {
    if (!read.aim_offset_m) throw std::invalid_argument("play_putts: the read has no aim spot");
    const double angle = start_angle_rad(putt, share * *read.aim_offset_m);
    const StrokeSpread spread =
        stroke_spread(angle, read.level_roll_m, scatter, SlopeSensitivity::Zero());
    const double line_sd = std::sqrt(spread.covariance(0, 0));
    const double pace_sd = std::sqrt(spread.covariance(1, 1));
    RandomNormals normals(seed);
    PlayedPutts played{.name = "", .share_of_break = share, .strokes = {}};
    for (int i = 0; i < count; ++i) {
        const auto [a, b] = normals.pair();
        const double level =
            std::max(least_pace * read.level_roll_m, read.level_roll_m + pace_sd * b);
        played.strokes.push_back(
            rolled(putt, {angle + line_sd * a, launch_speed_m_s(putt, level)}));
    }
    return played;
}

}  // namespace dewtrail
