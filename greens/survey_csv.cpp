#include "greens/survey_csv.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <numbers>
#include <optional>
#include <string_view>
#include <utility>

#include "greens/input_error.hpp"
#include "greens/level_value.hpp"
#include "greens/text_file.hpp"

namespace dewtrail {
namespace {

constexpr std::uintmax_t most_bytes = 32u << 20;
constexpr std::size_t most_rows = 200'000;

struct Column {
    const char* name;
    double least, most;
    bool slope = false;  ///< percent, or with a unit of its own
};
template <std::size_t N>
using Columns = std::array<Column, N>;

constexpr double reach_m = 200;

namespace column {
constexpr Column x{"x_m", -reach_m, reach_m}, y{"y_m", -reach_m, reach_m};
constexpr Column paces{"paces", 0, 200}, walked{"walked_deg", -360, 360};
constexpr Column slope{"slope_percent", 0, 20, true}, fall{"falls_toward_deg", -360, 360};
constexpr Column up{"up_percent", -20, 20, true}, left{"falls_left_percent", -20, 20, true};
}  // namespace column

/// Places measured or walked, each with a slope and its fall or with the slopes along and across.
constexpr std::array level_kinds{
    Columns<4>{column::x, column::y, column::slope, column::fall},
    Columns<4>{column::x, column::y, column::up, column::left},
    Columns<4>{column::paces, column::walked, column::slope, column::fall},
    Columns<4>{column::paces, column::walked, column::up, column::left}};
constexpr std::array<Columns<3>, 1> height_kinds{
    Columns<3>{column::x, column::y, {"z_m", -1000, 1000}}};
constexpr std::array<Columns<2>, 1> corner_kinds{Columns<2>{{{"x", -1e9, 1e9}, {"y", -1e9, 1e9}}}};

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

/// Reads a table of numbers with N named columns; the header says which of its kinds it is.
template <std::size_t N, std::size_t Kinds>
class Table {
  public:
    struct Row : std::array<double, N> {
        int line = 0;
    };

    Table(const std::filesystem::path& path, const std::array<Columns<N>, Kinds>& kinds)
        : file_(path.string()), kinds_(kinds), text_(read_text_file(path, most_bytes)) {}

    bool has(const Column& column) const {
        return std::any_of(columns().begin(), columns().end(), [&](const Column& c) {
            return c.name == std::string_view(column.name);
        });
    }
    /// What pairs of readings tell of the level itself, rise over run.
    const std::vector<double>& instrument_errors() const { return instrument_errors_; }

    [[noreturn]] void fail(int line, int column, const std::string& problem,
                           const std::string& remedy) const {
        throw InputError(file_, line, column, problem, remedy);
    }

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
        fail(line_, column, problem, remedy);
    }

    const Columns<N>& columns() const { return kinds_[kind_]; }

    std::string header() const {
        std::string names;
        for (const Column& column : columns()) {
            if (!names.empty()) names += ',';
            names += column.name;
        }
        return names;
    }

    /// The kind that goes with the header farthest.
    void choose_kind(const std::vector<Piece>& fields) {
        std::size_t most = 0;
        for (std::size_t kind = 0; kind < Kinds; ++kind) {
            std::size_t same = 0;
            while (same < N && same < fields.size() && fields[same].text == kinds_[kind][same].name)
                ++same;
            if (same > most) most = same, kind_ = kind;
        }
    }

    void check_header(const std::vector<Piece>& fields) {
        choose_kind(fields);
        for (std::size_t i = 0; i < N && i < fields.size(); ++i)
            if (fields[i].text != columns()[i].name)
                fail(fields[i].column,
                     fmt::format("column '{}' where '{}' should be", shown(fields[i].text),
                                 columns()[i].name),
                     "the header must be " + header());
        check_count(fields, "the header must be " + header());
    }

    void check_count(const std::vector<Piece>& fields, const std::string& remedy) const {
        if (fields.size() > N)
            fail(fields[N].column, fmt::format("{} columns, not {}", fields.size(), N), remedy);
        if (fields.size() < N) {
            const Piece& last = fields.back();
            fail(last.column + static_cast<int>(last.text.size()),
                 fmt::format("{} is missing", columns()[fields.size()].name), remedy);
        }
    }

    Row row(const std::vector<Piece>& fields) {
        check_count(fields, "each row needs " + header());
        Row row;
        row.line = line_;
        for (std::size_t i = 0; i < N; ++i) row[i] = number(fields[i], columns()[i]);
        return row;
    }

    double number(const Piece& field, const Column& column) {
        const std::string_view text = field.text;
        const char* const end = text.data() + text.size();
        double value = 0;
        const auto [stop, error] = std::from_chars(text.data(), end, value);
        const bool plain = error == std::errc() && stop == end && std::isfinite(value);
        if (!plain && column.slope) value = percent(field, column);
        if (!plain && !column.slope)
            fail(field.column, fmt::format("{} '{}' is not a number", column.name, shown(text)),
                 "write plain numbers with a decimal point, without units");
        if (value < column.least || value > column.most)
            fail(field.column,
                 fmt::format("{} {} is outside {} to {}", column.name, value, column.least,
                             column.most),
                 "check the reading and its unit");
        return value;
    }

    /// A slope as a level shows it, with its unit or as a pair; a minus sign before a single one.
    double percent(const Piece& field, const Column& column) {
        try {
            if (field.text.substr(0, 1) == "-")
                if (const auto single = single_slope(field.text.substr(1), column))
                    return -100 * *single;
            const SlopeReading reading = parse_level_reading(shown(field.text), column.name);
            if (reading.instrument_error) instrument_errors_.push_back(*reading.instrument_error);
            return 100 * reading.slope;
        } catch (const InputError& error) {
            fail(field.column, error.problem(), error.remedy());
        }
    }

    /// None where it is a pair, or nothing at all.
    static std::optional<double> single_slope(std::string_view text, const Column& column) {
        try {
            const SlopeReading reading = parse_level_reading(shown(text), column.name);
            return reading.instrument_error ? std::nullopt : std::optional(reading.slope);
        } catch (const InputError&) {
            return std::nullopt;
        }
    }

    static std::string shown(std::string_view text) {
        return text.size() <= 40 ? std::string(text) : std::string(text.substr(0, 40)) + "...";
    }

    std::string file_;
    const std::array<Columns<N>, Kinds>& kinds_;
    std::string text_;
    std::size_t kind_ = 0;
    int line_ = 0;
    std::vector<double> instrument_errors_;
};

double radians(double deg) {
    return deg * std::numbers::pi / 180;
}

}  // namespace

LevelTable read_levels_csv(const std::filesystem::path& path, double sd, double pace_m) {
    Table table(path, level_kinds);
    const auto rows = table.rows();
    const bool on_foot = table.has(column::paces), total = table.has(column::slope);
    LevelTable levels{{}, table.instrument_errors(), on_foot};
    Vec2 at(0, 0);
    for (const auto& row : rows) {
        const Vec2 ahead = on_foot ? along_bearing(radians(row[1])) : Vec2(0, 1);
        if (on_foot)
            at += row[0] * pace_m * ahead;
        else
            at = {row[0], row[1]};
        if (at.cwiseAbs().maxCoeff() > reach_m)
            table.fail(row.line, 1, fmt::format("the walk leads {:.0f} m away", at.norm()),
                       "a green lies within 200 m of where the walk begins");
        levels.readings.push_back(
            total ? level_reading(at, row[2] / 100, radians(row[3]), sd)
                  : level_reading_along(at, ahead, row[2] / 100, row[3] / 100, sd));
    }
    return levels;
}

std::vector<HeightReading> read_heights_csv(const std::filesystem::path& path, double sd_m) {
    std::vector<HeightReading> readings;
    for (const auto& row : Table(path, height_kinds).rows())
        readings.push_back({{row[0], row[1]}, row[2], sd_m});
    return readings;
}

std::vector<Vec2> read_corners_csv(const std::filesystem::path& path) {
    std::vector<Vec2> corners;
    for (const auto& row : Table(path, corner_kinds).rows()) corners.emplace_back(row[0], row[1]);
    if (corners.size() < 3)
        throw InputError(path.string(), 0, 0, "has fewer than three corners", "add the others");
    return corners;
}

}  // namespace dewtrail
