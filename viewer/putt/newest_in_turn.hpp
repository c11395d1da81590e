#pragma once

#include <functional>
#include <optional>
#include <utility>

namespace dewtrail {

/// As NewestOnly, for a host with one thread. The newest question is answered, in full, when it has
/// been asked after a few times without another coming: while something is dragged questions come
/// faster than that, and nothing is worked out in between.
template <class Question, class Answer>
class NewestInTurn {
  public:
    using Tell = std::function<bool(Answer)>;
    using Work = std::function<void(const Question&, const Tell&)>;

    explicit NewestInTurn(Work work) : work_(std::move(work)) {}

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
        if (waiting_ && ++asked_after_ > patience) wait();
        return std::exchange(answer_, std::nullopt);
    }

    /// Something may still come.
    bool busy() const { return waiting_ || answer_; }

    /// Until the newest question is answered in full.
    void wait() {
        if (!waiting_) return;
        const Question question = *std::exchange(waiting_, std::nullopt);
        work_(question, [this](Answer answer) {
            answer_ = std::move(answer);
            return true;
        });
    }

  private:
    static constexpr int patience = 12;  ///< calls of `take`, one a frame

    Work work_;
    std::optional<Question> waiting_;
    std::optional<Answer> answer_;
    int asked_after_ = 0;
};

}  // namespace dewtrail
