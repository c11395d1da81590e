#pragma once

namespace dewtrail {

constexpr double squared(double x) {
    return x * x;
}

}  // namespace dewtrail
