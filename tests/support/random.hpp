#pragma once

#include <cmath>
#include <cstdint>
#include <random>

namespace dewtrail::oracle {

/// Random numbers that are the same everywhere: the engine's sequence is fixed by the standard, the
/// library's distributions are not, so the transforms are written out here.
class Random {
  public:
    explicit Random(std::uint64_t seed) : engine_(seed) {}

    /// In [0, 1), all 53 bits.
    double unit() { return static_cast<double>(engine_() >> 11) * 0x1p-53; }
    double between(double lo, double hi) { return lo + (hi - lo) * unit(); }
    /// Each octave equally likely.
    double log_between(double lo, double hi) { return lo * std::pow(hi / lo, unit()); }
    bool chance(double p) { return unit() < p; }
    /// Standard normal, by Box and Muller.
    double normal() {
        const double radius = std::sqrt(-2 * std::log(1 - unit()));
        return radius * std::cos(2 * M_PI * unit());
    }
    /// 0 .. n-1; n is so far below 2^64 that the bias of a remainder cannot be seen.
    std::size_t below(std::size_t n) { return static_cast<std::size_t>(engine_() % n); }

  private:
    std::mt19937_64 engine_;
};

}  // namespace dewtrail::oracle
