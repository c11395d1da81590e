#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "viewer/practice/drill/category.hpp"
#include "viewer/putt/putt_request.hpp"

namespace dewtrail {

/// A putt as practice deals and remembers it: enough to play it again to the last bit. Green frame,
/// metres. Without a green the hole is at the origin on a plane of this slope that rises toward +y.
struct DealtPutt {
    std::string green;  ///< name or file; empty: a plane
    double ball_x_m = 0, ball_y_m = 0;
    double hole_x_m = 0, hole_y_m = 0;
    double slope = 0;  ///< of the plane, rise over run; not used on a green
    double stimp_ft = 10;
    double past_m = 12 * metres_per_inch;

    bool operator==(const DealtPutt&) const = default;
    Vec2 ball() const { return {ball_x_m, ball_y_m}; }
    Vec2 hole() const { return {hole_x_m, hole_y_m}; }
};

/// What about it could not have been dealt, or nothing: the one check of a putt that comes from a
/// file, whether a set, an import or the memory.
std::string out_of_range(const DealtPutt& putt);

/// On a plane: the distance, the slope along and across the line.
DealtPutt plane_putt(double distance_m, double up, double falls_left, double stimp_ft,
                     double past_m);

/// The same putt seen in a mirror: a plane's other side of the hole. On a green it stays as it is.
DealtPutt mirrored(const DealtPutt& putt);

/// The same putt from another clock round the hole, so many hours on. On a plane only.
DealtPutt turned(const DealtPutt& putt, double hours);

/// Sets putts up; greens are read once.
class Greenkeeper {
  public:
    explicit Greenkeeper(std::vector<std::filesystem::path> green_folders = {})
        : folders_(std::move(green_folders)) {}

    /// Throws InputError for a green that is not there.
    PlacedPutt set_up(const DealtPutt& putt);
    const Green& green(const std::string& name);

  private:
    std::shared_ptr<const Green> shared(const std::string& name);

    std::vector<std::filesystem::path> folders_;
    std::map<std::string, std::shared_ptr<const Green>> greens_;
};

}  // namespace dewtrail
