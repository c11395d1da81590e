#include <algorithm>
#include <map>
#include <ostream>

#include "viewer/practice/bias.hpp"
#include "viewer/practice/dates.hpp"
#include "viewer/practice/practice_words.hpp"
#include "viewer/terminal/practise.hpp"

namespace dewtrail {
namespace {

/// One weekly test: the sum of its scores.
struct Test {
    double score = 0;
    int putts = 0;
};

/// The first ten answers of a week's test count.
std::map<std::string, Test> tests_of(const std::vector<Answer>& answers) {
    std::map<std::string, Test> tests;
    for (const Answer& answer : answers) {
        if (answer.occasion != Occasion::week || !answer.score) continue;
        Test& test = tests[week_of(answer.at.substr(0, 10))];
        if (test.putts == week_putts) continue;
        test.score += *answer.score;
        ++test.putts;
    }
    return tests;
}

/// The kind that costs most, of those with putts enough to say so.
struct Weakest {
    Category kind;
    Dealer::Known known;
};
std::optional<Weakest> weakest_of(const std::vector<Answer>& answers) {
    Dealer dealer(all_kinds());
    dealer.learn(answers);
    std::optional<Weakest> weakest;
    for (const Category& kind : dealer.kinds()) {
        const auto known = dealer.known(kind);
        if (known.putts >= least_putts && (!weakest || known.lost > weakest->known.lost))
            weakest = Weakest{kind, known};
    }
    return weakest;
}

/// Mean putts lost where the player was sure, and where not.
struct Sureness {
    int putts = 0;
    double lost = 0;
};
Sureness sureness(const std::vector<Answer>& answers, bool sure) {
    Sureness result;
    for (const Answer& answer : answers) {
        if (!answer.lost || answer.sure != sure) continue;
        ++result.putts;
        result.lost += *answer.lost;
    }
    if (result.putts > 0) result.lost /= result.putts;
    return result;
}

void print_json(Session& session, const std::vector<Answer>& answers) {
    Json weeks = Json::array();
    for (const auto& [week, test] : tests_of(answers))
        weeks.push_back({{"week", week}, {"score", number(test.score)}, {"putts", test.putts}});
    Json weak = nullptr;
    if (const auto weakest = weakest_of(answers))
        weak = {{"kind", name_of(weakest->kind)},
                {"putts", weakest->known.putts},
                {"lost_putts", number(weakest->known.lost)}};
    Json slope = nullptr;
    if (const auto habit = slope_habit(answers))
        slope = {{"spots", habit->answers},
                 {"felt", number(habit->felt)},
                 {"shown", number(habit->shown)},
                 {"fall_off_deg", number(habit->fall_off_deg)}};
    session.print({{"answers", answers.size()},
                   {"break", habits_json(break_habits(answers))},
                   {"pace", habits_json(pace_habits(answers))},
                   {"slope", slope},
                   {"weekly_tests", weeks},
                   {"weakest", weak}});
}

void print_tests(std::ostream& out, const std::vector<Answer>& answers) {
    const auto tests = tests_of(answers);
    if (tests.empty()) return;
    out << "\nTen-putt test by week\n";
    constexpr double points_per_mark = 2.5;
    for (const auto& [week, test] : tests)
        print_row(
            out, week,
            fmt::format("{:>3.0f} of {:<3} {}", test.score, 10 * test.putts,
                        std::string(static_cast<std::size_t>(test.score / points_per_mark), '#')));
}

void print_sureness(std::ostream& out, const std::vector<Answer>& answers) {
    const Sureness sure = sureness(answers, true), unsure = sureness(answers, false);
    if (sure.putts < least_putts || unsure.putts < least_putts) return;
    out << fmt::format("\nSure, you lose {:.2f} a putt; not sure, {:.2f}.\n", sure.lost,
                       unsure.lost);
}

void print_text(Session& session, const std::vector<Answer>& answers) {
    std::ostream& out = session.out();
    for (const Habit& habit : break_habits(answers)) out << break_trend_words(habit) << '\n';
    for (const Habit& habit : pace_habits(answers)) out << pace_trend_words(habit) << '\n';
    if (const auto habit = slope_habit(answers))
        out << fmt::format("Slope: you feel {:.1f} % where it is {:.1f} %.\n", 100 * habit->felt,
                           100 * habit->shown);
    print_sureness(out, answers);
    print_tests(out, answers);
    out << '\n';
    if (const auto weakest = weakest_of(answers))
        out << fmt::format("Costs most: {}, {:.2f} putts each. Practice deals it more often.\n",
                           name_of(weakest->kind), weakest->known.lost);
    const bool tested =
        !tests_of(answers).empty() && tests_of(answers).rbegin()->first == week_of(today());
    out << (tested ? "Next: dewtrail practise\n" : "Next: dewtrail practise --week\n");
}

}  // namespace

Json share_json(const std::optional<Credible>& share) {
    if (!share) return nullptr;
    return {{"mean", number(share->mean)}, {"lo", number(share->lo)}, {"hi", number(share->hi)}};
}

Json habits_json(const std::vector<Habit>& habits) {
    Json list = Json::array();
    for (const Habit& habit : habits)
        list.push_back(
            {{"group", habit.group}, {"putts", habit.putts}, {"share", share_json(habit.share)}});
    return list;
}

Exit show_progress(Session& session, const Memory& memory) {
    const std::vector<Answer> answers = memory.answers();
    if (session.json()) {
        print_json(session, answers);
    } else if (answers.empty()) {
        session.out() << "Nothing is remembered yet. Start with: dewtrail practise\n";
    } else {
        print_text(session, answers);
    }
    return Exit::done;
}

}  // namespace dewtrail
