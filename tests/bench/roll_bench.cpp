/// How long one roll to rest takes, with its rest point's worst error against GSL at 1e-13.

#include <benchmark/benchmark.h>

#include <cmath>

#include "physics/roll/green_speed.hpp"
#include "physics/roll/lockstep_roll.hpp"
#include "physics/survey/survey_fit.hpp"
#include "tests/bench/known_putts.hpp"
#include "tests/bench/plain_read.hpp"
#include "tests/support/allocations.hpp"
#include "tests/support/gsl_roll.hpp"
#include "tests/support/putts.hpp"

namespace dewtrail::bench {
namespace {

Launch launch_of(const Putt& putt) {
    return putt.launch({0.05, speed_of_level_roll_m_s(putt.distance_m() + 0.3, putt.resistance)});
}

void time_rolls(benchmark::State& state, const std::vector<Putt>& putts, double tolerance) {
    const auto roll_of = [&](const Putt& putt) {
        RollOptions options;
        options.tolerance = tolerance;
        options.hole = putt.hole;
        return roll(*putt.surface, putt.resistance, launch_of(putt), options);
    };
    std::size_t i = 0;
    for (auto _ : state) benchmark::DoNotOptimize(roll_of(putts[i++ % putts.size()]));

    double evaluations = 0, error = 0;
    const long before = oracle::allocations();
    for (const Putt& putt : putts) evaluations += roll_of(putt).evaluations;
    const double rolls = static_cast<double>(putts.size());
    state.counters["allocations"] = static_cast<double>(oracle::allocations() - before) / rolls;
    state.counters["evaluations"] = evaluations / rolls;
    for (const Putt& putt : putts) {
        const auto exact = oracle::gsl_roll(*putt.surface, putt.resistance, launch_of(putt));
        if (exact.rested) error = std::max(error, (roll_of(putt).last.at - exact.last.at).norm());
    }
    state.counters["rest_m"] = error;
}

void plane_roll(benchmark::State& state) {
    time_rolls(state, plane_putts(), 1e-9);
}
BENCHMARK(plane_roll);
void green_roll(benchmark::State& state) {
    time_rolls(state, green_putts(), 1e-9);
}
BENCHMARK(green_roll);

/// Strokes of one putt in lockstep, a ball at a time in the table: beside green_roll_for_odds, the
/// same balls one by one. Both at the tolerance that odds are made with.
struct Spray {
    const Putt& putt = green_putts().front();
    std::vector<Launch> launches;
    RollOptions options;

    Spray() {
        options.tolerance = 1e-6;
        for (int i = 0; i < 64; ++i) {
            const double level = putt.distance_m() * (0.6 + 0.1 * (i / 8));
            launches.push_back(
                putt.launch({0.02 * (i % 8 - 4), speed_of_level_roll_m_s(level, putt.resistance)}));
        }
    }
};

void green_roll_for_odds(benchmark::State& state) {
    const Spray spray;
    std::size_t i = 0;
    for (auto _ : state)
        benchmark::DoNotOptimize(roll(*spray.putt.surface, spray.putt.resistance,
                                      spray.launches[i++ % spray.launches.size()], spray.options));
}
BENCHMARK(green_roll_for_odds);

void green_roll_in_lockstep(benchmark::State& state) {
    const Spray spray;
    const std::size_t balls = spray.launches.size();
    std::vector<PlainRoll> rolls(balls);
    const long before = oracle::allocations();
    while (state.KeepRunningBatch(static_cast<benchmark::IterationCount>(balls)))
        roll_in_lockstep(*spray.putt.surface, spray.putt.resistance, spray.launches, spray.options,
                         rolls);
    state.counters["allocations"] = static_cast<double>(oracle::allocations() - before);
    double error = 0;
    for (std::size_t i = 0; i < balls; ++i) {
        const auto exact =
            oracle::gsl_roll(*spray.putt.surface, spray.putt.resistance, spray.launches[i]);
        if (exact.rested) error = std::max(error, (rolls[i].last - exact.last.at).norm());
    }
    state.counters["rest_m"] = error;
}
BENCHMARK(green_roll_in_lockstep);

/// Argument: side of the surveyed square in metres; the grid grows with its area, the roll in its
/// middle stays the same.
void roll_by_green_size(benchmark::State& state) {
    const double side = static_cast<double>(state.range(0));
    const auto height = [](const Vec2& p) {
        return 0.02 * p.y() + 0.05 * std::sin(p.x() / 4) * std::cos(p.y() / 5);
    };
    Survey survey;
    for (double x = -side / 2; x <= side / 2; x += 2)
        for (double y = -side / 2; y <= side / 2; y += 2)
            survey.heights.push_back({Vec2(x, y), height({x, y})});
    Putt putt;
    putt.surface = fit_survey(survey).surface;
    putt.ball = {3, 0.5};
    putt.hole = {0, 0};
    putt.resistance = resistance_of_stimp(10 * metres_per_foot);
    RollOptions options;
    options.hole = putt.hole;
    for (auto _ : state)
        benchmark::DoNotOptimize(roll(*putt.surface, putt.resistance, launch_of(putt), options));
    state.counters["readings"] = static_cast<double>(survey.heights.size());
}
BENCHMARK(roll_by_green_size)->Arg(10)->Arg(20)->Arg(40);

void green_roll_plainly(benchmark::State& state) {
    const auto& putts = green_putts();
    const auto stroke = [](const Putt& putt) { return Stroke{0.05, launch_of(putt).speed_m_s}; };
    std::size_t i = 0;
    for (auto _ : state) {
        const Putt& putt = putts[i++ % putts.size()];
        benchmark::DoNotOptimize(plain_roll(putt, stroke(putt)));
    }
    double error = 0;
    for (const Putt& putt : putts) {
        const auto exact = oracle::gsl_roll(*putt.surface, putt.resistance, launch_of(putt));
        if (exact.rested)
            error = std::max(error, (plain_roll(putt, stroke(putt)) - exact.last.at).norm());
    }
    state.counters["rest_m"] = error;
}
BENCHMARK(green_roll_plainly);

}  // namespace
}  // namespace dewtrail::bench
