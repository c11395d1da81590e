#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "viewer/practice/drill/lesson.hpp"
#include "viewer/practice/habits/bias.hpp"
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
    Mark mark;
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
    /// answer is on the disk. InputError where the putt has no odds; may throw as Memory does, and
    /// then nothing was answered.
    const Marked& answer(std::optional<double> aim_m, std::optional<double> level_putt_m,
                         std::optional<bool> sure);

    /// One sentence on the trend that the last answer belongs to, or nothing.
    const std::string& trend() const { return trend_; }
    /// The part of the break, or of the pace where the drill asks for that, of the last answers of
    /// this kind, oldest first; for the picture of the trend.
    const std::vector<double>& shares() const { return shares_; }

    const LessonPlan& plan() const { return plan_; }
    const std::vector<Marked>& marked() const { return marked_; }
    const std::optional<Question>& question() const { return question_; }
    const std::vector<Answer>& answers() const { return answers_; }  ///< all, oldest first
    int putts() const { return lesson_.putts(); }

  private:
    Answer filled(const Mark& marked) const;
    std::string trend_words() const;
    std::vector<double> recent_shares() const;

    LessonPlan plan_;
    Memory& memory_;
    Spread spread_;
    double usual_past_m_;
    Greenkeeper keeper_;
    std::vector<Answer> answers_;
    Lesson lesson_;
    std::optional<Question> question_;
    std::vector<Marked> marked_;
    std::string trend_;  ///< looked up once an answer: a memory may be long
    std::vector<double> shares_;
};

}  // namespace dewtrail
