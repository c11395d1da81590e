#include "viewer/practice/habits/progress.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>

#include "viewer/files/dates.hpp"
#include "viewer/practice/drill/lesson.hpp"
#include "viewer/practice/habits/practice_words.hpp"
#include "viewer/practice/measure/measure_words.hpp"
#include "viewer/practice/memory.hpp"
#include "viewer/text/english.hpp"

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
        constexpr double clump = 0.6;  // of a day
        point.day += 0.5 + clump * ((before[whole]++ + 0.5) / on_day[whole] - 0.5);
    }
}

/// What putts cost on these days.
struct PractisedDays {
    int first_day = 0, last_day = 0;
    std::vector<double> lost;

    /// The mean, and how well it is known by how they scatter.
    Credible mean() const {
        const auto n = static_cast<double>(lost.size());
        const double mean = std::accumulate(lost.begin(), lost.end(), 0.0) / n;
        double squares = 0;
        for (const double one : lost) squares += (one - mean) * (one - mean);
        const double either = ninety_sds * std::sqrt(squares / (n - 1) / n);
        return {mean, mean - either, mean + either};
    }
    std::string words() const {
        return (first_day == last_day ? "On " : "In the week to ") + short_date(last_day);
    }
};

/// Of the answers up to this day, those of the last one that was practised and of so many before
/// it.
PractisedDays days_to(const std::vector<Answer>& answers, int day, int days_before) {
    PractisedDays days;
    for (auto a = answers.rbegin(); a != answers.rend(); ++a) {
        const auto at = day_number(std::string_view(a->at).substr(0, 10));
        if (!at || *at > day || !a->lost) continue;
        if (days.lost.empty()) days.last_day = *at;
        if (*at < days.last_day - days_before) break;
        days.first_day = *at;
        days.lost.push_back(*a->lost);
    }
    return days;
}

std::string lately_words(const std::vector<Answer>& answers) {
    const PractisedDays now = days_to(answers, std::numeric_limits<int>::max(), 0);
    const PractisedDays before = days_to(answers, now.last_day - 1, 6);
    const std::size_t least = least_putts;
    if (now.lost.size() < least || before.lost.size() < least) return "";
    return fmt::format("{} {:.2f} strokes a putt, {} {:.2f}: {}.", before.words(),
                       before.mean().mean, uncapital(now.words()), now.mean().mean,
                       more_than_chance(before.mean(), now.mean())
                           ? "more than chance"
                           : "chance alone may have done that");
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
        p.shares.push_back({"", shares[i]});
    p.slope = slope_habit(answers);
    p.tests = tests_of(answers);
    p.weakest = weakest_of(answers);
    p.next = next_drill(p.findings, p.weakest);
    p.lately = lately_words(answers);
    p.sure = sureness(answers, true);
    p.unsure = sureness(answers, false);
    add_mean_lost(answers, p);
    p.real = low_misses(putts, player);
    p.months = change_words(measured_by_month(measures));
    p.at_home = home_drill(measured(measures), p.findings.lead().of, player.units());
    return p;
}

Progress progress_of(const Memory& memory, const Player& player) {
    return progress_of(memory.answers(), memory.putts(), memory.measures(), player);
}

std::vector<std::string> progress_sentences(const Progress& p) {
    std::vector<std::string> words = all_finding_words(p.findings);
    if (!p.lately.empty()) words.push_back(p.lately);
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
            fmt::format("Costs most: {}, {:.2f} strokes each. Practice deals them more often.",
                        putts_words(p.weakest->kind), p.weakest->lost));
    words.push_back(fmt::format("Next: {}.", next_drill_words(p.next)));
    return words;
}

}  // namespace dewtrail
