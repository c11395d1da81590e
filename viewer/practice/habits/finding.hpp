#pragma once

#include <optional>
#include <string>
#include <vector>

#include "viewer/practice/drill/dealer.hpp"
#include "viewer/practice/drill/diagnosis.hpp"
#include "viewer/practice/habits/bias.hpp"

/// What a player's answers have in common.
namespace dewtrail {

/// One kind of putt within a finding.
struct KindShare {
    std::string group;  ///< 'right-to-left downhill', 'long uphill'
    int putts = 0;
    Credible share;
    bool differs = false;  ///< surely another than the whole, and by enough to speak of
};

/// The part of the break that is played, or of the pace, over all kinds of putt together.
struct Finding {
    Fault of = Fault::aim;
    int asked = 0;                  ///< answers that had to say this part
    int putts = 0;                  ///< of them that break, or that asked for a pace
    int under = 0, over = 0;        ///< too low or too soft; too high or too firm
    int wrong_side = 0;             ///< of the hole: counted in `under`, no part of the share
    std::optional<Credible> share;  ///< none before six answers
    std::vector<KindShare> kinds;

    /// Surely more than a twentieth off: the interval keeps clear of 95 to 105 %.
    bool stands_out() const;
};

/// The aims of the answers to `line` and `read` on putts that break, by side and grade.
Finding break_finding(const std::vector<Answer>& answers);
/// The pace of the answers to `pace` and `read`, by grade and reach.
Finding pace_finding(const std::vector<Answer>& answers);

/// The shares of those answers, oldest first; those on the wrong side of the hole are below 0.
std::vector<double> shares_of(Fault part, const std::vector<Answer>& answers);

/// One putt in the picture of a finding.
struct NumberedShare {
    std::string number;  ///< within its session; empty: one of the last
    double share = 1;
};

struct Findings {
    Finding aim, pace;

    /// The one to speak of: of those that stand out the one that costs more; else the aim's,
    /// unless the pace alone has a share.
    const Finding& lead() const;
};
/// `answers`: those that are counting().
Findings findings_of(const std::vector<Answer>& answers);

/// What to practise next.
struct NextDrill {
    Drill drill = Drill::read;
    int putts = 10;
    std::optional<Category> kind{};  ///< of putt, where one kind alone
};
/// By the habit that stands out; where none does, the kind that costs most.
NextDrill next_drill(const Findings& findings, const std::optional<Weakest>& weakest = {});
/// Five putts of the part alone.
NextDrill drill_for(Fault part);

}  // namespace dewtrail
