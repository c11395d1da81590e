#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "viewer/files/record.hpp"
#include "viewer/practice/drill/dealt_putt.hpp"

namespace dewtrail {

/// What a drill asks for.
enum class Drill {
    line,   ///< the aim; the pace is given
    pace,   ///< the pace; the line is given
    read,   ///< both
    slope,  ///< percent and fall of a real green, then what the level shows
};
struct DrillKind {
    std::string_view name;     ///< as it is typed and remembered
    const char* called;        ///< 'Line drill'
    bool asks_aim, asks_pace;  ///< of a putt; what it does not ask for it gives
    const char* when_fit;      ///< said of an answer that costs nothing
};
const DrillKind& kind_of(Drill drill);
inline constexpr int drill_count = 4;
inline std::string_view name_of(Drill drill) {
    return kind_of(drill).name;
}
std::optional<Drill> find_drill(std::string_view name);
/// All of them, in order.
std::vector<std::string> drill_names();

/// What an answer was given for.
enum class Occasion { practice, day, week, recall };
std::string_view name_of(Occasion occasion);
std::optional<Occasion> find_occasion(std::string_view name);

/// What the player was told of the ground before answering, beyond what an eye sees of it.
struct Help {
    bool slope = false;     ///< its figures
    bool contours = false;  ///< on the ground
    bool plan = false;      ///< seen from above, uphill up

    bool any() const { return slope || contours || plan; }
    bool operator==(const Help&) const = default;
};
inline constexpr int help_steps = 3;
/// 'slope', 'contours', 'plan'.
std::string_view name_of_help(int step);
bool& step_of(Help& help, int step);
/// 'slope, plan'; empty for none.
std::string words_of(const Help& help);
/// As words_of writes it; none for anything else.
std::optional<Help> find_help(std::string_view words);

/// One answer of a drill, as it is remembered. Lengths in metres, offsets right positive from the
/// hole centre as the player sees it.
struct Answer {
    std::int64_t id = 0;  ///< 0: not remembered yet
    std::string at;       ///< local time, 2026-05-01T18:30:00
    Drill drill = Drill::read;
    Occasion occasion = Occasion::practice;
    std::uint64_t seed = 0;  ///< of its session
    DealtPutt putt;          ///< not for the slope drill
    Category category;
    std::optional<double> aim_m, level_putt_m;  ///< what the player said, or was given
    std::optional<bool> sure;
    std::optional<double> lost;         ///< strokes (expected putts) lost to the read
    std::optional<double> score;        ///< of 10
    std::optional<double> true_aim_m;   ///< the read's
    std::optional<double> break_share;  ///< aim over the read's
    std::optional<double> pace_share;   ///< level roll over the read's
    std::optional<double> slope_said, falls_said_deg;    ///< rise over run; bearing
    std::optional<double> slope_shown, falls_shown_deg;  ///< by the level
    bool told = true;  ///< the player was shown the read afterwards
    Help help{};
};

/// Columns of the table `answer` and of its CSV, in order; all but the id.
std::span<const RecordField<Answer>> answer_fields();

/// What about its putt could not have been asked, or nothing; it would come again the day after.
std::string out_of_range(const Answer& answer);

/// The answers that tell something about the player: of a putt of the day only the first.
std::vector<Answer> counting(const std::vector<Answer>& answers);

}  // namespace dewtrail
