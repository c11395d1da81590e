#include "viewer/practice/habits/finding.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "viewer/practice/drill/drill_session.hpp"
#include "viewer/practice/drill/plain_read.hpp"
#include "viewer/practice/habits/practice_words.hpp"

using namespace dewtrail;

namespace {

/// A player who reads so much of the break and of the pace, give or take, and writes it down in the
/// steps that people use.
struct Reader {
    double part[6];  ///< of the break, by side and grade
    double pace = 1, break_scatter = 0.15, pace_scatter = 0.08, wrong_sides = 0;

    double whole() const {
        double sum = 0;
        for (const double p : part) sum += p / 6;
        return sum;
    }

    double aim_m(const Category& kind, double true_aim_m, RandomStream& random) const {
        const int group = static_cast<int>(kind.side) * 3 + static_cast<int>(kind.grade);
        const double share = kind.side == BreakSide::straight ? 1 : part[group];
        const double noisy = share * (1 + break_scatter * random.normal());
        const double side = random.unit() < wrong_sides ? -1 : 1;
        const double aim = side * noisy * true_aim_m;
        const double step = std::abs(aim) < 12 * metres_per_inch ? metres_per_inch : hole_radius_m;
        return step * std::round(aim / step);
    }

    double level_putt_m(const Read& best, RandomStream& random) const {
        const double roll = pace * (1 + pace_scatter * random.normal()) * best.level_roll_m;
        const double step = 0.5 * metres_per_foot;
        return step * std::round((roll - usual_past_m) / step);
    }
};

Reader reader_of(double part, double pace, RandomStream& random) {
    Reader reader;
    for (double& p : reader.part) p = part + 0.04 * random.normal();
    reader.pace = pace;
    reader.break_scatter = random.between(0.08, 0.25);
    reader.pace_scatter = random.between(0.04, 0.12);
    return reader;
}

/// About what a diagnosis says, without its cost: so much for each cup and each tenth of the pace.
double about_lost(double off_m, double pace_share) {
    return 0.1 * std::min(3.0, std::abs(off_m) / (2 * hole_radius_m)) +
           0.05 * std::min(3.0, std::abs(pace_share - 1) / 0.1);
}

Answer answer_of(const Reader& reader, const Task& task, Greenkeeper& keeper,
                 RandomStream& random) {
    const auto best = plain_read(keeper.set_up(task.putt).putt, usual_past_m);
    const double truth = *best->aim_offset_m;
    Answer a;
    a.putt = task.putt;
    a.category = task.kind;
    a.occasion = task.occasion;
    a.aim_m = reader.aim_m(task.kind, truth, random);
    a.level_putt_m = reader.level_putt_m(*best, random);
    a.true_aim_m = truth;
    if (std::abs(truth) >= least_break_m) a.break_share = *a.aim_m / truth;
    a.pace_share = (*a.level_putt_m + usual_past_m) / best->level_roll_m;
    a.lost = about_lost(*a.aim_m - truth, *a.pace_share);
    a.score = score_of(*a.lost);
    return a;
}

/// What was told in a session of ten putts: of the break, of the pace, at its end and ever.
struct ToldInSession {
    Findings end;
    bool break_ever = false, pace_ever = false;
};

ToldInSession ten_putts(const Reader& reader, std::uint64_t seed) {
    Greenkeeper keeper;
    RandomStream random(seed + 1'000'000);
    Lesson lesson(usual_plan(Player{}, seed), {}, keeper);
    std::vector<Answer> answers;
    ToldInSession session;
    while (const auto task = lesson.next()) {
        answers.push_back(answer_of(reader, *task, keeper, random));
        lesson.answered(answers.back());
        if (static_cast<int>(answers.size()) < least_putts) continue;
        session.end = findings_of(answers);
        session.break_ever |= session.end.aim.stands_out();
        session.pace_ever |= session.end.pace.stands_out();
    }
    return session;
}

bool holds(const std::optional<Credible>& share, double truth) {
    return share && share->lo <= truth && truth <= share->hi;
}

}  // namespace

// 1,000 players have a standard error of 1 % at 90 %.
TEST_CASE("Ten putts: the pooled interval holds what it says for players of all kinds",
          "[.players]") {
    constexpr int players = 1000;
    RandomStream random(41);
    int aims = 0, paces = 0;
    double width = 0;
    for (int i = 0; i < players; ++i) {
        Reader reader = reader_of(random.between(0.5, 1.3), random.between(0.8, 1.2), random);
        if (i % 4 == 1) reader.wrong_sides = 0.15;
        if (i % 4 == 2) reader.part[random.below(6)] *= 0.6;
        const ToldInSession session = ten_putts(reader, static_cast<std::uint64_t>(i));
        aims += holds(session.end.aim.share, reader.whole());
        paces += holds(session.end.pace.share, reader.pace);
        if (session.end.aim.share) width += session.end.aim.share->hi - session.end.aim.share->lo;
    }
    INFO(aims << " aims, " << paces << " paces, width " << width / players);
    CHECK(aims > 870);
    CHECK(aims < 930);
    CHECK(paces > 870);
    CHECK(paces < 930);
}

TEST_CASE("Ten putts: two thirds of the break is told, and nothing of a player without a habit",
          "[.players]") {
    constexpr int players = 1000;
    RandomStream random(42);
    int told = 0, claimed = 0, ever = 0;
    for (int i = 0; i < players; ++i) {
        const auto seed = static_cast<std::uint64_t>(i) + 5000;
        told +=
            ten_putts(reader_of(0.65, random.between(0.9, 1.1), random), seed).end.aim.stands_out();
        const ToldInSession fair = ten_putts(reader_of(1, 1, random), seed);
        claimed += fair.end.aim.stands_out() || fair.end.pace.stands_out();
        ever += fair.break_ever || fair.pace_ever;
    }
    INFO(told << " told, " << claimed << " claimed at the end, " << ever << " ever");
    CHECK(told >= 950);
    CHECK(ever <= 70);
    CHECK(claimed <= ever);
}
