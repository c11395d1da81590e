#pragma once

#include <string>

namespace dewtrail {

/// A name from a file, fit to be shown: control characters become spaces.
std::string printable(std::string text);

}  // namespace dewtrail
