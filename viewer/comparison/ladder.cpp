#include "viewer/comparison/ladder.hpp"

#include "viewer/putt/putt_words.hpp"

namespace dewtrail {

namespace {

Setup on_ladder(const Setup& ground, const LadderFall& fall, double distance_m) {
    Setup setup = ground;
    set_distance_and_clock(setup, distance_m, fall.clock_h);
    return setup;
}

ReadResult result_of(const Setup& setup, double player_past_m) {
    ReadOptions options;
    options.usual_past_m = player_past_m;
    options.keep_path = true;
    options.room = options.costs = options.look_for_others = false;
    return read(putt_of(setup), options);
}

}  // namespace

std::optional<Read> ladder_read(const Setup& ground, const LadderFall& fall, double distance_m,
                                double player_past_m) {
    ReadResult result = result_of(on_ladder(ground, fall, distance_m), player_past_m);
    if (result.lines.empty()) return std::nullopt;
    return std::move(result.lines.front());
}

std::optional<std::string> no_ladder_read(const Setup& ground, const LadderFall& fall,
                                          double distance_m, double player_past_m,
                                          const Units& units) {
    const Setup setup = on_ladder(ground, fall, distance_m);
    const ReadResult result = result_of(setup, player_past_m);
    if (!result.none) return std::nullopt;
    return no_line_words(placed(setup), *result.none, units);
}

}  // namespace dewtrail
