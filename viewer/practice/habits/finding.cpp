#include "viewer/practice/habits/finding.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace dewtrail {
namespace {

constexpr double hardly = 0.05;  ///< of the whole: nothing to speak of
constexpr double another = 0.1;  ///< of the whole: a kind of putts that wants advice of its own

/// A quarter of the break costs about what a tenth of the pace does.
constexpr double dear_break = 0.25, dear_pace = 0.1;

constexpr int break_kinds = 6;  ///< two sides, three grades
constexpr int pace_kinds = 9;   ///< three grades, three reaches
constexpr BiasPrior pace_prior{1, 0.3, 0.07};

/// Aims are typed to an inch up to a foot and to half a cup beyond, level putts to half a foot;
/// both are rounded evenly.
double aim_error_m(double aim_m) {
    const double step = std::abs(aim_m) < 12 * metres_per_inch ? metres_per_inch : hole_radius_m;
    return step / std::sqrt(12.0);
}
double pace_error(double level_putt_m) {
    return 0.5 * metres_per_foot / std::sqrt(12.0) / std::max(level_putt_m, metres_per_foot);
}

/// One answer as far as it says something.
struct Said {
    Observation observation;
    bool wrong_side = false;
};

std::optional<Said> break_said(const Answer& a) {
    if (!kind_of(a.drill).asks_aim || !a.break_share || !a.true_aim_m || !a.aim_m ||
        !breaks_one_way(a.category.side))
        return std::nullopt;
    const int group = static_cast<int>(a.category.side) * 3 + static_cast<int>(a.category.grade);
    return Said{{group, *a.break_share, aim_error_m(*a.aim_m) / std::abs(*a.true_aim_m)},
                is_wrong_side(*a.aim_m, *a.true_aim_m)};
}

std::optional<Said> pace_said(const Answer& a) {
    if (!kind_of(a.drill).asks_pace || !a.pace_share || !a.level_putt_m) return std::nullopt;
    const int group = static_cast<int>(a.category.grade) * 3 + static_cast<int>(a.category.reach);
    return Said{{group, *a.pace_share, pace_error(*a.level_putt_m)}, false};
}

std::string break_kind(int group) {
    return fmt::format("{} {}", name_of(static_cast<BreakSide>(group / 3)),
                       name_of(static_cast<Grade>(group % 3)));
}

std::string pace_kind(int group) {
    return fmt::format("{} {}", name_of(static_cast<Reach>(group % 3)),
                       name_of(static_cast<Grade>(group / 3)));
}

/// The last putts of every kind, newest first.
std::vector<Said> recent(const std::vector<Answer>& answers,
                         std::optional<Said> said(const Answer&)) {
    std::map<int, int> seen;
    std::vector<Said> last;
    for (auto a = answers.rbegin(); a != answers.rend(); ++a)
        if (const auto s = said(*a); s && ++seen[s->observation.group] <= recent_putts)
            last.push_back(*s);
    return last;
}

/// Answers that were asked for this part, whether or not there was something to see in them.
int asked(const std::vector<Answer>& answers, bool DrillKind::*asks) {
    return static_cast<int>(std::count_if(answers.begin(), answers.end(),
                                          [&](const Answer& a) { return kind_of(a.drill).*asks; }));
}

bool is_another(const Credible& beside) {
    return std::abs(beside.mean) >= another && (beside.lo > 0 || beside.hi < 0);
}

Finding finding(Fault of, const std::vector<Said>& said, int asked, int kinds,
                const BiasPrior& prior, std::string name(int)) {
    Finding f;
    f.of = of;
    f.asked = asked;
    std::vector<Observation> observations;
    for (const Said& s : said) {
        ++f.putts;
        f.under += s.observation.share < 1;
        f.over += s.observation.share > 1;
        f.wrong_side += s.wrong_side;
        if (!s.wrong_side) observations.push_back(s.observation);
    }
    if (asked < least_putts) return f;
    const auto biases = biases_of(observations, kinds, prior);
    if (!biases) return f;
    f.share = biases->whole;
    for (const GroupBias& g : biases->groups)
        f.kinds.push_back({name(g.group), g.putts, g.share, is_another(g.beside)});
    return f;
}

double dearness(const Finding& f) {
    if (!f.stands_out()) return 0;
    return std::abs(f.share->mean - 1) / (f.of == Fault::aim ? dear_break : dear_pace);
}

}  // namespace

bool Finding::stands_out() const {
    return share && (share->hi < 1 - hardly || share->lo > 1 + hardly);
}

Finding break_finding(const std::vector<Answer>& answers) {
    return finding(Fault::aim, recent(answers, break_said), asked(answers, &DrillKind::asks_aim),
                   break_kinds, {}, break_kind);
}

Finding pace_finding(const std::vector<Answer>& answers) {
    return finding(Fault::pace, recent(answers, pace_said), asked(answers, &DrillKind::asks_pace),
                   pace_kinds, pace_prior, pace_kind);
}

std::vector<double> shares_of(Fault part, const std::vector<Answer>& answers) {
    std::vector<double> shares;
    for (const Answer& answer : answers)
        if (const auto said = part == Fault::aim ? break_said(answer) : pace_said(answer))
            shares.push_back(said->observation.share);
    return shares;
}

const Finding& Findings::lead() const {
    const bool pace_alone = pace.share && !aim.share;
    return pace_alone || dearness(pace) > dearness(aim) ? pace : aim;
}

Findings findings_of(const std::vector<Answer>& answers) {
    return {break_finding(answers), pace_finding(answers)};
}

NextDrill next_drill(const Findings& findings, const std::optional<Weakest>& weakest) {
    constexpr double dear = 0.1;  // strokes (no source): below, no kind is worth putts of its own
    const Finding& lead = findings.lead();
    if (lead.stands_out() || lead.wrong_side >= 2) return drill_for(lead.of);
    if (weakest && weakest->lost >= dear) return {Drill::read, 5, weakest->kind};
    return {};
}

NextDrill drill_for(Fault part) {
    return {part == Fault::aim ? Drill::line : Drill::pace, 5, {}};
}

}  // namespace dewtrail
