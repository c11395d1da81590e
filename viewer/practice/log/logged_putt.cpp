#include "viewer/practice/log/logged_putt.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "greens/csv.hpp"
#include "greens/input_error.hpp"
#include "greens/measure.hpp"
#include "viewer/files/dates.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/clock_and_angle.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {
namespace {

template <auto... path>
constexpr RecordField<LoggedPutt> plain(const char* name) {
    return field<LoggedPutt, path...>(name);
}

constexpr RecordField<LoggedPutt> fields[] = {
    plain<&LoggedPutt::date>("date"),
    plain<&LoggedPutt::green>("green"),
    plain<&LoggedPutt::hole>("hole"),
    plain<&LoggedPutt::distance_m>("distance_m"),
    plain<&LoggedPutt::slope>("slope"),
    plain<&LoggedPutt::clock_h>("clock_h"),
    plain<&LoggedPutt::stimp_ft>("stimp_ft"),
    plain<&LoggedPutt::aim_m>("aim_m"),
    plain<&LoggedPutt::level_putt_m>("level_putt_m"),
    plain<&LoggedPutt::holed>("holed"),
    plain<&LoggedPutt::past_m>("past_m"),
    plain<&LoggedPutt::right_m>("right_m"),
    plain<&LoggedPutt::left_m>("left_m"),
    plain<&LoggedPutt::missed>("missed"),
    plain<&LoggedPutt::side>("side"),
    plain<&LoggedPutt::grade>("grade"),
};

constexpr const char* columns[] = {"date",  "green",  "hole", "distance", "slope",
                                   "clock", "stimp",  "aim",  "pace",     "result",
                                   "left",  "missed", "side", "grade"};

bool parse_result(const std::string& text) {
    const std::string plain = plain_text(text);
    for (const char* yes : {"holed", "made", "in", "yes", "1"})
        if (plain == yes) return true;
    for (const char* no : {"missed", "no", "0"})
        if (plain == no) return false;
    throw InputError(fmt::format("result '{}' is not known", text), "write holed or missed");
}

template <class Find>
std::string known(const std::string& text, const char* what, const char* names, Find find) {
    const std::string plain = plain_text(text);
    if (!find(plain))
        throw InputError(fmt::format("{} '{}' is not known", what, text),
                         fmt::format("write {}", names));
    return plain;
}

std::string parse_side(const std::string& text) {
    std::string plain = plain_text(text);
    std::replace(plain.begin(), plain.end(), ' ', '-');
    if (plain == "rl" || plain == "r-l") return std::string(name_of(BreakSide::right_to_left));
    if (plain == "both") return std::string(name_of(BreakSide::both_ways));
    if (plain == "lr" || plain == "l-r") return std::string(name_of(BreakSide::left_to_right));
    return known(plain, "side", "left-to-right, right-to-left, both-ways or straight", find_side);
}

std::string parse_grade(const std::string& text) {
    const std::string plain = plain_text(text);
    if (plain == "flat") return std::string(name_of(Grade::level));
    if (plain == "up" || plain == "down") return plain + "hill";
    return known(text, "grade", "uphill, level or downhill", find_grade);
}

void set_left(LoggedPutt& putt, const Leave& leave) {
    putt.past_m = leave.past_m;
    putt.right_m = leave.right_m;
    putt.left_m = leave.left_m;
}

void set(LoggedPutt& putt, const std::string& column, const std::string& text, const Units& units) {
    if (column == "date") putt.date = parse_date(text);
    if (column == "green") putt.green = text;
    if (column == "hole") putt.hole = text;
    if (column == "distance") putt.distance_m = parse_distance_m(text, units);
    if (column == "slope") putt.slope = parse_slope(text);
    if (column == "clock") putt.clock_h = parse_clock_h(text);
    if (column == "stimp") putt.stimp_ft = parse_stimp_ft(text);
    if (column == "aim") putt.aim_m = parse_aim_offset_m(text, units);
    if (column == "pace") putt.level_putt_m = parse_level_roll_m(text, units, "pace");
    if (column == "result") putt.holed = parse_result(text);
    if (column == "left") set_left(putt, parse_leave(text, units));
    if (column == "missed") putt.missed = parse_missed(text);
    if (column == "side") putt.side = parse_side(text);
    if (column == "grade") putt.grade = parse_grade(text);
}

/// Opposites, not neighbours: a nearly straight putt may be logged either way, and one slope does
/// not say that a putt breaks both ways.
bool contradict(BreakSide a, BreakSide b) {
    return a != b && breaks_one_way(a) && breaks_one_way(b);
}
bool contradict(Grade a, Grade b) {
    return a != b && a != Grade::level && b != Grade::level;
}

template <class Kind>
void check_kind(const std::optional<Kind>& told, Kind known, const char* what) {
    if (!told || !contradict(*told, known)) return;
    throw InputError(fmt::format("{} '{}' contradicts the ball's clock: there it is {}", what,
                                 name_of(*told), name_of(known)),
                     "Leave it out, or correct the clock.");
}

/// Checks the words for the putt's kind against the slope, where that was given.
void complete(LoggedPutt& putt) {
    if (!putt.slope || !putt.clock_h) return;
    const AlongAcross seen = along_across(*putt.slope, *putt.clock_h);
    const Category kind = category_of(putt.distance_m, seen.up, seen.falls_left);
    check_kind(find_side(putt.side), kind.side, "side");
    check_kind(find_grade(putt.grade), kind.grade, "grade");
    if (putt.side.empty()) putt.side = name_of(kind.side);
    if (putt.grade.empty()) putt.grade = name_of(kind.grade);
}

void check(const LoggedPutt& putt) {
    if (putt.distance_m == 0)
        throw InputError("no distance was given", "say how long the putt was: 12ft");
    if (putt.holed && (!putt.missed.empty() || putt.past_m || putt.left_m))
        throw InputError("a putt that was holed left nothing",
                         "leave out where it stopped and how it missed, or write missed");
    const bool at_hole =
        putt.left_m ? *putt.left_m == 0 : putt.past_m && *putt.past_m == 0 && putt.right_m == 0;
    if (!putt.holed && at_hole)
        throw InputError("a ball that missed was not left 0 from the hole",
                         "say where it stopped, or that it was holed");
    if (putt.date > today())
        throw InputError(fmt::format("date {} is still to come", putt.date),
                         "write the day it was played");
}

std::string metres(const std::optional<double>& length_m) {
    return length_m ? fmt::format("{}m", *length_m) : "";
}

std::string with_side(double length_m, const char* positive, const char* negative) {
    return fmt::format("{}m {}", std::abs(length_m), length_m < 0 ? negative : positive);
}

std::string exact_leave(const LoggedPutt& putt) {
    if (!putt.past_m) return metres(putt.left_m);
    return with_side(*putt.past_m, "past", "short") + ' ' +
           with_side(putt.right_m.value_or(0), "right", "left");
}

std::vector<std::string> row_of(const LoggedPutt& putt) {
    return {putt.date,
            putt.green,
            putt.hole,
            metres(putt.distance_m),
            putt.slope ? fmt::format("{}%", *putt.slope * 100) : "",
            putt.clock_h ? fmt::format("{}", *putt.clock_h) : "",
            putt.stimp_ft ? fmt::format("{}", *putt.stimp_ft) : "",
            putt.aim_m ? with_side(*putt.aim_m, "right", "left") : "",
            metres(putt.level_putt_m),
            putt.holed ? "holed" : "missed",
            exact_leave(putt),
            putt.missed,
            putt.side,
            putt.grade};
}

void set_cell(LoggedPutt& putt, const CsvTable& table, std::size_t column, const Units& units) {
    if (table.text(column).empty()) return;
    try {
        set(putt, table.header().cells[column].text, table.text(column), units);
    } catch (const InputError& error) {
        table.fail(column, error.problem(), error.remedy());
    }
}

LoggedPutt read_row(const CsvTable& table, const Units& units) {
    LoggedPutt putt;
    for (std::size_t i = 0; i < table.header().cells.size(); ++i) set_cell(putt, table, i, units);
    try {
        complete(putt);
        check(putt);
    } catch (const InputError& error) {
        table.fail(error.problem(), error.remedy());
    }
    return putt;
}

}  // namespace

bool LoggedPutt::missed_in(std::string_view word) const {
    const auto words = words_of(missed);
    return std::find(words.begin(), words.end(), word) != words.end();
}

Setup setup_of(const LoggedPutt& putt, const Player& player) {
    Setup setup;
    setup.distance_m = putt.distance_m;
    setup.slope = putt.slope.value_or(0);
    setup.clock_h = putt.clock_h.value_or(6);
    setup.stimp_ft = putt.stimp_ft.value_or(player.stimp_ft.value_or(usual_stimp_ft));
    const bool lag = putt.distance_m > lag_distance_m;
    setup.finish = Finish::past(lag ? lag_past_m : player.usual_past_m);
    return setup;
}

std::string out_of_range(const LoggedPutt& putt) {
    if (!putt_range::distance_m.holds(putt.distance_m)) return "its distance is out of range";
    const auto out = [](const std::optional<double>& value, Range range) {
        return value && !range.holds(*value);
    };
    if (out(putt.slope, putt_range::slope)) return "its slope is out of range";
    if (out(putt.clock_h, {0, 12})) return "its clock is out of range";
    if (out(putt.stimp_ft, putt_range::stimp_ft)) return "its stimp is out of range";
    return "";
}

std::span<const RecordField<LoggedPutt>> putt_fields() {
    return fields;
}

std::span<const char* const> putt_columns() {
    return columns;
}

LoggedPutt parse_putt(const std::vector<std::pair<std::string, std::string>>& cells,
                      const Units& units) {
    LoggedPutt putt;
    for (const auto& [column, text] : cells) set(putt, column, text, units);
    complete(putt);
    check(putt);
    return putt;
}

std::vector<LoggedPutt> read_putts_csv(const std::string& name, std::string_view text,
                                       const Units& units) {
    CsvTable table(name, text, fmt::format("{}", fmt::join(columns, ",")));
    table.allow_only(columns);
    if (!table.find("distance"))
        table.fail("there is no column 'distance'", "say how long each putt was");
    std::vector<LoggedPutt> putts;
    while (table.next()) putts.push_back(read_row(table, units));
    return putts;
}

std::string write_putts_csv(const std::vector<LoggedPutt>& putts) {
    std::string text = csv_line({std::begin(columns), std::end(columns)});
    for (const LoggedPutt& putt : putts) text += csv_line(row_of(putt));
    return text;
}

}  // namespace dewtrail
