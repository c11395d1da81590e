#pragma once

#include <optional>
#include <string>
#include <vector>

#include "viewer/practice/habits/bias.hpp"
#include "viewer/practice/habits/low_misses.hpp"

/// How practice goes: what the terminal says, the window draws and the page prints.
namespace dewtrail {

/// One weekly test: the sum of the scores of its first ten answers.
struct WeekTest {
    std::string week;  ///< 2026-W18
    double score = 0;
    int putts = 0;
};

/// The kind that costs most, of those with putts enough to say so.
struct Weakest {
    Category kind;
    int putts = 0;
    double lost = 0;  ///< expected putts each
};

/// Mean putts lost where the player was sure, or was not.
struct Sureness {
    int putts = 0;
    double lost = 0;
};

struct Progress {
    std::size_t answers = 0;
    std::vector<Habit> breaks, paces;
    std::optional<SlopeHabit> slope;
    std::vector<WeekTest> tests;  ///< oldest first
    std::optional<Weakest> weakest;
    Sureness sure, unsure;
    LowMisses real;  ///< of the putts that were logged
    /// Putts lost to the read, the mean over each answer and up to nine before it, oldest first.
    std::vector<double> lost;
};
inline constexpr int progress_mean_putts = 10;

/// `putts`: the logged putts.
Progress progress_of(const std::vector<Answer>& answers, const std::vector<LoggedPutt>& putts,
                     const Player& player);

/// A sentence each about habits, slope, sureness and what costs most.
std::vector<std::string> progress_sentences(const Progress& progress);

/// Whether this week's test has been taken.
bool tested_this_week(const Progress& progress, const std::string& today);

}  // namespace dewtrail
