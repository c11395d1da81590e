#include "viewer/practice/drill/drill_session.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

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
      answers_(counting(memory.answers())),
      lesson_(plan_, answers_, keeper_) {
    for (const Answer& answer : answers_)
        if (plan_.occasion == Occasion::day && answer.occasion == Occasion::day)
            counts_ = counts_ && answer.seed != lesson_seed(plan_);
    look_back();
}

const Question* DrillSession::next() {
    question_.reset();
    const auto task = lesson_.next();
    if (!task) return nullptr;
    PlacedPutt plan = keeper_.set_up(task->putt);
    examiner_ = Examiner::make(plan.putt, spread_, usual_past_m_);
    if (!examiner_) throw InputError("this putt has no read", "leave it out of the set");
    question_ = Question{*task, std::move(plan), examiner_->best(), lesson_.dealt()};
    return &*question_;
}

const Marked& DrillSession::answer(std::optional<double> aim_m, std::optional<double> level_putt_m,
                                   std::optional<bool> sure, const Help& help) {
    if (!question_) throw std::invalid_argument("no putt was asked");
    const DrillKind& kind = kind_of(plan_.drill);
    const auto diagnosis = examiner_->diagnose(plan_.drill, kind.asks_aim ? aim_m.value() : 0,
                                               kind.asks_pace ? level_putt_m.value() : 0);
    if (!diagnosis) throw InputError("this putt has no odds", "leave it out of the set");
    Answer answer = filled(*diagnosis);
    answer.sure = sure;
    answer.help = help;
    answer.id = memory_.remember(answer);
    marked_.push_back({answer, *diagnosis});
    lesson_.answered(answer);
    if (counts_) answers_.push_back(answer);
    look_back();
    return marked_.back();
}

Answer DrillSession::filled(const Diagnosis& diagnosis) const {
    Answer answer;
    answer.at = plan_.date + moment_now().substr(10);
    answer.drill = plan_.drill;
    answer.occasion = question_->task.occasion;
    answer.seed = lesson_seed(plan_);
    answer.putt = question_->task.putt;
    answer.category = question_->task.kind;
    answer.aim_m = diagnosis.aim_m;
    answer.level_putt_m = diagnosis.level_putt_m;
    answer.lost = diagnosis.lost;
    answer.score = diagnosis.score;
    answer.true_aim_m = *diagnosis.best.aim_offset_m;
    answer.break_share = diagnosis.break_share;
    answer.pace_share = diagnosis.pace_share;
    answer.told = lesson_.tells();
    return answer;
}

const Finding& DrillSession::finding() const {
    if (!kind_of(plan_.drill).asks_pace) return findings_.aim;
    return kind_of(plan_.drill).asks_aim ? findings_.lead() : findings_.pace;
}

std::string DrillSession::trend() const {
    return finding().share ? finding_words(finding()) : "";
}

bool DrillSession::kept_back() const {
    return std::any_of(marked_.begin(), marked_.end(),
                       [](const Marked& marked) { return !marked.answer.told; });
}

/// What all answers say, and those of this session.
void DrillSession::look_back() {
    findings_ = findings_of(answers_);
    shares_ = shares_of(finding().of, answers_);
    const std::size_t most = recent_putts, n = shares_.size();
    shares_.erase(shares_.begin(), shares_.end() - static_cast<std::ptrdiff_t>(std::min(n, most)));
    end_ = {};
    for (const auto& [answer, diagnosis] : marked_) {
        ++end_.putts;
        end_.breaking += answer.category.side != BreakSide::straight;
        end_.aim_lost += diagnosis.aim_lost;
        end_.pace_lost += diagnosis.pace_lost;
        for (const double share : shares_of(finding().of, {answer}))
            end_.shares.push_back({std::to_string(end_.putts), share});
    }
    const auto [least, most_lost] = std::minmax_element(
        marked_.begin(), marked_.end(),
        [](const Marked& a, const Marked& b) { return a.mark.lost < b.mark.lost; });
    if (!marked_.empty() && least->mark.lost < most_lost->mark.lost) {
        end_.best = static_cast<int>(least - marked_.begin()) + 1;
        end_.dearest = static_cast<int>(most_lost - marked_.begin()) + 1;
    }
    end_.next = next_drill(findings_, weakest_of(answers_));
    end_.for_dearer = for_dearer();
}

std::optional<NextDrill> DrillSession::for_dearer() const {
    constexpr double seen = 0.01;  // of a stroke: no difference where the figures show none
    const bool both = plan_.drill == Drill::read && !instruction_words(finding()).empty();
    if (!both || end_.dearer() == finding().of || std::abs(end_.pace_lost - end_.aim_lost) < seen)
        return std::nullopt;
    return drill_for(end_.dearer());
}

const Measured& DrillSession::at_home() const {
    if (!at_home_) at_home_ = measured(memory_.measures());
    return *at_home_;
}

}  // namespace dewtrail
