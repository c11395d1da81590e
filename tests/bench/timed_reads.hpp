#pragma once

#include <benchmark/benchmark.h>

#include <memory>
#include <vector>

#include "tests/bench/known_putts.hpp"
#include "tests/support/allocations.hpp"

/// How a way to read is timed and judged: time, allocations and surface evaluations for one read,
/// worst miss and finish error over all putts (rolled by GSL at 1e-13).
namespace dewtrail::bench {

/// Counts how often a surface is asked. What does the asking does not see that it is one.
class Counted final : public Surface {
  public:
    Counted(std::shared_ptr<const Surface> surface, long& count)
        : surface_(std::move(surface)), count_(count) {}
    SurfaceJet at(double x, double y) const override {
        ++count_;
        return surface_->at(x, y);
    }

  private:
    std::shared_ptr<const Surface> surface_;
    long& count_;
};

using Solve = Stroke (*)(const Putt&);

inline void time_reads(benchmark::State& state, const std::vector<Putt>& putts, Solve solve) {
    std::size_t i = 0;
    for (auto _ : state) benchmark::DoNotOptimize(solve(putts[i++ % putts.size()]));

    std::vector<Stroke> strokes;
    const long before = oracle::allocations();
    for (const Putt& putt : putts) benchmark::DoNotOptimize(solve(putt));
    const double reads = static_cast<double>(putts.size());
    state.counters["allocations"] = static_cast<double>(oracle::allocations() - before) / reads;
    for (const Putt& putt : putts) strokes.push_back(solve(putt));
    const Accuracy worst = worst_of(putts, strokes);
    state.counters["miss_m"] = worst.miss_m;
    state.counters["finish_m"] = worst.finish_m;
}

/// Surface evaluations of one read, averaged. A plane that is counted is no longer known as a
/// plane: only for what shoots.
inline void count_evaluations(benchmark::State& state, const std::vector<Putt>& putts,
                              Solve solve) {
    long count = 0;
    for (Putt putt : putts) {
        putt.surface = std::make_shared<Counted>(putt.surface, count);
        benchmark::DoNotOptimize(solve(putt));
    }
    state.counters["evaluations"] = static_cast<double>(count) / static_cast<double>(putts.size());
}

}  // namespace dewtrail::bench
