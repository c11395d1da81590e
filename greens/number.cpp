#include "greens/number.hpp"

#include <charconv>
#include <cmath>
#include <version>
#ifndef __cpp_lib_to_chars
#include <cstdlib>
#endif

namespace dewtrail {

std::optional<double> plain_number(std::string_view text) {
    double value = 0;
#ifdef __cpp_lib_to_chars
    const char* const end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, value);
    if (error != std::errc() || stop != end || !std::isfinite(value)) return std::nullopt;
#else
    // A library without from_chars for doubles, as older ones of clang. strtod takes more: spaces,
    // a plus sign, hexadecimal figures and words, none of which is made of these alone.
    if (text.empty() || text[0] == '+' || text.find_first_not_of("0123456789.eE+-") != text.npos)
        return std::nullopt;
    const std::string figures(text);
    char* stop = nullptr;
    value = std::strtod(figures.c_str(), &stop);
    if (stop != figures.c_str() + figures.size() || !std::isfinite(value)) return std::nullopt;
#endif
    return value;
}

std::string cut(std::string_view text) {
    constexpr std::size_t longest = 60;
    if (text.size() <= longest) return std::string(text);
    std::size_t size = longest;
    while (size > 0 && (static_cast<unsigned char>(text[size]) & 0xC0) == 0x80) --size;
    return std::string(text.substr(0, size)) + "…";
}

}  // namespace dewtrail
