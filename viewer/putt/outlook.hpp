#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "physics/odds/best_choice.hpp"
#include "physics/odds/next_putts.hpp"
#include "physics/read/room_outline.hpp"
#include "viewer/putt/spread.hpp"

namespace dewtrail {

/// A putt, as solved, whose odds are wanted. Values and shared constants: may go to another thread.
struct OutlookQuestion {
    std::uint64_t number = 0;  ///< rises from question to question
    Putt putt;
    Read read;
    Finish plain;  ///< what the best choices are compared with; mostly the putt's own
    Spread spread;
};

/// The same stroke of the same putt for the same player, whatever their numbers.
bool same_question(const OutlookQuestion& a, const OutlookQuestion& b);

/// What a player may expect of a putt: everything that depends on the spread, and the room that the
/// strokes must fall into.
struct Outlook {
    std::uint64_t number = 0;  ///< of the question that this answers
    std::optional<StrokeSpread> spread;
    std::vector<StrokeOff> outline;  ///< of the room round the read
    std::optional<Odds> odds;
    std::optional<BestChoice> best;
    bool complete = false;  ///< nothing more will come
};

/// The chance to hole alone, at once: about a millisecond on a plane. None on other ground, where
/// it takes a hundred, and where there are no odds.
std::optional<double> live_chance(const Putt& putt, const Read& read, const Spread& spread);

/// Chance to hole of one of the finishes that were tried; none if this one was not.
std::optional<double> chance_of_finish(const BestChoice& best, double past_m);

/// Answers questions one after the other. What putts follow a miss is kept for as long as ground
/// and hole stay the same, and for the same spread: a ball that moves on the same green costs only
/// its own odds. On ground that is no plane that takes a second at most; a newer question stops it.
/// One thread at a time.
class OutlookMaker {
  public:
    /// Passes the answer on as it grows: spread and outline, odds, best choice. `tell` returns
    /// false to stop; asked the same once more, it goes on there.
    void answer(const OutlookQuestion& question, const std::function<bool(const Outlook&)>& tell);

  private:
    void begin(const OutlookQuestion& question);
    const HoleSurround* surround_of(const Putt& putt, const std::function<bool()>& go_on);
    const NextPutts* next_of(const Putt& putt, const Spread& spread,
                             const std::function<bool()>& go_on);

    std::optional<OutlookQuestion> asked_;
    Outlook outlook_;  ///< what is known of its answer

    Putt at_;  ///< ground, conditions and hole of the surround
    std::optional<HoleSurround> surround_;
    Spread next_spread_;
    std::optional<NextPutts> next_;
};

}  // namespace dewtrail
