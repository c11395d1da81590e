#include "viewer/picture/targets.hpp"

#include <algorithm>

namespace dewtrail {

std::optional<Target> target_at(const Targets& targets, const Vec2& px) {
    const auto found = std::find_if(targets.rbegin(), targets.rend(),
                                    [&](const Target& t) { return t.hit.contains(px); });
    if (found == targets.rend()) return std::nullopt;
    return *found;
}

std::optional<Target> find_target(const Targets& targets, What what, int index) {
    const auto found = std::find_if(targets.begin(), targets.end(), [&](const Target& t) {
        return t.what == what && t.index == index;
    });
    if (found == targets.end()) return std::nullopt;
    return *found;
}

}  // namespace dewtrail
