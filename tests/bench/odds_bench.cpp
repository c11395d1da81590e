/// The hole, odds, the table for a hole, a million strokes, and survey fits.

#include <benchmark/benchmark.h>

#include <cmath>
#include <stdexcept>

#include "physics/hole/hole.hpp"
#include "physics/hole/hole_capture.hpp"
#include "physics/odds/odds.hpp"
#include "physics/roll/green_speed.hpp"
#include "physics/survey/survey_fit.hpp"
#include "support/monte_carlo.hpp"
#include "tests/bench/known_putts.hpp"
#include "tests/support/putts.hpp"
#include "tests/support/random.hpp"

namespace dewtrail::bench {
namespace {

/// An invented middle handicap's spread.
constexpr Scatter middle{0.032, 0.14, 0.09, 0.005, 0.1};

void capture_from_table(benchmark::State& state) {
    double offset = -0.05;
    for (auto _ : state) {
        benchmark::DoNotOptimize(capture_limit_m_s(offset, 0.01, 0.02));
        offset = offset < 0.05 ? offset + 1e-4 : -0.05;
    }
}
BENCHMARK(capture_from_table);

void capture_by_rigid_body(benchmark::State& state) {
    double offset = -0.05;
    for (auto _ : state) {
        benchmark::DoNotOptimize(
            roll_into_hole({.speed_m_s = 0.9, .offset_m = offset, .slope_along = 0.01}));
        offset = offset < 0.05 ? offset + 1e-3 : -0.05;
    }
}
BENCHMARK(capture_by_rigid_body);

/// A putt with everything that its odds are made of.
struct Prepared {
    Putt putt;
    Read read;
    StrokeSpread spread;
    NextPutts next;
};

Prepared prepared(const Putt& putt) {
    const Read line = read(putt, oracle::line_only()).lines.at(0);
    const auto surround = HoleSurround::make(putt.surface, putt.resistance, putt.hole);
    return {putt, line,
            stroke_spread(line.stroke.angle_rad, line.level_roll_m, middle,
                          read_slope_sensitivity(putt, line.stroke).value()),
            NextPutts(surround.value(), middle)};
}

const Prepared& plane_putt() {
    static const Prepared known =
        prepared(oracle::bare_putt(10, 0.02, 12, 3, oracle::inches_past(12)));
    return known;
}
const Prepared& green_putt() {
    static const Prepared known = prepared(green_putts().front());
    return known;
}

Odds odds_with_map(const Prepared& p) {
    const auto map = StrokeMap::make(p.putt, p.read.stroke, window_of(p.spread));
    return odds(map.value(), p.spread, p.next);
}

/// Beside the time: how far from the mean of `samples` times 1,000,000 strokes rolled one by one,
/// in points and putts. One such sample has noise of its own of 0.035 points here; the first on the
/// plane happens to be three times that off.
void time_odds(benchmark::State& state, const Prepared& p, unsigned samples) {
    for (auto _ : state) benchmark::DoNotOptimize(odds_with_map(p));
    const Odds fast = odds_with_map(p);
    double holed = 0, putts = 0;
    MonteCarloOptions options;
    options.threads = 2;
    for (options.seed = 1; options.seed <= samples; ++options.seed) {
        const Odds rolled = monte_carlo_odds(p.putt, p.spread, p.next, options);
        holed += rolled.holed / samples;
        putts += rolled.putts / samples;
    }
    state.counters["points_off"] = 100 * std::abs(fast.holed - holed);
    state.counters["putts_off"] = std::abs(fast.putts - putts);
}

void plane_odds(benchmark::State& state) {
    time_odds(state, plane_putt(), 10);
}
BENCHMARK(plane_odds);
void green_odds(benchmark::State& state) {
    time_odds(state, green_putt(), 3);
}
BENCHMARK(green_odds);

void time_table(benchmark::State& state, const Putt& putt) {
    for (auto _ : state) {
        const auto surround = HoleSurround::make(putt.surface, putt.resistance, putt.hole);
        benchmark::DoNotOptimize(NextPutts(surround.value(), middle).from(putt.ball));
    }
}
void plane_hole_table(benchmark::State& state) {
    time_table(state, plane_putt().putt);
}
BENCHMARK(plane_hole_table)->Unit(benchmark::kMillisecond)->UseRealTime();
void green_hole_table(benchmark::State& state) {
    time_table(state, green_putt().putt);
}
BENCHMARK(green_hole_table)->Unit(benchmark::kMillisecond)->UseRealTime();

/// Expected putts from 1,600 spots, the table included.
void time_map(benchmark::State& state, const Putt& putt) {
    for (auto _ : state) {
        const auto surround = HoleSurround::make(putt.surface, putt.resistance, putt.hole);
        const NextPutts next(surround.value(), middle);
        double sum = 0;
        for (int i = 0; i < 40; ++i)
            for (int j = 0; j < 40; ++j)
                sum += next.from(putt.hole + Vec2(0.4 * (i - 19.5), 0.4 * (j - 19.5))).putts;
        benchmark::DoNotOptimize(sum);
    }
}
void plane_map(benchmark::State& state) {
    time_map(state, plane_putt().putt);
}
BENCHMARK(plane_map)->Unit(benchmark::kMillisecond)->UseRealTime();
void green_map(benchmark::State& state) {
    time_map(state, green_putt().putt);
}
BENCHMARK(green_map)->Unit(benchmark::kMillisecond)->UseRealTime();

/// Argument: threads.
void time_strokes(benchmark::State& state, const Prepared& p, int strokes) {
    MonteCarloOptions options;
    options.strokes = strokes;
    options.threads = static_cast<int>(state.range(0));
    for (auto _ : state)
        benchmark::DoNotOptimize(monte_carlo_odds(p.putt, p.spread, p.next, options));
}
void plane_million_strokes(benchmark::State& state) {
    time_strokes(state, plane_putt(), 1'000'000);
}
BENCHMARK(plane_million_strokes)->Arg(1)->Arg(2)->Unit(benchmark::kMillisecond)->UseRealTime();
void green_million_strokes(benchmark::State& state) {
    time_strokes(state, green_putt(), 1'000'000);
}
BENCHMARK(green_million_strokes)->Arg(1)->Arg(2)->Unit(benchmark::kMillisecond)->UseRealTime();

double ground_m(const Vec2& p) {
    return 0.02 * p.x() - 0.01 * p.y() + 0.06 * std::sin(p.x() / 4) * std::cos(p.y() / 5);
}

/// Argument: readings. Levels up to 100, heights beyond.
void survey_fit(benchmark::State& state) {
    oracle::Random random(5);
    Survey survey;
    const auto count = state.range(0);
    for (std::int64_t i = 0; i < count; ++i) {
        const Vec2 at(random.between(0, 20), random.between(0, 20));
        constexpr double h = 1e-4;
        if (count <= 100)
            survey.levels.push_back(
                {at, Vec2(ground_m(at + Vec2(h, 0)) - ground_m(at - Vec2(h, 0)),
                          ground_m(at + Vec2(0, h)) - ground_m(at - Vec2(0, h))) /
                         (2 * h)});
        else
            survey.heights.push_back({at, ground_m(at) + 0.003 * random.normal()});
    }
    for (auto _ : state) benchmark::DoNotOptimize(fit_survey(survey).lambda);
}
BENCHMARK(survey_fit)
    ->Arg(20)
    ->Arg(100)
    ->Arg(1000)
    ->Arg(3000)
    ->Arg(10000)
    ->Unit(benchmark::kMillisecond);

/// Argument: size of the spline's cells in cm, on a square of 24 m. Beside the time: unknowns.
void survey_fit_by_cells(benchmark::State& state) {
    oracle::Random random(6);
    Survey survey;
    for (int i = 0; i < 300; ++i) {
        const Vec2 at(random.between(0, 24), random.between(0, 24));
        survey.heights.push_back({at, ground_m(at) + 0.003 * random.normal()});
    }
    SurveyFitOptions options;
    options.spacing_m = 0.01 * static_cast<double>(state.range(0));
    for (auto _ : state) benchmark::DoNotOptimize(fit_survey(survey, options).lambda);
    const double along = std::ceil(28 / *options.spacing_m) + 3;  // 2 m of margin each side
    state.counters["unknowns"] = along * along;
}
BENCHMARK(survey_fit_by_cells)
    ->Arg(250)
    ->Arg(150)
    ->Arg(100)
    ->Arg(70)
    ->Arg(50)
    ->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace dewtrail::bench
