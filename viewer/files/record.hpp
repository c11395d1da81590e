#pragma once

#include <fmt/format.h>

#include <optional>
#include <stdexcept>
#include <string>
#include <variant>

#include "greens/number.hpp"

/// What is remembered, field by field: one list of fields serves the table in the memory file and
/// the CSV file.
namespace dewtrail {

/// Nothing, a number or a text. A number read from CSV is a text.
using Cell = std::variant<std::monostate, double, std::string>;

inline Cell to_cell(double value) {
    return value;
}
inline Cell to_cell(bool value) {
    return value ? 1.0 : 0.0;
}
inline Cell to_cell(const std::string& value) {
    if (value.empty()) return {};
    return value;
}
template <class T>
Cell to_cell(const std::optional<T>& value) {
    if (!value) return {};
    return to_cell(*value);
}

/// Each throws std::invalid_argument with what is wrong, ready to be said after the field's name.
inline void from_cell(const Cell& cell, double& value) {
    constexpr Range anything{-1e6, 1e6};  // no figure of ours comes near
    if (std::holds_alternative<std::monostate>(cell)) throw std::invalid_argument("is missing");
    const auto* text = std::get_if<std::string>(&cell);
    const auto number = text ? plain_number(*text) : std::optional(std::get<double>(cell));
    if (!number) throw std::invalid_argument(fmt::format("'{}' is no number", cut(*text)));
    if (!anything.holds(*number))
        throw std::invalid_argument(fmt::format("{} is out of range", *number));
    value = *number;
}
inline void from_cell(const Cell& cell, bool& value) {
    double number = 0;
    from_cell(cell, number);
    if (number != 0 && number != 1) throw std::invalid_argument("is neither 0 nor 1");
    value = number == 1;
}
inline void from_cell(const Cell& cell, std::string& value) {
    const auto* text = std::get_if<std::string>(&cell);
    value = text ? *text : "";
}
template <class T>
void from_cell(const Cell& cell, std::optional<T>& value) {
    if (std::holds_alternative<std::monostate>(cell)) {
        value.reset();
        return;
    }
    from_cell(cell, value.emplace());
}

template <class Row>
struct RecordField {
    const char* name;  ///< of the column, in SQL and in CSV
    Cell (*get)(const Row&);
    void (*set)(Row&, const Cell&);
};

/// The field at the end of a path of members: field<Answer, &Answer::putt, &DealtPutt::slope>.
template <class Row, auto... path>
constexpr RecordField<Row> field(const char* name) {
    return {name, [](const Row& row) { return to_cell((row.*....*path)); },
            [](Row& row, const Cell& cell) { from_cell(cell, (row.*....*path)); }};
}

}  // namespace dewtrail
