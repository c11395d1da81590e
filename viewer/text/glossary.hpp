#pragma once

#include <span>
#include <string_view>

/// The words of the trade that the screen uses, each explained in a sentence.
namespace dewtrail {

struct Explained {
    std::string_view word;      ///< as the help sheet names it
    std::string_view sentence;  ///< one
    bool within = false;        ///< it is explained as a part of longer words, too
};
std::span<const Explained> glossary();

/// The word that a text on the screen is, or has in it; none where it explains itself.
const Explained* explained(std::string_view text);

/// What the three dots beside a slope are called in the glossary.
inline constexpr std::string_view three_dots = "three dots";

/// And the value that has a default which a newcomer did not choose.
inline constexpr std::string_view finish_word = "finish";

}  // namespace dewtrail
