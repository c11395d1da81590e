#include <nlohmann/json.hpp>

#include <cmath>
#include <ostream>

#include "greens/input_error.hpp"
#include "viewer/practice/drill/drill_session.hpp"
#include "viewer/practice/drill/putt_set.hpp"
#include "viewer/practice/habits/practice_words.hpp"
#include "viewer/terminal/practise/asking.hpp"
#include "viewer/terminal/practise/practise.hpp"
#include "viewer/terminal/putt_options.hpp"
#include "viewer/terminal/read_report.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"
#include "viewer/text/words.hpp"

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
          plan_(plan),
          units_(session.units()),
          asking_(session),
          drill_(plan, memory, session.player().spread, session.player().usual_past_m,
                 green_folders()) {}

    Exit run(const std::optional<std::string>& save_set) {
        int asked = 0;
        while (const Question* question = drill_.next()) {
            ++asked;
            dealt_.push_back(question->task.putt);
            if (!play(*question)) break;
        }
        if (save_set) save_putt_set(*save_set, dealt_);
        if (asked == 0) return no_putt();
        finish(save_set.has_value());
        return Exit::done;
    }

  private:
    std::ostream& out() const { return session_.out(); }

    Exit no_putt() const {
        throw InputError("no putt lies within the ranges", "widen --from, --to or --most-slope");
    }

    /// False at the end of the answers.
    bool play(const Question& question) {
        if (!session_.json()) print_question(question);
        std::optional<double> aim_m, level_putt_m;
        if (plan_.drill != Drill::pace && !(aim_m = ask_aim())) return false;
        if (plan_.drill != Drill::line && !(level_putt_m = ask_pace())) return false;
        const auto sure = asking_.until("Sure (y or n):", parse_yes);
        if (!sure) return false;
        const Marked& marked = drill_.answer(aim_m, level_putt_m, sure);
        if (session_.json())
            json_.push_back(json_of(question.plan, marked));
        else
            print_result(question.plan, marked);
        return true;
    }

    void print_question(const Question& q) {
        const DealtPutt& putt = q.task.putt;
        out() << fmt::format("Putt {} of {}{}\n", q.number, drill_.putts(),
                             q.task.occasion == Occasion::recall ? ", from yesterday" : "");
        out() << putt_words(q.plan, units_);
        if (!putt.green.empty())
            out() << fmt::format(", from {:.1f},{:.1f} to {:.1f},{:.1f} m", putt.ball_x_m,
                                 putt.ball_y_m, putt.hole_x_m, putt.hole_y_m);
        out() << '\n';
        if (plan_.drill == Drill::line)
            out() << "Pace: " << level_putt_words(q.best.level_putt_m, units_) << ".\n";
        if (plan_.drill == Drill::pace)
            out() << "Line: " << aim_with_figure(*q.best.aim_offset_m, units_) << ".\n";
    }

    std::optional<double> ask_aim() {
        return asking_.until(
            units_.metric ? "Aim (38cm right, 3 cups right, centre):"
                          : "Aim (15in right, 3 cups right, centre):",
            [&](const std::string& text) { return parse_aim_offset_m(text, units_); });
    }

    std::optional<double> ask_pace() {
        return asking_.until(
            units_.metric ? "Pace, as a level putt (3.7m):" : "Pace, as a level putt (12ft):",
            [&](const std::string& text) { return parse_level_roll_m(text, units_, "pace"); });
    }

    void print_result(const PlacedPutt& plan, const Marked& marked) {
        const auto& [answer, mark] = marked;
        if (!answer.told) {
            out() << "Remembered.\n" << std::endl;
            return;
        }
        out() << head_words(mark.outcome) << ". "
              << cause_words(plan.putt, mark, *answer.aim_m, units_, plan_.drill) << '\n';
        print_row(out(), "The read", aim_with_figure(*mark.best.aim_offset_m, units_));
        print_row(out(), "", level_putt_words(mark.best.level_putt_m, units_));
        print_row(out(), "Score", fmt::format("{:.0f} of 10 for the read", mark.score));
        const std::string& trend = drill_.trend();
        out() << trend << (trend.empty() ? "" : "\n") << std::endl;
    }

    Json json_of(const PlacedPutt& plan, const Marked& marked) const {
        const auto& [answer, mark] = marked;
        return {{"id", answer.id},
                {"putt", putt_json(plan)},
                {"kind", name_of(answer.category)},
                {"occasion", name_of(answer.occasion)},
                {"aim_m", number(answer.aim_m)},
                {"level_putt_m", number(answer.level_putt_m)},
                {"sure", *answer.sure},
                {"outcome", head_words(mark.outcome)},
                {"score", number(mark.score)},
                {"lost_putts", number(mark.lost)},
                {"fit_aim_m", number(mark.fit_aim_m)},
                {"break_share", number(mark.break_share)},
                {"pace_share", number(mark.pace_share)},
                {"read",
                 {{"aim_m", number(mark.best.aim_offset_m)},
                  {"level_putt_m", number(mark.best.level_putt_m)}}},
                {"told", answer.told}};
    }

    /// What the test shows only at its end.
    void print_truths() {
        std::vector<std::vector<std::string>> rows{
            {"", "your aim", "the read's", "your pace", "the read's", "of 10"}};
        int number = 0;
        for (const auto& [answer, mark] : drill_.marked())
            rows.push_back({std::to_string(++number), aim_words(*answer.aim_m, units_),
                            aim_words(*mark.best.aim_offset_m, units_),
                            format_level_putt(*answer.level_putt_m, units_),
                            format_level_putt(mark.best.level_putt_m, units_),
                            fmt::format("{:.0f}", mark.score)});
        print_table(out(), rows);
    }

    void finish(bool set_saved) {
        double score = 0, lost = 0;
        for (const auto& [answer, mark] : drill_.marked()) score += mark.score, lost += mark.lost;
        const int count = static_cast<int>(drill_.marked().size());
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
        // Dealing depends on the answers: the seed alone would not deal these putts again.
        if (plan_.occasion == Occasion::practice && plan_.set.empty() && !set_saved)
            out() << "To keep such putts and play them again: --save-set FILE, then --set FILE\n";
        out() << "Next: dewtrail practise --progress\n";
    }

    Session& session_;
    LessonPlan plan_;
    Units units_;
    Asking asking_;
    DrillSession drill_;
    std::vector<DealtPutt> dealt_;
    Json json_ = Json::array();
};

}  // namespace

Exit run_lesson(Session& session, Memory& memory, const LessonPlan& plan,
                const std::optional<std::string>& save_set) {
    return LessonAtTerminal(session, memory, plan).run(save_set);
}

}  // namespace dewtrail
