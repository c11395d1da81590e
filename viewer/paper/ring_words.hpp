#pragma once

#include <optional>

#include "viewer/paper/page.hpp"
#include "viewer/paper/ring_page.hpp"
#include "viewer/putt/ring.hpp"

namespace dewtrail {

inline constexpr double ring_margin = 44;  ///< above and below the outer ring, for its words

/// Whether the start lines cross the fall line so near together that one mark can stand for them.
bool is_shared(const SharedSpot& spot);

/// What stands round the rings of a page: how to read them, the fall line, the shared spot, what to
/// do, notes.
struct RingWords {
    Page& page;
    const RingPage& rings;
    Units units;
    Vec2 hole;
    double radius;  ///< of the outer ring, units of the page
    std::optional<SharedSpot> spot;
};
void write_ring_words(const RingWords& words);

}  // namespace dewtrail
