#include "physics/odds/prospect_table.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numbers/cubic_rows.hpp"

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
void smooth_spokes(const Table& values, Table& slopes, double Prospect::*member, int n) {
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
    smooth_spokes(values_, slopes_, &Prospect::putts, used_);
    smooth_spokes(values_, slopes_, &Prospect::holed, used_);
}

int ProspectTable::rings_within(double reach_m) {
    const auto beyond = std::lower_bound(rings_m.begin(), rings_m.end(), reach_m);
    return std::clamp(static_cast<int>(beyond - rings_m.begin()) + 1, 2, rings);
}

double ProspectTable::on_spoke(double Prospect::*member, int hour, const Spot& at) const {
    const double a = values_[at.ring][hour].*member, b = values_[at.ring + 1][hour].*member;
    const double ma = slopes_[at.ring][hour].*member, mb = slopes_[at.ring + 1][hour].*member;
    return at.t > 1 ? b + mb * at.width * (at.t - 1) : hermite(a, b, ma, mb, at.width, at.t);
}

ProspectTable::Spot ProspectTable::spot(const Vec2& place) const {
    const Vec2 off = place - hole_;
    const double away = off.norm();
    const double near = std::min(1.0, away / rings_m[0]);
    const double log_away = std::log(std::max(away, rings_m[0]));
    const auto& x = log_rings();
    const int ring =
        std::clamp(static_cast<int>(std::upper_bound(x.begin(), x.end(), log_away) - x.begin()) - 1,
                   0, used_ - 2);
    const double width = x[ring + 1] - x[ring];
    double clock = std::atan2(off.dot(right_of(uphill_)), off.dot(uphill_)) * (hours / (2 * M_PI));
    if (clock < 0) clock += hours;
    const int hour = static_cast<int>(clock);
    const double u = clock - hour;
    return {ring, hour, (log_away - x[ring]) / width, width, near * near, cubic_weights(u)};
}

double ProspectTable::blend(double Prospect::*member, const Spot& at) const {
    double sum = 0;
    for (int k = 0; k < 4; ++k)
        sum += at.weights[k] * on_spoke(member, (at.hour + k + hours - 1) % hours, at);
    return 1 + (sum - 1) * at.near;
}

Prospect ProspectTable::from(const Vec2& place) const {
    const Spot at = spot(place);
    return {std::max(1.0, blend(&Prospect::putts, at)),
            std::clamp(blend(&Prospect::holed, at), 0.0, 1.0)};
}

double ProspectTable::putts_from(const Vec2& place) const {
    return std::max(1.0, blend(&Prospect::putts, spot(place)));
}

}  // namespace dewtrail
