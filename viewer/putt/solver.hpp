#pragma once

#include <memory>
#include <optional>

#include "viewer/putt/solved.hpp"

namespace dewtrail {

/// Solves putts in full. A putt asked for takes the place of the one asked for before.
class Solver {
  public:
    virtual ~Solver() = default;
    virtual void ask(const Setup& setup, double player_past_m) = 0;
    /// The answer to the putt asked for last, once; none while it is not there yet. Throws what
    /// solving threw.
    virtual std::optional<Solved> answer() = 0;
};

/// Solves when the answer is asked for.
std::shared_ptr<Solver> solver_at_once();

/// Solves in its own thread while the window keeps running. Its destructor waits for the putt in
/// work. Not where there is one thread only.
std::shared_ptr<Solver> solver_beside();

}  // namespace dewtrail
