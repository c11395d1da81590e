#pragma once

#include <Eigen/Core>
#include <functional>
#include <optional>
#include <vector>

#include "physics/read/stroke_roller.hpp"

namespace dewtrail {

/// What a stroke does at the hole, in figures that change smoothly from one stroke to the next,
/// also where the ball no longer reaches the rim.
struct Arrival {
    /// offset: of the ball's line from the hole's centre, right positive, metres. energy: square of
    /// the speed that it has abreast of the centre if it slows as on the level, m^2/s^2. rest: from
    /// the centre, green frame; the ground taken for a plane from the rim on.
    enum Figure { offset, energy, rest_x, rest_y };
    using Figures = Eigen::Array4d;

    Arrival(const Putt& putt, double stroke_off, const Approach& approach);

    /// From the ball to where it rests.
    Vec2 way(const Putt& putt) const {
        return Vec2(figures[rest_x], figures[rest_y]) + putt.line();
    }

    double off;  ///< of the stroke from the read
    Figures figures;
    double slope_along, slope_right;
    bool drops;
    bool stops_short;  ///< as near as it comes it also rests, about
    bool grazes;       ///< slowly: a figure that is a little wrong is an edge that is far off
};

enum class Rolled { roughly, exactly };

/// The strokes through a read that differ from it in one thing, and on either side the edge of
/// those that drop. Strokes are rolled roughly, each at the edge that cubics through the figures of
/// the nearest ones tell, until that moves little; then exactly, until it moves by less than 8e-7,
/// which leaves less than 1e-7. Where balls die at the rim, exact strokes 1.5e-7 apart lie on both
/// sides of the edge.
class DropLine {
  public:
    using RollAt = std::function<Approach(double off, Rolled how)>;

    /// `rate`: of the figures at the read, about. `roughly`: whether that is cheaper than exactly.
    DropLine(const Putt& putt, const Arrival& read, const Arrival::Figures& rate, bool roughly,
             RollAt roll_at);

    /// From the read toward `most`, which it is if strokes drop as far as that. `first`: where to
    /// look first, of the same sign; `short_of_it`: strokes there rest short of the hole.
    double edge(double first, double most, bool short_of_it);

  private:
    struct Curves;
    class Search;
    Curves curves(double about) const;
    std::optional<double> edge_on(const Curves& curves, const Arrival& near, double guess,
                                  bool short_of_it) const;

    const Putt& putt_;
    Arrival::Figures rate_;
    bool roughly_;
    RollAt roll_at_;
    std::vector<Arrival> strokes_;  ///< the read, then others, roughly if any is
    Arrival::Figures exact_by_ = Arrival::Figures::Zero();  ///< what those lack
};

}  // namespace dewtrail
