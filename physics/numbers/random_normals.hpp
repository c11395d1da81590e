#pragma once

#include <array>
#include <cmath>
#include <cstdint>
#include <random>

namespace dewtrail {

/// Standard normal random numbers, the same for the same seed everywhere: the engine's sequence is
/// fixed by the standard, the library's own transform differs from one to the next.
class RandomNormals {
  public:
    explicit RandomNormals(std::uint64_t seed) : engine_(seed) {}

    /// Two independent ones, by Box and Muller.
    std::array<double, 2> pair() {
        const double radius = std::sqrt(-2 * std::log(1 - unit())), angle = 2 * M_PI * unit();
        return {radius * std::cos(angle), radius * std::sin(angle)};
    }

  private:
    double unit() { return static_cast<double>(engine_() >> 11) * 0x1p-53; }
    std::mt19937_64 engine_;
};

}  // namespace dewtrail
