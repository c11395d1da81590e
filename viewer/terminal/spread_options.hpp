#pragma once

#include <optional>
#include <string>

#include "viewer/practice/player.hpp"
#include "viewer/terminal/session.hpp"

namespace dewtrail {

/// A spread as typed: a preset, and what differs from it. Unset: not given.
struct SpreadRequest {
    std::optional<std::string> preset{}, line{}, pace{}, pace_floor{}, slope_read{}, fall_read{};

    bool operator==(const SpreadRequest&) const = default;
};

/// Adds --spread, --line, --pace-spread, --pace-floor and --slope-read; what is typed lands in
/// `request`, which must outlive the parsing.
void add_spread_options(const Command& command, SpreadRequest& request);
/// The same without --spread.
void add_own_spread_options(const Command& command, SpreadRequest& request);

/// The spread meant: the preset's, else the player's own, with what was typed beside it. Throws
/// InputError.
Spread plan_spread(const SpreadRequest& request, const Player& player);

}  // namespace dewtrail
