#include "greens/number.hpp"

#include <charconv>
#include <cmath>

namespace dewtrail {

std::optional<double> plain_number(std::string_view text) {
    double value = 0;
    const char* const end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, value);
    if (error != std::errc() || stop != end || !std::isfinite(value)) return std::nullopt;
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
