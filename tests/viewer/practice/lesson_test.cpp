#include "viewer/practice/drill/lesson.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "greens/input_error.hpp"
#include "tests/support/temporary_folder.hpp"
#include "viewer/practice/drill/plain_read.hpp"
#include "viewer/practice/drill/putt_set.hpp"
#include "viewer/text/figures.hpp"

using namespace dewtrail;

namespace {

Answer answer_to(const Task& task, double score, double lost) {
    Answer answer;
    answer.at = "2026-05-01T10:00:00";
    answer.putt = task.putt;
    answer.category = task.kind;
    answer.occasion = task.occasion;
    answer.score = score;
    answer.lost = lost;
    return answer;
}

LessonPlan plan_for(std::uint64_t seed, int putts = 20) {
    LessonPlan plan;
    plan.putts = putts;
    plan.seed = seed;
    plan.date = "2026-05-02";
    return plan;
}

std::vector<DealtPutt> play(const LessonPlan& plan, const std::vector<Answer>& history,
                            double score = 10) {
    Greenkeeper keeper;
    Lesson lesson(plan, history, keeper);
    std::vector<DealtPutt> putts;
    while (const auto task = lesson.next()) {
        putts.push_back(task->putt);
        lesson.answered(answer_to(*task, score, 0.1));
    }
    return putts;
}

bool is_mirror_or_turn(const DealtPutt& a, const DealtPutt& b) {
    const double hour = M_PI / 6;
    const double angle = std::remainder(bearing_of(a.ball()) - bearing_of(b.ball()), 2 * M_PI);
    const bool turn = std::abs(std::abs(angle) - hour) < 1e-9;
    return a.slope == b.slope && std::abs(a.ball().norm() - b.ball().norm()) < 1e-9 &&
           (turn || mirrored(a) == b);
}

}  // namespace

TEST_CASE("Every kind can be dealt, in round figures and with a read", "[deal]") {
    Greenkeeper keeper;
    RandomStream random(4);
    const DealRanges ranges;
    REQUIRE(kinds_within(ranges).size() == plane_categories);
    for (const Category& kind : kinds_within(ranges)) {
        INFO(name_of(kind));
        const auto putt = deal(kind, ranges, random, keeper);
        REQUIRE(putt);
        const PlacedPutt plan = keeper.set_up(*putt);
        REQUIRE(category_of(plan.putt) == kind);
        REQUIRE(plain_read(plan.putt, 0)->aim_offset_m);
        const double half_feet = plan.putt.distance_m() / (0.5 * metres_per_foot);
        REQUIRE_THAT(half_feet, Catch::WithinAbs(std::round(half_feet), 1e-9));
        // The slope is told to a quarter per cent; the hidden rest is less than half of that.
        const double quarters = 100 * putt->slope * 4;
        REQUIRE(std::abs(quarters - std::round(quarters)) < 0.49);
    }
}

TEST_CASE("Narrow ranges deal what they hold and nothing else", "[deal]") {
    DealRanges ranges;
    ranges.least_m = 10 * metres_per_foot;
    ranges.most_m = 15 * metres_per_foot;
    REQUIRE(kinds_within(ranges).size() == 9);
    Greenkeeper keeper;
    RandomStream random(1);
    REQUIRE_FALSE(
        deal({BreakSide::straight, Grade::level, Reach::long_putt}, ranges, random, keeper));
    ranges.least_m = ranges.most_m = 12 * metres_per_foot;
    for (const Category& kind : kinds_within(ranges))
        REQUIRE_THAT(keeper.set_up(*deal(kind, ranges, random, keeper)).putt.distance_m(),
                     Catch::WithinAbs(12 * metres_per_foot, 1e-9));
}

TEST_CASE("Putts are dealt on a green file, inside its edge", "[deal]") {
    Greenkeeper keeper({DEWTRAIL_SOURCE_DIR "/greens"});
    DealRanges ranges;
    ranges.greens = {"meadow"};
    RandomStream random(2);
    for (int i = 0; i < 6; ++i) {
        const auto putt = deal(category_at(i * 4), ranges, random, keeper);
        REQUIRE(putt);
        REQUIRE(putt->green == "meadow");
        REQUIRE(keeper.green("meadow").outline.inside_by(putt->ball()) > 0);
        REQUIRE(plain_read(keeper.set_up(*putt).putt, 0));
    }
}

TEST_CASE("A putt that breaks both ways is of a kind of its own", "[deal]") {
    Greenkeeper keeper({DEWTRAIL_SOURCE_DIR "/greens"});
    DealRanges ranges;
    ranges.greens = {"saddle"};
    ranges.most_m = 12;
    REQUIRE(kinds_within(ranges).size() == category_count);
    RandomStream random(3);
    const Category kind{BreakSide::both_ways, Grade::downhill, Reach::long_putt};
    CHECK(find_category("both-ways downhill long") == kind);
    const auto dealt = deal(kind, ranges, random, keeper);
    REQUIRE(dealt);
    const Putt putt = keeper.set_up(*dealt).putt;
    CHECK(category_of(putt) == kind);
    CHECK(plain_read(putt, 0)->turns);
    CHECK_FALSE(breaks_one_way(kind.side));
}

TEST_CASE("The same seed deals the same putts, another seed others", "[lesson]") {
    const auto once = play(plan_for(7), {}), again = play(plan_for(7), {});
    REQUIRE(once.size() == 20);
    REQUIRE(once == again);
    REQUIRE_FALSE(once == play(plan_for(8), {}));
}

TEST_CASE("After a miss the same putt comes again, in a mirror or from an hour on", "[lesson]") {
    Greenkeeper keeper;
    Lesson lesson(plan_for(3, 30), {}, keeper);
    int again = 0;
    std::optional<DealtPutt> missed;
    while (const auto task = lesson.next()) {
        if (missed) {
            REQUIRE(is_mirror_or_turn(*missed, task->putt));
            ++again;
            missed.reset();
            // Missed again: it is not asked a third time.
            lesson.answered(answer_to(*task, 3, 0.3));
            continue;
        }
        lesson.answered(answer_to(*task, 3, 0.3));
        if (task->putt.slope > 0) missed = task->putt;
    }
    REQUIRE(again > 10);
}

TEST_CASE("The truth is told after every putt, or after every third once a trend was told",
          "[lesson]") {
    Greenkeeper keeper;
    for (const bool quiet : {false, true}) {
        LessonPlan plan = plan_for(3, 16);
        plan.quiet = quiet;
        Lesson lesson(plan, {}, keeper);
        std::string told;
        while (const auto task = lesson.next()) {
            told += lesson.tells() ? 'x' : '.';
            lesson.answered(answer_to(*task, 8, 0.1));
        }
        REQUIRE(told == (quiet ? "xxxxxx..x..x..x." : "xxxxxxxxxxxxxxxx"));
    }
}

TEST_CASE("Three of yesterday's come first", "[lesson]") {
    Greenkeeper keeper;
    std::vector<Answer> history;
    for (const DealtPutt& putt : play(plan_for(5), {}))
        history.push_back(answer_to({putt, category_of(keeper.set_up(putt).putt)}, 5, 0.1));
    Lesson lesson(plan_for(6, 8), history, keeper);
    for (int i = 0; i < 8; ++i) {
        const auto task = lesson.next();
        REQUIRE(task);
        REQUIRE((task->occasion == Occasion::recall) == (i < 3));
        if (i < 3) REQUIRE(task->putt == history[i].putt);
        lesson.answered(answer_to(*task, 9, 0.1));
    }
    REQUIRE_FALSE(lesson.next());
    LessonPlan later = plan_for(6, 8);
    later.date = "2026-05-03";  // yesterday nothing was practised
    Lesson fresh(later, history, keeper);
    REQUIRE(fresh.next()->occasion == Occasion::practice);
}

TEST_CASE("A putt of yesterday whose green is gone is not asked again", "[lesson]") {
    Greenkeeper keeper;
    Answer gone = answer_to({play(plan_for(5), {})[0], category_at(0)}, 5, 0.1);
    gone.putt.green = "mown-over";
    Lesson lesson(plan_for(6, 8), {gone}, keeper);
    const auto task = lesson.next();
    REQUIRE(task);
    CHECK(task->occasion == Occasion::practice);
    CHECK(task->putt.green.empty());
}

TEST_CASE("The putt of the day is one, the test ten, each by its date", "[lesson]") {
    LessonPlan day = plan_for(1);
    day.occasion = Occasion::day;
    const auto first = play(day, {});
    day.seed = 99;
    REQUIRE(first.size() == 1);
    REQUIRE(play(day, {}) == first);
    day.date = "2026-05-03";
    REQUIRE_FALSE(play(day, {}) == first);
    day.date = "2026-05-02";
    day.ranges.least_stimp_ft = day.ranges.most_stimp_ft = 7;  // whatever the player's green is
    REQUIRE(play(day, {}) == first);

    LessonPlan week = plan_for(1);
    week.occasion = Occasion::week;
    const auto test = play(week, {});
    REQUIRE(test.size() == 10);
    week.date = "2026-05-01";  // the same week
    REQUIRE(play(week, {}, 2) == test);
    week.date = "2026-05-04";  // the next
    REQUIRE_FALSE(play(week, {}) == test);
}

namespace {

/// Putts until a dealer's worst kind is the weak one, and stays so; and how many went to it.
struct Found {
    int after = 0, spent = 0;
};

Found find_weak(bool even, std::uint64_t seed, int putts) {
    const auto kinds = all_kinds();
    const Category weak = kinds[seed % kinds.size()];
    Dealer dealer(kinds);
    RandomStream random(seed);
    Found found;
    for (int i = 0; i < putts; ++i) {
        const Category kind = even ? kinds[random.below(category_count)] : dealer.choose(random);
        const bool is_weak = kind == weak;
        found.spent += is_weak;
        const double mean = is_weak ? 0.35 : 0.1;
        dealer.learn(kind, std::max(0.0, mean + 0.12 * random.normal()));
        Category worst = kinds.front();
        for (const Category& k : kinds)
            if (dealer.known(k).lost > dealer.known(worst).lost) worst = k;
        // Found: the dearest, and known so from three putts at least.
        if (!(worst == weak) || dealer.known(weak).putts < 3) found.after = i + 2;
    }
    return found;
}

}  // namespace

TEST_CASE("The dealer spends more on the weak kind, and finds it in fewer putts", "[dealer]") {
    constexpr int players = 200, putts = 150;
    Found dealer, even;
    for (int i = 0; i < players; ++i) {
        const Found a = find_weak(false, static_cast<std::uint64_t>(i) + 1, putts);
        const Found b = find_weak(true, static_cast<std::uint64_t>(i) + 1, putts);
        dealer.after += a.after, dealer.spent += a.spent;
        even.after += b.after, even.spent += b.spent;
    }
    const double n = players;
    INFO("dealer: " << dealer.spent / n << " putts on it, found after " << dealer.after / n
                    << "; even: " << even.spent / n << ", " << even.after / n);
    REQUIRE(dealer.spent > 3 * even.spent);
    REQUIRE(dealer.after < even.after);
}

TEST_CASE("A set of putts is kept as a file", "[putt_set]") {
    const TemporaryFolder folder;
    const auto path = folder.path() / "set.toml";
    auto putts = play(plan_for(7, 5), {});
    DealtPutt on_green;
    on_green.green = "meadow";
    on_green.ball_x_m = 3;
    on_green.hole_x_m = 7;
    putts.push_back(on_green);
    save_putt_set(path, putts);
    const auto loaded = load_putt_set(path);
    REQUIRE(loaded.size() == putts.size());
    for (std::size_t i = 0; i < putts.size(); ++i) {
        REQUIRE(loaded[i].ball() == putts[i].ball());
        REQUIRE_THAT(loaded[i].slope, Catch::WithinAbs(putts[i].slope, 1e-15));  // by per cent
        REQUIRE(loaded[i].green == putts[i].green);
    }
    folder.write("bad.toml",
                 "format = 1\n[[putt]]\nball = [0.1, 0]\nslope_percent = 2\nstimp = 10\n");
    REQUIRE_THROWS_AS(load_putt_set(folder.path() / "bad.toml"), InputError);
    folder.write("bad.toml", "format = 1\n");
    REQUIRE_THROWS_AS(load_putt_set(folder.path() / "bad.toml"), InputError);
    folder.write("bad.toml", "format = 1\nputt = 3\n");
    REQUIRE_THROWS_AS(load_putt_set(folder.path() / "bad.toml"), InputError);
}

TEST_CASE("A set reads back whatever its greens are called, and names no path", "[putt_set]") {
    const TemporaryFolder folder;
    const auto path = folder.path() / "set.toml";
    DealtPutt putt;
    putt.ball_x_m = 3;
    for (const char* name : {"it's.toml", "a \"b\" \\ c", "Grün"}) {
        putt.green = name;
        save_putt_set(path, {putt});
        REQUIRE(load_putt_set(path).front().green == name);
    }
    for (const char* name : {"/etc/passwd", "../up.toml", "below/x"}) {
        putt.green = name;
        REQUIRE_THROWS_AS(save_putt_set(path, {putt}), InputError);
        folder.write("other.toml", std::string("format = 1\n[[putt]]\ngreen = '") + name +
                                       "'\nball = [3, 0]\nhole = [0, 0]\nstimp = 10\n");
        try {
            load_putt_set(folder.path() / "other.toml");
            FAIL("was taken");
        } catch (const InputError& error) {
            CHECK(error.line() == 3);
        }
    }
    REQUIRE(load_putt_set(path).front().green == "Grün");
}
