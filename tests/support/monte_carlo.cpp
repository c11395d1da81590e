#include "support/monte_carlo.hpp"

#include <tbb/task_arena.h>

#include <algorithm>
#include <cmath>

#include "physics/numbers/in_parallel.hpp"
#include "physics/numbers/random_normals.hpp"

namespace dewtrail {
namespace {

constexpr int batch = 4096, at_once = 256;
constexpr double three_feet_m = 3 * metres_per_foot;
constexpr double leave_step_m = 0.005;
constexpr int leave_bins = 8000;

/// Sums over one batch; batches are added up in order, so threads do not change a bit.
struct Tally {
    double putts = 0, holed_next = 0;
    int holed = 0, close = 0, short_of_hole = 0, missed = 0;
    std::vector<int> leaves = std::vector<int>(leave_bins, 0);

    void add(const Tally& other) {
        putts += other.putts;
        holed_next += other.holed_next;
        holed += other.holed;
        close += other.close;
        short_of_hole += other.short_of_hole;
        missed += other.missed;
        for (int i = 0; i < leave_bins; ++i) leaves[i] += other.leaves[i];
    }
};

/// Spreads consecutive numbers over all seeds (Steele, Lea & Flood 2014, splitmix64).
std::uint64_t mixed(std::uint64_t x) {
    x += 0x9e3779b97f4a7c15;
    x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9;
    x = (x ^ (x >> 27)) * 0x94d049bb133111eb;
    return x ^ (x >> 31);
}

class Trials {
  public:
    Trials(const Putt& putt, const StrokeSpread& spread, const NextPutts& next,
           const MonteCarloOptions& options)
        : putt_(putt), spread_(spread), next_(next), options_(options), roller_(putt) {
        const auto& C = spread.covariance;
        pace_ = std::sqrt(C(1, 1));
        slant_ = C(0, 1) / pace_;
        line_ = std::sqrt(C(0, 0) - slant_ * slant_);
    }

    Tally run(int first) const {
        const std::vector<LevelStroke> strokes = draw(first);
        std::vector<double> margins(strokes.size());
        roller_.margins(strokes, margins);
        std::vector<LevelStroke> missed;
        for (std::size_t i = 0; i < strokes.size(); ++i)
            if (margins[i] <= 0) missed.push_back(strokes[i]);
        Tally tally;
        tally.holed = static_cast<int>(strokes.size() - missed.size());
        for (const Vec2& rest : rests(missed)) add_miss(rest, tally);
        return tally;
    }

  private:
    std::vector<LevelStroke> draw(int first) const {
        RandomNormals normals(mixed(options_.seed ^ mixed(static_cast<std::uint64_t>(first))));
        std::vector<LevelStroke> strokes(
            static_cast<std::size_t>(std::min(batch, options_.strokes - first)));
        const double mean = spread_.level_roll_m;
        for (LevelStroke& stroke : strokes) {
            const auto [a, b] = normals.pair();
            stroke = {spread_.angle_rad + slant_ * a + line_ * b,
                      std::max(least_pace * mean, mean + pace_ * a)};
        }
        return strokes;
    }

    std::vector<Vec2> rests(const std::vector<LevelStroke>& strokes) const {
        std::vector<Vec2> rests(strokes.size());
        if (options_.through_the_hole)
            std::transform(strokes.begin(), strokes.end(), rests.begin(), [this](const auto& s) {
                return roller_.rest_through_hole(s.angle_rad, s.level_roll_m);
            });
        else
            roller_.rests(strokes, rests);
        return rests;
    }

    void add_miss(const Vec2& rest, Tally& tally) const {
        const Prospect prospect = next_.from(rest);
        const double away = (rest - putt_.hole).norm();
        ++tally.missed;
        tally.putts += prospect.putts;
        tally.holed_next += prospect.holed;
        tally.close += away < three_feet_m;
        tally.short_of_hole += putt_.line().dot(rest - putt_.hole) < 0;
        ++tally.leaves[std::min(leave_bins - 1, static_cast<int>(away / leave_step_m))];
    }

    const Putt& putt_;
    const StrokeSpread& spread_;
    const NextPutts& next_;
    const MonteCarloOptions& options_;
    StrokeRoller roller_;
    double pace_, slant_, line_;
};

double median_leave(const Tally& tally) {
    int below = 0;
    for (int i = 0; i < leave_bins; ++i)
        if (2 * (below += tally.leaves[i]) >= tally.missed && tally.missed > 0)
            return (i + 0.5) * leave_step_m;
    return 0;
}

}  // namespace

Odds monte_carlo_odds(const Putt& putt, const StrokeSpread& spread, const NextPutts& next,
                      const MonteCarloOptions& options) {
    const Trials trials(putt, spread, next, options);
    const int batches = (options.strokes + batch - 1) / batch;
    tbb::task_arena arena(std::max(1, options.threads));
    Tally total;
    for (int begin = 0; begin < batches; begin += at_once) {
        std::vector<Tally> tallies(static_cast<std::size_t>(std::min(at_once, batches - begin)));
        arena.execute([&] {
            in_parallel(static_cast<int>(tallies.size()), [&](int i) {
                tallies[static_cast<std::size_t>(i)] = trials.run((begin + i) * batch);
            });
        });
        for (const Tally& tally : tallies) total.add(tally);
    }
    const double n = options.strokes;
    Odds odds;
    odds.holed = total.holed / n;
    odds.putts = 1 + total.putts / n;
    odds.three_putt = (total.missed - total.holed_next) / n;
    odds.inside_3ft = (total.holed + total.close) / n;
    odds.short_of_hole = total.short_of_hole / n;
    odds.usual_leave_m = median_leave(total);
    return odds;
}

}  // namespace dewtrail
