#include "viewer/comparison/ladder.hpp"

namespace dewtrail {

std::optional<Read> ladder_read(const Setup& ground, const LadderFall& fall, double distance_m,
                                double player_past_m) {
    Setup setup = ground;
    set_distance_and_clock(setup, distance_m, fall.clock_h);
    ReadOptions options;
    options.usual_past_m = player_past_m;
    options.keep_path = true;
    options.room = options.costs = options.look_for_others = false;
    ReadResult result = read(putt_of(setup), options);
    if (result.lines.empty()) return std::nullopt;
    return std::move(result.lines.front());
}

}  // namespace dewtrail
