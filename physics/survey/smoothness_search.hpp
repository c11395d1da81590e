#pragma once

#include <vector>

#include "physics/survey/smoother.hpp"

namespace dewtrail {

/// What the readings say of the ground's smoothness, and the surface that follows.
struct SmoothnessFound {
    std::vector<Smoothness> allowed;  ///< likeliest first; none if the equations are singular
    Vector coefficients;              ///< mean of their surfaces
    double variance_scale = 1;        ///< mean of theirs
};

/// Weighs the smoothnesses of a lattice, three reaches by powers of lambda, by belief and
/// restricted likelihood, as far as they are not negligible (Rue, Martino & Chopin 2009, J. R.
/// Stat. Soc. B 71, 319, section 3.1, from memory).
SmoothnessFound find_smoothness(Smoother& smoother);

}  // namespace dewtrail
