#include "viewer/putt/newest_in_turn.hpp"

#include <catch2/catch.hpp>
#include <stdexcept>
#include <utility>
#include <vector>

using namespace dewtrail;

namespace {

using Worker = NewestInTurn<int, int>;

/// Tells a question times 1, 2, … 5, and goes on where it was stopped.
class InFive {
  public:
    explicit InFive(std::vector<int>& worked_on) : worked_on_(worked_on) {}

    void operator()(const int& question, const Worker::Tell& tell) {
        worked_on_.push_back(question);
        if (std::exchange(asked_, question) != question) times_ = 0;
        while (times_ < 5)
            if (!tell(question * ++times_)) return;
    }

  private:
    std::vector<int>& worked_on_;
    int asked_ = 0, times_ = 0;
};

}  // namespace

TEST_CASE("with one thread the newest question is answered when it has waited a little",
          "[newest]") {
    std::vector<int> worked_on;
    Worker worker(InFive{worked_on});
    CHECK_FALSE(worker.busy());
    CHECK_FALSE(worker.take());

    // While questions come at every frame nothing is worked out.
    for (int i = 1; i <= 50; ++i) {
        worker.ask(i);
        CHECK(worker.busy());
        CHECK_FALSE(worker.take());
    }
    CHECK(worked_on.empty());

    std::optional<int> answer;
    for (int i = 0; i < 50 && !answer; ++i) answer = worker.take();
    CHECK(answer == 100);  // a piece at each call, of two tellings
    CHECK(worker.busy());
    CHECK(worker.take() == 200);
    CHECK(worker.take() == 250);
    CHECK(worked_on == std::vector<int>{50, 50, 50});
    CHECK_FALSE(worker.busy());

    worker.ask(7);
    worker.forget();
    CHECK_FALSE(worker.busy());
    worker.ask(8);
    worker.wait();
    CHECK(worker.take() == 40);

    Worker at_once(InFive{worked_on}, 0);
    at_once.ask(1);
    CHECK(at_once.take() == 2);
    at_once.ask(2);  // between two pieces
    CHECK(at_once.take() == 4);

    Worker failing([](const int&, const Worker::Tell&) { throw std::runtime_error("no"); });
    failing.ask(1);
    CHECK_THROWS_AS(failing.wait(), std::runtime_error);
    CHECK_FALSE(failing.busy());
}
