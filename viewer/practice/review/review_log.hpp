#pragma once

#include <optional>
#include <string>

#include "viewer/practice/log/logged_putt.hpp"
#include "viewer/practice/review/review.hpp"

namespace dewtrail {

/// Where a ball stopped according to the player, and how exactly that is known: metres beyond the
/// hole along the ball-hole line, and to its right.
struct ToldRest {
    Eigen::Vector2d at = Eigen::Vector2d::Zero();
    Eigen::Vector2d sd = Eigen::Vector2d::Zero();
    bool exact = false;  ///< both were measured: the stroke itself can be solved
};

/// Measured: good to an inch and 5 % of what is left. Words alone: short is 1½ ft before the hole
/// +- 1 ft, long 2½ ft past it +- 1½ ft, low or high 8 in to that side +- 5 in; unsaid, a foot past
/// +- 1 ft and on the line +- 4 in. Only how far is left: the words' direction, that far. (No
/// source: what such words are meant to say.) None where nothing at all was said.
std::optional<ToldRest> told_rest(const Putt& putt, const Leave& leave, std::string_view missed);

/// A logged putt as it is reviewed: the read stands in for a line or pace that was not meant
/// otherwise. None where the log does not say enough: a slope with a clock (or a straight level
/// putt), and where it ended.
std::optional<PlayedPutt> played_putt(const LoggedPutt& logged, const Player& player);

/// The same for a putt that is already set up.
std::optional<PlayedPutt> played_putt(const PlacedPutt& plan, std::optional<double> aim_m,
                                      std::optional<double> level_putt_m, const ToldRest& rest,
                                      double player_past_m);

}  // namespace dewtrail
