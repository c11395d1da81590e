#pragma once

#include <optional>
#include <string>
#include <vector>

#include "viewer/practice/drill/answer.hpp"
#include "viewer/practice/drill/deal.hpp"
#include "viewer/practice/drill/dealer.hpp"
#include "viewer/practice/player.hpp"

namespace dewtrail {

/// The settings of a practice session.
struct LessonPlan {
    Drill drill = Drill::read;  ///< not `slope`: that one has no putts to deal
    Occasion occasion = Occasion::practice;
    int putts = 10;
    std::uint64_t seed = 0;  ///< not for the putt of the day and the weekly test
    std::string date;        ///< today
    DealRanges ranges;
    std::optional<Category> kind{};  ///< putts of this kind alone, where the ranges hold it
    std::vector<DealtPutt> set;      ///< fixed putts instead of dealt ones
    bool quiet = false;  ///< once a trend was told, two truths in three wait for the end
};

/// Ten putts of the whole read as this player usually putts; any other session begins from it.
LessonPlan usual_plan(const Player& player, std::uint64_t seed);

/// One putt of a session.
struct Task {
    DealtPutt putt;
    Category kind;
    Occasion occasion = Occasion::practice;
};

inline constexpr int week_putts = 10;
inline constexpr int recalled_putts = 3;
inline constexpr double missed_below = 7;  ///< a score under this is a miss

/// A session, putt by putt, the same for the same seed, history and answers.
///
/// Practice begins with up to three putts of the day before. Then the dealer chooses kinds by what
/// they cost this player; after a miss the same putt comes again in a mirror, or from an hour on.
/// The truth follows every putt, unless the player asked for quiet putts and has putts enough for a
/// trend. The putt of the day comes from the date, ten putts of the weekly test from the week.
class Lesson {
  public:
    /// `history`: oldest first. `keeper` must outlive the lesson.
    Lesson(LessonPlan plan, const std::vector<Answer>& history, Greenkeeper& keeper);

    /// None at the end, or if the ranges hold no putt.
    std::optional<Task> next();

    /// Whether the player is shown the read after answering the putt dealt last.
    bool tells() const;

    /// Must be called after each putt; `answer` as it is remembered.
    void answered(const Answer& answer);

    int dealt() const { return dealt_; }
    int putts() const { return plan_.putts; }

  private:
    void recall(const std::vector<Answer>& history);
    std::optional<Task> deal_one();
    std::optional<Task> after_a_miss();

    LessonPlan plan_;
    Greenkeeper& keeper_;
    RandomStream random_;
    Dealer dealer_;
    std::vector<Task> waiting_;
    std::optional<Answer> missed_;
    Task last_;
    bool again_ = false;  ///< the last putt was a missed one that came again
    int dealt_ = 0;
    std::ptrdiff_t known_;  ///< putts answered, those of earlier sessions included
};

/// The seed of a session: the plan's, or that of the day or the week.
std::uint64_t lesson_seed(const LessonPlan& plan);

}  // namespace dewtrail
