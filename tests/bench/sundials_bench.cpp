/// The same reads by CVODES with forward sensitivities.

#include <stdexcept>

#include "tests/bench/sundials_read.hpp"
#include "tests/bench/timed_reads.hpp"

namespace dewtrail::bench {
namespace {

Stroke solve_by_cvodes(const Putt& putt) {
    const PlainRead result = sundials_read(putt);
    if (!result.stroke) throw std::runtime_error("the CVODES iteration gave up");
    return *result.stroke;
}

void plane_cvodes(benchmark::State& state) {
    time_reads(state, plane_putts(), solve_by_cvodes);
    count_evaluations(state, plane_putts(), solve_by_cvodes);
}
BENCHMARK(plane_cvodes);

void green_cvodes(benchmark::State& state) {
    time_reads(state, green_putts(), solve_by_cvodes);
    count_evaluations(state, green_putts(), solve_by_cvodes);
}
BENCHMARK(green_cvodes);

}  // namespace
}  // namespace dewtrail::bench
