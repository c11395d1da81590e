#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "physics/surface/surface.hpp"
#include "viewer/picture/picture.hpp"

/// The only place where metres become pixels.
namespace dewtrail {

/// The plan: seen from straight above.
struct PlanCamera {
    Vec2 centre_m = Vec2::Zero();  ///< green frame, shown at `centre_px`
    Vec2 centre_px = Vec2::Zero();
    double px_per_m = 200;
    double turned_rad = 0;  ///< the green turned clockwise on the screen by this

    Vec2 to_px(const Vec2& green) const;
    Vec2 to_green(const Vec2& px) const;
    /// A direction of the green on the screen, not scaled.
    Vec2 direction_px(const Vec2& green) const;
    bool operator==(const PlanCamera&) const = default;
};

/// Fits the points into the pane with room left for labels: 176 u across and 200 u down, never more
/// than 1500 px per metre of scale 1.
PlanCamera fit_plan(const std::vector<Vec2>& points, const Rect& pane, double scale,
                    double turned_rad = 0);

/// From a to b: t = 0 is a, 1 is b. Scales by ratio, so that the motion looks even.
PlanCamera between(const PlanCamera& a, const PlanCamera& b, double t);

/// Ease-out cubic of 0..1.
double eased(double t);

/// Where the eye of the eye view is: E steps through.
enum class EyePlace { crouched, standing, behind_hole, low_side };
inline constexpr int eye_places = 4;
const char* words_for(EyePlace place);

/// The eye view: a level horizon, looking down a little.
class EyeCamera {
  public:
    using Point = Eigen::Vector3d;  ///< green frame, z up

    /// From `from`, looking along a plan bearing and `down_rad` below the level, onto the pane with
    /// this focal length in pixels.
    EyeCamera(const Point& from, double bearing_rad, double down_rad, double focal_px,
              const Vec2& centre_px);
    EyeCamera() : EyeCamera({0, 0, 1}, 0, 0, 1000, {0, 0}) {}

    /// None behind the eye (nearer than 0.1 m).
    std::optional<Vec2> to_px(const Point& p) const;
    /// Pixels per metre across the view at a point; 0 behind the eye.
    double px_per_m(const Point& p) const;
    /// Where a pixel's ray meets the level plane z = height; none above the horizon.
    std::optional<Vec2> to_green(const Vec2& px, double height_m) const;
    double depth_m(const Point& p) const;
    double horizon_px() const;
    double bearing_rad() const { return bearing_of({ahead_.x(), ahead_.y()}); }
    const Point& from() const { return from_; }
    const Vec2& centre_px() const { return centre_px_; }
    double focal_px() const { return focal_px_; }
    bool operator==(const EyeCamera&) const = default;

  private:
    Point from_, right_, up_, ahead_;
    double focal_px_;
    Vec2 centre_px_;
};

/// A polyline on the ground cut at the near plane, as pixels; the piece in front of the eye.
std::vector<std::vector<Vec2>> seen_pieces(const EyeCamera& eye,
                                           const std::vector<EyeCamera::Point>& points);

/// The eye for a putt: ball and hole with their heights, the mean ground between.
EyeCamera eye_for(EyePlace place, const EyeCamera::Point& ball, const EyeCamera::Point& hole,
                  bool low_side_right, const Rect& pane);

}  // namespace dewtrail
