#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "viewer/practice/drill/lesson.hpp"
#include "viewer/practice/habits/finding.hpp"
#include "viewer/practice/memory.hpp"

namespace dewtrail {

/// The putt that is being asked, and its read, which the player does not know yet.
struct Question {
    Task task;
    PlacedPutt plan;
    Read best;  ///< has an aim
    int number = 1;
};

/// An answer and its mark.
struct Marked {
    Answer answer;  ///< as it is remembered
    Diagnosis mark;
};

/// What stands at the end of a session.
struct SessionEnd {
    int putts = 0, breaking = 0;
    double aim_lost = 0, pace_lost = 0;  ///< strokes
    int best = 0, dearest = 0;           ///< their numbers, from 1; 0: no putt, or all alike
    std::vector<NumberedShare> shares;   ///< of the putts that the finding is about
    NextDrill next;
    /// For the part that cost more, where what is said to do next is about the other.
    std::optional<NextDrill> for_dearer;

    Fault dearer() const { return pace_lost > aim_lost ? Fault::pace : Fault::aim; }
};

/// A session of dealt putts. Terminal and window play it in the same way, mark it alike and
/// remember it alike.
class DrillSession {
  public:
    /// `memory` must outlive the session. Throws as Memory does.
    DrillSession(LessonPlan plan, Memory& memory, const Spread& spread, double past_m,
                 std::vector<std::filesystem::path> green_folders);

    /// The next putt; none at the end, or if the ranges hold no putt. InputError for a fixed putt
    /// that has no read, or a green that is gone.
    const Question* next();

    /// Marks and remembers; what the drill gives is taken from the read. When it returns, the
    /// answer is on the disk. `help`: what was told of the ground before. InputError where the putt
    /// has no odds; may throw as Memory does, and then nothing was answered.
    const Marked& answer(std::optional<double> aim_m, std::optional<double> level_putt_m,
                         std::optional<bool> sure, const Help& help = {});

    /// What all answers have in common so far.
    const Findings& findings() const { return findings_; }
    /// The finding to speak of in this session: what its drill asks for, else the one that leads.
    const Finding& finding() const;
    /// It in words, or nothing before six putts.
    std::string trend() const;
    /// The part of the break, or of the pace, of the last putts of that finding, oldest first.
    const std::vector<double>& shares() const { return shares_; }

    const SessionEnd& end() const { return end_; }
    /// What the tests of pace and line have found, as it is when it is first asked for.
    const Measured& at_home() const;
    /// It may have changed meanwhile.
    void forget_home() { at_home_.reset(); }
    /// Whether the read of some answer was not shown.
    bool kept_back() const;
    /// A putt of the day counts once: not when it was answered before.
    bool counts() const { return counts_; }

    const LessonPlan& plan() const { return plan_; }
    const std::vector<Marked>& marked() const { return marked_; }
    const std::optional<Question>& question() const { return question_; }
    /// All that count, oldest first.
    const std::vector<Answer>& answers() const { return answers_; }
    int putts() const { return lesson_.putts(); }

  private:
    Answer filled(const Diagnosis& diagnosis) const;
    void look_back();
    std::optional<NextDrill> for_dearer() const;

    LessonPlan plan_;
    Memory& memory_;
    Spread spread_;
    double usual_past_m_;
    Greenkeeper keeper_;
    std::vector<Answer> answers_;
    Lesson lesson_;
    std::optional<Question> question_;
    std::optional<Examiner> examiner_;  ///< of that putt
    std::vector<Marked> marked_;
    // Looked up once an answer: a memory may be long, and a window asks in every frame.
    Findings findings_;
    std::vector<double> shares_;
    SessionEnd end_;
    bool counts_ = true;
    mutable std::optional<Measured> at_home_;
};

}  // namespace dewtrail
