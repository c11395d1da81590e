#pragma once

#include <condition_variable>
#include <mutex>
#include <optional>
#include <thread>

#include "viewer/putt/outlook.hpp"

namespace dewtrail {

/// Answers questions in a thread of its own, so that the window goes on. Only the newest question
/// counts: one that waits is replaced, one at work is left at its next stage, and an answer to an
/// older one is never handed out. The thread starts with the first question.
class OutlookDesk {
  public:
    OutlookDesk() = default;
    ~OutlookDesk();
    OutlookDesk(const OutlookDesk&) = delete;
    OutlookDesk& operator=(const OutlookDesk&) = delete;

    void ask(OutlookQuestion question);
    /// Nobody waits for an answer any more.
    void forget();

    /// What has come since the last call, if it answers the newest question.
    std::optional<Outlook> take();
    /// Something may still come.
    bool busy() const;
    /// Until the newest question is answered in full.
    void wait();

  private:
    void work();
    bool tell(const Outlook& outlook);

    mutable std::mutex mutex_;
    std::condition_variable wake_, told_;
    std::optional<OutlookQuestion> waiting_;
    std::optional<Outlook> answer_;
    std::uint64_t newest_ = 0;
    bool unanswered_ = false, closing_ = false;
    std::thread thread_;  // last: it uses all the others
};

}  // namespace dewtrail
