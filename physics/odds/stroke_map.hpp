#pragma once

#include <array>
#include <memory>
#include <optional>
#include <vector>

#include "physics/odds/rest_grid.hpp"

namespace dewtrail {

/// The start angles that drop with one level roll, in order: one interval; on steep side hills two
/// or more.
class Drops {
  public:
    void add(const Interval& interval) {
        if (count_ < static_cast<int>(of_.size())) of_[count_++] = interval;
    }
    const Interval* begin() const { return of_.data(); }
    const Interval* end() const { return of_.data() + count_; }
    bool empty() const { return count_ == 0; }
    int size() const { return count_; }

  private:
    std::array<Interval, 6> of_{};
    int count_ = 0;
};

/// Level rolls over which the strokes that drop keep to the same number of intervals.
struct StrokePanel {
    Interval level_rolls;
    int strands = 1;
    std::vector<Interval> edges{};   ///< row by row, strand by strand
    std::vector<double> levels_m{};  ///< of the rows; none where they are spread by a cosine

    Drops at(double level_roll_m) const;
};

struct MapOptions {
    int edge_rows = 49;
    /// Whether strokes are looked for in several intervals where there may be such.
    bool scans = true;
};

/// What every stroke of one putt does: the strokes that drop, as intervals of start angle for each
/// level roll, and where the others rest, hole covered. Made once, then nanoseconds a question.
///
/// The edges are found to 2e-4 of the hole's radius at 49 level rolls (or as many as are asked
/// for), dense at both ends, and interpolated by cubics. Where friction is less than 2.2 times the
/// slope there may be more than one interval: see DropScan. Rest points are exact on planes;
/// elsewhere, and under conditions, those of a RestGrid over the window, 25 x 17 strokes.
///
/// Left out: a ball that strikes the rim too fast is let through, as if the hole were covered.
class StrokeMap {
  public:
    /// None where no stroke was found that drops. `around`: one that does, and `window`: both for
    /// what is not a plane without conditions.
    static std::optional<StrokeMap> make(const Putt& putt, const std::optional<Stroke>& around = {},
                                         const StrokeWindow& window = {},
                                         const MapOptions& options = {});
    /// This one with rest points over another window; what drops is looked for anew only where the
    /// window bounded the search.
    std::optional<StrokeMap> over(const StrokeWindow& window) const;
    /// Only what drops; `rest` is not to be asked before `with_rests`.
    static std::optional<StrokeMap> make_edges(const Putt& putt, const Stroke& around,
                                               const MapOptions& options);
    StrokeMap with_rests(const StrokeWindow& window, RestGrid::Size size) const;

    /// The level rolls of which some start angle drops, from soft to firm.
    const std::vector<StrokePanel>& panels() const { return panels_; }
    /// Start angles that drop with this level roll; none outside the panels.
    Drops drops(double level_roll_m) const;
    Vec2 rest(double angle_rad, double level_roll_m) const;
    const Putt& putt() const { return putt_; }
    bool on_plane() const { return ground_.has_value(); }  ///< and without conditions

  private:
    friend class MapBuilder;
    StrokeMap(const Putt& putt, const MapOptions& options) : putt_(putt), options_(options) {}

    Putt putt_;
    MapOptions options_;
    bool scanned_ = false;
    std::optional<PlaneGround> ground_;
    double level_slowing_ = 0;
    std::vector<StrokePanel> panels_;
    std::shared_ptr<const RestGrid> rests_;
};

}  // namespace dewtrail
