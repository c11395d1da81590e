#include "viewer/practice/drill/lesson.hpp"

#include <algorithm>

#include "greens/input_error.hpp"
#include "viewer/files/dates.hpp"
#include "viewer/practice/habits/bias.hpp"

namespace dewtrail {
namespace {

constexpr int quiet_tells_every = 3;

std::vector<Category> kinds_of(const LessonPlan& plan) {
    auto kinds = plan.ranges.greens.empty() ? kinds_within(plan.ranges) : all_kinds();
    if (plan.kind && std::find(kinds.begin(), kinds.end(), *plan.kind) != kinds.end())
        return {*plan.kind};
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

LessonPlan usual_plan(const Player& player, std::uint64_t seed) {
    LessonPlan plan;
    plan.date = today();
    plan.seed = seed;
    plan.ranges.past_m = player.usual_past_m;
    if (player.stimp_ft) plan.ranges.least_stimp_ft = plan.ranges.most_stimp_ft = *player.stimp_ft;
    return plan;
}

std::uint64_t lesson_seed(const LessonPlan& plan) {
    if (plan.occasion == Occasion::day) return seed_of("putt of the day " + plan.date);
    if (plan.occasion == Occasion::week) return seed_of("test of the week " + week_of(plan.date));
    return plan.seed;
}

namespace {

/// The putt of the day and the test are the same whatever else is asked for.
LessonPlan same_for_all(LessonPlan plan) {
    if (plan.occasion == Occasion::day) plan.putts = 1;
    if (plan.occasion == Occasion::week) plan.putts = week_putts;
    const double past_m = plan.ranges.past_m;
    if (plan.occasion != Occasion::practice)
        plan.ranges = {}, plan.ranges.past_m = past_m, plan.kind.reset();
    return plan;
}

}  // namespace

Lesson::Lesson(LessonPlan plan, const std::vector<Answer>& history, Greenkeeper& keeper)
    : plan_(same_for_all(std::move(plan))),
      keeper_(keeper),
      random_(lesson_seed(plan_)),
      dealer_(kinds_of(plan_)),
      known_(std::count_if(history.begin(), history.end(),
                           [](const Answer& a) { return a.drill != Drill::slope; })) {
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
        if (plan_.kind && answer.category != *plan_.kind) continue;
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
    const bool mirror =
        !plan_.kind && missed.category.side != BreakSide::straight && random_.unit() < 0.5;
    const DealtPutt again =
        mirror ? mirrored(missed.putt) : turned(missed.putt, random_.unit() < 0.5 ? 1 : -1);
    // Turned down the slope a ball may not stop; and turned it may be of another kind.
    if (!has_read(keeper_.set_up(again))) return deal_one();
    const Task task = task_of(again, plan_.occasion, keeper_);
    return plan_.kind && task.kind != *plan_.kind ? deal_one() : task;
}

bool Lesson::tells() const {
    const bool trend_told = known_ >= least_putts;
    return !plan_.quiet || !trend_told || dealt_ % quiet_tells_every == 0;
}

void Lesson::answered(const Answer& answer) {
    ++known_;
    if (answer.lost) dealer_.learn(answer.category, *answer.lost);
    // A putt that came again is not asked a third time, and a plane can be turned, a green cannot.
    const bool fits = plan_.occasion == Occasion::practice && plan_.set.empty() &&
                      last_.occasion == Occasion::practice && answer.putt.green.empty() &&
                      answer.putt.slope > 0;
    if (fits && !again_ && answer.score && *answer.score < missed_below) missed_ = answer;
}

}  // namespace dewtrail
