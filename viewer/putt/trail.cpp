#include "viewer/putt/trail.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "physics/base/ball_and_hole.hpp"

namespace dewtrail {
namespace {

constexpr double frame_s = 1.0 / 60;
constexpr double straight_within_m = 0.5 * metres_per_inch;
constexpr double yard_m = 3 * metres_per_foot;

PathPoint hermite(const PathPoint& a, const PathPoint& b, double time_s) {
    const double span = b.time_s - a.time_s;
    const double t = span > 0 ? (time_s - a.time_s) / span : 0;
    const double h01 = t * t * (3 - 2 * t), h00 = 1 - h01;
    const double h10 = t * (1 - t) * (1 - t), h11 = -t * t * (1 - t);
    PathPoint p = a;
    p.time_s = time_s;
    p.at = h00 * a.at + h01 * b.at +
           span * (h10 * a.speed_m_s * along_bearing(a.bearing_rad) +
                   h11 * b.speed_m_s * along_bearing(b.bearing_rad));
    p.speed_m_s = a.speed_m_s + t * (b.speed_m_s - a.speed_m_s);
    p.arc_m = a.arc_m + t * (b.arc_m - a.arc_m);
    p.bearing_rad = a.bearing_rad + t * std::remainder(b.bearing_rad - a.bearing_rad, 2 * M_PI);
    return p;
}

PathPoint sample(const std::vector<PathPoint>& points, double t) {
    if (points.empty()) return {};
    const auto next = std::upper_bound(points.begin(), points.end(), t,
                                       [](double x, const PathPoint& p) { return x < p.time_s; });
    if (next == points.begin()) return points.front();
    if (next == points.end()) return points.back();
    return hermite(*(next - 1), *next, t);
}

struct Share {
    double value;
    const char* name;
};
constexpr std::array<Share, 11> shares = {{{0.0, "hardly any"},
                                           {0.1, "a tenth"},
                                           {1.0 / 8, "an eighth"},
                                           {1.0 / 6, "a sixth"},
                                           {0.2, "a fifth"},
                                           {0.25, "a quarter"},
                                           {1.0 / 3, "a third"},
                                           {0.5, "half"},
                                           {2.0 / 3, "two thirds"},
                                           {0.75, "three quarters"},
                                           {0.9, "nine tenths"}}};

}  // namespace

Trail::Trail(const Read& read, double most_s)
    : points_(read.open ? read.open->path : read.roll.path),
      end_(read.open ? read.open->end : read.roll.end) {
    if (points_.empty()) return;
    end_s_ = points_.back().time_s;
    if (read.open) {
        holed_ = read.open->holed;
        for (const HoleMeeting& meeting : read.open->meetings) follow_depth(meeting);
        if (holed_) end_s_ = depths_.back().time_s;
    } else if (read.entry.holed && read.roll.rim) {
        holed_ = true;
        end_s_ = read.roll.rim->time_s;
    }
    if (!holed_ && end_ != RollEnd::at_rest) end_s_ = std::min(end_s_, most_s);
    if ((holed_ ? read.roll.end : end_) != RollEnd::keeps_rolling) return;
    runs_off_from_s_ = read.arrival_time_s;
    beyond_ = holed_ ? read.roll.path : points_;
}

PathPoint Trail::at(double time_s) const {
    return sample(points_, std::clamp(time_s, 0.0, end_s_));
}

/// Until its top is level with the green: nobody sees what it does farther down.
void Trail::follow_depth(const HoleMeeting& meeting) {
    depths_.reserve(depths_.size() + meeting.outcome.path.size());
    for (const HolePathPoint& p : meeting.outcome.path) {
        const double sunk = 0.5 - 0.5 * p.centre.z() / ball_radius_m;
        depths_.push_back({meeting.rim.time_s + p.time_s, std::clamp(sunk, 0.0, 1.0)});
        if (sunk >= 1) return;
    }
}

double Trail::sunk(double time_s) const {
    const auto next = std::upper_bound(depths_.begin(), depths_.end(), time_s,
                                       [](double t, const Depth& d) { return t < d.time_s; });
    if (next == depths_.begin()) return 0;
    return next == depths_.end() && !holed_ ? 0 : (next - 1)->sunk;
}

std::vector<Vec2> Trail::line(double until_s) const {
    std::vector<Vec2> line;
    const double end = std::clamp(until_s, 0.0, end_s_);
    line.reserve(static_cast<std::size_t>(end / frame_s) + 3);
    for (double t = 0; t < end; t += frame_s) line.push_back(at(t).at);
    line.push_back(at(end).at);
    return line;
}

std::vector<Vec2> Trail::tail(double until_s, double most_m) const {
    std::vector<Vec2> line;
    if (beyond_.empty() || until_s < runs_off_from_s()) return line;
    const bool to_the_end = until_s >= end_s_;
    const double last = to_the_end ? beyond_.back().time_s : until_s;
    const double far = sample(beyond_, runs_off_from_s()).arc_m + most_m;
    for (double t = runs_off_from_s(); t < last; t += frame_s) {
        const PathPoint p = sample(beyond_, t);
        line.push_back(p.at);
        if (p.arc_m > far) break;
    }
    return line;
}

Trail Trail::between(const Trail& a, const Trail& b, double t) {
    if (a.empty() || b.empty()) return b;
    constexpr int pieces = 96;
    Trail trail = b;
    trail.points_.clear();
    for (int i = 0; i <= pieces; ++i) {
        const double share = static_cast<double>(i) / pieces;
        const PathPoint from = a.at(share * a.end_s_);
        PathPoint p = b.at(share * b.end_s_);
        const Vec2 from_m_s =
            from.speed_m_s * a.end_s_ / b.end_s_ * along_bearing(from.bearing_rad);
        const Vec2 to_m_s = p.speed_m_s * along_bearing(p.bearing_rad);
        const Vec2 velocity = from_m_s + t * (to_m_s - from_m_s);
        p.time_s = share * b.end_s_;
        p.at = from.at + t * (p.at - from.at);
        p.speed_m_s = velocity.norm();
        if (p.speed_m_s > 0) p.bearing_rad = bearing_of(velocity);
        trail.points_.push_back(p);
    }
    return trail;
}

std::vector<Vec2> Trail::half_seconds() const {
    std::vector<Vec2> places;
    places.reserve(static_cast<std::size_t>(2 * end_s_) + 1);
    for (double t = 0.5; t < end_s_ - 0.05; t += 0.5) places.push_back(at(t).at);
    return places;
}

std::optional<double> Trail::time_along(const Putt& putt, double along_m) const {
    double before = 0;
    for (double t = 0; t <= end_s_; t += frame_s) {
        const double along = in_player_frame(putt, at(t).at).along_m;
        if (along >= along_m && along > before) {
            const double back = (along - along_m) / (along - before);
            return std::max(0.0, t - back * frame_s);
        }
        before = along;
    }
    return std::nullopt;
}

std::vector<BreakMark> break_marks(const Putt& putt, const Read& read, const Trail& trail,
                                   const Units& units) {
    std::vector<BreakMark> marks;
    marks.reserve(2);
    // Both ways, no share of the break is shown: the one half takes back what the other has given.
    if (!read.aim_offset_m || std::abs(*read.aim_offset_m) < straight_within_m || read.turns)
        return marks;
    const double distance = putt.distance_m();
    const auto add = [&](double along, const char* name, bool to_come) {
        const auto time = trail.time_along(putt, along);
        if (!time) return;
        const double offset = in_player_frame(putt, trail.at(*time).at).offset_m;
        const double shown =
            (along * std::tan(read.stroke.angle_rad) - offset) / *read.aim_offset_m;
        marks.push_back(
            {*time, shown, name, share_words(to_come ? 1 - shown : shown) + " of the break"});
    };
    const double last_m = units.metric ? 1 : yard_m;
    if (distance > 2 * last_m)
        add(distance - last_m, units.metric ? "last metre" : "last yard", true);
    add(distance / 2, "halfway", false);
    return marks;
}

std::string share_words(double share) {
    const auto nearer = [share](const Share& a, const Share& b) {
        return std::abs(a.value - share) < std::abs(b.value - share);
    };
    return std::min_element(shares.begin(), shares.end(), nearer)->name;
}

}  // namespace dewtrail
