#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "greens/number.hpp"

/// Comma-separated text as RFC 4180 has it, with file, line and column kept for messages. Blank
/// lines and lines that start with # are left out; CRLF is fine.
namespace dewtrail {

/// Of one table, which is read whole.
inline constexpr std::uintmax_t most_table_bytes = 32u << 20;
inline constexpr std::size_t most_table_rows = 200'000;

struct CsvCell {
    std::string text;  ///< without its quotes; unquoted text is trimmed
    int column = 1;    ///< of its first byte in the line, from 1
};

struct CsvRow {
    int line = 1;  ///< of its first byte, from 1
    std::vector<CsvCell> cells;
};

/// One row after the other, so that a long file needs no more memory than its text.
class CsvReader {
  public:
    enum class Between { commas, commas_or_blanks };

    CsvReader(std::string file, std::string_view text, Between between = Between::commas);

    /// False at the end. InputError for a quote that is never closed, text after a closing quote,
    /// more than 1000 cells.
    bool next(CsvRow& row);

    int line() const { return line_; }  ///< where it stands, from 1

  private:
    bool ended() const { return at_ >= text_.size() || text_[at_] == '\n'; }
    int column() const { return static_cast<int>(at_ - line_start_) + 1; }
    void next_line();
    void skip_blanks();
    bool skip_line();
    CsvCell cell();
    std::string quoted();

    std::string file_;
    std::string_view text_;
    std::string_view behind_cell_;
    std::size_t at_ = 0, line_start_ = 0;
    int line_ = 1;
};

/// A table with a header line. Every complaint is an InputError at its line and column.
class CsvTable {
  public:
    using Names = std::span<const char* const>;

    /// The text must outlive it. `columns`: what the header may be, for complaints.
    CsvTable(std::string file, std::string_view text, std::string columns);

    const CsvRow& header() const { return header_; }
    /// The place of a column, if the header has it.
    std::optional<std::size_t> find(std::string_view name) const;
    /// The header must name these columns in this order.
    void expect(Names names) const;
    /// The header may name these columns only.
    void allow_only(Names names) const;

    /// The next row, which has as many cells as the header; false at the end.
    bool next();
    const CsvRow& row() const { return row_; }
    const std::string& text(std::size_t column) const { return row_.cells[column].text; }
    double number(std::size_t column, Range range) const;

    /// About a cell of this row.
    [[noreturn]] void fail(std::size_t column, const std::string& problem,
                           const std::string& remedy) const;
    /// About the row; before the first and behind the last, about the header.
    [[noreturn]] void fail(const std::string& problem, const std::string& remedy) const;

  private:
    [[noreturn]] void fail_at(int line, int column, const std::string& problem,
                              const std::string& remedy) const;
    void check_count(const CsvRow& row, std::size_t count, const auto& name_of) const;

    std::string file_, columns_;
    CsvReader reader_;
    CsvRow header_, row_;
};

/// One line with its newline; what needs quotes gets them.
std::string csv_line(const std::vector<std::string>& cells);

}  // namespace dewtrail
