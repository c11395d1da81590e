#pragma once

#include "viewer/terminal/session.hpp"

namespace dewtrail {

/// Adds `dewtrail window`: opens the window on a putt or green given by the options of `read`.
void add_window_command(const Command& app, Session& session);

}  // namespace dewtrail
