#pragma once

#include <cmath>
#include <cstdint>
#include <random>
#include <string_view>

namespace dewtrail {

/// Random numbers that are the same on every machine: the engine's sequence is fixed by the
/// standard, the library's distributions are not, so the transforms are written out here.
class RandomStream {
  public:
    explicit RandomStream(std::uint64_t seed) : engine_(seed) {}

    /// In [0, 1), all 53 bits.
    double unit() { return static_cast<double>(engine_() >> 11) * 0x1p-53; }
    double between(double lo, double hi) { return lo + (hi - lo) * unit(); }
    /// 0 .. n - 1.
    int below(int n) { return static_cast<int>(unit() * n); }
    /// Standard normal, by Box and Muller.
    double normal() {
        const double radius = std::sqrt(-2 * std::log(1 - unit()));
        return radius * std::cos(2 * M_PI * unit());
    }

  private:
    std::mt19937_64 engine_;
};

/// A seed from words, e.g. a date: FNV-1a, the same everywhere.
constexpr std::uint64_t seed_of(std::string_view words) {
    std::uint64_t hash = 0xcbf29ce484222325;
    for (const char c : words) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3;
    return hash;
}

}  // namespace dewtrail
