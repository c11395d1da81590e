#pragma once

#include "viewer/terminal/session.hpp"

namespace dewtrail {

/// `dewtrail pocket`: the page for a browser, opening on a putt.
void add_pocket_command(const Command& app, Session& session);

}  // namespace dewtrail
