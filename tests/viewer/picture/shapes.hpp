#pragma once

#include <variant>
#include <vector>

#include "viewer/picture/picture.hpp"

namespace dewtrail {

/// All shapes of one kind in a picture.
template <class Kind>
std::vector<Kind> all_of(const Picture& picture) {
    std::vector<Kind> found;
    for (const Shape& shape : picture)
        if (const auto* kind = std::get_if<Kind>(&shape)) found.push_back(*kind);
    return found;
}

}  // namespace dewtrail
