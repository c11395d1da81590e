#include "viewer/picture/camera.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "physics/base/ball_and_hole.hpp"

namespace dewtrail {
namespace {

constexpr double room_across_u = 176, room_down_u = 200;
constexpr double least_px_per_m = 2, most_px_per_m = 1500;
constexpr double nearest_m = 0.1;

// Of the eye behind the ball.
constexpr double eye_height_m = 0.78, eye_back_m = 2.05, most_back_m = 20;
constexpr double eye_down_rad = 10.2 * std::numbers::pi / 180;
constexpr double focal_over_width = 1.32;
constexpr double standing_height_m = 1.62;
constexpr double rise_per_foot_m = 0.03, rise_from_ft = 20;
constexpr double hole_share_of_height = 0.4;
constexpr double most_share_apart = 0.48;
// Down the pane: some sky stays above the horizon, which the tilt of the ground is judged by, and
// some ground below what is nearest.
constexpr double horizon_share = 0.13, nearest_share = 0.9;

Vec2 turned(const Vec2& v, double rad) {
    return {v.x() * std::cos(rad) - v.y() * std::sin(rad),
            v.x() * std::sin(rad) + v.y() * std::cos(rad)};
}

double angle_down(double height, double distance) {
    return std::atan2(height, distance);
}

/// Of a share of the pane's height, below its middle.
double below_middle(double share, double focal_px, const Rect& pane) {
    return std::atan((share - 0.5) * pane.h / focal_px);
}

/// Looks so far down that a point at this depression shows at the wanted share of the pane; less,
/// where the horizon would go out of view.
double look_down(double depression, double share, double focal_px, const Rect& pane) {
    return std::min(depression - below_middle(share, focal_px, pane),
                    -below_middle(horizon_share, focal_px, pane));
}

/// At least so far away that what lies this much lower is in view together with the horizon.
double away_to_see(double height, double away, double focal_px, const Rect& pane) {
    const double most =
        below_middle(nearest_share, focal_px, pane) - below_middle(horizon_share, focal_px, pane);
    return std::max(away, height / std::tan(most));
}

/// How far behind the ball, or the hole, the eye has to be for it and the other, which lies so much
/// higher, to share half the view.
double back_to_see_both(double height, double distance, double rise, double focal_px,
                        const Rect& pane) {
    double back = away_to_see(height, eye_back_m, focal_px, pane);
    const auto apart = [&] {
        return angle_down(height, back) - angle_down(height - rise, distance + back);
    };
    while (apart() > most_share_apart * pane.h / focal_px && back < most_back_m) back += 0.05;
    return back;
}

}  // namespace

Vec2 PlanCamera::direction_px(const Vec2& green) const {
    return turned({green.x(), -green.y()}, turned_rad);
}

Vec2 PlanCamera::to_px(const Vec2& green) const {
    return centre_px + px_per_m * direction_px(green - centre_m);
}

Vec2 PlanCamera::to_green(const Vec2& px) const {
    const Vec2 flat = turned((px - centre_px) / px_per_m, -turned_rad);
    return centre_m + Vec2(flat.x(), -flat.y());
}

PlanCamera fit_plan(const std::vector<Vec2>& points, const Rect& pane, double scale,
                    double turned_rad) {
    PlanCamera camera;
    camera.turned_rad = turned_rad;
    Vec2 lo = camera.direction_px(points.front()), hi = lo;
    for (const Vec2& p : points) {
        lo = lo.cwiseMin(camera.direction_px(p));
        hi = hi.cwiseMax(camera.direction_px(p));
    }
    const Vec2 span = (hi - lo).cwiseMax(Vec2(1e-3, 1e-3));
    camera.px_per_m = 1;
    camera.centre_m = camera.to_green((lo + hi) / 2);
    camera.centre_px = pane.centre();
    const double across = std::max(60.0, pane.w - room_across_u * scale);
    const double down = std::max(60.0, pane.h - room_down_u * scale);
    camera.px_per_m = std::clamp(std::min(across / span.x(), down / span.y()), least_px_per_m,
                                 most_px_per_m * scale);
    return camera;
}

PlanCamera between(const PlanCamera& a, const PlanCamera& b, double t) {
    PlanCamera c = b;
    c.centre_m = a.centre_m + t * (b.centre_m - a.centre_m);
    c.centre_px = a.centre_px + t * (b.centre_px - a.centre_px);
    c.px_per_m = a.px_per_m * std::pow(b.px_per_m / a.px_per_m, t);
    c.turned_rad = a.turned_rad + t * (b.turned_rad - a.turned_rad);
    return c;
}

double eased(double t) {
    const double left = 1 - std::clamp(t, 0.0, 1.0);
    return 1 - left * left * left;
}

const char* words_for(EyePlace place) {
    switch (place) {
        case EyePlace::crouched:
            return "behind the ball, crouched";
        case EyePlace::standing:
            return "behind the ball, standing";
        case EyePlace::behind_hole:
            return "behind the hole";
        case EyePlace::low_side:
            return "low side, halfway";
    }
    return "";
}

EyeCamera::EyeCamera(const Point& from, double bearing_rad, double down_rad, double focal_px,
                     const Vec2& centre_px)
    : from_(from), focal_px_(focal_px), centre_px_(centre_px) {
    const Vec2 flat = along_bearing(bearing_rad);
    right_ = {flat.y(), -flat.x(), 0};
    ahead_ = {flat.x() * std::cos(down_rad), flat.y() * std::cos(down_rad), -std::sin(down_rad)};
    up_ = right_.cross(ahead_);
}

double EyeCamera::depth_m(const Point& p) const {
    return (p - from_).dot(ahead_);
}

double EyeCamera::px_per_m(const Point& p) const {
    const double depth = depth_m(p);
    return depth < nearest_m ? 0 : focal_px_ / depth;
}

std::optional<Vec2> EyeCamera::to_px(const Point& p) const {
    const double scale = px_per_m(p);
    if (scale == 0) return std::nullopt;
    const Point d = p - from_;
    return centre_px_ + scale * Vec2(d.dot(right_), -d.dot(up_));
}

std::optional<Vec2> EyeCamera::to_green(const Vec2& px, double height_m) const {
    const Vec2 off = (px - centre_px_) / focal_px_;
    const Point ray = ahead_ + off.x() * right_ - off.y() * up_;
    if (ray.z() > -1e-6) return std::nullopt;
    const Point hit = from_ + ray * ((height_m - from_.z()) / ray.z());
    return Vec2(hit.x(), hit.y());
}

double EyeCamera::horizon_px() const {
    return centre_px_.y() - focal_px_ * -ahead_.z() / std::hypot(ahead_.x(), ahead_.y());
}

std::vector<std::vector<Vec2>> seen_pieces(const EyeCamera& eye,
                                           const std::vector<EyeCamera::Point>& points) {
    std::vector<std::vector<Vec2>> pieces(1);
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (i > 0) {
            const double a = eye.depth_m(points[i - 1]), b = eye.depth_m(points[i]);
            constexpr double cut = 1.01 * nearest_m;
            if ((a < cut) != (b < cut)) {
                const auto at =
                    eye.to_px(points[i - 1] + (points[i] - points[i - 1]) * ((cut - a) / (b - a)));
                if (at) pieces.back().push_back(*at);
            }
        }
        if (const auto px = eye.to_px(points[i]))
            pieces.back().push_back(*px);
        else if (!pieces.back().empty())
            pieces.emplace_back();
    }
    std::erase_if(pieces, [](const auto& piece) { return piece.size() < 2; });
    return pieces;
}

EyeCamera eye_for(EyePlace place, const EyeCamera::Point& ball, const EyeCamera::Point& hole,
                  bool low_side_right, const Rect& pane) {
    const Vec2 line(hole.x() - ball.x(), hole.y() - ball.y());
    const double distance = line.norm();
    const Vec2 ahead = line / distance;
    const double focal = focal_over_width * pane.w;
    const double lift = rise_per_foot_m * std::max(0.0, distance / metres_per_foot - rise_from_ft);
    const auto stand = [](const EyeCamera::Point& at, const Vec2& by, double height) {
        return EyeCamera::Point(at.x() + by.x(), at.y() + by.y(), at.z() + height);
    };
    switch (place) {
        case EyePlace::low_side: {
            const Vec2 right(ahead.y(), -ahead.x());
            const Vec2 out = (low_side_right ? 1 : -1) * right;
            const double height = 0.78 + 0.2 * distance;
            const double away = away_to_see(height, std::max(2.4, 1.75 * distance), focal, pane);
            const EyeCamera::Point from = stand((ball + hole) / 2, out * away, height);
            const double down = look_down(angle_down(height, away), 0.5, focal, pane);
            return {from, bearing_of(-out), down, focal, pane.centre()};
        }
        case EyePlace::behind_hole: {
            const double height = eye_height_m + lift + 0.25;
            const double back =
                back_to_see_both(height, distance, ball.z() - hole.z(), focal, pane);
            const EyeCamera::Point from = stand(hole, ahead * back, height);
            const double down = look_down(angle_down(height, back), 0.84, focal, pane);
            return {from, bearing_of(-ahead), down, focal, pane.centre()};
        }
        case EyePlace::standing:
        case EyePlace::crouched:
            break;
    }
    const double height = (place == EyePlace::standing ? standing_height_m : eye_height_m) + lift;
    const double back = back_to_see_both(height, distance, hole.z() - ball.z(), focal, pane);
    const EyeCamera::Point from = stand(ball, -ahead * back, height);
    const double to_hole = angle_down(from.z() - hole.z(), distance + back);
    const double held = look_down(to_hole, hole_share_of_height, focal, pane);
    const bool near = back == eye_back_m && place == EyePlace::crouched;
    return {from, bearing_of(ahead), near ? std::max(held, eye_down_rad) : held, focal,
            pane.centre()};
}

}  // namespace dewtrail
