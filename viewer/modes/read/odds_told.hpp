#pragma once

#include <memory>
#include <optional>
#include <utility>

#include "viewer/picture/widgets/note_picture.hpp"
#include "viewer/putt/outlook_desk.hpp"

namespace dewtrail {

/// The odds of the putt at hand: asked for beside the window, and what was told last until the
/// answer is there.
class OddsTold {
  public:
    explicit OddsTold(std::shared_ptr<OutlookDesk> desk) : desk_(std::move(desk)) {
        desk_->forget();
    }

    /// False where they are there already, or on their way.
    bool ask(const Putt& putt, const Read& read, const Finish& plain, const Spread& spread);
    void forget();
    /// Whether there is something new.
    bool take();
    void wait() { desk_->wait(); }
    bool busy() const { return desk_->busy(); }

    /// The newest answer; what it lacks yet is of the putt before.
    const Outlook& outlook() const { return told_; }
    bool fresh() const { return asked_ && told_.number == number_; }
    bool best_fresh() const { return asked_ && told_.best && best_number_ == number_; }
    const Finish& plain_finish() const { return asked_->plain; }
    const PlayedChoice& best_of(BestKind kind) const;
    /// For the note; without the finishes' chances.
    OddsShown shown() const;

  private:
    std::uint64_t number_ = 0;  ///< of the last question
    std::optional<OutlookQuestion> asked_;
    std::optional<double> live_chance_;  ///< of the putt as it is now
    Outlook told_;
    std::uint64_t odds_number_ = 0, best_number_ = 0;  ///< of the questions that those answer
    std::shared_ptr<OutlookDesk> desk_;
};

}  // namespace dewtrail
