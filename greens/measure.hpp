#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "greens/units.hpp"

/// The small grammar under everything a person types: a number, and perhaps its unit.
///
///     number  = digits ['.' digits] | [digits] vulgar-fraction | digits '/' (2|3|4|8|16)
///     term    = number [unit]
///
/// Letters may be of either case. No sign, no exponent, no decimal comma, no nan or inf; the locale
/// does not matter. `parse_...` in quantity.hpp and reading.hpp build on this.
namespace dewtrail {

struct Term {
    double number;
    Unit unit;
    std::string shown;  ///< as typed, with a space before a named unit: "25 %", "12 ft"
};

/// What is being read: its name in messages, and examples of how to write it.
struct Subject {
    std::string_view what;
    std::string_view examples;
};

/// Lower case, typographic marks and spaces brought to plain ones, ends trimmed. Vulgar fractions
/// stay.
std::string plain_text(std::string_view text);

/// Takes an ending or a beginning off a plain text and trims again. False if it is not there.
bool drop_ending(std::string& plain, std::string_view ending);
bool drop_beginning(std::string& plain, std::string_view beginning);

/// What stands between commas, each plain; at least one part.
std::vector<std::string> split_at_commas(std::string_view plain);

/// Takes a number off the front of `text` (plain). False, and `text` untouched, if there is none.
bool take_number(std::string_view& text, double& number);

/// All terms of a text; at least one. Throws InputError on anything that is not a term.
std::vector<Term> read_terms(std::string_view text, const Subject& subject);

/// Exactly one term, else InputError.
Term read_term(std::string_view text, const Subject& subject);

/// Throws InputError "<what> '<text>' <reason>" with a remedy ("" : write it like the examples).
[[noreturn]] void refuse(const Subject& subject, std::string_view text, std::string_view reason,
                         std::string remedy = "");

}  // namespace dewtrail
