#include "viewer/practice/habits/practice_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/practice/drill/drill_session.hpp"
#include "viewer/practice/drill/plain_read.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/english.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

constexpr double cup_m = 2 * hole_radius_m;

std::string firmness(double pace_share) {
    return fmt::format("{} too {}", format_percent(std::abs(pace_share - 1)),
                       pace_share > 1 ? "firm" : "soft");
}

/// The part of the break, never less than none of it.
std::string part_played(double share) {
    return format_percent(std::max(share, 0.0));
}

double aim_off_m(const Diagnosis& d) {
    return d.aim_m - *d.best.aim_offset_m;
}

/// How far the aim was off, in the unit that the table tells aims in: 'a cup', '2½ cups', '3 in'.
std::string aim_off_words(const Diagnosis& d, const Units& units) {
    const double off_m = std::abs(aim_off_m(d)), true_m = std::abs(*d.best.aim_offset_m);
    constexpr double in_cups_from_m = 5 * metres_per_inch, in_cups_to_m = 30 * metres_per_inch;
    const bool in_cups = true_m >= in_cups_from_m && true_m <= in_cups_to_m && off_m >= cup_m / 2;
    if (!in_cups) return format_length(off_m, units);
    const std::string halves = format_halves(off_m / cup_m);
    return halves == "1" ? "a cup" : halves + (off_m < cup_m ? " cup" : " cups");
}

std::string aim_headline(const Diagnosis& d, const Units& units) {
    if (d.holed) return fmt::format("Holed, off the {} edge", d.side);
    const std::string by = aim_off_words(d, units);
    if (d.wrong_side) return "Wrong side, by " + by;
    return fmt::format("{} {}, by {}", d.passed_there ? "Missed" : "Aimed", d.side, by);
}

std::string pace_headline(const Diagnosis& d, const Units& units) {
    const bool firm = d.pace_share > 1;
    if (d.holed) return firm ? "Holed, but firm" : "Holed, but soft";
    if (firm && d.past_m > 0) return "Long, by " + format_length(d.past_m, units);
    if (!firm && d.past_m < 0) return "Short, by " + format_length(d.past_m, units);
    return fmt::format("Too {}, by {}", firm ? "firm" : "soft",
                       format_percent(std::abs(d.pace_share - 1)));
}

std::string break_words(const Read& read) {
    if (read.turns) return "both ways, " + both_sides_words(read.turns->first.offset_m);
    return *read.aim_offset_m > 0 ? "right to left" : "left to right";
}

std::string aim_sentence(const Diagnosis& d, const Units& units) {
    if (d.wrong_side) return fmt::format("Wrong side: it breaks {}.", break_words(d.best));
    const std::string by = aim_off_words(d, units);
    if (d.break_share)
        return fmt::format("You played {} of the break: {} {}.", part_played(*d.break_share), by,
                           *d.break_share < 1 ? "more" : "less");
    const bool sloped = d.side == "high" || d.side == "low";
    return fmt::format("The aim was {} too {}{}.", by, sloped ? "" : "far ", d.side);
}

std::string pace_sentence(const Diagnosis& d, const Units& units) {
    const std::string asked = format_level_putt(d.best.level_putt_m, units),
                      given = format_level_putt(d.level_putt_m, units);
    if (asked == given) return fmt::format("You hit it {}.", firmness(d.pace_share));
    return fmt::format("You hit it {}: {}, not {}.", firmness(d.pace_share), asked, given);
}

/// The side only where the two lie on either side of the hole.
std::string short_aim(double aim_m, bool sides, const Units& units) {
    const std::string words = aim_short(aim_m, units);
    return sides && aim_m != 0 ? words + (aim_m > 0 ? " right" : " left") : words;
}

}  // namespace

std::string headline(const Diagnosis& d, const Units& units) {
    if (d.fault == Fault::aim) return aim_headline(d, units);
    if (d.fault == Fault::pace) return pace_headline(d, units);
    return d.holed ? "Holed" : format_length(d.away_m, units) + " from the hole";
}

std::array<DiagnosisRow, 2> diagnosis_rows(const Diagnosis& d, const Units& units) {
    const double true_aim_m = *d.best.aim_offset_m;
    const bool sides = d.aim_m * true_aim_m < 0;
    return {
        DiagnosisRow{"Aim", short_aim(d.aim_m, sides, units), short_aim(true_aim_m, sides, units),
                     format_putts(d.aim_lost), d.fault == Fault::aim},
        DiagnosisRow{"Pace", format_level_putt(d.level_putt_m, units),
                     format_level_putt(d.best.level_putt_m, units), format_putts(d.pace_lost),
                     d.fault == Fault::pace}};
}

std::string diagnosis_sentence(const Diagnosis& d, const Units& units) {
    if (d.fault == Fault::aim) return aim_sentence(d, units);
    if (d.fault == Fault::pace) return pace_sentence(d, units);
    return kind_of(d.drill).when_fit;
}

std::string score_words(const Diagnosis& d) {
    const double cost = d.fault == Fault::aim ? d.aim_lost : d.pace_lost;
    if (d.fault == Fault::none) return fmt::format("{:.0f} of 10: it costs nothing.", d.score);
    return fmt::format("{:.0f} of 10: the {} cost {} strokes.", d.score, name_of(d.fault),
                       format_putts(cost));
}

// ---- after six putts

namespace {

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
    return fmt::format("{}, {} putts", kind_of(next.drill).called,
                       next.putts == 5 ? "five" : "ten");
}

EndWords end_words(const DrillSession& session, const Units& units) {
    const SessionEnd& end = session.end();
    if (end.putts == 0) return {.counts = "No putt was answered."};
    const Finding& finding = session.finding();
    EndWords words;
    words.counts = fmt::format("{}, {}.", counted(end.putts, "putt"),
                               counted(end.breaking, "that breaks", "that break"));
    words.finding = finding_words(finding);
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
        words.push_back(fmt::format("{} {} ({}).", before, cause_part_words(cause, part, of, units),
                                    format_percent(part.chance)));
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
