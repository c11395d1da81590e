#pragma once

#include <condition_variable>
#include <mutex>
#include <optional>
#include <thread>

#include "viewer/putt/outlook.hpp"

namespace dewtrail {

/// Answers questions in its own thread, so that the window keeps running. Only the newest question
/// counts: it replaces a waiting one, work on an older one stops at its next stage, and an older
/// answer is never delivered. The thread starts with the first question.
class OutlookDesk {
  public:
    OutlookDesk() = default;
    ~OutlookDesk();
    OutlookDesk(const OutlookDesk&) = delete;
    OutlookDesk& operator=(const OutlookDesk&) = delete;

    void ask(OutlookQuestion question);
    /// Drops the question: nobody needs the answer any more.
    void forget();

    /// The newest answer since the last call, if it answers the newest question.
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
