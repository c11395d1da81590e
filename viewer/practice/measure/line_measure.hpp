#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "viewer/files/record.hpp"
#include "viewer/practice/habits/bias.hpp"

namespace dewtrail {

/// Two coins or tees: how far apart, inside edge to inside edge, and how far from the ball.
struct GateSize {
    double width_m = 0, away_m = 0;

    /// Start lines up to this far off go through without a touch, radians.
    double half_angle_rad() const;
};

enum class Passed { left, through, right };

/// A stroke of the line test.
struct GateStroke {
    std::int64_t id = 0;
    std::string at{};  ///< when, ISO 8601
    GateSize gate;
    Passed passed = Passed::through;
};
std::span<const RecordField<GateStroke>> gate_stroke_fields();
std::string out_of_range(const GateStroke& stroke);
std::string_view name_of(Passed passed);

/// What strokes through gates say of a player's start line: where it goes on average (right
/// positive) and how it scatters, one standard deviation; degrees.
struct LineFound {
    int strokes = 0;
    Credible bias_deg, spread_deg;
};

/// An ordered probit: a line is normal about the bias, and left, through or right is all that is
/// seen of it. Posterior on a grid.
class LinePosterior {
  public:
    LinePosterior();
    void add(const GateSize& gate, Passed passed);
    LineFound found() const;

    /// The gate from which one more stroke is expected to tell most of bias and spread, of the
    /// spread above all (Lindley, Ann. Math. Statist. 27, 986-1005, 1956: the outcome's entropy
    /// less what is left of it once they are known). `before`: kept unless another tells more.
    GateSize next(const std::vector<GateSize>& gates, const GateSize& before) const;

  private:
    struct Cell {
        double bias_deg, spread_deg, log_weight;
    };
    std::vector<double> weights() const;

    std::vector<Cell> cells_;
    int strokes_ = 0;
};

/// Gates that can be laid on a floor, in round figures; the ball fits through each.
std::vector<GateSize> usual_gates(bool metric = true);

}  // namespace dewtrail
