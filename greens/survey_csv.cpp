#include "greens/survey_csv.hpp"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>
#include <numbers>
#include <string_view>
#include <utility>

#include "greens/input_error.hpp"
#include "greens/text_file.hpp"

namespace dewtrail {
namespace {

constexpr std::uintmax_t most_bytes = 32u << 20;
constexpr std::size_t most_rows = 200'000;

struct Column {
    const char* name;
    double least, most;
};

constexpr std::array<Column, 4> level_columns{{{"x_m", -200, 200},
                                               {"y_m", -200, 200},
                                               {"slope_percent", 0, 20},
                                               {"falls_toward_deg", -360, 360}}};
constexpr std::array<Column, 3> height_columns{
    {{"x_m", -200, 200}, {"y_m", -200, 200}, {"z_m", -1000, 1000}}};

constexpr std::array<Column, 2> corner_columns{{{"x", -1e9, 1e9}, {"y", -1e9, 1e9}}};

/// Text of the file and where it stands there: column of its first character, from 1.
struct Piece {
    std::string_view text;
    int column = 1;
};

Piece trimmed(Piece piece) {
    const std::size_t first = std::min(piece.text.find_first_not_of(" \t\r"), piece.text.size());
    piece.text.remove_prefix(first);
    piece.column += static_cast<int>(first);
    piece.text = piece.text.substr(0, piece.text.find_last_not_of(" \t\r") + 1);
    return piece;
}

std::vector<Piece> fields_of(std::string_view line) {
    std::vector<Piece> fields;
    for (std::size_t start = 0; start <= line.size();) {
        const std::size_t end = std::min(line.find(',', start), line.size());
        fields.push_back(trimmed({line.substr(start, end - start), static_cast<int>(start) + 1}));
        start = end + 1;
    }
    return fields;
}

/// Reads a table of numbers with N named columns.
template <std::size_t N>
class Table {
  public:
    using Row = std::array<double, N>;

    Table(const std::filesystem::path& path, const std::array<Column, N>& columns)
        : file_(path.string()), columns_(columns), text_(read_text_file(path, most_bytes)) {}

    std::vector<Row> rows() {
        std::vector<Row> rows;
        bool header_seen = false;
        std::string_view rest = text_;
        while (!rest.empty()) {
            const std::size_t end = std::min(rest.find('\n'), rest.size());
            const std::string_view line = rest.substr(0, end);
            rest.remove_prefix(std::min(end + 1, rest.size()));
            ++line_;
            const std::string_view content = trimmed({line}).text;
            if (content.empty() || content.front() == '#') continue;
            if (std::exchange(header_seen, true)) {
                if (rows.size() == most_rows) fail(1, "more than 200,000 rows", "thin the survey");
                rows.push_back(row(fields_of(line)));
            } else {
                check_header(fields_of(line));
            }
        }
        line_ = std::max(line_, 1);
        if (!header_seen) fail(1, "no header line", "start the table with " + header());
        if (rows.empty()) fail(1, "no readings", "add a row for each reading");
        return rows;
    }

  private:
    [[noreturn]] void fail(int column, const std::string& problem,
                           const std::string& remedy) const {
        throw InputError(file_, line_, column, problem, remedy);
    }

    std::string header() const {
        std::string names;
        for (const Column& column : columns_) {
            if (!names.empty()) names += ',';
            names += column.name;
        }
        return names;
    }

    void check_header(const std::vector<Piece>& fields) const {
        for (std::size_t i = 0; i < N && i < fields.size(); ++i)
            if (fields[i].text != columns_[i].name)
                fail(fields[i].column,
                     fmt::format("column '{}' where '{}' should be", shown(fields[i].text),
                                 columns_[i].name),
                     "the header must be " + header());
        check_count(fields, "the header must be " + header());
    }

    void check_count(const std::vector<Piece>& fields, const std::string& remedy) const {
        if (fields.size() > N)
            fail(fields[N].column, fmt::format("{} columns, not {}", fields.size(), N), remedy);
        if (fields.size() < N) {
            const Piece& last = fields.back();
            fail(last.column + static_cast<int>(last.text.size()),
                 fmt::format("{} is missing", columns_[fields.size()].name), remedy);
        }
    }

    Row row(const std::vector<Piece>& fields) const {
        check_count(fields, "each row needs " + header());
        Row row;
        for (std::size_t i = 0; i < N; ++i) row[i] = number(fields[i], columns_[i]);
        return row;
    }

    double number(const Piece& field, const Column& column) const {
        const std::string_view text = field.text;
        const char* const end = text.data() + text.size();
        double value = 0;
        const auto [stop, error] = std::from_chars(text.data(), end, value);
        if (error != std::errc() || stop != end || !std::isfinite(value))
            fail(field.column, fmt::format("{} '{}' is not a number", column.name, shown(text)),
                 "write plain numbers with a decimal point, without units");
        if (value < column.least || value > column.most)
            fail(field.column,
                 fmt::format("{} {} is outside {} to {}", column.name, value, column.least,
                             column.most),
                 "check the reading and its unit");
        return value;
    }

    static std::string shown(std::string_view text) {
        return text.size() <= 40 ? std::string(text) : std::string(text.substr(0, 40)) + "...";
    }

    std::string file_;
    const std::array<Column, N>& columns_;
    std::string text_;
    int line_ = 0;
};

}  // namespace

std::vector<LevelReading> read_levels_csv(const std::filesystem::path& path, double sd) {
    std::vector<LevelReading> readings;
    for (const auto& [x, y, slope_percent, falls_toward_deg] : Table(path, level_columns).rows())
        readings.push_back(level_reading({x, y}, slope_percent / 100,
                                         falls_toward_deg * std::numbers::pi / 180, sd));
    return readings;
}

std::vector<HeightReading> read_heights_csv(const std::filesystem::path& path, double sd_m) {
    std::vector<HeightReading> readings;
    for (const auto& [x, y, z] : Table(path, height_columns).rows())
        readings.push_back({{x, y}, z, sd_m});
    return readings;
}

std::vector<Vec2> read_corners_csv(const std::filesystem::path& path) {
    std::vector<Vec2> corners;
    for (const auto& [x, y] : Table(path, corner_columns).rows()) corners.emplace_back(x, y);
    if (corners.size() < 3)
        throw InputError(path.string(), 0, 0, "has fewer than three corners", "add the others");
    return corners;
}

}  // namespace dewtrail
