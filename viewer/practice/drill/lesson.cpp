#include "viewer/practice/drill/lesson.hpp"

#include <algorithm>

#include "greens/input_error.hpp"
#include "viewer/files/dates.hpp"

namespace dewtrail {
namespace {

constexpr int told_always = 4, told_every_third = 10;

std::vector<Category> kinds_of(const LessonPlan& plan) {
    auto kinds = plan.ranges.greens.empty() ? kinds_within(plan.ranges) : all_kinds();
    return kinds.empty() ? all_kinds() : kinds;
}

/// A balanced test: ten kinds far from each other, the same for everybody in that week.
std::vector<Category> test_kinds(RandomStream& random, std::vector<Category> kinds) {
    for (std::size_t i = kinds.size(); i > 1; --i)
        std::swap(kinds[i - 1], kinds[random.below(static_cast<int>(i))]);
    return kinds;
}

Task task_of(const DealtPutt& putt, Occasion occasion, Greenkeeper& keeper) {
    return {putt, category_of(keeper.set_up(putt).putt), occasion};
}

/// A green may have been renamed or removed since.
bool can_be_set_up(const DealtPutt& putt, Greenkeeper& keeper) {
    try {
        return has_read(keeper.set_up(putt));
    } catch (const InputError&) {
        return false;
    }
}

}  // namespace

std::uint64_t lesson_seed(const LessonPlan& plan) {
    if (plan.occasion == Occasion::day) return seed_of("putt of the day " + plan.date);
    if (plan.occasion == Occasion::week) return seed_of("test of the week " + week_of(plan.date));
    return plan.seed;
}

Lesson::Lesson(LessonPlan plan, const std::vector<Answer>& history, Greenkeeper& keeper)
    : plan_(std::move(plan)),
      keeper_(keeper),
      random_(lesson_seed(plan_)),
      dealer_(kinds_of(plan_)) {
    if (plan_.occasion == Occasion::day) plan_.putts = 1;
    if (plan_.occasion == Occasion::week) plan_.putts = week_putts;
    dealer_.learn(history);
    for (const DealtPutt& putt : plan_.set)
        waiting_.push_back(task_of(putt, plan_.occasion, keeper_));
    if (!waiting_.empty()) plan_.putts = static_cast<int>(waiting_.size());
    if (plan_.occasion == Occasion::practice && plan_.set.empty()) recall(history);
}

void Lesson::recall(const std::vector<Answer>& history) {
    const std::string yesterday = day_before(plan_.date);
    for (const Answer& answer : history) {
        if (static_cast<int>(waiting_.size()) == std::min(recalled_putts, plan_.putts - 1)) return;
        if (answer.at.substr(0, yesterday.size()) != yesterday) continue;
        if (answer.drill != plan_.drill || answer.occasion != Occasion::practice) continue;
        const bool twice = std::any_of(waiting_.begin(), waiting_.end(),
                                       [&](const Task& task) { return task.putt == answer.putt; });
        if (!twice && can_be_set_up(answer.putt, keeper_))
            waiting_.push_back({answer.putt, answer.category, Occasion::recall});
    }
}

std::optional<Task> Lesson::next() {
    if (dealt_ == plan_.putts) return std::nullopt;
    std::optional<Task> task;
    again_ = waiting_.empty() && missed_;
    if (!waiting_.empty()) {
        task = waiting_.front();
        waiting_.erase(waiting_.begin());
    } else {
        task = missed_ ? after_a_miss() : deal_one();
    }
    if (!task) return std::nullopt;
    ++dealt_;
    if (task->occasion != Occasion::recall) ++fresh_;
    last_ = *task;
    return task;
}

std::optional<Task> Lesson::deal_one() {
    const auto kinds = plan_.occasion == Occasion::practice
                           ? std::vector<Category>{dealer_.choose(random_)}
                           : test_kinds(random_, dealer_.kinds());
    for (const Category& kind : kinds)
        if (const auto putt = deal(kind, plan_.ranges, random_, keeper_))
            return task_of(*putt, plan_.occasion, keeper_);
    for (const Category& kind : dealer_.kinds())  // only those that the ranges hold
        if (const auto putt = deal(kind, plan_.ranges, random_, keeper_))
            return task_of(*putt, plan_.occasion, keeper_);
    return std::nullopt;
}

std::optional<Task> Lesson::after_a_miss() {
    const Answer missed = *missed_;
    missed_.reset();
    const bool mirror = missed.category.side != BreakSide::straight && random_.unit() < 0.5;
    const DealtPutt again =
        mirror ? mirrored(missed.putt) : turned(missed.putt, random_.unit() < 0.5 ? 1 : -1);
    // Turned down the slope a ball may not stop.
    return has_read(keeper_.set_up(again)) ? task_of(again, plan_.occasion, keeper_) : deal_one();
}

bool Lesson::tells(double score) const {
    if (last_.occasion == Occasion::recall || last_.occasion == Occasion::week) return false;
    if (last_.occasion == Occasion::day || fresh_ <= told_always) return true;
    if (fresh_ <= told_every_third) return (fresh_ - told_always) % 3 == 0;
    return score < band_below;
}

void Lesson::answered(const Answer& answer) {
    if (answer.lost) dealer_.learn(answer.category, *answer.lost);
    // A putt that came again is not asked a third time, and a plane can be turned, a green cannot.
    const bool fits = plan_.occasion == Occasion::practice && plan_.set.empty() &&
                      last_.occasion == Occasion::practice && answer.putt.green.empty() &&
                      answer.putt.slope > 0;
    if (fits && !again_ && answer.score && *answer.score < missed_below) missed_ = answer;
}

}  // namespace dewtrail
