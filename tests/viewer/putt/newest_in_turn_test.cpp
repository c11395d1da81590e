#include "viewer/putt/newest_in_turn.hpp"

#include <catch2/catch.hpp>
#include <stdexcept>
#include <vector>

using namespace dewtrail;

TEST_CASE("with one thread the newest question is answered when it has waited a little",
          "[newest]") {
    std::vector<int> worked_on;
    using Worker = NewestInTurn<int, int>;
    Worker worker([&](const int& question, const Worker::Tell& tell) {
        worked_on.push_back(question);
        tell(question * 10);
        tell(question * 100);
    });
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
    CHECK(answer == 5000);
    CHECK(worked_on == std::vector<int>{50});
    CHECK_FALSE(worker.busy());

    worker.ask(7);
    worker.forget();
    CHECK_FALSE(worker.busy());
    worker.ask(8);
    worker.wait();
    CHECK(worker.take() == 800);

    Worker failing([](const int&, const Worker::Tell&) { throw std::runtime_error("no"); });
    failing.ask(1);
    CHECK_THROWS_AS(failing.wait(), std::runtime_error);
    CHECK_FALSE(failing.busy());
}
