#include <cmath>
#include <ostream>

#include "greens/input_error.hpp"
#include "viewer/practice/bias.hpp"
#include "viewer/practice/dates.hpp"
#include "viewer/practice/practice_words.hpp"
#include "viewer/practice/putt_set.hpp"
#include "viewer/scene/aim.hpp"
#include "viewer/scene/figures.hpp"
#include "viewer/scene/quantity.hpp"
#include "viewer/scene/words.hpp"
#include "viewer/terminal/asking.hpp"
#include "viewer/terminal/practise.hpp"
#include "viewer/terminal/putt_options.hpp"
#include "viewer/terminal/read_report.hpp"

namespace dewtrail {
namespace {

bool parse_yes(const std::string& text) {
    if (text == "y" || text == "yes" || text == "sure") return true;
    if (text == "n" || text == "no" || text == "not sure") return false;
    throw InputError(fmt::format("'{}' is neither yes nor no", text), "type y or n");
}

class LessonAtTerminal {
  public:
    LessonAtTerminal(Session& session, Memory& memory, const LessonPlan& plan)
        : session_(session),
          memory_(memory),
          plan_(plan),
          units_(session.units()),
          asking_(session),
          keeper_(green_folders()),
          history_(memory.answers()),
          lesson_(plan, history_, keeper_) {}

    Exit run(const std::optional<std::string>& save_set) {
        while (const auto task = lesson_.next())
            if (!play(*task)) break;
        if (save_set) save_putt_set(*save_set, dealt_);
        if (lesson_.dealt() == 0) return no_putt();
        finish();
        return Exit::done;
    }

  private:
    std::ostream& out() const { return session_.out(); }

    Exit no_putt() const {
        throw InputError("no putt lies within the ranges", "widen --from, --to or --most-slope");
    }

    /// False at the end of the answers.
    bool play(const Task& task) {
        const PlannedPutt plan = keeper_.set_up(task.putt);
        const double past_m = session_.player().usual_past_m;
        const auto best = plain_read(plan.putt, past_m);
        if (!best || !best->aim_offset_m)
            throw InputError("this putt has no read", "leave it out of the set");
        dealt_.push_back(task.putt);
        if (!session_.json()) print_question(task, plan, *best);
        Answer answer;
        if (!ask(answer, *best)) return false;
        const auto marked =
            mark(plan.putt, *answer.aim_m, *answer.level_putt_m, session_.player().spread, past_m);
        if (!marked) throw InputError("this putt has no odds", "leave it out of the set");
        fill(answer, task, *marked);
        answer.id = memory_.remember(answer);  // first remembered, then said
        answers_.push_back(answer);
        best_aims_.push_back(*marked->best.aim_offset_m);
        best_putts_.push_back(marked->best.level_putt_m);
        lesson_.answered(answer);
        if (!session_.json()) print_result(answer, plan, *marked);
        if (session_.json()) json_.push_back(json_of(answer, plan, *marked));
        return true;
    }

    void print_question(const Task& task, const PlannedPutt& plan, const Read& best) {
        out() << fmt::format("Putt {} of {}{}\n", lesson_.dealt(), lesson_.putts(),
                             task.occasion == Occasion::recall ? ", from yesterday" : "");
        out() << putt_words(plan, units_);
        if (!task.putt.green.empty())
            out() << fmt::format(", from {:.1f},{:.1f} to {:.1f},{:.1f} m", task.putt.ball_x_m,
                                 task.putt.ball_y_m, task.putt.hole_x_m, task.putt.hole_y_m);
        out() << '\n';
        if (plan_.drill == Drill::line)
            out() << "Pace: " << level_putt_words(best.level_putt_m, units_) << ".\n";
        if (plan_.drill == Drill::pace)
            out() << "Line: " << aim_with_figure(*best.aim_offset_m, units_) << ".\n";
    }

    bool ask(Answer& answer, const Read& best) {
        answer.aim_m = best.aim_offset_m;
        answer.level_putt_m = best.level_putt_m;
        if (plan_.drill != Drill::pace)
            answer.aim_m = asking_.until(
                units_.metric ? "Aim (38cm right, 3 cups right, centre):"
                              : "Aim (15in right, 3 cups right, centre):",
                [&](const std::string& text) { return parse_aim_offset_m(text, units_); });
        if (!answer.aim_m) return false;
        if (plan_.drill != Drill::line)
            answer.level_putt_m = asking_.until(
                units_.metric ? "Pace, as a level putt (3.7m):" : "Pace, as a level putt (12ft):",
                [&](const std::string& text) { return parse_level_roll_m(text, units_, "pace"); });
        if (!answer.level_putt_m) return false;
        answer.sure = asking_.until("Sure (y or n):", parse_yes);
        return answer.sure.has_value();
    }

    void fill(Answer& answer, const Task& task, const Mark& marked) {
        answer.at = plan_.date + moment_now().substr(10);
        answer.drill = plan_.drill;
        answer.occasion = task.occasion;
        answer.seed = lesson_seed(plan_);
        answer.putt = task.putt;
        answer.category = task.kind;
        answer.lost = marked.lost;
        answer.score = marked.score;
        answer.fit_aim_m = marked.fit_aim_m;
        answer.break_share = marked.break_share;
        answer.pace_share = marked.pace_share;
        answer.told = lesson_.tells(marked.score);
    }

    void print_result(const Answer& answer, const PlannedPutt& plan, const Mark& marked) {
        if (!answer.told) {
            out() << "Remembered.\n" << std::endl;
            return;
        }
        out() << head_words(marked.outcome) << ". "
              << cause_words(plan.putt, marked, *answer.aim_m, units_, plan_.drill) << '\n';
        print_row(out(), "The read", aim_with_figure(*marked.best.aim_offset_m, units_));
        print_row(out(), "", level_putt_words(marked.best.level_putt_m, units_));
        print_row(out(), "Score", fmt::format("{:.0f} of 10", marked.score));
        out() << trend_line(answer) << std::endl;
    }

    /// One line on the trend that this putt belongs to.
    std::string trend_line(const Answer& answer) const {
        std::vector<Answer> all = history_;
        all.insert(all.end(), answers_.begin(), answers_.end());
        const bool pace = plan_.drill == Drill::pace || answer.category.side == BreakSide::straight;
        const std::string group = pace ? fmt::format("{} {}", name_of(answer.category.reach),
                                                     name_of(answer.category.grade))
                                       : fmt::format("{} {}", name_of(answer.category.side),
                                                     name_of(answer.category.grade));
        for (const Habit& habit : pace ? pace_habits(all) : break_habits(all))
            if (habit.group == group && habit.share)
                return (pace ? pace_trend_words(habit) : break_trend_words(habit)) + '\n';
        return "";
    }

    Json json_of(const Answer& answer, const PlannedPutt& plan, const Mark& marked) const {
        return {{"id", answer.id},
                {"putt", putt_json(plan)},
                {"kind", name_of(answer.category)},
                {"occasion", name_of(answer.occasion)},
                {"aim_m", number(answer.aim_m)},
                {"level_putt_m", number(answer.level_putt_m)},
                {"sure", *answer.sure},
                {"outcome", head_words(marked.outcome)},
                {"score", number(marked.score)},
                {"lost_putts", number(marked.lost)},
                {"fit_aim_m", number(marked.fit_aim_m)},
                {"break_share", number(marked.break_share)},
                {"pace_share", number(marked.pace_share)},
                {"read",
                 {{"aim_m", number(marked.best.aim_offset_m)},
                  {"level_putt_m", number(marked.best.level_putt_m)}}},
                {"told", answer.told}};
    }

    /// What the test kept back until its end.
    void print_truths() {
        std::vector<std::vector<std::string>> rows{
            {"", "your aim", "the read's", "your pace", "the read's", "of 10"}};
        for (std::size_t i = 0; i < answers_.size(); ++i)
            rows.push_back({std::to_string(i + 1), aim_words(*answers_[i].aim_m, units_),
                            aim_words(best_aims_[i], units_),
                            format_level_putt(*answers_[i].level_putt_m, units_),
                            format_level_putt(best_putts_[i], units_),
                            fmt::format("{:.0f}", *answers_[i].score)});
        print_table(out(), rows);
    }

    void finish() {
        double score = 0, lost = 0;
        for (const Answer& answer : answers_) {
            score += answer.score.value_or(0);
            lost += answer.lost.value_or(0);
        }
        const int count = static_cast<int>(answers_.size());
        if (session_.json()) {
            session_.print({{"drill", name_of(plan_.drill)},
                            {"occasion", name_of(plan_.occasion)},
                            {"seed", std::to_string(lesson_seed(plan_))},
                            {"putts", json_},
                            {"score", number(score)},
                            {"score_of", 10 * count},
                            {"lost_putts", number(lost)}});
            return;
        }
        if (count == 0) {
            out() << "No putt was answered. Start again with: dewtrail practise\n";
            return;
        }
        if (plan_.occasion == Occasion::week) print_truths();
        out() << fmt::format("{} putt{}: {:.0f} of {}, {:.2f} putts lost to the read.\n", count,
                             count == 1 ? "" : "s", score, 10 * count, lost);
        if (plan_.occasion == Occasion::practice && plan_.set.empty())
            out() << fmt::format("The same putts again: --seed {}\n", plan_.seed);
        out() << "Next: dewtrail practise --progress\n";
    }

    Session& session_;
    Memory& memory_;
    LessonPlan plan_;
    Units units_;
    Asking asking_;
    Greenkeeper keeper_;
    std::vector<Answer> history_;
    Lesson lesson_;
    std::vector<Answer> answers_;
    std::vector<double> best_aims_, best_putts_;
    std::vector<DealtPutt> dealt_;
    Json json_ = Json::array();
};

}  // namespace

Exit run_lesson(Session& session, Memory& memory, const LessonPlan& plan,
                const std::optional<std::string>& save_set) {
    return LessonAtTerminal(session, memory, plan).run(save_set);
}

}  // namespace dewtrail
