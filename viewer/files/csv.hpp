#pragma once

#include <string>
#include <string_view>
#include <vector>

/// Comma-separated text as RFC 4180 has it, with file, line and column kept for messages.
namespace dewtrail {

struct CsvCell {
    std::string text;  ///< without its quotes; unquoted text is trimmed
    int column = 1;    ///< of its first byte in the line, from 1
};

struct CsvRow {
    int line = 1;  ///< of its first byte, from 1
    std::vector<CsvCell> cells;
};

/// All rows; blank lines and lines that start with # are left out; CRLF is fine. Throws InputError
/// for a quote that is never closed or text after a closing quote. `name`: of the file, for that.
std::vector<CsvRow> parse_csv(const std::string& name, std::string_view text);

/// One line with its newline; what needs quotes gets them.
std::string csv_line(const std::vector<std::string>& cells);

}  // namespace dewtrail
