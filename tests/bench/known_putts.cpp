#include "tests/bench/known_putts.hpp"

#include <cmath>

#include "tests/support/gsl_roll.hpp"
#include "tests/support/putts.hpp"

namespace dewtrail::bench {
namespace {

std::vector<Putt> make_plane_putts() {
    std::vector<Putt> putts;
    for (const double stimp : {8.0, 10.0, 12.0})
        for (const double slope : {0.01, 0.025, 0.04})
            for (const double feet : {6.0, 12.0, 30.0})
                for (const double clock : {1.0, 3.0, 4.5, 8.0})
                    putts.push_back(
                        oracle::bare_putt(stimp, slope, feet, clock, oracle::inches_past(12)));
    return putts;
}

std::vector<Putt> make_green_putts() {
    std::vector<Putt> putts;
    for (const char* name : {"meadow", "saddle", "turtle"}) {
        const Green green = oracle::shipped_green(name);
        for (const auto& [ball, from] : green.balls)
            for (const auto& [hole, at] : green.holes) {
                const Putt putt = oracle::putt_on(green, ball, hole, oracle::inches_past(12));
                if (!read(putt, oracle::line_only()).lines.empty()) putts.push_back(putt);
            }
    }
    return putts;
}

}  // namespace

const std::vector<Putt>& plane_putts() {
    static const std::vector<Putt> putts = make_plane_putts();
    return putts;
}

const std::vector<Putt>& green_putts() {
    static const std::vector<Putt> putts = make_green_putts();
    return putts;
}

Accuracy worst_of(const std::vector<Putt>& putts, const std::vector<Stroke>& strokes) {
    Accuracy worst;
    for (std::size_t i = 0; i < putts.size(); ++i) {
        const Putt& putt = putts[i];
        oracle::GslOptions options;
        options.hole = putt.hole;
        const auto rolled =
            oracle::gsl_roll(*putt.surface, putt.resistance, putt.launch(strokes.at(i)), options);
        if (!rolled.pass) return {HUGE_VAL, HUGE_VAL};
        const double past = rolled.last.arc_m - rolled.pass->arc_m;
        worst.miss_m = std::max(worst.miss_m, (rolled.pass->at - putt.hole).norm());
        worst.finish_m = std::max(worst.finish_m, std::abs(past - putt.finish.value));
    }
    return worst;
}

}  // namespace dewtrail::bench
