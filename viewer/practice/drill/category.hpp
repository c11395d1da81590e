#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "greens/units.hpp"
#include "viewer/putt/clock.hpp"

/// The kinds of putt that practice tells apart: which way it breaks, which way it climbs, how long.
namespace dewtrail {

enum class BreakSide { left_to_right, right_to_left, straight, both_ways };
enum class Grade { uphill, level, downhill };
enum class Reach { short_putt, middle, long_putt };

struct Category {
    BreakSide side = BreakSide::straight;
    Grade grade = Grade::level;
    Reach reach = Reach::middle;

    bool operator==(const Category&) const = default;
    int index() const {
        return (static_cast<int>(side) * 3 + static_cast<int>(grade)) * 3 + static_cast<int>(reach);
    }
};
inline constexpr int category_count = 36;
inline constexpr int plane_categories =
    27;  ///< the first of them: on a plane nothing breaks both ways
Category category_at(int index);

/// Where the kinds meet: slope along the line, slope across it, distance.
inline constexpr double level_below = 0.005;
inline constexpr double straight_below = 0.0025;
inline constexpr double short_below_m = 8 * metres_per_foot;
inline constexpr double long_above_m = 20 * metres_per_foot;

/// From the mean slope over the ball-hole line: `up` rises toward the hole, `falls_left` falls to
/// the player's left (right to left).
Category category_of(double distance_m, double up, double falls_left);
/// The same; where the ground falls one way and then the other, and the read's path turns on either
/// side of the line, both ways.
Category category_of(const Putt& putt);

/// What part of a break was seen is asked only of putts that break one way: both ways, the aim is
/// the difference of two.
bool breaks_one_way(BreakSide side);

/// 'right-to-left', 'both-ways', 'uphill', 'short', and 'right-to-left downhill short'.
std::string_view name_of(BreakSide side);
std::string_view name_of(Grade grade);
std::string_view name_of(Reach reach);
std::string name_of(const Category& category);
/// As a golfer says it: 'short left-to-right downhill putts'.
std::string putts_words(const Category& category);
std::optional<BreakSide> find_side(std::string_view name);
std::optional<Grade> find_grade(std::string_view name);
std::optional<Category> find_category(std::string_view name);

}  // namespace dewtrail
