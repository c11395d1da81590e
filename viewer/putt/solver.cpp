#include "viewer/putt/solver.hpp"

#include <condition_variable>
#include <exception>
#include <mutex>
#include <thread>
#include <utility>

namespace dewtrail {
namespace {

struct Question {
    Setup setup;
    double player_past_m;

    Solved solved() const { return solve(setup, player_past_m, Effort::settled); }
};

class AtOnce : public Solver {
  public:
    void ask(const Setup& setup, double player_past_m) override { asked_ = {setup, player_past_m}; }
    std::optional<Solved> answer() override {
        const auto question = std::exchange(asked_, std::nullopt);
        if (!question) return std::nullopt;
        return question->solved();
    }

  private:
    std::optional<Question> asked_;
};

class Beside : public Solver {
  public:
    Beside() : thread_([this] { work(); }) {}
    ~Beside() override {
        {
            const std::lock_guard lock(mutex_);
            ending_ = true;
        }
        wake_.notify_one();
        thread_.join();
    }
    Beside(const Beside&) = delete;
    Beside& operator=(const Beside&) = delete;

    void ask(const Setup& setup, double player_past_m) override {
        {
            const std::lock_guard lock(mutex_);
            asked_ = {setup, player_past_m};
            answer_.reset();
            failure_ = nullptr;
        }
        wake_.notify_one();
    }

    std::optional<Solved> answer() override {
        const std::lock_guard lock(mutex_);
        if (failure_) std::rethrow_exception(std::exchange(failure_, nullptr));
        return std::exchange(answer_, std::nullopt);
    }

  private:
    void work() {
        std::unique_lock lock(mutex_);
        for (;;) {
            wake_.wait(lock, [this] { return ending_ || asked_; });
            if (ending_) return;
            const Question question = *std::exchange(asked_, std::nullopt);
            lock.unlock();
            std::optional<Solved> solved;
            std::exception_ptr failure;
            try {
                solved = question.solved();
            } catch (...) {
                failure = std::current_exception();
            }
            lock.lock();
            if (asked_) continue;
            answer_ = std::move(solved);
            failure_ = failure;
        }
    }

    std::mutex mutex_;
    std::condition_variable wake_;
    bool ending_ = false;
    std::optional<Question> asked_;
    std::optional<Solved> answer_;
    std::exception_ptr failure_;
    std::thread thread_;  // the last: it uses all the others
};

}  // namespace

std::shared_ptr<Solver> solver_at_once() {
    return std::make_shared<AtOnce>();
}

std::shared_ptr<Solver> solver_beside() {
    return std::make_shared<Beside>();
}

}  // namespace dewtrail
