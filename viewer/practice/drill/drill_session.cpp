#include "viewer/practice/drill/drill_session.hpp"

#include <fmt/format.h>

#include "greens/input_error.hpp"
#include "viewer/files/dates.hpp"
#include "viewer/practice/habits/practice_words.hpp"

namespace dewtrail {

DrillSession::DrillSession(LessonPlan plan, Memory& memory, const Spread& spread, double past_m,
                           std::vector<std::filesystem::path> green_folders)
    : plan_(std::move(plan)),
      memory_(memory),
      spread_(spread),
      usual_past_m_(past_m),
      keeper_(std::move(green_folders)),
      answers_(memory.answers()),
      lesson_(plan_, answers_, keeper_) {}

const Question* DrillSession::next() {
    question_.reset();
    const auto task = lesson_.next();
    if (!task) return nullptr;
    PlacedPutt plan = keeper_.set_up(task->putt);
    auto best = plain_read(plan.putt, usual_past_m_);
    if (!best || !best->aim_offset_m)
        throw InputError("this putt has no read", "leave it out of the set");
    question_ = Question{*task, std::move(plan), std::move(*best), lesson_.dealt()};
    return &*question_;
}

const Marked& DrillSession::answer(std::optional<double> aim_m, std::optional<double> level_putt_m,
                                   std::optional<bool> sure) {
    const Question& q = question_.value();
    const double aim = plan_.drill == Drill::pace ? *q.best.aim_offset_m : aim_m.value();
    const double level = plan_.drill == Drill::line ? q.best.level_putt_m : level_putt_m.value();
    const auto marked = mark(q.plan.putt, aim, level, spread_, usual_past_m_);
    if (!marked) throw InputError("this putt has no odds", "leave it out of the set");
    Answer answer = filled(*marked);
    answer.aim_m = aim;
    answer.level_putt_m = level;
    answer.sure = sure;
    answer.id = memory_.remember(answer);
    answers_.push_back(answer);
    marked_.push_back({answer, *marked});
    lesson_.answered(answer);
    trend_ = trend_words();
    shares_ = recent_shares();
    return marked_.back();
}

Answer DrillSession::filled(const Mark& marked) const {
    Answer answer;
    answer.at = plan_.date + moment_now().substr(10);
    answer.drill = plan_.drill;
    answer.occasion = question_->task.occasion;
    answer.seed = lesson_seed(plan_);
    answer.putt = question_->task.putt;
    answer.category = question_->task.kind;
    answer.lost = marked.lost;
    answer.score = marked.score;
    answer.fit_aim_m = marked.fit_aim_m;
    answer.break_share = marked.break_share;
    answer.pace_share = marked.pace_share;
    answer.told = lesson_.tells(marked.score);
    return answer;
}

namespace {

/// Straight putts have no break to speak of.
bool about_pace(const Answer& answer) {
    return answer.drill == Drill::pace || answer.category.side == BreakSide::straight;
}

std::string group_of(const Answer& answer, bool pace) {
    const Category& kind = answer.category;
    return pace ? fmt::format("{} {}", name_of(kind.reach), name_of(kind.grade))
                : fmt::format("{} {}", name_of(kind.side), name_of(kind.grade));
}

}  // namespace

std::string DrillSession::trend_words() const {
    if (marked_.empty()) return "";
    const Answer& last = marked_.back().answer;
    const bool pace = about_pace(last);
    if (pace && plan_.drill == Drill::line) return "";  // the pace was given
    for (const Habit& habit : pace ? pace_habits(answers_) : break_habits(answers_))
        if (habit.group == group_of(last, pace) && habit.share)
            return pace ? pace_trend_words(habit) : break_trend_words(habit);
    return "";
}

std::vector<double> DrillSession::recent_shares() const {
    std::vector<double> shares;
    if (marked_.empty()) return shares;
    const Answer& last = marked_.back().answer;
    const bool pace = about_pace(last);
    for (const Answer& a : answers_) {
        if (group_of(a, pace) != group_of(last, pace) || a.drill == Drill::slope) continue;
        if (a.drill == (pace ? Drill::line : Drill::pace)) continue;
        if (const auto& share = pace ? a.pace_share : a.break_share;
            share && (pace || *share > wrong_side_below))
            shares.push_back(*share);
    }
    const auto most = static_cast<std::size_t>(recent_putts);
    if (shares.size() > most)
        shares.erase(shares.begin(), shares.end() - static_cast<std::ptrdiff_t>(most));
    return shares;
}

}  // namespace dewtrail
