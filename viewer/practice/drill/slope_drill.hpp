#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "viewer/practice/drill/answer.hpp"

/// The slope drill, on a real green: say percent and fall, then what the level shows.
namespace dewtrail {

/// How the drill is explained.
inline constexpr const char* slope_drill_words =
    "Stand by a spot. Say the slope and which way it falls, as the hand of a clock in front of "
    "you: 12 away from you, 3 to your right. Then lay the level down and type what it shows: the "
    "percent, and the hour that its low end points to.";

/// So many of them unless it is said: the trend starts there.
inline constexpr int usual_spots = 6;

/// One spot: felt slope and fall, then those that the level shows. Slopes rise over run, falls as
/// degrees clockwise from straight ahead.
struct SlopeSpot {
    static constexpr int values = 4;
    std::array<std::optional<double>, values> value{};

    /// 'You feel', 'It falls toward', 'The level shows', 'Its low end points to'; with an example.
    static const char* label(int index);
    static const char* example(int index);
    /// As typed; throws InputError.
    void set(int index, std::string_view text);
    /// With what is being typed, where it can be read already.
    SlopeSpot with(int index, std::string_view text) const;
    /// The first that is not there yet; none when all are.
    std::optional<int> next() const;
    /// As shown to the player: '1.5 %', '4:00'; empty where it was not given yet.
    std::string words(int index) const;
    /// To be remembered. All values must be there.
    Answer answer() const;
};

/// 'You feel 1.5 % where it is 2.0 %; the fall is 15° off.'
std::string slope_result_words(const Answer& answer);

}  // namespace dewtrail
