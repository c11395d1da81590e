#include "viewer/putt/misread_row.hpp"

#include <fmt/format.h>

#include <cmath>
#include <utility>

#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

using Maybe = std::optional<double>;

constexpr double half_percent = 0.005, percent = 0.01;

/// Where a steeper green would hardly hold a ball, reads change so fast that a derivative says
/// nothing any more. Before that what it tells is within a seventh of the read solved anew, or 5
/// cm.
bool is_wild(const Putt& putt, double change_m, double from_m) {
    constexpr double much_m = 12 * metres_per_inch, much = 0.3, hardly = 1.3;
    return hardly * (putt.slope_at_hole() + half_percent) >= putt.holding() &&
           std::abs(change_m) > much_m && std::abs(change_m) > much * std::abs(from_m);
}

Maybe unless_wild(const Putt& putt, const Maybe& change_m, const Maybe& from_m) {
    return from_m && change_m && !is_wild(putt, *change_m, *from_m) ? change_m : std::nullopt;
}

/// As an aim is told, but from three feet on to half a foot: a derivative knows it no better.
std::string format_moved_aim(double aim_m, const Units& units) {
    constexpr double from_m = 3 * metres_per_foot;
    if (units.metric || std::abs(aim_m) < from_m) return format_aim(aim_m, units);
    return format_halves(std::abs(aim_m) / metres_per_foot) + " ft";
}

/// The aim that a changed green asks for; its side where that is no longer the read's.
std::string moved_aim_words(double aim_m, double read_aim_m, const Units& units) {
    const std::string figure = format_moved_aim(aim_m, units), centre = format_aim(0, units);
    const bool from_centre = format_aim(read_aim_m, units) == centre;
    if (figure == centre) return from_centre ? "" : "aim the centre";
    const bool sided = from_centre || aim_m * read_aim_m < 0;
    return fmt::format("aim {}{}", figure, sided ? aim_m >= 0 ? " right" : " left" : "");
}

/// 'aim 19 in, play 11½ ft': what a changed green asks for.
std::string changed_words(const Read& read, const Maybe& aim_change_m, const Maybe& pace_change_m,
                          const Units& units) {
    std::string words;
    if (aim_change_m)
        words = moved_aim_words(*read.aim_offset_m + *aim_change_m, *read.aim_offset_m, units);
    if (!pace_change_m) return words;
    const std::string plays = format_level_putt(read.level_putt_m + *pace_change_m, units);
    return fmt::format("{}{}play {}{}", words, words.empty() ? "" : ", ",
                       plays == "tap" ? "a " : "", plays);
}

/// What was misread, its two ways round, and what it changes.
struct Misread {
    std::string more, less;
    Maybe aim_m, level_putt_m;
};

/// Both ways round; left out where no figure of the read would be another either way.
void add_misread(AccountRow& row, const Putt& putt, const Read& read, const Misread& misread,
                 const Units& units) {
    const Maybe aim = unless_wild(putt, misread.aim_m, read.aim_offset_m);
    const Maybe pace = unless_wild(putt, misread.level_putt_m, read.level_putt_m);
    const auto asks = [&](double times) {
        return changed_words(read, scaled(aim, times), scaled(pace, times), units);
    };
    const std::string as_read = asks(0);
    std::string more = asks(1), less = asks(-1);
    if (more == as_read && less == as_read) return;
    row.table.emplace_back(misread.more, std::move(more));
    row.table.emplace_back(misread.less, std::move(less));
}

/// Whether it asks for another aim, told as aims are, or so wildly that nobody tells it.
bool moves_aim(const Read& read, const Misread& misread, const Units& units) {
    if (!misread.aim_m || !read.aim_offset_m) return false;
    const auto told = [&](double times) {
        return format_moved_aim(*read.aim_offset_m + times * *misread.aim_m, units);
    };
    return told(1) != told(0) || told(-1) != told(0);
}

/// Half a percent more that way, in the player's words: uphill or downhill, falling left or right.
std::string tilt_words(const Putt& putt, const Vec2& rises_toward) {
    const Vec2 e = putt.line().normalized(), right(e.y(), -e.x());
    const double along = rises_toward.dot(e), across = rises_toward.dot(right);
    if (std::abs(along) > std::abs(across))
        return along > 0 ? "½ % more uphill" : "½ % more downhill";
    return across > 0 ? "½ % more fall left" : "½ % more fall right";
}

Misread slope_misread(const Putt& putt, const Costs& c) {
    const auto up = uphill_at_hole(putt);
    const Vec2 level_up = putt.line().normalized();
    return {up ? "½ % more slope" : tilt_words(putt, level_up),
            up ? "½ % less slope" : tilt_words(putt, -level_up),
            scaled(c.aim_m_per_slope, half_percent),
            scaled(c.level_putt_m_per_slope, half_percent)};
}

Misread cross_slope_misread(const Putt& putt, const Costs& c) {
    const Vec2 up = uphill_at_hole(putt).value_or(putt.line().normalized()), right(up.y(), -up.x());
    return {tilt_words(putt, right), tilt_words(putt, -right),
            scaled(c.aim_m_per_cross_slope, half_percent),
            scaled(c.level_putt_m_per_cross_slope, half_percent)};
}

Misread stimp_misread(const Costs& c) {
    return {"1 ft more stimp", "1 ft less stimp", scaled(c.aim_m_per_stimp_m, metres_per_foot),
            scaled(c.level_putt_m_per_stimp_m, metres_per_foot)};
}

}  // namespace

AccountRow misread_row(const Putt& putt, const Read& read, const Units& units) {
    const Costs& c = read.costs;
    AccountRow row{Glyph::drop, "A misread costs"};
    row.table.reserve(6);
    const Misread slope = slope_misread(putt, c);
    add_misread(row, putt, read, slope, units);
    if (!moves_aim(read, slope, units))
        add_misread(row, putt, read, cross_slope_misread(putt, c), units);
    add_misread(row, putt, read, stimp_misread(c), units);
    row.figures = {
        {"costs.aim_m_per_slope_percent", scaled(c.aim_m_per_slope, percent)},
        {"costs.aim_m_per_cross_slope_percent", scaled(c.aim_m_per_cross_slope, percent)},
        {"costs.aim_m_per_stimp_ft", scaled(c.aim_m_per_stimp_m, metres_per_foot)},
        {"costs.level_putt_m_per_slope_percent", scaled(c.level_putt_m_per_slope, percent)},
        {"costs.level_putt_m_per_cross_slope_percent",
         scaled(c.level_putt_m_per_cross_slope, percent)},
        {"costs.level_putt_m_per_stimp_ft", scaled(c.level_putt_m_per_stimp_m, metres_per_foot)}};
    return row;
}

}  // namespace dewtrail
