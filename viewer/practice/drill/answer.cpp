#include "viewer/practice/drill/answer.hpp"

#include <charconv>
#include <set>

namespace dewtrail {
namespace {

constexpr DrillKind drills[drill_count] = {
    {"line", "Line drill", true, false, "The line fits."},
    {"pace", "Pace drill", false, true, "The pace fits."},
    {"read", "Whole read", true, true, "Line and pace fit."},
    {"slope", "Slope drill", false, false, ""},
};
constexpr std::string_view occasions[] = {"practice", "day", "week", "recall"};
constexpr std::string_view helps[] = {"slope", "contours", "plan"};

template <class Kind>
std::optional<Kind> find(const std::string_view (&names)[4], std::string_view name) {
    for (int i = 0; i < 4; ++i)
        if (names[i] == name) return static_cast<Kind>(i);
    return std::nullopt;
}

Cell to_cell(Drill drill) {
    return std::string(name_of(drill));
}
Cell to_cell(Occasion occasion) {
    return std::string(name_of(occasion));
}
Cell to_cell(const Category& category) {
    return name_of(category);
}
Cell to_cell(const Help& help) {
    return words_of(help);
}
// As text: a double does not hold every seed.
Cell to_cell(std::uint64_t seed) {
    return std::to_string(seed);
}

template <class Value>
void take(const std::optional<Value>& found, const std::string& name, Value& value) {
    if (!found) throw std::invalid_argument(fmt::format("'{}' is not known", name));
    value = *found;
}

std::string text_of(const Cell& cell) {
    std::string text;
    dewtrail::from_cell(cell, text);
    return text;
}

void from_cell(const Cell& cell, Drill& drill) {
    take(find_drill(text_of(cell)), text_of(cell), drill);
}
void from_cell(const Cell& cell, Occasion& occasion) {
    take(find_occasion(text_of(cell)), text_of(cell), occasion);
}
void from_cell(const Cell& cell, Category& category) {
    take(find_category(text_of(cell)), text_of(cell), category);
}
void from_cell(const Cell& cell, std::uint64_t& seed) {
    const std::string text = text_of(cell);
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), seed);
    if (error != std::errc() || end != text.data() + text.size())
        throw std::invalid_argument(fmt::format("'{}' is no whole number", text));
}

// Empty in memories and exports of before.
void from_cell(const Cell& cell, Help& help) {
    if (std::holds_alternative<std::monostate>(cell)) return;
    take(find_help(text_of(cell)), text_of(cell), help);
}

/// The same for the kinds that only an answer has.
template <auto member>
constexpr RecordField<Answer> kind(const char* name) {
    return {name, [](const Answer& answer) { return to_cell(answer.*member); },
            [](Answer& answer, const Cell& cell) { from_cell(cell, answer.*member); }};
}

template <auto... path>
constexpr RecordField<Answer> plain(const char* name) {
    return field<Answer, path...>(name);
}

constexpr RecordField<Answer> fields[] = {
    plain<&Answer::at>("at"),
    kind<&Answer::drill>("drill"),
    kind<&Answer::occasion>("occasion"),
    kind<&Answer::seed>("seed"),
    plain<&Answer::putt, &DealtPutt::green>("green"),
    plain<&Answer::putt, &DealtPutt::ball_x_m>("ball_x_m"),
    plain<&Answer::putt, &DealtPutt::ball_y_m>("ball_y_m"),
    plain<&Answer::putt, &DealtPutt::hole_x_m>("hole_x_m"),
    plain<&Answer::putt, &DealtPutt::hole_y_m>("hole_y_m"),
    plain<&Answer::putt, &DealtPutt::slope>("slope"),
    plain<&Answer::putt, &DealtPutt::stimp_ft>("stimp_ft"),
    plain<&Answer::putt, &DealtPutt::past_m>("past_m"),
    kind<&Answer::category>("category"),
    plain<&Answer::aim_m>("aim_m"),
    plain<&Answer::level_putt_m>("level_putt_m"),
    plain<&Answer::sure>("sure"),
    plain<&Answer::lost>("lost"),
    plain<&Answer::score>("score"),
    plain<&Answer::true_aim_m>("fit_aim_m"),  // the name that the column was released with
    plain<&Answer::break_share>("break_share"),
    plain<&Answer::pace_share>("pace_share"),
    plain<&Answer::slope_said>("slope_said"),
    plain<&Answer::falls_said_deg>("falls_said_deg"),
    plain<&Answer::slope_shown>("slope_shown"),
    plain<&Answer::falls_shown_deg>("falls_shown_deg"),
    plain<&Answer::told>("told"),
    kind<&Answer::help>("help"),
};

}  // namespace

const DrillKind& kind_of(Drill drill) {
    return drills[static_cast<int>(drill)];
}

std::optional<Drill> find_drill(std::string_view name) {
    for (int i = 0; i < drill_count; ++i)
        if (drills[i].name == name) return static_cast<Drill>(i);
    return std::nullopt;
}

std::vector<std::string> drill_names() {
    std::vector<std::string> names;
    for (const DrillKind& drill : drills) names.emplace_back(drill.name);
    return names;
}

std::string_view name_of(Occasion occasion) {
    return occasions[static_cast<int>(occasion)];
}

std::optional<Occasion> find_occasion(std::string_view name) {
    return find<Occasion>(occasions, name);
}

std::string_view name_of_help(int step) {
    return helps[step];
}

bool& step_of(Help& help, int step) {
    return step == 0 ? help.slope : step == 1 ? help.contours : help.plan;
}

std::string words_of(const Help& help) {
    std::string words;
    Help used = help;
    for (int i = 0; i < help_steps; ++i)
        if (step_of(used, i)) words += (words.empty() ? "" : ", ") + std::string(helps[i]);
    return words;
}

std::optional<Help> find_help(std::string_view words) {
    for (int bits = 0; bits < 1 << help_steps; ++bits) {
        Help help;
        for (int i = 0; i < help_steps; ++i) step_of(help, i) = bits >> i & 1;
        if (words_of(help) == words) return help;
    }
    return std::nullopt;
}

std::span<const RecordField<Answer>> answer_fields() {
    return fields;
}

std::string out_of_range(const Answer& answer) {
    return answer.drill == Drill::slope ? "" : out_of_range(answer.putt);
}

std::vector<Answer> counting(const std::vector<Answer>& answers) {
    std::set<std::uint64_t> days;
    std::vector<Answer> those;
    for (const Answer& answer : answers)
        if (answer.occasion != Occasion::day || days.insert(answer.seed).second)
            those.push_back(answer);
    return those;
}

}  // namespace dewtrail
