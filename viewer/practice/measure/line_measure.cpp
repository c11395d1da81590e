#include "viewer/practice/measure/line_measure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include "physics/base/ball_and_hole.hpp"
#include "physics/numbers/normal.hpp"
#include "viewer/practice/measure/posterior.hpp"

namespace dewtrail {
namespace {

constexpr double deg_per_rad = 180 / M_PI;
constexpr int biases = 61, line_spreads = 36;
constexpr double most_bias_deg = 4.5, least_spread_deg = 0.2, most_spread_deg = 7;
constexpr double bias_prior_deg = 1;
constexpr double spread_prior_deg = 1.4, spread_prior_log = 0.45;
constexpr double spread_counts = 2;  // beside both together: odds rest on it
constexpr double worth_moving = 1.02;
constexpr std::string_view names[] = {"left", "through", "right"};

Cell to_cell(Passed passed) {
    return std::string(name_of(passed));
}

void from_cell(const Cell& cell, Passed& passed) {
    std::string text;
    dewtrail::from_cell(cell, text);
    const auto found = std::find(std::begin(names), std::end(names), text);
    if (found == std::end(names)) throw std::invalid_argument("'" + cut(text) + "' is not known");
    passed = static_cast<Passed>(found - std::begin(names));
}

constexpr RecordField<GateStroke> gate_fields[] = {
    field<GateStroke, &GateStroke::at>("at"),
    field<GateStroke, &GateStroke::gate, &GateSize::width_m>("width_m"),
    field<GateStroke, &GateStroke::gate, &GateSize::away_m>("away_m"),
    {"passed", [](const GateStroke& s) { return to_cell(s.passed); },
     [](GateStroke& s, const Cell& cell) { from_cell(cell, s.passed); }},
};

/// Chances of left, through and right.
std::array<double, 3> chances(double bias_deg, double spread_deg, double half_deg) {
    const double left = normal_below((-half_deg - bias_deg) / spread_deg);
    const double right = normal_below((bias_deg - half_deg) / spread_deg);
    return {left, std::max(1 - left - right, 0.0), right};
}

double entropy(const std::array<double, 3>& p) {
    double sum = 0;
    for (const double x : p)
        if (x > 0) sum -= x * std::log(x);
    return sum;
}

}  // namespace

double GateSize::half_angle_rad() const {
    return std::atan((0.5 * width_m - ball_radius_m) / away_m);
}

std::span<const RecordField<GateStroke>> gate_stroke_fields() {
    return gate_fields;
}

std::string out_of_range(const GateStroke& stroke) {
    const auto [width, away] = stroke.gate;
    if (!(width > 2 * ball_radius_m && width <= 1))
        return "a gate no ball fits through, or over 1 m";
    if (!(away >= 0.2 && away <= 5)) return "a gate nearer than 0.2 m or farther than 5 m";
    return "";
}

std::string_view name_of(Passed passed) {
    return names[static_cast<int>(passed)];
}

LinePosterior::LinePosterior() {
    for (int s = 0; s < line_spreads; ++s)
        for (int b = 0; b < biases; ++b) {
            const double bias = most_bias_deg * (2.0 * b / (biases - 1) - 1);
            const double spread = least_spread_deg * std::pow(most_spread_deg / least_spread_deg,
                                                              (s + 0.5) / line_spreads);
            const double z = bias / bias_prior_deg,
                         y = std::log(spread / spread_prior_deg) / spread_prior_log;
            cells_.push_back({bias, spread, -0.5 * (z * z + y * y)});
        }
}

void LinePosterior::add(const GateSize& gate, Passed passed) {
    const double half = gate.half_angle_rad() * deg_per_rad;
    for (Cell& cell : cells_) {
        const auto p = chances(cell.bias_deg, cell.spread_deg, half);
        cell.log_weight += std::log(p[static_cast<std::size_t>(passed)] + 1e-12);
    }
    ++strokes_;
}

std::vector<double> LinePosterior::weights() const {
    double most = -HUGE_VAL, sum = 0;
    for (const Cell& cell : cells_) most = std::max(most, cell.log_weight);
    std::vector<double> weights;
    for (const Cell& cell : cells_) sum += weights.emplace_back(std::exp(cell.log_weight - most));
    for (double& w : weights) w /= sum;
    return weights;
}

LineFound LinePosterior::found() const {
    const auto weights = this->weights();
    Weighted by_bias(biases), by_spread(line_spreads);
    for (std::size_t i = 0; i < cells_.size(); ++i) {
        auto& bias = by_bias[i % biases];
        auto& spread = by_spread[i / biases];
        bias.first = cells_[i].bias_deg, bias.second += weights[i];
        spread.first = cells_[i].spread_deg, spread.second += weights[i];
    }
    return {strokes_, credible_of(std::move(by_bias)), credible_of(std::move(by_spread))};
}

GateSize LinePosterior::next(const std::vector<GateSize>& gates, const GateSize& before) const {
    const auto weights = this->weights();
    // Of bias and spread together, and of the spread by itself.
    const auto told_by = [&](const GateSize& gate) {
        const double half = gate.half_angle_rad() * deg_per_rad;
        std::array<double, 3> all{};
        double both_known = 0, spread_known = 0;
        for (std::size_t s = 0; s < line_spreads; ++s) {
            std::array<double, 3> of_spread{};
            double weight = 0;
            for (std::size_t i = s * biases; i < (s + 1) * biases; ++i) {
                if (weights[i] < 1e-7) continue;
                const auto p = chances(cells_[i].bias_deg, cells_[i].spread_deg, half);
                for (std::size_t k = 0; k < 3; ++k) of_spread[k] += weights[i] * p[k];
                weight += weights[i];
                both_known += weights[i] * entropy(p);
            }
            for (std::size_t k = 0; k < 3; ++k) all[k] += of_spread[k];
            if (weight <= 0) continue;
            for (double& p : of_spread) p /= weight;
            spread_known += weight * entropy(of_spread);
        }
        return (entropy(all) - both_known) + spread_counts * (entropy(all) - spread_known);
    };
    GateSize best = before;
    double most = before.away_m > 0 ? worth_moving * told_by(before) : 0;
    for (const GateSize& gate : gates)
        if (const double told = told_by(gate); told > most) most = told, best = gate;
    return best;
}

std::vector<GateSize> usual_gates(bool metric) {
    std::vector<GateSize> gates;
    if (metric)
        for (const double away : {0.5, 1.0, 1.5, 2.0})
            for (const double width : {0.055, 0.065, 0.08, 0.1, 0.13})
                gates.push_back({width, away});
    else
        for (const double feet : {1.5, 3.0, 5.0, 7.0})
            for (const double inches : {2.25, 2.5, 3.0, 4.0, 5.0})
                gates.push_back({inches * metres_per_inch, feet * metres_per_foot});
    return gates;
}

}  // namespace dewtrail
