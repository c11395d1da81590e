#include "viewer/text/quantity.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "greens/input_error.hpp"
#include "greens/measure.hpp"
#include "greens/number.hpp"
#include "viewer/text/reading.hpp"

namespace dewtrail {
namespace {

struct NamedRange : Range {
    std::string_view name;  // as the message says it
};

std::string show(const std::vector<Term>& terms, std::string_view bare) {
    std::string shown;
    for (const Term& term : terms) {
        if (!shown.empty()) shown += ' ';
        shown += term.shown;
        if (term.unit == Unit::none) shown += fmt::format(" {}", bare);
    }
    return shown;
}

[[noreturn]] void refuse_outside(const Subject& subject, std::string_view shown,
                                 const NamedRange& range, std::string_view hint = "") {
    throw InputError(fmt::format("{} {} is outside {}{}", subject.what, shown, range.name, hint),
                     fmt::format("write it like {}", subject.examples));
}

// "; is it 60 ft?" when the same figure would do in another unit.
std::string suggest(const Term& term, const NamedRange& range) {
    for (const Unit unit : {Unit::foot, Unit::inch, Unit::centimetre, Unit::metre}) {
        if (term.number > 0.0 && range.holds(*to_metres(term.number, unit, 0.0))) {
            return fmt::format("; is it {:.4g} {}?", term.number, unit_name(unit));
        }
    }
    return "";
}

// Whole feet and inches, in inches.
double feet_and_inches(const Term& feet, const Term& inches, const Subject& subject,
                       std::string_view text) {
    if (feet.number != std::floor(feet.number) || inches.number >= 12.0) {
        refuse(subject, text, "is not whole feet and less than 12 in");
    }
    return 12.0 * feet.number + inches.number;
}

// One length, or whole feet and inches, as one figure with its unit.
Term one_length(const std::vector<Term>& terms, Unit bare, const Subject& subject,
                std::string_view text) {
    Term term = terms.front();
    if (terms.size() == 1) {
        if (term.unit == Unit::none) term.unit = bare;
        return term;
    }
    if (terms.size() == 2 && term.unit == Unit::foot && terms[1].unit == Unit::inch) {
        return {feet_and_inches(term, terms[1], subject, text), Unit::inch, ""};
    }
    if (term.unit == Unit::foot && terms[1].unit == Unit::none) {
        refuse(subject, text, "does not say what the last figure is", "write it like 12ft6in");
    }
    refuse(subject, text, "is not understood",
           fmt::format("write it like {}; a half as 4½ or 4.5", subject.examples));
}

double parse_length(std::string_view text, Unit bare, double pace_m, const Subject& subject,
                    const NamedRange& range) {
    const std::vector<Term> terms = read_terms(text, subject);
    const Term term = one_length(terms, bare, subject, text);
    const std::optional<double> length_m = to_metres(term.number, term.unit, pace_m);
    if (!length_m) refuse(subject, text, "is not a length");
    if (range.holds(*length_m)) return *length_m;
    const std::string hint = terms.size() == 1 ? suggest(term, range) : "";
    refuse_outside(subject, show(terms, unit_name(bare)), range, hint);
}

Unit long_unit(const Units& units) {
    return units.metric ? Unit::metre : Unit::foot;
}
Unit short_unit(const Units& units) {
    return units.metric ? Unit::centimetre : Unit::inch;
}

double parse_speed(std::string_view text, const Units& units, const Subject& subject,
                   const NamedRange& range) {
    Term term = read_term(text, subject);
    if (term.unit == Unit::none) {
        term.unit = units.metric ? Unit::metre_per_second : Unit::foot_per_second;
        term.shown += fmt::format(" {}", unit_name(term.unit));
    }
    const bool in_feet = term.unit == Unit::foot_per_second;
    if (!in_feet && term.unit != Unit::metre_per_second) refuse(subject, text, "is not a speed");
    const double speed_m_s = *to_metres(term.number, in_feet ? Unit::foot : Unit::metre, 0.0);
    if (!range.holds(speed_m_s)) refuse_outside(subject, term.shown, range);
    return speed_m_s;
}

struct Word {
    std::string_view word;
    double value;
};

template <std::size_t n>
const Word* find_word(const std::array<Word, n>& words, std::string_view text) {
    for (const Word& word : words) {
        if (word.word == text) return &word;
    }
    return nullptr;
}

constexpr std::array<Word, 8> past_words = {{{"barely", barely_in_past_m},
                                             {"barely in", barely_in_past_m},
                                             {"a foot", usual_past_m},
                                             {"firm", firm_past_m},
                                             {"die", 0.0},
                                             {"dying", 0.0},
                                             {"dead", 0.0},
                                             {"dead weight", 0.0}}};

constexpr std::array<Word, 4> stimp_words = {{{"slow", slow_stimp_ft},
                                              {"medium", medium_stimp_ft},
                                              {"quick", quick_stimp_ft},
                                              {"fast", fast_stimp_ft}}};

// Feet as typed stay as typed. Paces are no length here: nobody paces out a stimp.
double in_feet(const Term& term, const Subject& subject, std::string_view text) {
    if (term.unit == Unit::foot) return term.number;
    if (term.unit == Unit::inch) return term.number / 12.0;
    const std::optional<double> length_m = to_metres(term.number, term.unit, 0.0);
    if (!length_m) refuse(subject, text, "is not a length");
    return *length_m / metres_per_foot;
}

}  // namespace

double parse_distance_m(std::string_view text, const Units& units, std::string_view what) {
    return parse_length(text, long_unit(units), units.pace_m,
                        {what, "12ft, 12ft6in, 3.6m or 4½paces"},
                        {putt_range::distance_m, "0.15-40 m (½-131 ft)"});
}

double parse_past_m(std::string_view text, const Units& units, std::string_view what) {
    std::string plain = plain_text(text);
    drop_ending(plain, " past");
    if (const Word* word = find_word(past_words, plain)) return word->value;
    return parse_length(plain.empty() ? text : plain, short_unit(units), units.pace_m,
                        {what, "12in, 30cm, 'barely in' or 'firm'"},
                        {putt_range::past_m, "0-3 m (0-118 in)"});
}

double parse_short_length_m(std::string_view text, const Units& units, std::string_view what) {
    return parse_length(text, short_unit(units), units.pace_m, {what, "10in, 2ft or 25cm"},
                        {{0.0, 40.0}, "0-40 m (0-131 ft)"});
}

double parse_level_roll_m(std::string_view text, const Units& units, std::string_view what) {
    return parse_length(text, long_unit(units), units.pace_m, {what, "12ft, 3.7m or 11paces"},
                        {{0.0, 100.0}, "0-100 m (0-328 ft)"});
}

double parse_pace_m(std::string_view text, const Units& units, std::string_view what) {
    return parse_length(text, long_unit(units), 0.0, {what, "0.9m, 3ft or 35in"},
                        {{0.3, 1.5}, "0.3-1.5 m (1-4.9 ft)"});
}

double parse_hole_speed_m_s(std::string_view text, const Units& units, std::string_view what) {
    return parse_speed(text, units, {what, "0.7m/s or 2.3ft/s"},
                       {putt_range::hole_speed_m_s, "0-3 m/s (0-9.8 ft/s)"});
}

double parse_speed_m_s(std::string_view text, const Units& units, std::string_view what) {
    return parse_speed(text, units, {what, "2.1m/s or 6.8ft/s"},
                       {{0.0, 20.0}, "0-20 m/s (0-65 ft/s)"});
}

double parse_slope(std::string_view text, std::string_view what) {
    const double slope = parse_level_reading(text, what).slope;
    if (slope < 0.0) {
        refuse({what, ""}, text, "averages to less than nothing", "swap the two readings");
    }
    return slope;
}

double parse_stimp_ft(std::string_view text, std::string_view what) {
    if (const Word* word = find_word(stimp_words, plain_text(text))) return word->value;
    const Subject subject{what, "10, 10ft6in, 3m or slow, medium, quick, fast"};
    const NamedRange feet{putt_range::stimp_ft, "3-18 ft"};
    const std::vector<Term> terms = read_terms(text, subject);
    const double stimp_ft = in_feet(one_length(terms, Unit::foot, subject, text), subject, text);
    if (feet.holds(stimp_ft)) return stimp_ft;
    const double tenth = stimp_ft / 10.0;
    refuse_outside(subject, show(terms, "ft"), feet,
                   feet.holds(tenth) ? fmt::format("; is it {:.3g} ft?", tenth) : "");
}

double parse_stimp_change_ft(std::string_view text, std::string_view what) {
    const Subject subject{what, "0.5ft or 15cm"};
    const NamedRange feet{{0.0, 10.0}, "0-10 ft"};
    const std::vector<Term> terms = read_terms(text, subject);
    const double change_ft = in_feet(one_length(terms, Unit::foot, subject, text), subject, text);
    if (!feet.holds(change_ft)) refuse_outside(subject, show(terms, "ft"), feet);
    return change_ft;
}

double parse_time_s(std::string_view text, std::string_view what) {
    const Subject subject{what, "2.7 or 2.7s"};
    const Term term = read_term(text, subject);
    if (term.unit != Unit::none && term.unit != Unit::second)
        refuse(subject, text, "is not a time");
    if (term.number <= 0.0 || term.number > 120.0) {
        refuse_outside(subject, show({term}, "s"), {{0.0, 120.0}, "0-120 s"});
    }
    return term.number;
}

double parse_fraction(std::string_view text, std::string_view what) {
    const Subject subject{what, "14%"};
    const Term term = read_term(text, subject);
    if (term.unit != Unit::none && term.unit != Unit::percent) {
        refuse(subject, text, "is not a percentage");
    }
    const NamedRange range{{0.0, 100.0}, "0-100 %"};
    if (!range.holds(term.number)) refuse_outside(subject, show({term}, "%"), range);
    return term.number / 100.0;
}

}  // namespace dewtrail
