#pragma once

#include <memory>
#include <vector>

#include "physics/odds/best_choice.hpp"
#include "physics/roll/green_speed.hpp"

namespace dewtrail::published {

/// A hole on a plane of this slope, rising to the north.
struct PlaneHole {
    double stimp_ft, slope;
    std::shared_ptr<const Surface> surface = std::make_shared<Plane>(Vec2(0, slope));
    double resistance = resistance_of_stimp(stimp_ft * metres_per_foot);
    HoleSurround surround = *HoleSurround::make(surface, resistance, Vec2(0, 0));

    Putt putt(double feet, double clock_h, double past_m = metres_per_foot) const {
        Putt p;
        p.surface = surface;
        p.resistance = resistance;
        p.ball = feet * metres_per_foot * along_bearing(clock_h * M_PI / 6);
        p.finish = Finish::past(past_m);
        return p;
    }
};

/// Holes on slopes of 1 and 2 %: what the published averages are held against.
class ClockAverage {
  public:
    explicit ClockAverage(double stimp_ft) {
        for (const double slope : {0.01, 0.02}) holes_.push_back({stimp_ft, slope});
    }

    const std::vector<PlaneHole>& holes() const { return holes_; }

    std::vector<NextPutts> next(const Scatter& scatter) const {
        std::vector<NextPutts> tables;
        for (const PlaneHole& hole : holes_) tables.emplace_back(hole.surround, scatter);
        return tables;
    }

    /// The fewest-putts choice from every half hour of the clock.
    static Prospect mean(const std::vector<NextPutts>& tables, double feet) {
        constexpr int places = 24;
        const double share = 1.0 / (places * static_cast<double>(tables.size()));
        Prospect sum{0, 0};
        for (const NextPutts& table : tables)
            for (int i = 0; i < places; ++i) {
                const Vec2 place = feet * metres_per_foot * along_bearing(2 * M_PI * i / places);
                sum.putts += share * table.from(place).putts;
                sum.holed += share * table.from(place).holed;
            }
        return sum;
    }

    Prospect mean(const Scatter& scatter, double feet) const { return mean(next(scatter), feet); }

  private:
    std::vector<PlaneHole> holes_;
};

}  // namespace dewtrail::published
