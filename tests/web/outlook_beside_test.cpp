// What an instance of the page's program sends to another about odds, without a browser.

#include "viewer/web/outlook_beside.hpp"

#include <bit>
#include <catch2/catch.hpp>
#include <limits>

#include "physics/surface/line_profile.hpp"
#include "physics/surface/tilted.hpp"
#include "support/putts.hpp"
#include "support/sanitized.hpp"

using namespace dewtrail;

namespace {

OutlookQuestion question_of(std::uint64_t number, const Putt& putt, const Spread& spread = {}) {
    return {number, putt, read(putt).lines.at(0), Finish::past(0.1), spread};
}

Outlook answered(const OutlookQuestion& question) {
    Outlook last;
    OutlookMaker().answer(question, [&](const Outlook& outlook) {
        last = outlook;
        return true;
    });
    return last;
}

std::vector<std::uint64_t> bits(const Numbers& row) {
    std::vector<std::uint64_t> all;
    for (const double x : row) all.push_back(std::bit_cast<std::uint64_t>(x));
    return all;
}
bool same(const Outlook& a, const Outlook& b) {
    return bits(numbers_of(a)) == bits(numbers_of(b));
}

const Putt twelve_feet = oracle::bare_putt(10, 0.02, 12, 3, oracle::inches_past(12));

const Putt thirteen_feet = oracle::bare_putt(10, 0.02, 13, 3, oracle::inches_past(12));

Putt with_readings() {
    Putt putt = twelve_feet;
    putt.surface = std::make_shared<LineProfile>(
        putt.ball, putt.hole,
        std::vector<LineReading>{{0, 0.01, 0.02}, {1.7, -0.01, 0.015}, {3.6, 0.013, 0.021}});
    return putt;
}

Putt on_meadow() {
    static const auto green = std::make_shared<const Green>(oracle::shipped_green("meadow"));
    Putt putt = twelve_feet;
    putt.surface = green->surface;
    putt.outline = std::shared_ptr<const Outline>(green, &green->outline);
    putt.hole = green->holes.begin()->second;
    putt.ball = putt.hole + Vec2(2, -3);
    putt.conditions.wind_m_s = {2, 1};
    putt.conditions.launch_spin = 0.1;
    return putt;
}

/// A page and a worker, with a host between them that carries what it is given.
struct Pair {
    OutlookDeskBeside desk{[this](const Numbers& question) {
        if (there) clerk.ask(question);
        return there;
    }};
    OutlookClerk clerk;
    bool there = true;

    /// What the page is told, until nothing more comes.
    std::vector<Outlook> heard() {
        std::vector<Outlook> all;
        while (clerk.busy()) {
            if (const auto answer = clerk.work()) desk.hear(*answer);
            if (const auto outlook = desk.take()) all.push_back(*outlook);
        }
        return all;
    }
};

}  // namespace

TEST_CASE("a question that was sent has the same answer, bit by bit", "[beside]") {
    for (const Putt& putt : {twelve_feet, with_readings(), on_meadow()}) {
        const OutlookQuestion question = question_of(3, putt, {1.2, 0.1, 0.05, 0.004});
        const OutlookQuestion sent = QuestionReader().question_in(numbers_of(question));
        CHECK(bits(numbers_of(sent)) == bits(numbers_of(question)));
        // Two tables of next putts where the ground bends take minutes there.
        if (oracle::sanitized && !dynamic_cast<const Plane*>(putt.surface.get())) continue;
        const Outlook here = answered(question);
        REQUIRE((here.complete && here.spread && here.odds && here.best));
        CHECK(same(answered(sent), here));
        CHECK(same(outlook_in(numbers_of(here)), here));
    }
}

TEST_CASE("an answer keeps every bit and what it lacks", "[beside]") {
    Outlook outlook;
    CHECK(same(outlook_in(numbers_of(outlook)), outlook));
    outlook.number = (std::uint64_t{1} << 53) - 1;
    outlook.outline = {{-0.0, std::numeric_limits<double>::denorm_min()}, {1.0 / 3, 2}};
    outlook.best.emplace();
    outlook.best->by_past.resize(2);
    outlook.best->fewest_putts.past_m = 0.1 + 0.2;
    const Outlook sent = outlook_in(numbers_of(outlook));
    CHECK(same(sent, outlook));
    CHECK(sent.number == outlook.number);
    CHECK((sent.best && !sent.best->plain && !sent.odds && !sent.complete));
}

TEST_CASE("a row that is cut short is refused", "[beside]") {
    Numbers row = numbers_of(question_of(1, with_readings()));
    while (!row.empty()) {
        row.pop_back();
        CHECK_THROWS_AS(QuestionReader().question_in(row), std::invalid_argument);
    }
    CHECK_THROWS_AS(outlook_in({1, 0, 1e300}), std::invalid_argument);
}

TEST_CASE("questions on the same ground share it", "[beside]") {
    QuestionReader reader;
    Putt putt = on_meadow();
    const OutlookQuestion first = reader.question_in(numbers_of(question_of(1, putt)));
    putt.ball += Vec2(0.5, 0);
    const OutlookQuestion second = reader.question_in(numbers_of(question_of(2, putt)));
    CHECK(second.putt.surface == first.putt.surface);
    CHECK(second.putt.outline == first.putt.outline);
    const OutlookQuestion third = reader.question_in(numbers_of(question_of(3, twelve_feet)));
    CHECK(third.putt.surface != first.putt.surface);
    CHECK_FALSE(third.putt.outline);
}

TEST_CASE("the other instance answers as it goes, the newest question alone", "[beside]") {
    Pair pair;
    pair.desk.ask(question_of(1, on_meadow()));
    for (int i = 0; i < 3; ++i)
        if (const auto answer = pair.clerk.work()) CHECK(pair.desk.hear(*answer));
    CHECK(pair.desk.take()->number == 1);
    const auto late = pair.clerk.work();
    REQUIRE(late);
    pair.desk.ask(question_of(1, twelve_feet));  // a Read made anew begins with 1, too
    CHECK(pair.desk.hear(*late));
    CHECK_FALSE(pair.desk.take());

    const std::vector<Outlook> told = pair.heard();
    REQUIRE(told.size() >= 2);
    CHECK((told.front().number == 1 && !told.front().complete));
    CHECK(same(told.back(), answered(question_of(1, twelve_feet))));
    CHECK_FALSE(pair.desk.busy());
}

TEST_CASE("what is forgotten is not answered", "[beside]") {
    Pair pair;
    pair.desk.ask(question_of(1, twelve_feet));
    const auto answer = pair.clerk.work();
    pair.desk.forget();
    CHECK_FALSE(pair.clerk.busy());
    CHECK_FALSE(pair.desk.hear(*answer));
    CHECK_FALSE(pair.desk.busy());
    CHECK_FALSE(pair.desk.take());
}

TEST_CASE("where nobody answers, or nobody any more, odds are worked out here", "[beside]") {
    const OutlookQuestion question = question_of(5, twelve_feet);
    const Outlook expected = answered(question);
    const auto taken = [](OutlookDesk& desk) {
        Outlook last;
        while (desk.busy())
            if (const auto outlook = desk.take()) last = *outlook;
        return last;
    };
    Pair pair;
    pair.desk.ask(question);
    pair.desk.hear(*pair.clerk.work());
    pair.desk.lost();
    CHECK(same(taken(pair.desk), expected));

    pair.there = false;
    pair.desk.ask(question);
    CHECK(same(taken(pair.desk), expected));

    pair.there = true;
    pair.desk.ask(question_of(5, thirteen_feet));
    REQUIRE(pair.desk.hear(*pair.clerk.work()));
    pair.desk.wait();
    const auto waited = pair.desk.take();
    REQUIRE(waited);
    CHECK(same(*waited, answered(question_of(5, thirteen_feet))));

    pair.desk.ask(question);  // answered in full before it is waited for
    while (pair.clerk.busy())
        if (const auto answer = pair.clerk.work()) pair.desk.hear(*answer);
    pair.desk.wait();
    const auto whole = pair.desk.take();
    REQUIRE(whole);
    CHECK(same(*whole, expected));

    Putt tilted = twelve_feet;  // of a kind that is not sent
    tilted.surface = std::make_shared<Tilted>(tilted.surface, Vec2(0.001, 0), tilted.hole);
    pair.clerk.ask({});
    pair.desk.ask(question_of(6, tilted));
    CHECK_FALSE(pair.clerk.busy());
    CHECK(taken(pair.desk).number == 6);
}
