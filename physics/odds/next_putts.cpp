#include "physics/odds/next_putts.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "physics/numbers/in_parallel.hpp"
#include "physics/odds/misses.hpp"

namespace dewtrail {
namespace {

constexpr double settled = 5e-4;
constexpr int most_sweeps = 10;

/// Of the parabola through three points, held between the outer ones.
double turning_point(const std::array<double, 3>& x, const std::array<double, 3>& y) {
    const double a = (y[1] - y[0]) / (x[1] - x[0]), b = (y[2] - y[1]) / (x[2] - x[1]);
    if (!(b > a)) return x[1];
    const double middle = 0.5 * (x[0] + x[1]);
    return std::clamp(middle - a * 0.5 * (x[2] - x[0]) / (b - a), x[0], x[2]);
}

/// Finds and plays one spot's fewest-putts choice, what follows being given.
class Chooser {
  public:
    Chooser(const HoleSurround::Spot& spot, const StrokeMap& map, const Scatter& scatter,
            const ProspectTable& next)
        : spot_(spot), map_(map), scatter_(scatter), next_(next) {}

    /// The finish first, downhill from the one that `choice` begins with, then the aim for it.
    void choose(Choice& choice) const {
        const auto& pasts = HoleSurround::pasts_m;
        std::array<double, last + 1> putts;
        putts.fill(-1);
        const auto at = [&](int i) {
            if (putts[i] < 0) putts[i] = play(pasts[i], 0, rough).putts;
            return putts[i];
        };
        int best = choice.nearest;
        while (best < last && at(best + 1) < at(best)) ++best;
        while (best > 0 && at(best - 1) < at(best)) --best;
        choice.nearest = best;
        choice.past_m = pasts[best];
        if (best > 0 && best < last)
            choice.past_m = turning_point({pasts[best - 1], pasts[best], pasts[best + 1]},
                                          {at(best - 1), at(best), at(best + 1)});
        const double left = play(pasts[best], -shift, rough).putts;
        const double right = play(pasts[best], shift, rough).putts;
        choice.aim = turning_point({-shift, 0, shift}, {left, at(best), right});
    }

    Prospect play(const Choice& choice) const { return play(choice.past_m, choice.aim, coarse); }

  private:
    static constexpr double shift = 0.4;
    static constexpr int last = static_cast<int>(HoleSurround::pasts_m.size()) - 1;

    Prospect play(double past_m, double aim, const Fineness& fineness) const {
        const HoleSurround::Option option = spot_.option(past_m);
        StrokeSpread spread =
            stroke_spread(option.angle_rad, option.level_roll_m, scatter_, option.sensitivity);
        spread.angle_rad += aim * std::sqrt(spread.covariance(0, 0));
        return dewtrail::play(map_, spread, next_, fineness);
    }

    const HoleSurround::Spot& spot_;
    const StrokeMap& map_;
    const Scatter& scatter_;
    const ProspectTable& next_;
};

/// The spots' maps; where it takes rolls to know where a ball rests, with those of this player.
class RestedMaps {
  public:
    RestedMaps(const std::vector<HoleSurround::Spot>& spots, const Scatter& scatter)
        : spots_(spots), rolled_(spots.size()) {
        in_parallel(static_cast<int>(spots.size()), [&](int i) {
            if (!spots[i].map.on_plane()) rolled_[i] = spots[i].map_for(scatter);
        });
    }
    const StrokeMap& operator[](int i) const { return rolled_[i] ? *rolled_[i] : spots_[i].map; }

  private:
    const std::vector<HoleSurround::Spot>& spots_;
    std::vector<std::optional<StrokeMap>> rolled_;
};

}  // namespace

NextPutts::NextPutts(const HoleSurround& surround, const Scatter& scatter)
    : table_(surround.empty()), choices_(surround.spots().size()) {
    guess();
    const auto& spots = surround.spots();
    const RestedMaps maps(spots, scatter);
    const int kept = surround.kept();
    for (double change = 1; change > settled && sweeps_ < most_sweeps; ++sweeps_) {
        change = 0;
        for (int ring = 0; ring < table_.used(); ++ring) {
            std::array<Prospect, ProspectTable::hours> found{};
            in_parallel(kept, [&](int hour) {
                const int i = ring * kept + hour;
                const Chooser chooser(spots[i], maps[i], scatter, table_);
                if (sweeps_ == 0) {
                    if (ring > 0) choices_[i] = choices_[i - kept];
                    chooser.choose(choices_[i]);
                }
                found[hour] = chooser.play(choices_[i]);
            });
            for (int hour = 0; hour < kept; ++hour)
                change =
                    std::max(change, std::abs(found[hour].putts - table_.at(ring, hour).putts));
            take(ring, found, kept);
        }
    }
}

/// Neither far too high nor too low: short ones are holed, long ones take two.
void NextPutts::guess() {
    for (int ring = 0; ring < table_.used(); ++ring)
        for (int hour = 0; hour < ProspectTable::hours; ++hour) {
            const double holed = std::exp(-ProspectTable::rings_m[ring] / 2);
            table_.at(ring, hour) = {2 - holed, holed};
        }
    table_.smooth();
}

/// A plane's hours 7 to 11 mirror 5 to 1; on the level one is all.
void NextPutts::take(int ring, const std::array<Prospect, ProspectTable::hours>& found, int kept) {
    constexpr int hours = ProspectTable::hours;
    for (int hour = 0; hour < kept; ++hour) table_.at(ring, hour) = found[hour];
    for (int hour = kept; hour < hours; ++hour)
        table_.at(ring, hour) = table_.at(ring, std::min(hours - hour, kept - 1));
    table_.smooth();
}

}  // namespace dewtrail
