/// How long a read takes, and what it is worth: next to each time the worst miss and finish error
/// over the same putts (rolled by GSL at 1e-13), surface evaluations and allocations for one read.

#include <benchmark/benchmark.h>

#include <atomic>
#include <stdexcept>

#include "physics/read/plane_line.hpp"
#include "physics/read/room.hpp"
#include "physics/read/surface_line.hpp"
#include "tests/bench/plain_read.hpp"
#include "tests/bench/timed_reads.hpp"
#include "tests/support/plane_putt.hpp"
#include "tests/support/putts.hpp"

namespace dewtrail::bench {
namespace {

Stroke solve_plane(const Putt& putt) {
    const auto& plane = static_cast<const Plane&>(*putt.surface);
    return lines_on_plane(plane.gradient(), putt.resistance, putt.line(), putt.finish)
        .strokes.front();
}

Stroke solve_surface(const Putt& putt) {
    return lines_on_surface(putt, 1e-8, false).strokes.front();
}

Stroke solve_and_verify(const Putt& putt) {
    return read(putt, oracle::line_only()).lines.front().stroke;
}

Stroke solve_plainly(const Putt& putt) {
    const PlainRead result = plain_read(putt);
    if (!result.stroke) throw std::runtime_error("the plain Newton iteration gave up");
    return *result.stroke;
}

void plane_solve(benchmark::State& state) {
    time_reads(state, plane_putts(), solve_plane);
}
BENCHMARK(plane_solve);

void plane_solve_and_verify(benchmark::State& state) {
    time_reads(state, plane_putts(), solve_and_verify);
    double evaluations = 0;
    for (const Putt& putt : plane_putts())
        evaluations += read(putt, oracle::line_only()).lines.front().roll.evaluations;
    state.counters["evaluations"] = evaluations / static_cast<double>(plane_putts().size());
}
BENCHMARK(plane_solve_and_verify);

void plane_plainly(benchmark::State& state) {
    time_reads(state, plane_putts(), solve_plainly);
    count_evaluations(state, plane_putts(), solve_plainly);
}
BENCHMARK(plane_plainly);

void green_solve(benchmark::State& state) {
    time_reads(state, green_putts(), solve_surface);
    count_evaluations(state, green_putts(), solve_surface);
}
BENCHMARK(green_solve);

void green_solve_and_verify(benchmark::State& state) {
    time_reads(state, green_putts(), solve_and_verify);
    count_evaluations(state, green_putts(), solve_and_verify);
}
BENCHMARK(green_solve_and_verify);

void green_plainly(benchmark::State& state) {
    time_reads(state, green_putts(), solve_plainly);
    count_evaluations(state, green_putts(), solve_plainly);
}
BENCHMARK(green_plainly);

void time_rooms(benchmark::State& state, const std::vector<Putt>& putts) {
    std::vector<Stroke> strokes;
    for (const Putt& putt : putts) strokes.push_back(solve_and_verify(putt));
    std::size_t i = 0;
    for (auto _ : state) {
        const std::size_t n = i++ % putts.size();
        benchmark::DoNotOptimize(room_of(putts[n], strokes[n]));
    }
}
void plane_room(benchmark::State& state) {
    time_rooms(state, plane_putts());
}
BENCHMARK(plane_room);
void green_room(benchmark::State& state) {
    time_rooms(state, green_putts());
}
BENCHMARK(green_room);

}  // namespace
}  // namespace dewtrail::bench
