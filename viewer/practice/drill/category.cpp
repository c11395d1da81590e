#include "viewer/practice/drill/category.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/practice/drill/plain_read.hpp"

namespace dewtrail {
namespace {

constexpr std::string_view sides[] = {"left-to-right", "right-to-left", "straight", "both-ways"};
constexpr std::string_view grades[] = {"uphill", "level", "downhill"};
constexpr std::string_view reaches[] = {"short", "middle", "long"};

template <class Kind, std::size_t count>
std::optional<Kind> find(const std::string_view (&names)[count], std::string_view name) {
    for (std::size_t i = 0; i < count; ++i)
        if (names[i] == name) return static_cast<Kind>(i);
    return std::nullopt;
}

/// How the ground between ball and hole rises to the player's right.
struct RiseRight {
    double mean = 0;
    bool both_ways = false;  ///< in one place it rises, in another it falls
};

RiseRight rise_right(const Putt& putt) {
    constexpr int samples = 8;
    const Vec2 e = putt.line().normalized(), right(e.y(), -e.x());
    double sum = 0, least = HUGE_VAL, most = -HUGE_VAL;
    for (int i = 0; i <= samples; ++i) {
        const Vec2 p = putt.ball + putt.line() * (double(i) / samples);
        const double rise = putt.surface->at(p.x(), p.y()).gradient().dot(right);
        sum += rise;
        least = std::min(least, rise);
        most = std::max(most, rise);
    }
    return {sum / (samples + 1), least < 0 && most > 0};
}

}  // namespace

Category category_at(int index) {
    return {static_cast<BreakSide>(index / 9), static_cast<Grade>(index / 3 % 3),
            static_cast<Reach>(index % 3)};
}

Category category_of(double distance_m, double up, double falls_left) {
    Category category;
    if (std::abs(falls_left) >= straight_below)
        category.side = falls_left > 0 ? BreakSide::right_to_left : BreakSide::left_to_right;
    if (std::abs(up) >= level_below) category.grade = up > 0 ? Grade::uphill : Grade::downhill;
    if (distance_m < short_below_m) category.reach = Reach::short_putt;
    if (distance_m > long_above_m) category.reach = Reach::long_putt;
    return category;
}

Category category_of(const Putt& putt) {
    const RiseRight rise = rise_right(putt);
    Category category = category_of(putt.distance_m(), putt.mean_rise(), rise.mean);
    if (!rise.both_ways) return category;
    const auto read = plain_read(putt, 0);
    if (read && read->turns) category.side = BreakSide::both_ways;
    return category;
}

bool breaks_one_way(BreakSide side) {
    return side == BreakSide::left_to_right || side == BreakSide::right_to_left;
}

std::string_view name_of(BreakSide side) {
    return sides[static_cast<int>(side)];
}

std::string_view name_of(Grade grade) {
    return grades[static_cast<int>(grade)];
}

std::string_view name_of(Reach reach) {
    return reaches[static_cast<int>(reach)];
}

std::string name_of(const Category& category) {
    return fmt::format("{} {} {}", name_of(category.side), name_of(category.grade),
                       name_of(category.reach));
}

std::string putts_words(const Category& category) {
    const bool middle = category.reach == Reach::middle;
    return fmt::format("{} {} {} putts", middle ? "middle-length" : name_of(category.reach),
                       name_of(category.side), name_of(category.grade));
}

std::optional<BreakSide> find_side(std::string_view name) {
    return find<BreakSide>(sides, name);
}

std::optional<Grade> find_grade(std::string_view name) {
    return find<Grade>(grades, name);
}

std::optional<Category> find_category(std::string_view name) {
    for (int i = 0; i < category_count; ++i)
        if (name_of(category_at(i)) == name) return category_at(i);
    return std::nullopt;
}

}  // namespace dewtrail
