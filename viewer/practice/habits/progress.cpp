#include "viewer/practice/habits/progress.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "viewer/files/dates.hpp"
#include "viewer/practice/drill/dealer.hpp"
#include "viewer/practice/drill/lesson.hpp"
#include "viewer/practice/habits/practice_words.hpp"
#include "viewer/practice/measure/measure_words.hpp"

namespace dewtrail {
namespace {

constexpr std::size_t drawn_putts = 6;  ///< the last so many of the finding, each a row

std::vector<WeekTest> tests_of(const std::vector<Answer>& answers) {
    std::map<std::string, WeekTest> tests;
    for (const Answer& answer : answers) {
        if (answer.occasion != Occasion::week || !answer.lost) continue;
        const std::string week = week_of(answer.at.substr(0, 10));
        WeekTest& test = tests[week];
        if (test.putts == week_putts) continue;
        test.week = week;
        test.score += score_of(*answer.lost);
        ++test.putts;
    }
    std::vector<WeekTest> in_order;
    for (const auto& [week, test] : tests) in_order.push_back(test);
    return in_order;
}

std::optional<Weakest> weakest_of(const std::vector<Answer>& answers) {
    Dealer dealer(all_kinds());
    dealer.learn(answers);
    std::optional<Weakest> weakest;
    for (const Category& kind : dealer.kinds()) {
        const auto known = dealer.known(kind);
        if (known.putts >= least_putts && (!weakest || known.lost > weakest->lost))
            weakest = Weakest{kind, known.putts, known.lost};
    }
    return weakest;
}

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

void add_mean_lost(const std::vector<Answer>& answers, Progress& p) {
    std::vector<double> lost;
    double sum = 0;
    int day = 0;
    std::map<int, int> on_day;
    for (const Answer& answer : answers) {
        if (!answer.lost) continue;
        lost.push_back(*answer.lost);
        sum += lost.back();
        const std::size_t n = lost.size(), most = progress_mean_putts;
        if (n > most) sum -= lost[n - most - 1];
        day = day_number(std::string_view(answer.at).substr(0, 10)).value_or(day);
        ++on_day[day];
        p.lost.push_back({1.0 * day, sum / static_cast<double>(std::min(n, most))});
    }
    std::map<int, int> before;
    for (Progress::Lost& point : p.lost) {
        const int whole = static_cast<int>(point.day);
        point.day += (before[whole]++ + 0.5) / on_day[whole];
    }
}

}  // namespace

Progress progress_of(const std::vector<Answer>& all, const std::vector<LoggedPutt>& putts,
                     const Measures& measures, const Player& player) {
    std::vector<Answer> answers = counting(all);
    // Answers that were brought in later may be older.
    std::stable_sort(answers.begin(), answers.end(),
                     [](const Answer& a, const Answer& b) { return a.at < b.at; });
    Progress p;
    p.answers = answers.size();
    p.findings = findings_of(answers);
    const std::vector<double> shares = shares_of(p.findings.lead().of, answers);
    for (std::size_t i = shares.size() - std::min<std::size_t>(shares.size(), drawn_putts);
         i < shares.size(); ++i)
        p.shares.push_back({std::to_string(i + 1), shares[i]});
    p.slope = slope_habit(answers);
    p.tests = tests_of(answers);
    p.weakest = weakest_of(answers);
    p.sure = sureness(answers, true);
    p.unsure = sureness(answers, false);
    add_mean_lost(answers, p);
    p.real = low_misses(putts, player);
    p.months = change_words(measured_by_month(measures));
    p.at_home = home_drill(measured(measures), p.findings.lead().of, player.units());
    return p;
}

std::vector<std::string> progress_sentences(const Progress& p) {
    std::vector<std::string> words = all_finding_words(p.findings);
    if (p.slope)
        words.push_back(fmt::format("Slope: you feel {:.1f} % where it is {:.1f} %.",
                                    100 * p.slope->felt, 100 * p.slope->shown));
    if (p.sure.putts >= least_putts && p.unsure.putts >= least_putts)
        words.push_back(fmt::format("Sure, you lose {:.2f} a putt; not sure, {:.2f}.", p.sure.lost,
                                    p.unsure.lost));
    if (p.real.low + p.real.high > 0) words.push_back(low_miss_words(p.real));
    words.insert(words.end(), p.months.begin(), p.months.end());
    if (p.weakest)
        words.push_back(
            fmt::format("Costs most: {}, {:.2f} strokes each. Practice deals it more often.",
                        name_of(p.weakest->kind), p.weakest->lost));
    return words;
}

bool tested_this_week(const Progress& progress, const std::string& today) {
    return !progress.tests.empty() && progress.tests.back().week == week_of(today);
}

}  // namespace dewtrail
