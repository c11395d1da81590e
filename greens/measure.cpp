#include "greens/measure.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

#include "greens/input_error.hpp"
#include "greens/number.hpp"

namespace dewtrail {
namespace {

using PlainSpelling = std::pair<std::string_view, std::string_view>;

// Longest first where one begins with another.
constexpr std::array<PlainSpelling, 14> plain_spellings = {{{"′", "'"},
                                                            {"’", "'"},
                                                            {"‘", "'"},
                                                            {"″", "\""},
                                                            {"”", "\""},
                                                            {"“", "\""},
                                                            {"''", "\""},
                                                            {"−", "-"},
                                                            {"–", "-"},
                                                            {"°", "deg"},
                                                            {"\u00a0", " "},
                                                            {"\u202f", " "},
                                                            {"\u2009", " "},
                                                            {"\t", " "}}};

constexpr std::array<std::pair<std::string_view, double>, 9> vulgar_fractions = {{
    {"½", 0.5},
    {"¼", 0.25},
    {"¾", 0.75},
    {"⅛", 0.125},
    {"⅜", 0.375},
    {"⅝", 0.625},
    {"⅞", 0.875},
    {"⅓", 1.0 / 3.0},
    {"⅔", 2.0 / 3.0},
}};

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}
bool is_letter(char c) {
    return c >= 'a' && c <= 'z';
}

std::size_t count_digits(std::string_view text) {
    const auto end = std::find_if_not(text.begin(), text.end(), is_digit);
    return static_cast<std::size_t>(end - text.begin());
}

void skip_spaces(std::string_view& text) {
    text.remove_prefix(std::min(text.find_first_not_of(' '), text.size()));
}

bool take_vulgar_fraction(std::string_view& text, double& fraction) {
    for (const auto& [sign, value] : vulgar_fractions) {
        if (!text.starts_with(sign)) continue;
        fraction = value;
        text.remove_prefix(sign.size());
        return true;
    }
    return false;
}

// "/2" after whole digits: the lower half of a fraction. Only the fractions people say: 1/40 is
// more likely a ratio with the wrong sign than a fortieth of a percent.
bool take_divisor(std::string_view& text, double& divisor) {
    for (const auto& [figure, value] : {std::pair<std::string_view, double>{"/2", 2.0},
                                        {"/3", 3.0},
                                        {"/4", 4.0},
                                        {"/8", 8.0},
                                        {"/16", 16.0}}) {
        const std::string_view rest = text.substr(std::min(figure.size(), text.size()));
        if (!text.starts_with(figure) || (!rest.empty() && is_digit(rest[0]))) continue;
        divisor = value;
        text = rest;
        return true;
    }
    return false;
}

std::string_view take_unit_word(std::string_view& text) {
    std::size_t size = static_cast<std::size_t>(
        std::find_if_not(text.begin(), text.end(), is_letter) - text.begin());
    if (size == 0 && !text.empty() && std::string_view("%'\"").find(text[0]) != text.npos) size = 1;
    const std::string_view tail = text.substr(size);
    if (size > 0 && tail.starts_with("/s") && (tail.size() == 2 || !is_letter(tail[2]))) size += 2;
    const std::string_view word = text.substr(0, size);
    text.remove_prefix(size);
    return word;
}

// The commonest slips get their own advice.
void refuse_usual_slips(std::string_view plain, std::string_view text, const Subject& subject) {
    if (plain.empty()) refuse(subject, text, "is empty");
    if (plain[0] == '-') refuse(subject, text, "is negative", "write it without the sign");
    if (plain.find(',') != plain.npos) {
        refuse(subject, text, "has a comma in it", "write a decimal point, like 2.5");
    }
}

Term take_term(std::string_view& rest, std::string_view text, const Subject& subject) {
    const std::string_view start = rest;
    Term term{};
    if (!take_number(rest, term.number)) refuse(subject, text, "is not understood");
    std::string_view figure = start.substr(0, start.size() - rest.size());
    skip_spaces(rest);
    const std::string_view word = take_unit_word(rest);
    const std::optional<Unit> unit = find_unit(word);
    if (!unit) refuse(subject, text, fmt::format("has an unknown unit, '{}'", word));
    term.unit = *unit;
    skip_spaces(rest);
    const std::string_view name = unit_name(term.unit);
    term.shown = fmt::format("{}{}{}", figure, name.empty() || name == "°" ? "" : " ", name);
    return term;
}

}  // namespace

std::string plain_text(std::string_view text) {
    std::string plain;
    while (!text.empty()) {
        const auto* known =
            std::find_if(plain_spellings.begin(), plain_spellings.end(),
                         [&](const PlainSpelling& s) { return text.starts_with(s.first); });
        if (known != plain_spellings.end()) {
            plain += known->second;
            text.remove_prefix(known->first.size());
        } else {
            const char c = text[0];
            plain += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
            text.remove_prefix(1);
        }
    }
    plain.erase(0, std::min(plain.find_first_not_of(' '), plain.size()));
    plain.erase(plain.find_last_not_of(' ') + 1);
    return plain;
}

bool drop_ending(std::string& plain, std::string_view ending) {
    if (!plain.ends_with(ending)) return false;
    plain = plain_text(std::string_view(plain).substr(0, plain.size() - ending.size()));
    return true;
}

bool drop_beginning(std::string& plain, std::string_view beginning) {
    if (!plain.starts_with(beginning)) return false;
    plain = plain_text(std::string_view(plain).substr(beginning.size()));
    return true;
}

bool take_number(std::string_view& text, double& number) {
    const auto end =
        std::find_if_not(text.begin(), text.end(), [](char c) { return is_digit(c) || c == '.'; });
    const std::string_view figure = text.substr(0, static_cast<std::size_t>(end - text.begin()));
    std::string_view rest = text.substr(figure.size());
    const bool whole = count_digits(figure) == figure.size();
    const auto read = figure.empty() ? 0.0 : plain_number(figure);
    if (!read) return false;
    double value = *read;

    double part = 0.0;
    std::string_view after_space = rest;
    skip_spaces(after_space);
    if (whole && take_vulgar_fraction(figure.empty() ? rest : after_space, part)) {
        if (!figure.empty()) rest = after_space;
        value += part;
    } else if (figure.empty()) {
        return false;
    } else if (whole && take_divisor(rest, part)) {
        value /= part;
    }
    number = value;
    text = rest;
    return true;
}

std::vector<std::string> split_at_commas(std::string_view plain) {
    std::vector<std::string> parts;
    for (std::size_t comma = plain.find(','); comma != plain.npos; comma = plain.find(',')) {
        parts.push_back(plain_text(plain.substr(0, comma)));
        plain.remove_prefix(comma + 1);
    }
    parts.push_back(plain_text(plain));
    return parts;
}

std::vector<Term> read_terms(std::string_view text, const Subject& subject) {
    const std::string plain = plain_text(text);
    refuse_usual_slips(plain, text, subject);
    std::vector<Term> terms;
    for (std::string_view rest = plain; !rest.empty();) {
        terms.push_back(take_term(rest, text, subject));
    }
    return terms;
}

Term read_term(std::string_view text, const Subject& subject) {
    const std::vector<Term> terms = read_terms(text, subject);
    if (terms.size() != 1) refuse(subject, text, "is not understood");
    return terms.front();
}

void refuse(const Subject& subject, std::string_view text, std::string_view reason,
            std::string remedy) {
    if (remedy.empty()) remedy = fmt::format("write it like {}", subject.examples);
    const bool empty = text.find_first_not_of(" \t\n") == text.npos;
    const std::string quoted = empty ? "" : fmt::format("'{}' ", cut(text));
    throw InputError(fmt::format("{} {}{}", subject.what, quoted, reason), remedy);
}

}  // namespace dewtrail
