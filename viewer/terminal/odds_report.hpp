#pragma once

#include <string>
#include <vector>

#include "physics/odds/best_choice.hpp"
#include "viewer/putt/putt_request.hpp"
#include "viewer/terminal/session.hpp"

namespace dewtrail {

Json spread_json(const Spread& spread);

/// One way to play the putt. `against`: the plain read that it saves putts on; may be none.
Json choice_json(const PlacedPutt& plan, const PlayedChoice& choice,
                 const std::optional<PlayedChoice>& against);
Json best_choice_json(const PlacedPutt& plan, const Spread& spread, const BestChoice& best);

/// The table over the finishes, then the best choice and what the plain read costs against it.
void print_best_choice(std::ostream& out, const PlacedPutt& plan, const Spread& spread,
                       const BestChoice& best, const Units& units);

}  // namespace dewtrail
