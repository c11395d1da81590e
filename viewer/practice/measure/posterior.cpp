#include "viewer/practice/measure/posterior.hpp"

#include <algorithm>

namespace dewtrail {

Credible credible_of(Weighted values) {
    std::sort(values.begin(), values.end());
    double all = 0, mean = 0;
    for (const auto& [value, weight] : values) all += weight, mean += value * weight;
    const auto quantile = [&](double share) {
        double before = 0, last_at = 0, last = values.front().first;
        for (const auto& [value, weight] : values) {
            const double at = (before + 0.5 * weight) / all;
            if (at >= share)
                return at > last_at ? last + (value - last) * (share - last_at) / (at - last_at)
                                    : value;
            before += weight, last_at = at, last = value;
        }
        return last;
    };
    return {mean / all, quantile(0.05), quantile(0.95)};
}

}  // namespace dewtrail
