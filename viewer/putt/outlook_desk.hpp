#pragma once

#include <memory>
#include <optional>

#include "viewer/putt/outlook.hpp"

namespace dewtrail {

/// Works out odds beside whoever asks. Only the newest question counts: an answer to an older one
/// is never handed out. Where they cannot be worked out, for want of memory say, the answer is
/// complete without odds.
class OutlookDesk {
  public:
    virtual ~OutlookDesk() = default;
    virtual void ask(OutlookQuestion question) = 0;
    /// Nobody waits for an answer any more.
    virtual void forget() = 0;
    /// What has come since the last call, once or as it grows.
    virtual std::optional<Outlook> take() = 0;
    /// Something may still come.
    virtual bool busy() const = 0;
    /// Until the newest question is answered in full.
    virtual void wait() = 0;
};

/// In a thread of its own; with one thread only, in turn.
std::shared_ptr<OutlookDesk> outlook_desk();

/// In the asker's thread, a piece at each call of `take` but the first few (newest_in_turn.hpp).
std::shared_ptr<OutlookDesk> outlook_desk_in_turn(int patience = 12);

}  // namespace dewtrail
