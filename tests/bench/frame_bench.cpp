/// What a frame costs before anybody paints it, while the ball is dragged round a fitted green.

#include <benchmark/benchmark.h>

#include <cmath>
#include <memory>
#include <numbers>

#include "greens/green_file.hpp"
#include "support/as_eigen.hpp"
#include "tests/support/allocations.hpp"
#include "viewer/modes/read/read_mode.hpp"

namespace dewtrail::bench {
namespace {

double half_em(Face, double size, std::string_view words) {
    return 0.5 * size * static_cast<double>(words.size());
}

std::unique_ptr<Shell> on_green(const std::string& name) {
    ReadStart start;
    start.outlook = false;  // has a thread of its own
    if (!name.empty())
        put_on_green(start.setup, std::make_shared<const Green>(load_green(
                                      name, {std::string(DEWTRAIL_SOURCE_DIR) + "/greens"})));
    return Shell::with<ReadMode>(start, start);
}

/// A live solve and a whole picture for every step of the ball round the hole.
void drag_ball(benchmark::State& state, const std::string& green) {
    const auto made = on_green(green);
    Shell& shell = *made;
    const auto& mode = static_cast<const ReadMode&>(shell.mode());
    shell.frame(half_em);
    const Vec2 hole = *mode.marks().hole, from = *mode.marks().ball - hole;
    shell.pointer_pressed(hole + from, Button::left, {});
    double swung = 0;
    const auto step = [&] {
        swung += 5 * std::numbers::pi / 180;
        shell.pointer_moved(hole + turned(from, 0.3 * std::sin(swung)), {});
        shell.advance(1.0 / 60);
        benchmark::DoNotOptimize(shell.frame(half_em));
    };
    for (auto _ : state) step();
    const long before = oracle::allocations();
    step();
    state.counters["allocations"] = static_cast<double>(oracle::allocations() - before);
    state.counters["solve_ms"] = mode.solved().solve_ms;
}

void plane_drag(benchmark::State& state) {
    drag_ball(state, "");
}
BENCHMARK(plane_drag)->Unit(benchmark::kMillisecond);
void green_drag(benchmark::State& state) {
    drag_ball(state, "meadow");
}
BENCHMARK(green_drag)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace dewtrail::bench
