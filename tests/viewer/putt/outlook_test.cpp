#include "viewer/putt/outlook.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "physics/surface/tilted.hpp"
#include "support/putts.hpp"
#include "viewer/putt/outlook_desk.hpp"

using namespace dewtrail;
using Catch::WithinAbs;

namespace {

OutlookQuestion question_of(std::uint64_t number, const Putt& putt, const Spread& spread = {}) {
    return {number, putt, read(putt).lines.at(0), putt.finish, spread};
}

Outlook answered(OutlookMaker& maker, const OutlookQuestion& question) {
    Outlook last;
    maker.answer(question, [&](const Outlook& outlook) {
        last = outlook;
        return true;
    });
    return last;
}

const Putt twelve_feet = oracle::bare_putt(10, 0.02, 12, 3, oracle::inches_past(12));

}  // namespace

TEST_CASE("the window's odds are the command line's, kept surround or not", "[outlook]") {
    OutlookMaker maker;
    const Spread spread;
    for (const double clock : {3.0, 4.5, 3.0}) {
        const Putt putt = oracle::bare_putt(10, 0.02, 12, clock, oracle::inches_past(12));
        const Outlook outlook = answered(maker, question_of(1, putt, spread));
        const auto alone = odds_of(putt, read(putt).lines.at(0), scatter_of(spread));
        REQUIRE(outlook.complete);
        REQUIRE((outlook.odds && alone && outlook.best));
        // The same numbers go through the same functions; next putts are known all round the hole
        // here, and only as far as misses reach there, which odds.hpp says is worth 0.001 putts.
        CHECK(outlook.odds->holed == alone->holed);
        CHECK_THAT(outlook.odds->putts, WithinAbs(alone->putts, 1e-3));
        CHECK_THAT(outlook.odds->three_putt, WithinAbs(alone->three_putt, 1e-3));
        CHECK(outlook.outline.size() > 50);
    }
}

TEST_CASE("an answer grows: outline, odds, best choice; and stops when told", "[outlook]") {
    OutlookMaker maker;
    std::vector<Outlook> stages;
    const auto keep = [&](const Outlook& outlook) {
        stages.push_back(outlook);
        return true;
    };
    maker.answer(question_of(7, twelve_feet), keep);
    REQUIRE(stages.size() == 3);
    CHECK((!stages[0].odds && !stages[0].outline.empty() && !stages[0].complete));
    CHECK((stages[1].odds && !stages[1].best && !stages[1].complete));
    CHECK((stages[2].best && stages[2].complete && stages[2].number == 7));
    int told = 0;
    const Putt other = oracle::bare_putt(10, 0.02, 13, 3, oracle::inches_past(12));
    maker.answer(question_of(8, other), [&](const Outlook&) { return ++told < 2; });
    CHECK(told == 2);
}

TEST_CASE("an answer that is stopped again and again is the same, and nothing is made twice",
          "[outlook]") {
    Putt curved = twelve_feet;
    curved.surface = std::make_shared<Tilted>(curved.surface, Vec2(0.01, 0), curved.hole);
    const OutlookQuestion question = question_of(1, curved);
    OutlookMaker at_once, in_pieces;
    int told_at_once = 0;
    Outlook expected, last;
    at_once.answer(question, [&](const Outlook& outlook) {
        expected = outlook;
        return ++told_at_once > 0;
    });
    int pieces = 0;
    while (!last.complete && pieces < 100) {
        int told = 0;
        in_pieces.answer(question, [&](const Outlook& outlook) {
            last = outlook;
            return ++told < 2;
        });
        ++pieces;
    }
    // What is asked before a ring is asked once more where it was stopped there.
    CHECK(pieces < told_at_once + 2);
    CHECK(pieces > 5);
    REQUIRE((last.complete && last.odds && last.best && expected.odds && expected.best));
    CHECK(last.odds->putts == expected.odds->putts);
    CHECK(last.best->fewest_putts.past_m == expected.best->fewest_putts.past_m);
    CHECK(last.outline.size() == expected.outline.size());

    int told = 0;  // and what is whole is told again
    in_pieces.answer(question_of(9, curved), [&](const Outlook& outlook) {
        CHECK((outlook.complete && outlook.number == 9));
        return ++told > 0;
    });
    CHECK(told == 1);
}

TEST_CASE("the live chance to hole is that of the odds", "[outlook]") {
    OutlookMaker maker;
    for (const double feet : {4.0, 12.0, 30.0}) {
        const Putt putt = oracle::bare_putt(10, 0.02, feet, 4, oracle::inches_past(12));
        const Read line = read(putt).lines.at(0);
        const auto live = live_chance(putt, line, {});
        REQUIRE(live);
        // Half the rows of edges: 0.001 (outlook.cpp), an eighth of the figure's last digit.
        CHECK_THAT(*live, WithinAbs(answered(maker, question_of(1, putt)).odds->holed, 0.001));
    }
    const Putt steep = oracle::bare_putt(12, 0.09, 12, 3, Finish::hole_speed(1.2));
    CHECK_FALSE(live_chance(steep, read(steep).lines.at(0), {}));
}

TEST_CASE("where nothing stops there is an outline and no odds", "[outlook]") {
    OutlookMaker maker;
    const Putt steep = oracle::bare_putt(12, 0.09, 12, 3, Finish::hole_speed(1.2));
    const Outlook outlook = answered(maker, question_of(1, steep));
    CHECK(outlook.complete);
    CHECK_FALSE(outlook.odds);
    CHECK_FALSE(outlook.outline.empty());
}

TEST_CASE("finishes that were tried have their chance", "[outlook]") {
    OutlookMaker maker;
    const Outlook outlook = answered(maker, question_of(1, twelve_feet));
    const auto foot = chance_of_finish(*outlook.best, usual_past_m);
    REQUIRE(foot);
    // The same stroke; by two maps, one made for this stroke and one for all finishes.
    CHECK_THAT(*foot, WithinAbs(outlook.odds->holed, 1e-3));
    CHECK(chance_of_finish(*outlook.best, barely_in_past_m));
    CHECK(chance_of_finish(*outlook.best, firm_past_m));
    CHECK_FALSE(chance_of_finish(*outlook.best, 0.111));
}

TEST_CASE("only the newest question is answered", "[outlook_desk]") {
    const auto desk = outlook_desk();
    for (std::uint64_t number = 1; number <= 5; ++number)
        desk->ask(question_of(number, oracle::bare_putt(10, 0.02, 5 + static_cast<double>(number),
                                                        3, oracle::inches_past(12))));
    while (desk->busy())
        if (const auto outlook = desk->take()) REQUIRE(outlook->number == 5);
    desk->ask(question_of(6, twelve_feet));
    desk->wait();
    const auto outlook = desk->take();
    REQUIRE(outlook);
    CHECK((outlook->number == 6 && outlook->complete));
    CHECK_FALSE(desk->take());
}

TEST_CASE("a question forgotten is not answered, and the desk closes while at work",
          "[outlook_desk]") {
    const auto desk = outlook_desk();
    desk->ask(question_of(1, twelve_feet));
    desk->forget();
    CHECK_FALSE(desk->busy());
    desk->wait();
    CHECK_FALSE(desk->take());
    desk->ask(question_of(2, twelve_feet));
}
