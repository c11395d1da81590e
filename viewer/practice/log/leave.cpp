#include "viewer/practice/log/leave.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "greens/input_error.hpp"
#include "greens/measure.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {
namespace {

/// Sides first, then lengths; the two of a pair exclude each other.
constexpr std::array<std::string_view, 6> miss_words{"low",   "high",  "left",
                                                     "right", "short", "long"};

[[noreturn]] void refuse_leave(std::string_view text) {
    throw InputError(fmt::format("left '{}' is not understood", text),
                     "write it like '2ft past 6in left', '18in short' or '2ft'");
}

}  // namespace

std::vector<std::string> words_of(std::string_view text) {
    std::string plain = plain_text(text);
    std::replace(plain.begin(), plain.end(), ',', ' ');
    std::vector<std::string> words;
    for (std::size_t at = 0; (at = plain.find_first_not_of(' ', at)) != plain.npos;) {
        const std::size_t end = std::min(plain.find(' ', at), plain.size());
        words.push_back(plain.substr(at, end - at));
        at = end;
    }
    return words;
}

Leave parse_leave(std::string_view text, const Units& units) {
    const auto words = words_of(text);
    Leave leave;
    std::string length;
    for (const std::string& word : words) {
        const bool along = word == "past" || word == "long" || word == "short";
        if (!along && word != "left" && word != "right") {
            length += (length.empty() ? "" : " ") + word;
            continue;
        }
        if (length.empty()) refuse_leave(text);
        const double size = parse_short_length_m(length, units, "left");
        std::optional<double>& part = along ? leave.past_m : leave.right_m;
        if (part) refuse_leave(text);
        part = word == "short" || word == "left" ? 0.0 - size : size;
        length.clear();
    }
    if (leave.past_m || leave.right_m) {
        if (!length.empty()) refuse_leave(text);
        leave.past_m = leave.past_m.value_or(0);
        leave.right_m = leave.right_m.value_or(0);
        return leave;
    }
    if (length.empty()) refuse_leave(text);
    leave.left_m = parse_short_length_m(length, units, "left");
    return leave;
}

std::string leave_text(const Leave& leave, const Units& units) {
    if (!leave.past_m) return leave.left_m ? format_length(*leave.left_m, units) + " off" : "";
    const double right = leave.right_m.value_or(0);
    const std::string along = fmt::format("{} {}", format_length(*leave.past_m, units),
                                          *leave.past_m < 0 ? "short" : "past");
    if (right == 0) return along;
    return fmt::format("{}, {} {}", along, format_length(right, units),
                       right < 0 ? "left" : "right");
}

std::string parse_missed(std::string_view text) {
    const auto words = words_of(text);
    const auto said = [&](std::string_view word) {
        return std::find(words.begin(), words.end(), word) != words.end();
    };
    for (const std::string& word : words)
        if (std::find(miss_words.begin(), miss_words.end(), word) == miss_words.end())
            throw InputError(fmt::format("missed '{}' is not known", word),
                             "say low, high, left, right, short or long");
    for (const auto& [a, b] : {std::pair("low", "high"), {"left", "right"}, {"short", "long"}})
        if (said(a) && said(b))
            throw InputError(fmt::format("missed {} and {} contradict each other", a, b),
                             "say one of them");
    std::string all;
    for (const std::string_view word : miss_words)
        if (said(word)) all += (all.empty() ? "" : " ") + std::string(word);
    return all;
}

}  // namespace dewtrail
