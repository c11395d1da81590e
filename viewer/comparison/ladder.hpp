#pragma once

#include <array>
#include <optional>
#include <string>

#include "viewer/putt/setup.hpp"

/// The putts of a ladder: some lengths, for a ball above, beside and below the hole.
namespace dewtrail {

struct LadderFall {
    double clock_h;
    const char *words, *brief;
};
inline constexpr std::array<LadderFall, 3> ladder_falls{
    {{1.5, "Ball above the hole, at 1:30", "above, 1:30"},
     {3, "Ball beside the hole, at 3:00", "beside, 3:00"},
     {4.5, "Ball below the hole, at 4:30", "below, 4:30"}}};

/// One of them on a plane; of the ground its slope, stimp and finish are looked at. The path is
/// kept; room, costs and other lines are not looked for. None where there is no line.
std::optional<Read> ladder_read(const Setup& ground, const LadderFall& fall, double distance_m,
                                double player_past_m);

/// Why there is none, in one sentence; nothing where there is one.
std::optional<std::string> no_ladder_read(const Setup& ground, const LadderFall& fall,
                                          double distance_m, double player_past_m,
                                          const Units& units);

}  // namespace dewtrail
