#include "viewer/terminal/compare_report.hpp"

#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <ostream>

#include "viewer/comparison/compare_words.hpp"
#include "viewer/putt/presets.hpp"
#include "viewer/terminal/read_report.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

using Rows = std::vector<std::vector<std::string>>;
/// A figure of one putt's stroke.
using FigureOf = std::function<std::string(const ComparedPutt&, const Read&)>;

void add_row(Rows& rows, const char* label, const Comparison& comparison, const FigureOf& figure) {
    std::vector<std::string> row{label};
    for (const ComparedPutt& putt : comparison.putts)
        row.push_back(putt.shown() ? figure(putt, *putt.shown()) : absent);
    rows.push_back(std::move(row));
}

bool any_rolled(const Comparison& comparison) {
    return std::any_of(comparison.putts.begin(), comparison.putts.end(),
                       [](const ComparedPutt& p) { return p.rolled.has_value(); });
}

Account account_of_stroke(const ComparedPutt& putt, const Read& read, const Units& units) {
    return account_of(putt.plan.putt, read, units);
}

std::string room_cell(const ComparedPutt& putt, const Units& units) {
    const auto width = putt.room_width_m();
    return width ? format_length(*width, units) + " wide" : "none";
}

std::string outcome_cell(const ComparedPutt& putt, const Read& read, const Units& units) {
    return outcome_words(outcome_of(putt.plan.putt, read), units);
}

std::string share_cell(const ComparedPutt& putt) {
    const auto share = putt.share_of_break();
    if (!share) return absent;
    return *share < 0 ? "wrong side" : format_percent(*share);
}

Rows table_of(const Comparison& comparison, const Units& units) {
    Rows rows{{""}};
    for (const ComparedPutt& putt : comparison.putts)
        rows.front().push_back(as_sentence(putt.name));
    add_row(rows, "Aim", comparison, [&](const ComparedPutt& p, const Read& r) {
        return account_of_stroke(p, r, units).row(Glyph::aim)->words;
    });
    add_row(rows, "From the centre", comparison, [&](const auto&, const Read& r) {
        return r.aim_offset_m ? format_aim(*r.aim_offset_m, units) : absent;
    });
    add_row(rows, "Play it as", comparison,
            [&](const auto&, const Read& r) { return format_level_putt(r.level_putt_m, units); });
    add_row(rows, "On the way", comparison,
            [](const ComparedPutt& p, const Read&) { return format_time(p.time_on_the_way_s()); });
    add_row(rows, "Apex", comparison, [&](const auto&, const Read& r) {
        return r.apex ? format_length(r.apex->offset_m, units) + " high" : "none";
    });
    add_row(rows, "Room", comparison,
            [&](const ComparedPutt& p, const Read&) { return room_cell(p, units); });
    if (!any_rolled(comparison)) return rows;
    add_row(rows, "Share of the break", comparison,
            [&](const ComparedPutt& p, const Read&) { return share_cell(p); });
    add_row(rows, "Result", comparison,
            [&](const ComparedPutt& p, const Read& r) { return outcome_cell(p, r, units); });
    return rows;
}

std::string pull_cell(double pull_m_s2) {
    return fmt::format("{}{:.3f} m/s²", pull_m_s2 < 0 ? "−" : "", std::abs(pull_m_s2));
}

void add_detail_rows(Rows& rows, const Comparison& comparison, const Units& units) {
    add_row(rows, "Start angle", comparison, [](const auto&, const Read& r) {
        return format_degrees(r.stroke.angle_rad * 180 / M_PI);
    });
    add_row(rows, "Leaves at", comparison,
            [&](const auto&, const Read& r) { return format_speed(r.stroke.speed_m_s, units); });
    add_row(rows, "At the hole", comparison,
            [&](const auto&, const Read& r) { return format_speed(r.arrival_speed_m_s, units); });
    const auto pull = [&](double Bend::*what) {
        return [what](const ComparedPutt& p, const Read&) {
            return p.bend ? pull_cell((*p.bend).*what) : std::string(absent);
        };
    };
    add_row(rows, "Pull of the slope", comparison, pull(&Bend::gravity_m_s2));
    add_row(rows, "… of friction", comparison, pull(&Bend::friction_m_s2));
}

void add_chances(Rows& rows, const std::vector<double>& chances) {
    std::vector<std::string> row{"Chance to hole"};
    for (const double chance : chances) row.push_back(chance_words(chance));
    rows.push_back(std::move(row));
}

void print_parts(std::ostream& out, const Comparison& comparison, const Units& units) {
    if (!comparison.difference) return;
    const BreakDifference& d = *comparison.difference;
    out << fmt::format("{} against {}: {} more break, {}.\n",
                       as_sentence(comparison.putts[d.more].name), comparison.putts[d.less].name,
                       format_length(d.parts.whole_m, units), parts_words(d.parts, units));
}

void print_swap(std::ostream& out, const Comparison& comparison, double player_past_m,
                const Units& units) {
    if (const auto swapped = swap_aims(comparison, player_past_m))
        out << swap_sentence(*swapped, units) << '\n';
    else
        out << "The aims cannot be swapped: one of the putts has no aim spot.\n";
}

std::vector<std::string> all_notes(const Comparison& comparison) {
    std::vector<std::string> notes;
    for (const ComparedPutt& putt : comparison.putts)
        for (const std::string& note : putt.plan.notes)
            if (std::find(notes.begin(), notes.end(), note) == notes.end()) notes.push_back(note);
    return notes;
}

Json bend_json(const std::optional<Bend>& bend) {
    if (!bend) return nullptr;
    return {{"break_m", number(bend->break_m)},
            {"time_s", number(bend->time_s)},
            {"gravity_m_s2", number(bend->gravity_m_s2)},
            {"friction_m_s2", number(bend->friction_m_s2)}};
}

/// Null where no side is lower.
Json low_json(HoleSide side) {
    if (side == HoleSide::left || side == HoleSide::right) return nullptr;
    return side == HoleSide::low;
}

Json outcome_json(const Outcome& o, const std::optional<double>& share) {
    return {{"holed", o.holed},
            {"share_of_break", number(share)},
            {"miss_m", number(o.miss_m)},
            {"offset_m", number(o.offset_m)},
            {"low", low_json(o.side)},
            {"short", o.short_of},
            {"leave_m", o.holed ? Json(nullptr) : number(o.leave_m)}};
}

Json stroke_json(const ComparedPutt& putt, const Units& units) {
    if (!putt.rolled) return nullptr;
    Json full = read_json(account_of_stroke(putt, *putt.rolled, units));
    return {
        {"start", full["start"]},
        {"aim", full["aim"]},
        {"outcome", outcome_json(outcome_of(putt.plan.putt, *putt.rolled), putt.share_of_break())}};
}

Json putt_entry(Session& session, const ComparedPutt& putt) {
    Json entry = {{"name", putt.name}, {"putt", putt_json(putt.plan)}};
    const Units units = session.units();
    entry["read"] = nullptr;
    if (putt.read)
        entry["read"] =
            read_json(account_of(putt.plan.putt, *putt.read, units, known_of(putt.plan.setup)));
    if (putt.none) entry["error"] = no_line_json(putt.plan, *putt.none, units);
    entry["break"] = bend_json(putt.bend);
    entry["stroke"] = stroke_json(putt, units);
    return entry;
}

Json difference_json(const Comparison& comparison) {
    if (!comparison.difference) return nullptr;
    const BreakDifference& d = *comparison.difference;
    return {{"more", comparison.putts[d.more].name},   {"less", comparison.putts[d.less].name},
            {"whole_m", number(d.parts.whole_m)},      {"time_m", number(d.parts.time_m)},
            {"gravity_m", number(d.parts.gravity_m)},  {"friction_m", number(d.parts.friction_m)},
            {"residual_m", number(d.parts.residual_m)}};
}

Json swap_json(Session& session, const Comparison& comparison) {
    const auto swapped = swap_aims(comparison, session.player().usual_past_m);
    if (!swapped) return nullptr;
    const Units units = session.units();
    return {{"strokes",
             Json::array({stroke_json((*swapped)[0], units), stroke_json((*swapped)[1], units)})},
            {"sentence", swap_sentence(*swapped, units)}};
}

}  // namespace

std::vector<double> chances_of(const Comparison& comparison, const Spread& spread) {
    std::vector<double> chances;
    for (const ComparedPutt& putt : comparison.putts)
        chances.push_back(chance_of_shown(putt, scatter_of(spread)).value_or(NAN));
    return chances;
}

Json comparison_json(Session& session, const Comparison& comparison, const CompareView& view,
                     const std::string& sentence) {
    Json json = {{"putts", Json::array()}};
    for (const ComparedPutt& putt : comparison.putts)
        json["putts"].push_back(putt_entry(session, putt));
    if (view.odds) {
        const auto chances = chances_of(comparison, session.player().spread);
        for (std::size_t i = 0; i < chances.size(); ++i) {
            Json& entry = json["putts"][i];
            entry["holed"] = number(chances[i]);
            entry["holed_by"] = comparison.putts[i].rolled ? "stroke" : "read";
        }
    }
    json["parts"] = difference_json(comparison);
    json["sentence"] = sentence;
    if (view.swap) json["swap"] = swap_json(session, comparison);
    json["notes"] = all_notes(comparison);
    return json;
}

void print_comparison_table(Session& session, const Comparison& comparison,
                            const CompareView& view) {
    Rows rows = table_of(comparison, session.units());
    if (view.odds) add_chances(rows, chances_of(comparison, session.player().spread));
    if (view.detail) add_detail_rows(rows, comparison, session.units());
    print_table(session.out(), rows);
    session.out() << '\n';
}

void print_comparison_rest(Session& session, const Comparison& comparison,
                           const CompareView& view) {
    std::ostream& out = session.out();
    const Units units = session.units();
    if (view.detail) print_parts(out, comparison, units);
    if (view.swap) print_swap(out, comparison, session.player().usual_past_m, units);
    print_notes(out, all_notes(comparison));
}

Json played_json(const PlayedPutts& played) {
    Json strokes = Json::array();
    for (const PlayedStroke& stroke : played.strokes)
        strokes.push_back({{"along_m", number(stroke.end.along_m)},
                           {"offset_m", number(stroke.end.offset_m)},
                           {"holed", stroke.outcome.holed},
                           {"low", low_json(stroke.outcome.side)}});
    return {{"name", played.name},
            {"share_of_break", number(played.share_of_break)},
            {"holed", played.holed()},
            {"low", played.missed_low()},
            {"high", played.missed_high()},
            {"short", played.stopped_short()},
            {"strokes", strokes}};
}

void print_played(std::ostream& out, const PlayedPutts& played, const Units& units) {
    constexpr int across = 7, beyond = 5, before = 3;  // cells to either side, past and short
    const double wide = units.metric ? 0.15 : 0.5 * metres_per_foot;
    const double deep = units.metric ? 0.3 : metres_per_foot;
    std::vector<std::vector<int>> cells(beyond + before + 1, std::vector<int>(2 * across + 1, 0));
    for (const PlayedStroke& stroke : played.strokes) {
        if (stroke.outcome.holed) continue;
        const auto cell = [](double length, double size, int least, int most) {
            return std::clamp(static_cast<int>(std::lround(length / size)), least, most);
        };
        ++cells[beyond - cell(stroke.end.along_m, deep, -before, beyond)]
               [across + cell(stroke.end.offset_m, wide, -across, across)];
    }
    out << fmt::format("{}: {} holed, {} missed low, {} high, {} over the hole; {} short\n",
                       as_sentence(played.name), played.holed(), played.missed_low(),
                       played.missed_high(), played.over_the_hole(), played.stopped_short());
    for (int row = 0; row < beyond + before + 1; ++row) {
        std::string line = "  ";
        for (int column = 0; column < 2 * across + 1; ++column) {
            const int count = cells[row][column];
            const bool hole = row == beyond && column == across;
            line += count ? fmt::format("{:>3}", count) : hole ? "  O" : "  ·";
        }
        out << line << '\n';
    }
    out << fmt::format("  balls at rest as seen from the ball; a column is {}, a row {}\n\n",
                       format_length(wide, units), format_distance(deep, units));
}

}  // namespace dewtrail
