#pragma once

#include <condition_variable>
#include <mutex>
#include <string>
#include <thread>
#include <utility>

#include "viewer/terminal/session.hpp"

namespace dewtrail {

/// While it lives, a terminal that has waited for half a second is told what it waits for; at the
/// end that is wiped away. Nothing else may be written to the terminal meanwhile.
class Busy {
  public:
    Busy(const Session& session, std::string what);
    /// How much is done, 0 to 1, as a bar behind the words.
    void at(double share);
    Busy(const Busy&) = delete;
    Busy& operator=(const Busy&) = delete;
    ~Busy();

  private:
    void wait_and_tell();
    void show() const;

    std::string what_;
    std::size_t columns_ = 0;
    double share_ = 0;
    bool shown_ = false, over_ = false;
    std::mutex mutex_;
    std::condition_variable wake_;
    std::thread teller_;  ///< none where there is no terminal
};

template <class Work>
auto while_busy(const Session& session, std::string what, Work work) {
    const Busy busy(session, std::move(what));
    return work();
}

}  // namespace dewtrail
