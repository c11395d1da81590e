#include <nlohmann/json.hpp>

#include <algorithm>
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
          asks_(kind_of(plan.drill)),
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
        if (asks_.asks_aim && !(aim_m = ask_aim())) return false;
        if (asks_.asks_pace && !(level_putt_m = ask_pace())) return false;
        const auto sure = asking_.until("Sure (y or n):", parse_yes);
        if (!sure) return false;
        // There is no ground to look at here: its slope is told in words.
        const Marked& marked = drill_.answer(aim_m, level_putt_m, sure, {.slope = true});
        if (session_.json())
            json_.push_back(json_of(question.plan, marked));
        else
            print_result(marked);
        return true;
    }

    void print_question(const Question& q) {
        out() << fmt::format("Putt {} of {}{}\n", q.number, drill_.putts(),
                             q.task.occasion == Occasion::recall ? ", from yesterday"
                             : drill_.counts()                   ? ""
                                               : ", again: it has counted already");
        out() << putt_words(q.plan, units_) << '\n';
        if (!q.task.putt.green.empty()) out() << line_reading_words(q.plan.putt) << '\n';
        if (!asks_.asks_pace)
            out() << "Pace: " << level_putt_words(q.best.level_putt_m, units_) << ".\n";
        if (!asks_.asks_aim)
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

    void print_result(const Marked& marked) {
        const auto& [answer, mark] = marked;
        if (!answer.told) {
            out() << "Remembered.\n" << std::endl;
            return;
        }
        out() << headline(mark, units_) << '\n';
        std::vector<std::vector<std::string>> rows{{"", "", "yours", "true", "strokes"}};
        for (const DiagnosisRow& row : diagnosis_rows(mark, units_))
            rows.push_back({row.leads ? ">" : "", row.label, row.yours, row.truth, row.strokes});
        print_table(out(), rows);
        out() << diagnosis_sentence(mark, units_) << '\n' << score_words(mark) << '\n';
        const std::string trend = drill_.trend();
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
                {"help", words_of(answer.help)},
                {"headline", headline(mark, units_)},
                {"cause", name_of(mark.fault)},
                {"sentence", diagnosis_sentence(mark, units_)},
                {"holed", mark.holed},
                {"score", number(mark.score)},
                {"score_words", score_words(mark)},
                {"lost_putts", number(mark.lost)},
                {"aim_lost_putts", number(mark.aim_lost)},
                {"pace_lost_putts", number(mark.pace_lost)},
                {"break_share", number(mark.break_share)},
                {"wrong_side", mark.wrong_side},
                {"pace_share", number(mark.pace_share)},
                {"read",
                 {{"aim_m", number(mark.best.aim_offset_m)},
                  {"level_putt_m", number(mark.best.level_putt_m)}}},
                {"told", answer.told}};
    }

    /// Every read, if some were not shown before.
    void print_truths() {
        std::vector<std::vector<std::string>> rows{
            {"", "your aim", "true", "strokes", "your pace", "true", "strokes", "of 10"}};
        int number = 0;
        for (const Marked& marked : drill_.marked()) {
            std::vector<std::string> cells{std::to_string(++number)};
            for (const DiagnosisRow& row : diagnosis_rows(marked.mark, units_))
                cells.insert(cells.end(), {row.yours, row.truth, row.strokes});
            cells.push_back(fmt::format("{:.0f}", marked.mark.score));
            rows.push_back(cells);
        }
        print_table(out(), rows);
    }

    void finish(bool set_saved) {
        double score = 0;
        for (const Marked& marked : drill_.marked()) score += marked.mark.score;
        const SessionEnd end = drill_.end();
        if (session_.json()) {
            session_.print(
                {{"drill", name_of(plan_.drill)},
                 {"occasion", name_of(plan_.occasion)},
                 {"seed", std::to_string(lesson_seed(plan_))},
                 {"putts", json_},
                 {"score", number(score)},
                 {"score_of", 10 * end.putts},
                 {"lost_putts", number(end.aim_lost + end.pace_lost)},
                 {"aim_lost_putts", number(end.aim_lost)},
                 {"pace_lost_putts", number(end.pace_lost)},
                 {"best", end.best},
                 {"dearest", end.dearest},
                 {"break", finding_json(drill_.findings().aim)},
                 {"pace", finding_json(drill_.findings().pace)},
                 {"next", next_json(end.next)},
                 {"for_dearer_part", end.for_dearer ? next_json(*end.for_dearer) : Json()},
                 {"at_home", home_json(home_drill(drill_.at_home(), end.dearer(), units_))}});
            return;
        }
        if (end.putts == 0) {
            out() << "No putt was answered. Start again with: dewtrail practise\n";
            return;
        }
        if (drill_.kept_back()) print_truths();
        const EndWords said = end_words(drill_, units_);
        for (const std::string& words :
             {said.counts, said.finding, said.instruction, said.dearer, said.costs})
            if (!words.empty()) out() << words << '\n';
        print_shares();
        out() << fmt::format("{:.0f} of {}.\n", score, 10 * end.putts);
        // Dealing depends on the answers: the seed alone would not deal these putts again.
        if (plan_.occasion == Occasion::practice && plan_.set.empty() && !set_saved)
            out() << "To keep such putts and play them again: --save-set FILE, then --set FILE\n";
        print_next("Next", end.next);
        if (end.for_dearer) print_next("Or", *end.for_dearer);
        if (said.home) out() << said.home->words << ' ' << said.home->command() << '\n';
    }

    void print_next(const char* word, const NextDrill& next) {
        out() << word << ": " << next_command(next);
        for (const std::string& green : plan_.ranges.greens)
            out() << " --green " << printable(green);
        out() << '\n';
    }

    /// Each putt's share of the break, or of the pace, as a mark on a line from 0 to 150 %; an
    /// arrow at its end where it is beyond.
    void print_shares() {
        constexpr int columns = 60, whole = 40;
        if (!drill_.finding().share) return;
        out() << '\n' << std::string(5, ' ') << '0' << std::string(whole - 2, ' ') << "100 %\n";
        for (const NumberedShare& putt : drill_.end().shares) {
            std::string line(columns + 1, ' ');
            line[0] = line[whole] = '|';
            const double at = std::clamp(std::round(whole * putt.share), 0.0, 1.0 * columns);
            const bool beyond = putt.share < 0 || whole * putt.share > columns;
            line[static_cast<std::size_t>(at)] = !beyond ? 'o' : putt.share < 0 ? '<' : '>';
            line.erase(line.find_last_not_of(' ') + 1);
            out() << fmt::format("{:>4} {}\n", putt.number, line);
        }
        out() << '\n';
    }

    Session& session_;
    LessonPlan plan_;
    DrillKind asks_;
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
