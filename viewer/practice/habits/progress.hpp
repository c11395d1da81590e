#pragma once

#include <optional>
#include <string>
#include <vector>

#include "viewer/practice/drill/dealer.hpp"
#include "viewer/practice/habits/finding.hpp"
#include "viewer/practice/habits/low_misses.hpp"
#include "viewer/practice/measure/home_drill.hpp"

/// How practice goes: what the terminal says, the window draws and the page prints.
namespace dewtrail {

class Memory;

/// One weekly test: the sum of the scores of its first ten answers.
struct WeekTest {
    std::string week;  ///< 2026-W18
    double score = 0;
    int putts = 0;
};

/// Mean putts lost where the player was sure, or was not.
struct Sureness {
    int putts = 0;
    double lost = 0;
};

struct Progress {
    std::size_t answers = 0;  ///< that count
    Findings findings;
    std::vector<NumberedShare> shares;  ///< the last of the finding that leads, oldest first
    std::optional<SlopeHabit> slope;
    std::vector<WeekTest> tests;  ///< oldest first
    std::optional<Weakest> weakest;
    Sureness sure, unsure;
    LowMisses real;  ///< of the putts that were logged
    std::optional<HomeDrill> at_home;
    std::vector<std::string> months;  ///< what changed at home from month to month, a sentence each
    NextDrill next;
    /// The last day beside the last seven before it that were practised: the sentence about both.
    std::string lately;
    /// Strokes lost to the read, the mean over each answer and up to nine before it, oldest first,
    /// and when that was: the day, and evenly within its middle, so that days stand apart.
    struct Lost {
        double day, mean;
    };
    std::vector<Lost> lost;
};
inline constexpr int progress_mean_putts = 10;

/// `putts`: the logged putts.
Progress progress_of(const std::vector<Answer>& answers, const std::vector<LoggedPutt>& putts,
                     const Measures& measures, const Player& player);
/// Of all that is remembered.
Progress progress_of(const Memory& memory, const Player& player);

/// What there is to say, a sentence each: the finding and what to do about it first.
std::vector<std::string> progress_sentences(const Progress& progress);

}  // namespace dewtrail
