#include "viewer/practice/review/review.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>

#include "physics/roll/green_speed.hpp"
#include "tests/support/random.hpp"
#include "tests/support/units.hpp"
#include "viewer/practice/drill/dealt_putt.hpp"
#include "viewer/practice/drill/plain_read.hpp"
#include "viewer/practice/drill/random_stream.hpp"
#include "viewer/practice/habits/practice_words.hpp"
#include "viewer/practice/rehearse/rehearse.hpp"
#include "viewer/practice/review/review_log.hpp"

using namespace dewtrail;
using oracle::foot;

namespace {

PlayedPutt meant_putt(double distance_m, double up, double left, double stimp_ft) {
    Greenkeeper keeper;
    PlayedPutt played;
    played.putt = keeper.set_up(plane_putt(distance_m, up, left, stimp_ft, 0.3)).putt;
    played.stimp_ft = stimp_ft;
    played.meant = plain_read(played.putt, 0.3)->stroke;
    played.rest_sd_m = {0.03, 0.03};
    return played;
}

/// What really was: the four causes of a simulated miss.
struct Truth {
    double slope, stimp_ft, line_rad, pace;
    double operator[](int i) const { return (&slope)[i]; }
};

/// Rolls the ball on the ground as it really is and says where it ended, give or take.
void play(PlayedPutt& played, const Truth& truth, RandomStream& random) {
    const Putt& putt = played.putt;
    const Vec2 gradient = dynamic_cast<const Plane&>(*putt.surface).gradient();
    const Plane real(gradient * (1 + truth.slope / gradient.norm()));
    const double resistance = resistance_of_stimp((played.stimp_ft + truth.stimp_ft) * foot);
    const double speed = played.meant.speed_m_s * std::sqrt(1 + truth.pace);
    const Roll rolled =
        roll(real, resistance, putt.launch({played.meant.angle_rad + truth.line_rad, speed}));
    REQUIRE(rolled.end == RollEnd::at_rest);
    played.rest = rolled.last.at + Vec2(played.rest_sd_m[0] * random.normal(),
                                        played.rest_sd_m[1] * random.normal());
}

const Doubts doubts{.slope = 0.004, .stimp_ft = 0.6, .line_rad = 0.025, .pace = 0.08};

Truth drawn(RandomStream& random) {
    return {doubts.slope * random.normal(), doubts.stimp_ft * random.normal(),
            doubts.line_rad * random.normal(), doubts.pace * random.normal()};
}

struct SplitTally {
    double off[4] = {}, squares[4] = {};
    int held[4] = {}, all = 0;

    void add(const Split& split, const Truth& truth) {
        constexpr double z_90 = 1.645;
        for (int i = 0; i < 4; ++i) {
            const Part& part = split.parts[i];
            const double z = (part.size - truth[i]) / part.sd;
            off[i] += z;
            held[i] += std::abs(z) < z_90;
        }
        ++all;
    }
};

}  // namespace

TEST_CASE("The stroke that did it ends where the ball was said to be", "[review]") {
    oracle::Random random(17);
    for (int i = 0; i < 300; ++i) {
        PlayedPutt played = meant_putt(random.between(1, 15), random.between(-0.025, 0.025),
                                       random.between(-0.03, 0.03), random.between(8, 12));
        const Vec2 e = played.putt.line().normalized(), right(e.y(), -e.x());
        played.rest =
            played.putt.hole + random.between(-0.5, 1.5) * e + random.between(-1, 1) * right;
        const auto solved = stroke_that_ends_at(played);
        INFO(i);
        REQUIRE(solved);
        REQUIRE(solved->error_m < 1e-3);
        // Rolled again, here, by a tighter integration.
        RollOptions tight;
        tight.tolerance = 1e-11;
        const Roll again = roll(*played.putt.surface, played.putt.resistance,
                                played.putt.launch(solved->stroke), tight);
        REQUIRE((again.last.at - played.rest).norm() < 1e-3);
    }
}

TEST_CASE("The stroke is found on a curved green too", "[review]") {
    Greenkeeper keeper({DEWTRAIL_SOURCE_DIR "/greens"});
    const Green& green = keeper.green("meadow");
    DealtPutt dealt;
    dealt.green = "meadow";
    const Vec2 hole = green.holes.begin()->second, ball = green.balls.begin()->second;
    dealt.hole_x_m = hole.x(), dealt.hole_y_m = hole.y();
    dealt.ball_x_m = ball.x(), dealt.ball_y_m = ball.y();
    PlayedPutt played;
    played.putt = keeper.set_up(dealt).putt;
    played.stimp_ft = 10;
    played.meant = plain_read(played.putt, 0.3)->stroke;
    played.rest = hole + Vec2(0.4, 0.5);
    played.rest_sd_m = {0.05, 0.05};
    const auto solved = stroke_that_ends_at(played);
    REQUIRE(solved);
    REQUIRE(solved->error_m < 1e-3);
    REQUIRE(split_of({played}, doubts));
}

TEST_CASE("The split is unbiased and its intervals hold, on simulated misses", "[review]") {
    RandomStream random(23);
    SplitTally tally;
    for (int i = 0; i < 1000; ++i) {
        // One draw a line: in which order arguments are worked out is the compiler's business.
        const double side = random.unit() < 0.5 ? -1 : 1;
        const double distance_m = random.between(2, 8), up = random.between(-0.015, 0.015);
        const double across = side * random.between(0.01, 0.025);
        PlayedPutt played = meant_putt(distance_m, up, across, 10);
        const Truth truth = drawn(random);
        play(played, truth, random);
        const auto split = split_of({played}, doubts);
        REQUIRE(split);
        tally.add(*split, truth);
    }
    for (int cause = 0; cause < 4; ++cause) {
        INFO(cause << ": held " << tally.held[cause] << ", off " << tally.off[cause] / tally.all);
        // Means of 1,000 z of size 1 or less: a standard error of 0.032, three of them. The pace
        // (the last) comes out a tenth of its deviation too soft, 0.095 and 0.109 on two samples:
        // the model is linear, how far a ball rolls on a slope is not.
        const double linear = cause == 3 ? 0.1 : 0;
        REQUIRE(std::abs(tally.off[cause] / tally.all) < linear + 0.1);
        // 900 +- 9.5, and the model is linear where the ground is not quite.
        REQUIRE(tally.held[cause] > 870);
        REQUIRE(tally.held[cause] < 930);
    }
}

// What the words say is taken from the words, and held against the chances.
TEST_CASE("Ten thousand reviews: the headline is the likeliest of what moved the ball",
          "[.reviews]") {
    RandomStream random(29);
    int none = 0, vague = 0;
    for (int i = 0; i < 10'000; ++i) {
        const double distance_m = random.between(1, 9), up = random.between(-0.015, 0.015);
        const double across = random.between(-0.025, 0.025);
        PlayedPutt played = meant_putt(distance_m, up, across, 10);
        const Vec2 off(random.normal(), random.normal());
        played.rest = played.putt.hole + random.between(0.02, 0.8) * off;
        const double sd = i % 3 == 0 ? 0.3 : 0.03;
        played.rest_sd_m = {sd, sd};
        const auto split = split_of({played}, doubts);
        if (!split) continue;
        const Reviewed of = means_of({played});
        double sum = 0;
        for (const Part& part : split->parts) {
            sum += part.chance;
            CHECK((part.moved || part.chance == 0));
        }
        const auto words = verdict_words(*split, of, Units{});
        if (split->likely.empty()) {
            CHECK(words.front().find("nothing stands out") != std::string::npos);
            ++none;
            continue;
        }
        CHECK_THAT(sum, Catch::WithinAbs(1, 1e-9));
        const bool stands_out = words.front() != "Nothing stands out.";
        vague += !stands_out;
        const std::string& first = words[stands_out ? 0 : 1];
        const auto named = [&](const std::string& sentence) {
            int found = -1;
            for (int c = 0; c < cause_count; ++c)
                if (sentence.find(cause_part_words(static_cast<Cause>(c), split->parts[c], of,
                                                   Units{})) != std::string::npos)
                    found = c;
            return found;
        };
        const int headline = named(first);
        INFO(first);
        REQUIRE(headline >= 0);
        REQUIRE(first.find("as meant") == std::string::npos);
        REQUIRE(first.find("as read") == std::string::npos);
        REQUIRE(first.find("as taken") == std::string::npos);
        for (int c = 0; c < cause_count; ++c)
            REQUIRE(split->parts[c].chance <= split->parts[headline].chance);
        CHECK(stands_out == (split->parts[headline].chance >= 0.4));
        if (split->likely.size() < 2) continue;
        const int second = named(words[stands_out ? 1 : 2]);
        REQUIRE(second >= 0);
        for (int c = 0; c < cause_count; ++c)
            REQUIRE((c == headline || split->parts[c].chance <= split->parts[second].chance));
    }
    INFO(none << " with nothing moved, " << vague << " in which nothing stands out");
    CHECK(vague > 100);
    CHECK(vague < 9000);
}

TEST_CASE("One cause alone is named once the others are known", "[review]") {
    RandomStream random(5);
    PlayedPutt played = meant_putt(4, 0, 0.02, 10);
    Doubts sure = doubts;
    sure.slope = 1e-5;
    sure.stimp_ft = 1e-3;
    played.rest_sd_m = {0.01, 0.01};
    play(played, {0, 0, 0, 0.2}, random);
    const auto firm = split_of({played}, sure);
    REQUIRE(firm->likely.front() == Cause::pace);
    REQUIRE_FALSE(firm->cannot_tell());
    REQUIRE_THAT(firm->part(Cause::pace).size, Catch::WithinAbs(0.2, 0.02));
    play(played, {0, 0, 0.05, 0}, random);
    const auto wide = split_of({played}, sure);
    REQUIRE(wide->likely.front() == Cause::line);
    REQUIRE_THAT(wide->part(Cause::line).size, Catch::WithinAbs(0.05, 0.005));
}

TEST_CASE("One putt cannot tell aim from read; several from all sides can", "[review]") {
    RandomStream random(6);
    const Truth steeper{0.012, 0, 0, 0};
    std::vector<PlayedPutt> putts;
    for (int i = 0; i < 12; ++i) {
        const double angle = i * M_PI / 6;
        PlayedPutt played = meant_putt(4, -0.02 * std::cos(angle), 0.02 * std::sin(angle), 10);
        play(played, steeper, random);
        putts.push_back(played);
    }
    Doubts wide = doubts;
    wide.slope = 0.008;
    REQUIRE(split_of({putts[3]}, doubts)->cannot_tell());
    const auto one = split_of({putts[3]}, wide);
    const auto all = split_of(putts, wide);
    REQUIRE(all->likely.front() == Cause::slope);
    REQUIRE_FALSE(all->cannot_tell());
    REQUIRE_THAT(all->part(Cause::slope).size,
                 Catch::WithinAbs(0.012, 3 * all->part(Cause::slope).sd));
    REQUIRE(all->part(Cause::slope).sd < 0.5 * one->part(Cause::slope).sd);
}

TEST_CASE("Words are places too, only less sure", "[review]") {
    const PlayedPutt played = meant_putt(4, 0, 0.02, 10);  // falls left: low is left
    const auto words = told_rest(played.putt, {}, "low long");
    REQUIRE(words);
    REQUIRE_FALSE(words->exact);
    REQUIRE(words->at[0] > 0);
    REQUIRE(words->at[1] < 0);
    const auto measured = told_rest(played.putt, {0.6, -0.15, std::nullopt}, "");
    REQUIRE(measured->exact);
    REQUIRE(measured->sd[0] < words->sd[0]);
    const auto far = told_rest(played.putt, {std::nullopt, std::nullopt, 0.5}, "short");
    REQUIRE_THAT(far->at.norm(), Catch::WithinAbs(0.5, 1e-12));
    REQUIRE(far->at[0] < 0);
    REQUIRE_FALSE(told_rest(played.putt, {}, ""));
}

TEST_CASE("A mat of another speed rolls in proportion", "[rehearse]") {
    const Player player;
    const Rehearsal r = rehearse(4, 10, 12, std::nullopt, player, 10);
    REQUIRE_THAT(r.level_roll_m, Catch::WithinAbs(4.8, 1e-12));
    REQUIRE_THAT(r.level_putt_m, Catch::WithinAbs(4.8 - usual_past_m, 1e-12));
    REQUIRE_FALSE(r.end_speed_m_s);
    REQUIRE_FALSE(r.backswing_m);
    // Half the roll from the end: half the energy is left, so 1/sqrt 2 of the speed.
    const Rehearsal half = rehearse(4, 10, 12, 2.4, player, 10);
    REQUIRE_THAT(*half.end_speed_m_s, Catch::WithinAbs(half.speed_m_s * std::sqrt(0.5), 1e-12));
    REQUIRE_THAT(*half.end_time_s * 0.5 * (half.speed_m_s + *half.end_speed_m_s),
                 Catch::WithinAbs(2.4, 1e-12));
    REQUIRE_THROWS_AS(rehearse(0, 10, 12, std::nullopt, player, 10), std::invalid_argument);
}

TEST_CASE("A backswing grows with the ball's speed, through the origin", "[rehearse]") {
    Player player;
    player.stroke_table = {{0.2, 2}, {0.4, 8}};  // twice the speed rolls four times as far
    const Rehearsal r = rehearse(4.5, 10, 10, std::nullopt, player, 10);
    REQUIRE_THAT(*r.backswing_m, Catch::WithinAbs(0.3, 1e-12));
    REQUIRE_THAT(*r.backswing_sd_m, Catch::WithinAbs(0, 1e-12));
    player.stroke_table = {{0.22, 2}, {0.38, 8}};
    REQUIRE(*rehearse(4.5, 10, 10, std::nullopt, player, 10).backswing_sd_m > 0.01);
    // The same roll on a slower green is a harder stroke: speed as the root of 10/8.
    player.stroke_table = {{0.2, 2}, {0.4, 8}};
    REQUIRE_THAT(*rehearse(4.5, 8, 8, std::nullopt, player, 10).backswing_m,
                 Catch::WithinAbs(0.3 * std::sqrt(10.0 / 8), 1e-12));
}

TEST_CASE("Chances are told in whole percent that add up", "[review]") {
    Split split;
    const double chances[] = {0.336, 0.336, 0.328, 0};
    for (int i = 0; i < cause_count; ++i) split.parts[i].chance = chances[i];
    CHECK(split.told_chances() == std::array<int, cause_count>{34, 33, 33, 0});
    split.parts[0].chance = 0.005, split.parts[1].chance = 0.995, split.parts[2].chance = 0;
    CHECK(split.told_chances() == std::array<int, cause_count>{1, 99, 0, 0});
    RandomStream random(9);
    for (int i = 0; i < 1000; ++i) {
        double all = 0;
        for (Part& part : split.parts) all += part.chance = random.unit();
        for (Part& part : split.parts) part.chance /= all;
        const auto told = split.told_chances();
        REQUIRE(std::accumulate(told.begin(), told.end(), 0) == 100);
        for (std::size_t k = 0; k < told.size(); ++k)
            REQUIRE(std::abs(told[k] - 100 * split.parts[k].chance) < 1);
    }
    CHECK(Split{}.told_chances() == std::array<int, cause_count>{});
}
