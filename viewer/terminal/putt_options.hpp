#pragma once

#include "viewer/putt/putt_request.hpp"
#include "viewer/terminal/session.hpp"

namespace dewtrail {

/// Adds every way to give a putt (product words) to a command; what is typed lands in `request`,
/// which must outlive the parsing.
void add_putt_options(const Command& command, PuttRequest& request);

/// Only the ground and the finish: for commands that place the ball themselves.
void add_ground_options(const Command& command, PuttRequest& request);
void add_finish_options(const Command& command, PuttRequest& request);

/// How well slope and stimp are known: for the command that tells a band.
void add_sure_options(const Command& command, PuttRequest& request);

/// Skid, wind, grain and resistance at low speed: for commands that roll a ball.
void add_condition_options(const Command& command, ConditionRequest& request);

/// What the player file and the units option say where the putt does not.
PuttDefaults defaults_of(Session& session);

}  // namespace dewtrail
