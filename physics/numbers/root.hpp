#pragma once

#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

namespace dewtrail {

/// The root of f between a < b, where f is fa and fb, of different signs, to `close`. f need not be
/// continuous.
template <class F>
double root(F f, double a, double b, double fa, double fb, double close) {
    std::uintmax_t most = 60;
    const auto near = [close](double x, double y) { return std::abs(x - y) < close; };
    const auto found = boost::math::tools::toms748_solve(f, a, b, fa, fb, near, most);
    return 0.5 * (found.first + found.second);
}

}  // namespace dewtrail
