#include "physics/prospect_table.hpp"

#include <algorithm>
#include <cmath>

namespace dewtrail {
namespace {

const std::array<double, ProspectTable::rings>& log_rings() {
    static const auto logs = [] {
        std::array<double, ProspectTable::rings> values;
        for (int i = 0; i < ProspectTable::rings; ++i)
            values[i] = std::log(ProspectTable::rings_m[i]);
        return values;
    }();
    return logs;
}

Vec2 right_of(const Vec2& e) {
    return {e.y(), -e.x()};
}

/// Fritsch & Carlson's slope at the middle of three points: none at a turn, else the weighted
/// harmonic mean of the two chords.
double monotone_slope(double before, double after, double left, double right) {
    if (before * after <= 0) return 0;
    const double w1 = 2 * right + left, w2 = right + 2 * left;
    return (w1 + w2) / (w1 / before + w2 / after);
}

double hermite(double y0, double y1, double m0, double m1, double width, double t) {
    const double s = 1 - t;
    return y0 * s * s * (1 + 2 * t) + y1 * t * t * (3 - 2 * t) + width * t * s * (m0 * s - m1 * t);
}

template <class Table>
void smooth_spokes(const Table& values, Table& slopes, double Prospect::*member) {
    constexpr int n = ProspectTable::rings;
    const auto& x = log_rings();
    for (int hour = 0; hour < ProspectTable::hours; ++hour) {
        const auto chord = [&](int i) {
            return (values[i + 1][hour].*member - values[i][hour].*member) / (x[i + 1] - x[i]);
        };
        slopes[0][hour].*member = chord(0);
        slopes[n - 1][hour].*member = chord(n - 2);
        for (int i = 1; i < n - 1; ++i)
            slopes[i][hour].*member =
                monotone_slope(chord(i - 1), chord(i), x[i] - x[i - 1], x[i + 1] - x[i]);
    }
}

}  // namespace

Vec2 ProspectTable::place(int ring, int hour) const {
    const double round = 2 * M_PI * hour / hours;
    return hole_ +
           rings_m[ring] * (std::cos(round) * uphill_ + std::sin(round) * right_of(uphill_));
}

void ProspectTable::smooth() {
    smooth_spokes(values_, slopes_, &Prospect::putts);
    smooth_spokes(values_, slopes_, &Prospect::holed);
}

Prospect ProspectTable::on_spoke(int hour, int ring, double t) const {
    const Prospect &a = values_[ring][hour], &b = values_[ring + 1][hour];
    const Prospect &ma = slopes_[ring][hour], &mb = slopes_[ring + 1][hour];
    const double width = log_rings()[ring + 1] - log_rings()[ring];
    if (t > 1)
        return {b.putts + mb.putts * width * (t - 1),
                std::max(0.0, b.holed + mb.holed * width * (t - 1))};
    return {hermite(a.putts, b.putts, ma.putts, mb.putts, width, t),
            hermite(a.holed, b.holed, ma.holed, mb.holed, width, t)};
}

Prospect ProspectTable::from(const Vec2& place) const {
    const Vec2 off = place - hole_;
    const double away = off.norm();
    const double near = std::min(1.0, away / rings_m[0]);
    const double log_away = std::log(std::max(away, rings_m[0]));
    const auto& x = log_rings();
    const int ring =
        std::clamp(static_cast<int>(std::upper_bound(x.begin(), x.end(), log_away) - x.begin()) - 1,
                   0, rings - 2);
    const double t = (log_away - x[ring]) / (x[ring + 1] - x[ring]);
    double clock = std::atan2(off.dot(right_of(uphill_)), off.dot(uphill_)) * (hours / (2 * M_PI));
    if (clock < 0) clock += hours;
    const int hour = static_cast<int>(clock);
    const double u = clock - hour;
    const double weights[] = {-0.5 * u * (1 - u) * (1 - u), 1 - u * u * (2.5 - 1.5 * u),
                              u * (0.5 + u * (2 - 1.5 * u)), -0.5 * u * u * (1 - u)};
    Prospect sum{0, 0};
    for (int k = 0; k < 4; ++k) {
        const Prospect p = on_spoke((hour + k + hours - 1) % hours, ring, t);
        sum.putts += weights[k] * p.putts;
        sum.holed += weights[k] * p.holed;
    }
    return {std::max(1.0, 1 + (sum.putts - 1) * near * near),
            std::clamp(1 + (sum.holed - 1) * near * near, 0.0, 1.0)};
}

}  // namespace dewtrail
