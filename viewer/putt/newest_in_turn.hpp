#pragma once

#include <functional>
#include <optional>
#include <utility>

namespace dewtrail {

/// As NewestOnly, for a host with one thread. The newest question is answered a piece at a time: a
/// piece ends at the second telling, and the work, asked the same once more, goes on where it was
/// stopped. With `patience` a question is let lie for so many calls of `take`: while something is
/// dragged questions come faster than that, and nothing is worked out in between.
template <class Question, class Answer>
class NewestInTurn {
  public:
    using Tell = std::function<bool(Answer)>;
    using Work = std::function<void(const Question&, const Tell&)>;

    explicit NewestInTurn(Work work, int patience = 12)
        : work_(std::move(work)), patience_(patience) {}

    void ask(Question question) {
        forget();
        waiting_ = std::move(question);
    }

    /// Nobody waits for an answer any more.
    void forget() {
        waiting_.reset();
        answer_.reset();
        asked_after_ = 0;
    }

    /// What has come since the last call. Throws what the work threw.
    std::optional<Answer> take() {
        if (waiting_ && ++asked_after_ > patience_) work_on();
        return std::exchange(answer_, std::nullopt);
    }

    /// Something may still come.
    bool busy() const { return waiting_ || answer_; }

    /// Until the newest question is answered in full.
    void wait() {
        while (waiting_) work_on();
    }

  private:
    void work_on() {
        Question question = *std::exchange(waiting_, std::nullopt);
        bool told = false, stopped = false;
        work_(question, [&](Answer answer) {
            answer_ = std::move(answer);
            stopped = std::exchange(told, true);
            return !stopped;
        });
        if (stopped) waiting_ = std::move(question);
    }

    Work work_;
    int patience_;  ///< calls of `take`, one a frame
    std::optional<Question> waiting_;
    std::optional<Answer> answer_;
    int asked_after_ = 0;
};

}  // namespace dewtrail
