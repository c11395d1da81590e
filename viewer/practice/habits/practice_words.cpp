#include "viewer/practice/habits/practice_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/practice/drill/drill_session.hpp"
#include "viewer/practice/drill/plain_read.hpp"
#include "viewer/text/english.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

std::string firmness(double pace_share) {
    return fmt::format("{} too {}", format_percent(std::abs(pace_share - 1)),
                       pace_share > 1 ? "firm" : "soft");
}

/// The part of the break, never less than none of it.
std::string part_played(double share) {
    return format_percent(std::max(share, 0.0));
}

/// How much more or less, in words that can be done on a green.
struct Amount {
    double from;  ///< up to here the words before
    const char *aim, *pace;
};
constexpr Amount amounts[] = {{0, "half as far out", "half as far"},
                              {0.58, "two thirds as far out", "two thirds as far"},
                              {0.71, "three quarters as far out", "three quarters as far"},
                              {0.78, "a fifth less", "a fifth shorter"},
                              {0.87, "a tenth less", "a tenth shorter"},
                              {1, "a tenth more", "a tenth farther"},
                              {1.15, "a fifth more", "a fifth farther"},
                              {1.28, "a third more", "a third farther"},
                              {1.42, "half as much again", "half as far again"},
                              {1.75, "twice as far out", "twice as far"}};

const Amount& amount_of(double factor) {
    const Amount* found = amounts;
    for (const Amount& amount : amounts)
        if (factor >= amount.from) found = &amount;
    return *found;
}

std::string wrong_side_words(const Finding& f) {
    return f.wrong_side > 0 ? fmt::format("Wrong side {} of {}.", f.wrong_side, f.putts) : "";
}

std::string whole_words(const Finding& f) {
    if (!f.share && f.wrong_side > 0) return "";
    if (!f.share)
        return f.asked < least_putts ? "The trend starts after six putts."
                                     : "None of these putts breaks: their aims show no trend.";
    const bool aim = f.of == Fault::aim, less = f.share->mean < 1;
    const std::string words = fmt::format("You {} {} of the {}", aim ? "play" : "give",
                                          share_words(*f.share), aim ? "break" : "pace");
    if (!f.stands_out()) return words + ": no habit stands out.";
    return fmt::format("{}, and {} of {} were too {}.", words, less ? f.under : f.over, f.putts,
                       aim    ? less ? "low" : "high"
                       : less ? "soft"
                              : "firm");
}

}  // namespace

std::string share_words(const Credible& share) {
    const std::string least = part_played(share.lo);
    return fmt::format("{} ({}–{})", format_percent(share.mean), least.substr(0, least.find(' ')),
                       format_percent(share.hi));
}

std::string finding_words(const Finding& finding) {
    const std::string whole = whole_words(finding), wrong = wrong_side_words(finding);
    return whole + (whole.empty() || wrong.empty() ? "" : " ") + wrong;
}

std::string instruction_words(const Finding& f) {
    if (f.stands_out()) {
        constexpr double least_share = 0.5;  // further off, 'twice as much' is enough said
        const Amount& amount = amount_of(1 / std::max(f.share->mean, least_share));
        return f.of == Fault::aim ? fmt::format("See it, then aim {}.", amount.aim)
                                  : fmt::format("See it, then hit it {}.", amount.pace);
    }
    return f.wrong_side > 1 ? "Say which side is low before you aim." : "";
}

std::vector<std::string> kind_words(const Finding& finding) {
    std::vector<std::string> words;
    for (const KindShare& kind : finding.kinds)
        if (kind.differs)
            words.push_back(fmt::format("{}: {} of the {}.", capital(kind.group),
                                        share_words(kind.share),
                                        finding.of == Fault::aim ? "break" : "pace"));
    return words;
}

std::vector<std::string> all_finding_words(const Findings& findings) {
    const Finding& lead = findings.lead();
    const Finding& other = &lead == &findings.aim ? findings.pace : findings.aim;
    std::vector<std::string> words{finding_words(lead), instruction_words(lead)};
    if (other.share) words.push_back(finding_words(other));
    for (const Finding* finding : {&lead, &other})
        for (const std::string& kind : kind_words(*finding)) words.push_back(kind);
    words.erase(std::remove(words.begin(), words.end(), ""), words.end());
    return words;
}

std::string next_drill_words(const NextDrill& next) {
    return fmt::format("{}, {} {}", kind_of(next.drill).called, next.putts == 5 ? "five" : "ten",
                       next.kind ? putts_words(*next.kind) : "putts");
}

namespace {

/// What this session comes to by itself, where the finding is over more putts: the mean of what
/// its picture shows, but for the wrong side, which the finding leaves out as well.
std::string this_time(const Finding& finding, const std::vector<NumberedShare>& shares) {
    double sum = 0;
    int right_side = 0;
    for (const NumberedShare& putt : shares)
        if (putt.share >= 0) sum += putt.share, ++right_side;
    if (right_side == 0) return "";
    return fmt::format(": {} of the {}", format_percent(sum / right_side),
                       finding.of == Fault::aim ? "break" : "pace");
}

std::string over_all(const Finding& finding) {
    return fmt::format("Over {}: {}",
                       finding.of == Fault::aim
                           ? counted(finding.putts, "putt that breaks", "putts that break")
                           : counted(finding.putts, "putt"),
                       uncapital(finding_words(finding)));
}

}  // namespace

EndWords end_words(const DrillSession& session, const Units& units) {
    const SessionEnd& end = session.end();
    if (end.putts == 0) return {.counts = "No putt was answered."};
    const Finding& finding = session.finding();
    EndWords words;
    const bool of_more = finding.share && finding.putts > static_cast<int>(end.shares.size());
    words.counts = fmt::format("{}, {}{}.", counted(end.putts, "putt"),
                               counted(end.breaking, "that breaks", "that break"),
                               of_more ? this_time(finding, end.shares) : "");
    words.finding = of_more ? over_all(finding) : finding_words(finding);
    words.instruction = instruction_words(finding);
    if (words.instruction.empty())
        words.instruction = fmt::format("Next: {}.", next_drill_words(end.next));
    if (end.for_dearer)
        words.dearer = fmt::format("This time the {} cost more. For that: {}.",
                                   name_of(end.dearer()), next_drill_words(*end.for_dearer));
    words.costs = fmt::format("Aim cost {} strokes, pace {}.", format_putts(end.aim_lost),
                              format_putts(end.pace_lost));
    if (end.best > 0)
        words.costs += fmt::format(" Best: putt {}. Dearest: putt {}.", end.best, end.dearest);
    for (const Finding* found : {&session.findings().aim, &session.findings().pace})
        for (const std::string& kind : kind_words(*found)) words.costs += " " + kind;
    words.home = home_drill(session.at_home(), end.dearer(), units);
    return words;
}

std::string low_miss_words(const LowMisses& misses) {
    std::string words =
        fmt::format("Misses by a side: {} of {} low.", misses.low, misses.low + misses.high);
    if (misses.break_share)
        words += fmt::format(" You play {} of the break.", share_words(*misses.break_share));
    return words;
}

// ---- review

namespace {

std::string slope_part_words(double size, double believed) {
    // Flatter than level is downhill the other way.
    if (size < 0 && -size > believed && believed > 0) return "slope: it falls the other way";
    return fmt::format("slope: {:.1f} % {} than read", 100 * std::abs(size),
                       size > 0 ? "steeper" : "flatter");
}

}  // namespace

std::string cause_part_words(Cause cause, const Part& part, const Reviewed& of,
                             const Units& units) {
    const double size = part.size;
    const bool nothing = !part.moved;
    switch (cause) {
        case Cause::slope:
            return nothing ? "slope: as read" : slope_part_words(size, of.slope);
        case Cause::stimp:
            if (nothing) return "green speed: as taken";
            return fmt::format("green speed: {:.1f} ft {} than taken", std::abs(size),
                               size > 0 ? "faster" : "slower");
        case Cause::line:
            if (nothing) return "start line: as meant";
            return fmt::format("start line: {} to the {} at the hole",
                               format_length(of.distance_m * std::tan(size), units),
                               size > 0 ? "right" : "left");
        case Cause::pace:
            return nothing ? "pace: as meant" : "pace: " + firmness(1 + size);
    }
    return "";
}

std::vector<std::string> verdict_words(const Split& split, const Reviewed& of, const Units& units) {
    if (split.likely.empty()) return {"Nothing was off by much: nothing stands out."};
    std::vector<std::string> words;
    if (!split.stands_out()) words.push_back("Nothing stands out.");
    for (const Cause cause : split.likely) {
        const Part& part = split.part(cause);
        const char* const before = cause != split.likely.front() ? "Then"
                                   : split.stands_out()          ? "Most likely"
                                                                 : "Likeliest";
        words.push_back(fmt::format("{} {} ({} %).", before,
                                    cause_part_words(cause, part, of, units),
                                    split.told_chances()[static_cast<std::size_t>(cause)]));
        if (cause != split.likely.front()) break;
    }
    if (!split.cannot_tell() || split.likely.size() < 2) return words;
    const std::string pair =
        fmt::format("{} from {}", name_of(split.likely[0]), name_of(split.likely[1]));
    words.push_back(split.putts == 1
                        ? fmt::format("One putt cannot tell {}. Enter three.", pair)
                        : fmt::format("{} putts cannot tell {}. Log more.", split.putts, pair));
    return words;
}

std::string plan_words(const Putt& putt, double aim_m, double level_putt_m, double player_past_m,
                       const Units& units) {
    const auto fitting =
        line_for_pace(putt, std::max(level_putt_m + player_past_m, metres_per_inch));
    if (!fitting) return "";
    if (!fitting->reaches) return "The plan itself was too soft to get there.";
    const double off_m = aim_m - putt.distance_m() * std::tan(fitting->angle_rad);
    if (std::abs(off_m) < hole_radius_m) return "";
    return fmt::format("The plan itself was {} {} for that pace.", format_length(off_m, units),
                       miss_side(putt, off_m));
}

std::string_view name_of(Cause cause) {
    constexpr std::string_view names[] = {"slope read", "green speed", "start line", "pace"};
    return names[static_cast<int>(cause)];
}

}  // namespace dewtrail
