#include "viewer/practice/drill/answer.hpp"

#include <catch2/catch.hpp>

#include "tests/support/temporary_folder.hpp"
#include "viewer/practice/memory.hpp"
#include "viewer/practice/memory_csv.hpp"

using namespace dewtrail;

namespace {

Answer helped_answer() {
    Answer answer;
    answer.at = "2026-05-01T18:30:00";
    answer.putt = plane_putt(3.6, -0.013, 0.021, 10.5, 0.3048);
    answer.category = category_of(3.6, -0.013, 0.021);
    answer.aim_m = 0.1;
    answer.help = {.contours = true, .plan = true};
    return answer;
}

}  // namespace

TEST_CASE("the help that was used is remembered with the answer", "[memory]") {
    const TemporaryFolder folder;
    Memory(folder.path()).remember(helped_answer());
    const auto answers = Memory(folder.path()).answers();
    REQUIRE(answers.size() == 1);
    CHECK(answers[0].help == Help{.contours = true, .plan = true});
    CHECK(words_of(answers[0].help) == "contours, plan");
    const auto again = read_answers_csv("a.csv", write_answers_csv(answers));
    CHECK(again.at(0).help == answers[0].help);
}

TEST_CASE("an export of before there was help is read, and its answers had none", "[memory]") {
    std::string old = write_answers_csv({helped_answer()});
    old.replace(old.find(",help\n"), 6, "\n");
    old.replace(old.find(",\"contours, plan\"\n"), 18, "\n");
    const auto answers = read_answers_csv("a.csv", old);
    REQUIRE(answers.size() == 1);
    CHECK_FALSE(answers[0].help.any());
    CHECK(answers[0].putt == helped_answer().putt);
}
