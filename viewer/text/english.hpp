#pragma once

#include <fmt/format.h>

#include <string>

/// Small changes to English words.
namespace dewtrail {

/// '1 putt logged', '2 putts logged'.
template <class Count>
std::string counted(Count count, const std::string& one, const std::string& many) {
    return fmt::format("{} {}", count, count == 1 ? one : many);
}
/// '1 ball', '2 balls'.
template <class Count>
std::string counted(Count count, const std::string& thing) {
    return counted(count, thing, thing + "s");
}

/// Its first letter, if it is one of a to z, or A to Z, large or small.
std::string capital(std::string words);
std::string uncapital(std::string words);
/// All of them, A to Z, small.
std::string lower_case(std::string words);

}  // namespace dewtrail
