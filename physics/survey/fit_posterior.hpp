#pragma once

#include <memory>
#include <mutex>
#include <vector>

#include "physics/numbers/random_normals.hpp"
#include "physics/survey/smoothness_search.hpp"

namespace dewtrail {

/// What the readings leave open: the surface fitted for each smoothness that they allow, with its
/// weight. For one of them the coefficients' covariance is the inverse of the normal equations,
/// scaled; not to know which it is adds how far its surface lies from the mean of all. Worked
/// out when it is asked for, since a plain read never needs it, and kept for the two fits that were
/// asked last: a window that remembers many greens holds the factors of few.
class FitPosterior {
  public:
    FitPosterior(const SplineGrid& grid, Equations equations, SmoothnessFound found);

    Eigen::MatrixXd covariance(const std::vector<SurfaceFunctional>& functionals) const;
    /// A surface as likely as the readings say: what it adds to the mean coefficients.
    Vector draw(RandomNormals& random) const;

  private:
    struct Part {
        std::unique_ptr<Factor> factor;
        Vector off;  ///< its coefficients minus the mean ones
        double scale = 1, weight = 1;
    };
    using Parts = std::vector<Part>;

    std::shared_ptr<const Parts> parts() const;
    std::shared_ptr<const Parts> make_parts() const;
    Eigen::MatrixXd columns_of(const std::vector<SurfaceFunctional>& functionals) const;

    SplineGrid grid_;
    Equations equations_;
    SmoothnessFound found_;
    mutable std::mutex making_;
    mutable std::weak_ptr<const Parts> parts_;
};

}  // namespace dewtrail
