#pragma once

#include "viewer/terminal/session.hpp"

namespace dewtrail {

/// `log --round`: five putts from memory after a round, asked one after the other: length, side, up
/// or down, how it missed. Each is remembered before the next is asked.
Exit run_log_round(Session& session);

}  // namespace dewtrail
