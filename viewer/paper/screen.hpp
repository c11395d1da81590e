#pragma once

#include <string>

#include "viewer/modes/shell/shell.hpp"

namespace dewtrail {

/// What the window would show of a mode, two pixels to one of its own; no display is needed. The
/// PNG file's bytes; std::runtime_error if cairo fails.
std::string screen_png(Shell& shell);

}  // namespace dewtrail
