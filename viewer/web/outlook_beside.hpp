#pragma once

#include <functional>

#include "viewer/putt/outlook_desk.hpp"
#include "viewer/web/outlook_numbers.hpp"

namespace dewtrail {

/// Has odds worked out by another instance of the program, by way of a host that carries numbers.
/// Where there is nobody to ask, or nobody any more, they are worked out here, in turn.
class OutlookDeskBeside final : public OutlookDesk {
  public:
    /// Sends a question, or no numbers: an answer to the last is of no use. False where nobody
    /// answers.
    using Send = std::function<bool(const Numbers&)>;

    explicit OutlookDeskBeside(Send send) : send_(std::move(send)) {}

    void ask(OutlookQuestion question) override;
    void forget() override;
    std::optional<Outlook> take() override;
    bool busy() const override { return asked_ || answer_ || here_->busy(); }
    void wait() override;

    /// What the other instance answers. Whether more is to come.
    bool hear(const Numbers& answer);
    /// Nobody answers any more.
    void lost();

  private:
    bool sent(const OutlookQuestion& question) const;

    Send send_;
    std::uint64_t number_ = 0;              ///< of the newest question, among all that were sent
    std::optional<OutlookQuestion> asked_;  ///< of the other, who has not answered it in full
    std::optional<Outlook> answer_;
    std::shared_ptr<OutlookDesk> here_ = outlook_desk_in_turn();
};

/// The other instance: answers the newest question, a piece of work at a time, so that whatever
/// carries the numbers can bring a newer one in between.
class OutlookClerk {
  public:
    void ask(const Numbers& question);
    /// Does the next piece. Something of an answer, if there is any.
    std::optional<Numbers> work();
    bool busy() const { return desk_->busy(); }

  private:
    QuestionReader reader_;
    std::shared_ptr<OutlookDesk> desk_ = outlook_desk_in_turn(0);
};

}  // namespace dewtrail
