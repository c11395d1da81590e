#include "greens/csv.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "greens/input_error.hpp"

namespace dewtrail {
namespace {

constexpr std::string_view blanks = " \t\r";
constexpr std::size_t most_cells_in_row = 1000;

std::string trimmed(std::string_view text) {
    const std::size_t first = std::min(text.find_first_not_of(blanks), text.size());
    text.remove_prefix(first);
    return std::string(text.substr(0, text.find_last_not_of(blanks) + 1));
}

std::string csv_cell(const std::string& text) {
    const bool plain = text.find_first_of(",\"\n\r") == text.npos && trimmed(text) == text &&
                       (text.empty() || text.front() != '#');
    if (plain) return text;
    std::string quoted = "\"";
    for (const char c : text) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
    return quoted + '"';
}

}  // namespace

CsvReader::CsvReader(std::string file, std::string_view text, Between between)
    : file_(std::move(file)),
      text_(text),
      behind_cell_(between == Between::commas ? ",\n" : ",\n \t\r") {}

bool CsvReader::next(CsvRow& row) {
    while (at_ < text_.size() && skip_line()) {
    }
    row.cells.clear();
    row.line = line_;
    if (at_ >= text_.size()) return false;
    do {
        if (row.cells.size() == most_cells_in_row)
            throw InputError(file_, line_, column(), "more than 1000 cells in a row",
                             "look for a line break that is missing");
        row.cells.push_back(cell());
        skip_blanks();
        if (ended()) break;
        if (text_[at_] == ',') ++at_;
    } while (true);
    next_line();
    return true;
}

void CsvReader::next_line() {
    ++at_;
    ++line_;
    line_start_ = at_;
}

void CsvReader::skip_blanks() {
    while (!ended() && blanks.find(text_[at_]) != blanks.npos) ++at_;
}

/// A blank line or a remark.
bool CsvReader::skip_line() {
    const std::size_t end = std::min(text_.find('\n', at_), text_.size());
    const std::size_t first = std::min(text_.find_first_not_of(blanks, at_), end);
    if (first < end && text_[first] != '#') return false;
    at_ = end;
    next_line();
    return true;
}

CsvCell CsvReader::cell() {
    skip_blanks();
    const int here = column();
    if (!ended() && text_[at_] == '"') return {quoted(), here};
    const std::size_t end = std::min(text_.find_first_of(behind_cell_, at_), text_.size());
    const std::string_view text = text_.substr(at_, end - at_);
    at_ = end;
    return {trimmed(text), here};
}

/// Leaves `at_` behind the closing quote and what blanks follow it.
std::string CsvReader::quoted() {
    const int line = line_, from = column();
    std::string text;
    for (++at_; at_ < text_.size(); ++at_) {
        const bool quote = text_[at_] == '"';
        if (quote && text_.substr(at_ + 1, 1) != "\"") break;
        if (quote) ++at_;
        text += text_[at_];
        if (text_[at_] == '\n') {
            ++line_;
            line_start_ = at_ + 1;
        }
    }
    if (at_ >= text_.size())
        throw InputError(file_, line, from, "a quote is opened and never closed",
                         "close it with another \"");
    ++at_;
    skip_blanks();
    if (!ended() && text_[at_] != ',')
        throw InputError(file_, line_, column(), "text follows a closing quote",
                         "write a quote inside quotes twice");
    return text;
}

CsvTable::CsvTable(std::string file, std::string_view text, std::string columns)
    : file_(std::move(file)), columns_(std::move(columns)), reader_(file_, text) {
    if (!reader_.next(header_))
        fail_at(std::max(1, reader_.line() - 1), 1, "no header line",
                "start the table with " + columns_);
    // As spreadsheets write it in countries with a decimal comma.
    const std::string& first = header_.cells.front().text;
    if (header_.cells.size() == 1 && first.find(';') != first.npos)
        fail_at(header_.line, header_.cells.front().column, "semicolons stand between the columns",
                "save it with commas between the columns and decimal points in figures");
}

std::optional<std::size_t> CsvTable::find(std::string_view name) const {
    for (std::size_t i = 0; i < header_.cells.size(); ++i)
        if (header_.cells[i].text == name) return i;
    return std::nullopt;
}

void CsvTable::expect(Names names) const {
    const std::string remedy = "the header must be " + columns_;
    for (std::size_t i = 0; i < std::min(names.size(), header_.cells.size()); ++i)
        if (header_.cells[i].text != names[i])
            fail_at(header_.line, header_.cells[i].column,
                    fmt::format("column '{}' where '{}' should be", cut(header_.cells[i].text),
                                names[i]),
                    remedy);
    check_count(header_, names.size(), [&](std::size_t i) { return names[i]; });
}

void CsvTable::allow_only(Names names) const {
    for (const CsvCell& cell : header_.cells)
        if (std::find(names.begin(), names.end(), cell.text) == names.end())
            fail_at(header_.line, cell.column,
                    fmt::format("column '{}' is not known", cut(cell.text)),
                    "the columns are " + columns_);
}

bool CsvTable::next() {
    if (!reader_.next(row_)) return false;
    check_count(row_, header_.cells.size(), [&](std::size_t i) { return header_.cells[i].text; });
    return true;
}

void CsvTable::check_count(const CsvRow& row, std::size_t count, const auto& name_of) const {
    const std::vector<CsvCell>& cells = row.cells;
    const std::string remedy = "each row needs " + columns_;
    if (cells.size() > count)
        fail_at(row.line, cells[count].column,
                fmt::format("{} columns, not {}", cells.size(), count), remedy);
    if (cells.size() < count)
        fail_at(row.line, cells.back().column + static_cast<int>(cells.back().text.size()),
                fmt::format("{} is missing", cut(name_of(cells.size()))), remedy);
}

double CsvTable::number(std::size_t column, Range range) const {
    const auto value = plain_number(text(column));
    const std::string name = cut(header_.cells[column].text);
    if (!value)
        fail(column, fmt::format("{} '{}' is not a number", name, cut(text(column))),
             "write plain numbers with a decimal point, without units");
    if (!range.holds(*value))
        fail(
            column,
            fmt::format("{} {} is outside {:.6g} to {:.6g}", name, *value, range.least, range.most),
            "check the figure and its unit");
    return *value;
}

void CsvTable::fail(std::size_t column, const std::string& problem,
                    const std::string& remedy) const {
    fail_at(row_.line, row_.cells[column].column, problem, remedy);
}

void CsvTable::fail(const std::string& problem, const std::string& remedy) const {
    fail_at(row_.cells.empty() ? header_.line : row_.line, 1, problem, remedy);
}

void CsvTable::fail_at(int line, int column, const std::string& problem,
                       const std::string& remedy) const {
    throw InputError(file_, line, column, problem, remedy);
}

std::string csv_line(const std::vector<std::string>& cells) {
    std::string line;
    for (const std::string& cell : cells)
        line += (&cell == cells.data() ? "" : ",") + csv_cell(cell);
    return line + '\n';
}

}  // namespace dewtrail
