#pragma once

#include <string_view>

#include "viewer/picture/layout.hpp"

namespace dewtrail {

/// A small drawing of a word of the glossary, in a square; nothing where words are enough.
Picture word_picture(std::string_view word, const Rect& square, const Look& look);

}  // namespace dewtrail
