#include "viewer/putt/note.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <string_view>

#include "physics/roll/green_speed.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/clock_and_angle.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

constexpr double deg = 180 / std::numbers::pi;
constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double narrow_room_rad = 0.1 / deg;
constexpr double half_percent = 0.005;
constexpr const char* for_your_spread = "for your spread";
constexpr double near_square_rad = 80 / deg;

double or_nan(const std::optional<double>& value) {
    return value.value_or(nan);
}

const char* side(double offset) {
    return offset >= 0 ? "right" : "left";
}

double entry_clock_h(const Read& read) {
    return read.entry.holed ? read.entry.clock_rad * hours_per_rad : nan;
}

/// A turn of the start line, as inches at the hole's depth.
double at_hole_depth(const Read& read, double distance_m, double turn_rad) {
    const double a = read.stroke.angle_rad;
    if (std::abs(a) > near_square_rad || std::abs(a + turn_rad) > near_square_rad)
        return distance_m * std::abs(turn_rad);
    return distance_m * std::abs(std::tan(a + turn_rad) - std::tan(a));
}

NoteRow stand_in_row(const Read& read, const Units& units, bool detail) {
    NoteRow row{Glyph::stand_in, "Stand-in hole", level_putt_words(read.level_putt_m, units), "",
                ""};
    if (detail) row.figure = "leaves at " + format_speed(read.stroke.speed_m_s, units);
    return row;
}

NoteRow apex_row(const Solved& s, const Read& read, const Units& units, bool detail) {
    const double along = read.apex ? read.apex->along_m : nan;
    const double offset = read.apex ? read.apex->offset_m : nan;
    NoteRow row{Glyph::apex, "Apex", apex_words(along, offset, s.putt.distance_m(), units), "", ""};
    if (row.words.rfind("none", 0) != 0)
        row.second = apex_line_words(or_nan(read.line_above_apex_m), units);
    if (detail && read.apex) row.figure = format_distance(along, units) + " on";
    return row;
}

std::string finish_figure(const Read& read, const Units& units) {
    const std::string speed = format_speed(read.arrival_speed_m_s, units);
    if (!read.entry.holed) return speed;
    return fmt::format("{}, in at {}", speed, format_entry_clock(entry_clock_h(read)));
}

NoteRow finish_row(const Solved& s, const Read& read, const Units& units, bool detail) {
    const double clock = entry_clock_h(read);
    NoteRow row{Glyph::finish, "Finish", "", "", ""};
    const bool short_putt = !s.choices.empty() && read.entry.holed;
    row.words = short_putt
                    ? "in " + entry_words(clock)
                    : arrival_words(or_nan(read.past_m), read.arrival_speed_m_s, clock, units);
    if (!read.entry.holed && s.read) row.second = "too fast to drop";
    if (detail) row.figure = finish_figure(read, units);
    return row;
}

std::string room_figure(const Room& room) {
    const double left = -room.angle_lo_rad * deg, right = room.angle_hi_rad * deg;
    const std::string turn =
        std::abs(left - right) < 0.06
            ? "±" + format_degrees(std::min(left, right))
            : fmt::format("−{} to +{}", format_degrees(left), format_degrees(right));
    return fmt::format("{}, {} to +{}", turn, format_halves(100 * room.pace_lo),
                       format_half_percent(room.pace_hi));
}

NoteRow room_row(const Solved& s, const Read& read, const Units& units, bool detail) {
    NoteRow row{Glyph::room, "Room", "", "", ""};
    const Room& room = *read.room;
    if (room.angle_hi_rad - room.angle_lo_rad < 2 * narrow_room_rad) {
        row.words = "under 0.1°";
    } else {
        row.words =
            room_words(at_hole_depth(read, s.putt.distance_m(), room.angle_hi_rad),
                       at_hole_depth(read, s.putt.distance_m(), room.angle_lo_rad),
                       -room.pace_lo * read.level_roll_m, room.pace_hi * read.level_roll_m, units);
        if (const auto dot = row.words.find(" · "); dot != std::string::npos)
            row.words.replace(dot, std::string(" · ").size(), ", ");
    }
    if (detail) row.figure = room_figure(room);
    return row;
}

/// Left out where the changed green would be aimed at the centre.
void add_cost(NoteRow& row, const std::string& words, double aim_m, const Units& units) {
    if (format_aim(aim_m, units) == format_aim(0, units)) return;
    const auto colon = words.find(": ");
    row.table.emplace_back(words.substr(0, colon), words.substr(colon + 2));
}

NoteRow costs_row(const Read& read, const Units& units) {
    NoteRow row{Glyph::drop, "A misread costs", "", "", ""};
    if (read.aim_offset_m && read.costs.aim_m_per_slope) {
        const double aim = *read.aim_offset_m + half_percent * *read.costs.aim_m_per_slope;
        add_cost(row, misread_slope_words(half_percent, aim, units), aim, units);
    }
    if (read.aim_offset_m && read.costs.aim_m_per_stimp_m) {
        const double aim = *read.aim_offset_m + metres_per_foot * *read.costs.aim_m_per_stimp_m;
        add_cost(row, misread_stimp_words(1, aim, units), aim, units);
    }
    return row;
}

/// The terminal's words; where the putt lags, its heading and what follows it.
NoteRow odds_row(const Solved& s, const OddsShown& shown, const Units& units, bool detail) {
    const double known = shown.odds ? shown.odds->holed : nan;
    const double holed = shown.holed.value_or(known);
    const bool lag = lags(holed, s.putt.distance_m());
    NoteRow row{Glyph::odds, "", "", "", ""};
    row.words =
        odds_words(holed, shown.odds ? shown.odds->inside_3ft : nan,
                   shown.odds ? shown.odds->usual_leave_m : nan, s.putt.distance_m(), units);
    if (lag && row.words != absent) {
        const auto colon = row.words.find(": ");
        row.label = row.words.substr(0, colon);
        row.words = row.words.substr(colon + 2);
    }
    row.spread = for_your_spread;
    row.pending = !shown.fresh && (lag || !shown.holed);
    if (detail && shown.odds)
        row.second = odds_detail_words(holed, shown.odds->three_putt, shown.odds->putts);
    row.detail_pending = !shown.fresh;
    return row;
}

void tell_choices(Note& note, const OddsShown& shown) {
    constexpr std::string_view about = "about ";
    for (const auto& chance : shown.choices) {
        std::string words = chance ? chance_words(*chance) : "";
        if (words.rfind(about, 0) == 0) words.erase(0, about.size());
        note.choice_odds.push_back(words);
    }
    note.choice_odds.resize(note.choices.size());
    note.choice_odds_pending = !shown.choices_fresh;
}

void tell_aim(Note& note, const Solved& s, const Read& read, const Units& units, bool detail) {
    const double angle = read.stroke.angle_rad;
    if (read.aim_offset_m) {
        note.hero = aim_words(*read.aim_offset_m, units);
        note.hero_second = format_aim(*read.aim_offset_m, units) + " from the centre";
    } else {
        note.hero = fmt::format("{} {}", format_degrees(std::abs(angle) * deg), side(angle));
        note.hero_second = "of the hole: too far off for a spot";
    }
    if (!s.read) note.hero = absent, note.hero_second.clear();
    if (!detail || !s.read) return;
    note.hero_figure = fmt::format("{} {}", format_degrees(std::abs(angle) * deg), side(angle));
    note.hero_detail = fmt::format("start spot {} on, {} {}", format_spot(read.start_spot.along_m),
                                   format_spot(std::abs(read.start_spot.offset_m)),
                                   side(read.start_spot.offset_m));
}

std::string sentence(std::string words) {
    if (!words.empty() && words[0] >= 'a' && words[0] <= 'z')
        words[0] = static_cast<char>(words[0] - 32);
    return words + ".";
}

std::string putt_words(const Solved& s, const Units& units) {
    const Finish& finish = s.putt.finish;
    const auto clock_h = clock_of(s.putt);
    const std::string clock = clock_h ? fmt::format("ball at {}, ", format_clock(*clock_h)) : "";
    const std::string end = finish.kind == Finish::Kind::past
                                ? finish_words(finish.value, units)
                                : format_speed(finish.value, units) + " at the hole";
    const double stimp_ft = stimp_of_resistance(s.putt.resistance) / metres_per_foot;
    return fmt::format("{}, {}, {}stimp {}, {}.", format_distance(s.putt.distance_m(), units),
                       format_slope(s.putt.slope_at_hole()), clock, format_stimp(stimp_ft), end);
}

}  // namespace

Note note_of(const Solved& s, const Units& units, bool detail, const OddsShown& odds) {
    Note note;
    const Read* read = s.shown();
    note.heading =
        read ? direction_words(read->stroke.angle_rad, s.putt.distance_m(), s.putt.mean_rise())
             : absent;
    note.hero = absent;
    if (!read) return note;
    tell_aim(note, s, *read, units, detail);
    if (!s.read) return note;
    note.choices = s.choices;
    note.taken = odds.taken;
    if (!note.choices.empty()) tell_choices(note, odds);
    note.rows = {stand_in_row(*read, units, detail), apex_row(s, *read, units, detail),
                 finish_row(s, *read, units, detail)};
    if (read->room) note.rows.push_back(room_row(s, *read, units, detail));
    // On a short putt the finishes carry the odds, if one of them is the read's.
    const bool told = std::any_of(s.choices.begin(), s.choices.end(),
                                  [](const FinishChoice& choice) { return choice.chosen; });
    const bool known = odds.holed || odds.odds || odds.awaited;
    if (known && (!told || detail)) note.rows.push_back(odds_row(s, odds, units, detail));
    if (known && told && !detail) note.spread = for_your_spread;
    NoteRow costs = costs_row(*read, units);
    if (!costs.table.empty()) note.rows.push_back(std::move(costs));
    return note;
}

std::string taken_words(BestKind kind, const PlayedChoice& taken,
                        const std::optional<PlayedChoice>& plain) {
    const bool fewest = kind == BestKind::fewest_putts;
    std::string words = fewest ? "best choice" : "most holed";
    if (!plain) return words;
    if (!fewest)
        words += fmt::format(", {} for {}", format_percent(taken.odds.holed),
                             format_percent(plain->odds.holed));
    const double saved = plain->odds.putts - taken.odds.putts;
    const std::string strokes = strokes_words(saved);
    if (strokes == "nothing") return words + ": as many putts as the plain read";
    return fmt::format("{}: {} {}", words, saved > 0 ? "saves" : "costs", strokes);
}

std::string read_as_text(const Solved& s, const Units& units) {
    std::string text = putt_words(s, units);
    const Trouble trouble = trouble_of(s, units);
    if (!s.read) return text + " " + trouble.words;
    const Note note = note_of(s, units, false);
    text += fmt::format(" {} Aim {} ({}).", sentence(note.heading), note.hero, note.hero_second);
    text += " " + sentence(note.rows[0].words);
    text += " Apex " + note.rows[1].words;
    if (!note.rows[1].second.empty()) text += "; the " + note.rows[1].second;
    return text + ".";
}

std::string short_choice_words(const FinishChoice& choice, const Units& units) {
    const std::string words = choice_words(choice, units);
    if (!choice.aim_offset_m || words.find("out") == std::string::npos) return words;
    return aim_short(*choice.aim_offset_m, units) + " out";
}

std::string choice_words(const FinishChoice& choice, const Units& units) {
    if (!choice.aim_offset_m) return absent;
    std::string words = aim_words(*choice.aim_offset_m, units);
    for (const char* side_word : {" right", " left"}) {
        const std::string ending = side_word;
        const bool ends = words.size() > ending.size() &&
                          words.compare(words.size() - ending.size(), ending.size(), ending) == 0;
        if (ends && words.find("out") != std::string::npos)
            words.erase(words.size() - ending.size());
    }
    return words;
}

}  // namespace dewtrail
