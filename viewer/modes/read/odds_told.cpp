#include "viewer/modes/read/odds_told.hpp"

#include <utility>

namespace dewtrail {

bool OddsTold::ask(const Putt& putt, const Read& read, const Finish& plain, const Spread& spread) {
    OutlookQuestion question{number_ + 1, putt, read, plain, spread};
    if (asked_ && same_question(*asked_, question)) return false;
    ++number_;
    live_chance_ = live_chance(putt, read, spread);
    asked_ = question;
    desk_->ask(std::move(question));
    return true;
}

void OddsTold::forget() {
    live_chance_.reset();
    asked_.reset();
    told_ = {};
    desk_->forget();
}

bool OddsTold::take() {
    auto outlook = desk_->take();
    if (!outlook) return false;
    if (outlook->odds) odds_number_ = outlook->number;
    if (outlook->best) best_number_ = outlook->number;
    if (!outlook->complete) {
        if (!outlook->odds) outlook->odds = told_.odds;
        if (!outlook->best) outlook->best = std::move(told_.best);
    }
    told_ = std::move(*outlook);
    return true;
}

const PlayedChoice& OddsTold::best_of(BestKind kind) const {
    return kind == BestKind::fewest_putts ? told_.best->fewest_putts : told_.best->most_holed;
}

OddsShown OddsTold::shown() const {
    OddsShown shown;
    shown.awaited = asked_ && !(fresh() && told_.complete);
    shown.fresh = asked_ && told_.odds && odds_number_ == number_;
    shown.odds = told_.odds;
    shown.holed = shown.fresh ? std::optional(told_.odds->holed) : live_chance_;
    shown.choices_fresh = best_fresh();
    return shown;
}

}  // namespace dewtrail
