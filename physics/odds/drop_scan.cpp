#include "physics/odds/drop_scan.hpp"

#include <algorithm>
#include <cmath>

#include "physics/base/ball_and_hole.hpp"
#include "physics/numbers/root.hpp"
#include "physics/read/plane_line.hpp"
#include "physics/roll/green_speed.hpp"

namespace dewtrail {
namespace {

constexpr int fine_rows = 49;
constexpr double fastest_m_s[] = {1.63, 1.2, 0.8, 0.5, 0.3, 0.15};
constexpr double about_radii = 6;  ///< strokes beside those over the centre, in hole radii
constexpr double firmer = 1.15;    ///< level rolls beside those

}  // namespace

DropScan::DropScan(const StrokeRoller& roller, const StrokeWindow& window, int edge_rows)
    : roller_(roller), window_(window) {
    const double radius_rad = hole_radius_m / roller.putt().distance_m();
    const bool fine = edge_rows >= fine_rows;
    fan_step_rad_ = (fine ? 0.3 : 0.5) * radius_rad;
    edge_error_rad_ = 1e-7 * radius_rad;
    jump_rad_ = 1.5 * radius_rad;
    level_rows_ = fine ? 25 : 13;
    bow_rad_ = (fine ? 0.01 : 0.05) * radius_rad;
    least_step_m_ = (fine ? 1e-4 : 1e-3) * (window.level_roll_m.hi - window.level_roll_m.lo);
}

std::vector<Interval> DropScan::strands_at(double level_roll_m) const {
    const auto f = [&](double angle) { return roller_.margin(angle, level_roll_m); };
    const auto [from, to] = window_.angle_rad;
    const int count = 2 + static_cast<int>((to - from) / fan_step_rad_);
    std::vector<LevelStroke> fan;
    for (int i = 0; i < count; ++i)
        fan.push_back({from + (to - from) * i / (count - 1), level_roll_m});
    std::vector<double> margins(fan.size());
    roller_.margins(fan, margins);
    Strands strands;
    if (margins.front() > 0) strands.push_back({from, to});
    for (std::size_t i = 1; i < fan.size(); ++i) {
        if ((margins[i - 1] > 0) == (margins[i] > 0)) continue;
        const double edge = root(f, fan[i - 1].angle_rad, fan[i].angle_rad, margins[i - 1],
                                 margins[i], edge_error_rad_);
        if (margins[i] > 0)
            strands.push_back({edge, to});
        else
            strands.back().hi = edge;
    }
    return strands;
}

/// As many strands, and none of them jumps.
bool DropScan::alike(const Row& a, const Row& b) const {
    if (a.strands.size() != b.strands.size()) return false;
    for (std::size_t i = 0; i < a.strands.size(); ++i)
        if (std::abs(a.strands[i].lo - b.strands[i].lo) > jump_rad_ ||
            std::abs(a.strands[i].hi - b.strands[i].hi) > jump_rad_)
            return false;
    return true;
}

/// Whether the row half way lies on the chord between these.
bool DropScan::straight(const Row& a, const Row& middle, const Row& b) const {
    if (!alike(a, b) || a.strands.size() != middle.strands.size()) return false;
    for (std::size_t i = 0; i < a.strands.size(); ++i) {
        const Interval &p = a.strands[i], &q = middle.strands[i], &r = b.strands[i];
        if (std::abs(q.lo - 0.5 * (p.lo + r.lo)) > bow_rad_ ||
            std::abs(q.hi - 0.5 * (p.hi + r.hi)) > bow_rad_)
            return false;
    }
    return true;
}

/// Rows between two, until chords between them follow the edges or they are close.
void DropScan::refine(const Row& soft, const Row& firm, std::vector<Row>& rows) const {
    if (firm.level_roll_m - soft.level_roll_m < least_step_m_) return;
    if (soft.strands.empty() && firm.strands.empty()) return;
    const double level = 0.5 * (soft.level_roll_m + firm.level_roll_m);
    const Row middle{level, strands_at(level)};
    const bool done = straight(soft, middle, firm);
    if (!done) refine(soft, middle, rows);
    rows.push_back(middle);
    if (!done) refine(middle, firm, rows);
}

std::vector<StrokePanel> DropScan::panels() const {
    const auto [soft, firm] = window_.level_roll_m;
    std::vector<Row> rows;
    for (int i = 0; i < level_rows_; ++i) {
        const double share = static_cast<double>(i) / (level_rows_ - 1);
        const double level = soft + (firm - soft) * share * share;
        const Row next{level, strands_at(level)};
        if (i > 0) refine(Row(rows.back()), next, rows);
        rows.push_back(next);
    }
    std::vector<StrokePanel> panels;
    for (std::size_t first = 0, i = 0; i < rows.size(); ++i) {
        if (i + 1 < rows.size() && alike(rows[i], rows[i + 1])) continue;
        if (i > first && !rows[i].strands.empty())
            panels.push_back(panel(std::span(rows).subspan(first, i + 1 - first)));
        first = i + 1;
    }
    return panels;
}

StrokePanel DropScan::panel(std::span<const Row> rows) {
    StrokePanel panel{{rows.front().level_roll_m, rows.back().level_roll_m},
                      static_cast<int>(rows.front().strands.size())};
    for (const Row& row : rows) {
        panel.levels_m.push_back(row.level_roll_m);
        panel.edges.insert(panel.edges.end(), row.strands.begin(), row.strands.end());
    }
    return panel;
}

StrokeWindow window_on_plane(const Putt& putt, const Plane& plane) {
    StrokeWindow window{{HUGE_VAL, -HUGE_VAL}, {HUGE_VAL, 0}};
    const auto take = [&](const Finish& finish) {
        const Stroke stroke =
            lines_on_plane(plane.gradient(), putt.resistance, putt.line(), finish).strokes.front();
        const double level = level_roll_m(stroke.speed_m_s, putt.resistance);
        window.angle_rad = {std::min(window.angle_rad.lo, stroke.angle_rad),
                            std::max(window.angle_rad.hi, stroke.angle_rad)};
        window.level_roll_m = {std::min(window.level_roll_m.lo, level),
                               std::max(window.level_roll_m.hi, level)};
    };
    take(Finish::past(0));
    for (const double speed : fastest_m_s) take(Finish::hole_speed(speed));
    const double about = about_radii * hole_radius_m / putt.distance_m();
    const double softer = std::min(0.5 * window.level_roll_m.lo, 2 * hole_radius_m);
    window.angle_rad = {window.angle_rad.lo - about, window.angle_rad.hi + about};
    window.level_roll_m = {window.level_roll_m.lo - softer, firmer * window.level_roll_m.hi};
    return window;
}

}  // namespace dewtrail
