#include "viewer/putt/solver.hpp"

#include <utility>

#ifndef DEWTRAIL_ONE_THREAD
#include "viewer/putt/newest_only.hpp"
#endif

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

#ifndef DEWTRAIL_ONE_THREAD
class InThread : public Solver {
  public:
    void ask(const Setup& setup, double player_past_m) override {
        worker_.ask({setup, player_past_m});
    }
    std::optional<Solved> answer() override { return worker_.take(); }

  private:
    using Worker = NewestOnly<Question, Solved>;
    Worker worker_{
        [](const Question& question, const Worker::Tell& tell) { tell(question.solved()); }};
};
#endif

}  // namespace

std::shared_ptr<Solver> solver_at_once() {
    return std::make_shared<AtOnce>();
}

#ifndef DEWTRAIL_ONE_THREAD
std::shared_ptr<Solver> solver_beside() {
    return std::make_shared<InThread>();
}
#endif

}  // namespace dewtrail
