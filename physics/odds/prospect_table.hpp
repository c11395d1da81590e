#pragma once

#include <array>

#include "physics/surface/surface.hpp"

namespace dewtrail {

/// What a player may expect from a spot round the hole.
struct Prospect {
    double putts = 1;  ///< mean number until holed
    double holed = 1;  ///< chance that the next one drops
};

/// A function of the place round a hole: given at rings of distance and hours of clock, monotone
/// cubic (Fritsch & Carlson, SIAM J. Numer. Anal. 17, 238-246, 1980) in the logarithm of the
/// distance, cubic round the clock.
class ProspectTable {
  public:
    static constexpr int hours = 12;
    static constexpr std::array<double, 15> rings_m{0.08, 0.2, 0.35, 0.5, 0.75, 1.0,  1.3, 1.7,
                                                    2.2,  3.0, 4.2,  6.0, 9.0,  13.0, 19.0};
    static constexpr int rings = static_cast<int>(rings_m.size());

    /// `uphill`: unit vector, clock 12 (any on level ground). `used`: how many of the rings have
    /// values; at least two.
    ProspectTable(const Vec2& hole, const Vec2& uphill, int used = rings)
        : hole_(hole), uphill_(uphill), used_(used) {}

    Prospect& at(int ring, int hour) { return values_[ring][hour]; }
    const Prospect& at(int ring, int hour) const { return values_[ring][hour]; }
    Vec2 place(int ring, int hour) const;

    /// To be called after values were changed.
    void smooth();

    /// Nearly 1 inside the first ring; extrapolated linearly in log distance beyond the last.
    Prospect from(const Vec2& place) const;
    double putts_from(const Vec2& place) const;  ///< of these the first

    int used() const { return used_; }
    /// The number of rings that a table reaching this far has.
    static int rings_within(double reach_m);

  private:
    /// Between which rings a place lies, and which spokes have what weight there.
    struct Spot {
        int ring, hour;
        double t, width, near;
        std::array<double, 4> weights;
    };
    Spot spot(const Vec2& place) const;
    double on_spoke(double Prospect::*member, int hour, const Spot& spot) const;
    double blend(double Prospect::*member, const Spot& spot) const;

    Vec2 hole_, uphill_;
    int used_;
    std::array<std::array<Prospect, hours>, rings> values_{};
    std::array<std::array<Prospect, hours>, rings> slopes_{};  ///< per log distance
};

}  // namespace dewtrail
