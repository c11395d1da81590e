#include "viewer/practice/memory_csv.hpp"

#include <fmt/format.h>

#include "greens/csv.hpp"

namespace dewtrail {
namespace {

template <class Row>
using Fields = std::span<const RecordField<Row>>;

std::string text_of(const Cell& cell) {
    if (const auto* number = std::get_if<double>(&cell)) return fmt::format("{}", *number);
    if (const auto* text = std::get_if<std::string>(&cell)) return *text;
    return "";
}

template <class Row>
std::vector<const char*> names_of(Fields<Row> fields) {
    std::vector<const char*> names;
    for (const auto& field : fields) names.push_back(field.name);
    return names;
}

template <class Row>
std::string header_of(Fields<Row> fields) {
    std::string header;
    for (const char* name : names_of(fields))
        header += (header.empty() ? "" : ",") + std::string(name);
    return header;
}

template <class Row>
std::string write_rows(Fields<Row> fields, const std::vector<Row>& rows) {
    std::string text = header_of(fields) + '\n';
    for (const Row& row : rows) {
        std::vector<std::string> cells;
        for (const auto& field : fields) cells.push_back(text_of(field.get(row)));
        text += csv_line(cells);
    }
    return text;
}

template <class Row>
void set_cell(Row& row, Fields<Row> fields, const CsvTable& table, std::size_t column) {
    const std::string& text = table.text(column);
    try {
        fields[column].set(row, text.empty() ? Cell() : Cell(text));
    } catch (const std::invalid_argument& error) {
        table.fail(column, fmt::format("{} {}", fields[column].name, error.what()),
                   "write it as an export of the program does");
    }
}

/// What the header has of the fields, which are in its order.
template <class Row>
Row read_row(const CsvTable& table, Fields<Row> fields) {
    Row row;
    for (std::size_t i = 0; i < fields.size(); ++i)
        if (table.find(fields[i].name)) set_cell(row, fields, table, i);
    return row;
}

void refuse_if_wrong(const CsvTable& table, const char* what, const std::string& wrong) {
    if (!wrong.empty())
        table.fail(fmt::format("the {} is out of range: {}", what, wrong), "leave the row out");
}

/// A row of the table of measures: a ball or a stroke.
struct MeasureRow {
    std::string at;
    std::optional<double> called_m, stopped_m, width_m, away_m;
    std::string passed;
};
constexpr RecordField<MeasureRow> measure_fields[] = {
    field<MeasureRow, &MeasureRow::at>("at"),
    field<MeasureRow, &MeasureRow::called_m>("called_m"),
    field<MeasureRow, &MeasureRow::stopped_m>("stopped_m"),
    field<MeasureRow, &MeasureRow::width_m>("width_m"),
    field<MeasureRow, &MeasureRow::away_m>("away_m"),
    field<MeasureRow, &MeasureRow::passed>("passed"),
};

Passed passed_of(const CsvTable& table, const std::string& name) {
    for (const Passed passed : {Passed::left, Passed::through, Passed::right})
        if (name == name_of(passed)) return passed;
    table.fail(fmt::format("'{}' is neither left, through nor right", cut(name)),
               "write it as an export of the program does");
}

void add_row(Measures& measures, const CsvTable& table, const MeasureRow& row) {
    const bool ball = row.called_m && row.stopped_m, stroke = row.width_m && row.away_m;
    if (ball == stroke)
        table.fail("the row is neither a ball nor a stroke",
                   "give called_m and stopped_m, or width_m, away_m and passed");
    if (ball) {
        measures.balls.push_back(
            {.at = row.at, .called_m = *row.called_m, .stopped_m = *row.stopped_m});
        return refuse_if_wrong(table, "ball", out_of_range(measures.balls.back()));
    }
    measures.strokes.push_back({.at = row.at,
                                .gate = {*row.width_m, *row.away_m},
                                .passed = passed_of(table, row.passed)});
    refuse_if_wrong(table, "stroke", out_of_range(measures.strokes.back()));
}

}  // namespace

std::string write_answers_csv(const std::vector<Answer>& answers) {
    return write_rows<Answer>(answer_fields(), answers);
}

std::vector<Answer> read_answers_csv(const std::string& name, std::string_view text) {
    const Fields<Answer> fields = answer_fields();
    std::vector<const char*> names = names_of(fields);
    CsvTable table(name, text, header_of(fields));
    if (!table.find(names.back())) names.pop_back();  // as exported before there was help
    table.expect(names);
    std::vector<Answer> answers;
    while (table.next()) {
        answers.push_back(read_row(table, fields));
        refuse_if_wrong(table, "putt", out_of_range(answers.back()));
    }
    return answers;
}

std::string write_measures_csv(const Measures& measures) {
    std::vector<MeasureRow> rows;
    for (const PaceBall& ball : measures.balls)
        rows.push_back({ball.at, ball.called_m, ball.stopped_m, {}, {}, {}});
    for (const GateStroke& s : measures.strokes)
        rows.push_back(
            {s.at, {}, {}, s.gate.width_m, s.gate.away_m, std::string(name_of(s.passed))});
    return write_rows<MeasureRow>(measure_fields, rows);
}

Measures read_measures_csv(const std::string& name, std::string_view text) {
    const Fields<MeasureRow> fields = measure_fields;
    CsvTable table(name, text, header_of(fields));
    table.expect(names_of(fields));
    Measures measures;
    while (table.next()) add_row(measures, table, read_row(table, fields));
    return measures;
}

}  // namespace dewtrail
