#include "viewer/text/english.hpp"

namespace dewtrail {
namespace {

// Whatever the locale is: other bytes are parts of other letters.
char small(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}
char large(char c) {
    return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
}

}  // namespace

std::string capital(std::string words) {
    if (!words.empty()) words[0] = large(words[0]);
    return words;
}

std::string uncapital(std::string words) {
    if (!words.empty()) words[0] = small(words[0]);
    return words;
}

std::string lower_case(std::string words) {
    for (char& c : words) c = small(c);
    return words;
}

}  // namespace dewtrail
