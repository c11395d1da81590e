#pragma once

#ifdef __linux__
#include <sys/resource.h>
#include <unistd.h>
#endif

#include <condition_variable>
#include <cstdint>
#include <exception>
#include <functional>
#include <mutex>
#include <optional>
#include <thread>
#include <utility>

namespace dewtrail {

/// Answers questions in a thread of its own, so that the window goes on. Only the newest question
/// counts: it takes the place of one that waits, and an answer to an older one is never handed out.
/// The thread starts with the first question; the end waits for the one in work.
template <class Question, class Answer>
class NewestOnly {
  public:
    /// Hands out an answer, once or as it grows. False: a newer question has come, so stop.
    using Tell = std::function<bool(Answer)>;
    using Work = std::function<void(const Question&, const Tell&)>;

    explicit NewestOnly(Work work) : work_(std::move(work)) {}
    ~NewestOnly() {
        forget();
        {
            const std::lock_guard lock(mutex_);
            closing_ = true;
        }
        wake_.notify_one();
        if (thread_.joinable()) thread_.join();
    }
    NewestOnly(const NewestOnly&) = delete;
    NewestOnly& operator=(const NewestOnly&) = delete;

    void ask(Question question) {
        forget();
        {
            const std::lock_guard lock(mutex_);
            waiting_ = std::move(question);
            unanswered_ = true;
        }
        if (!thread_.joinable()) thread_ = std::thread([this] { run(); });
        wake_.notify_one();
    }

    /// Nobody waits for an answer any more.
    void forget() {
        const std::lock_guard lock(mutex_);
        ++newest_;
        waiting_.reset();
        answer_.reset();
        failure_ = nullptr;
        unanswered_ = false;
    }

    /// What has come since the last call. Throws what the work threw.
    std::optional<Answer> take() {
        const std::lock_guard lock(mutex_);
        if (failure_) std::rethrow_exception(std::exchange(failure_, nullptr));
        return std::exchange(answer_, std::nullopt);
    }

    /// Something may still come.
    bool busy() const {
        const std::lock_guard lock(mutex_);
        return unanswered_ || answer_;
    }

    /// Until the newest question is answered in full.
    void wait() {
        std::unique_lock lock(mutex_);
        told_.wait(lock, [this] { return !unanswered_; });
    }

  private:
    void run() {
        give_way();
        std::unique_lock lock(mutex_);
        for (;;) {
            wake_.wait(lock, [this] { return closing_ || waiting_; });
            if (closing_) return;
            const Question question = *std::exchange(waiting_, std::nullopt);
            const std::uint64_t number = newest_;
            lock.unlock();
            std::exception_ptr failure = failure_of(question, number);
            lock.lock();
            if (number != newest_) continue;
            failure_ = std::move(failure);
            unanswered_ = false;
            told_.notify_all();
        }
    }

    /// The picture comes first: where it is painted without hardware, that takes every core too.
    static void give_way() {
#ifdef __linux__  // where threads have a priority of their own
        constexpr int nicer = 5;
        setpriority(PRIO_PROCESS, static_cast<id_t>(gettid()), nicer);
#endif
    }

    std::exception_ptr failure_of(const Question& question, std::uint64_t number) {
        try {
            work_(question, [&](Answer answer) { return tell(std::move(answer), number); });
            return nullptr;
        } catch (...) {
            return std::current_exception();
        }
    }

    bool tell(Answer answer, std::uint64_t number) {
        const std::lock_guard lock(mutex_);
        if (number != newest_) return false;
        answer_ = std::move(answer);
        return true;
    }

    Work work_;
    mutable std::mutex mutex_;
    std::condition_variable wake_, told_;
    std::optional<Question> waiting_;
    std::optional<Answer> answer_;
    std::exception_ptr failure_;
    std::uint64_t newest_ = 0;
    bool unanswered_ = false, closing_ = false;
    std::thread thread_;  // last: it uses all the others
};

}  // namespace dewtrail
