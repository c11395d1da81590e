#include "greens/survey_csv.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numbers>
#include <optional>

#include "greens/csv.hpp"
#include "greens/input_error.hpp"
#include "greens/level_value.hpp"
#include "greens/text_file.hpp"

namespace dewtrail {
namespace {

struct Column {
    const char* name;
    Range range;
    bool slope = false;  ///< percent, or with a unit of its own
};
using Kind = std::vector<Column>;

namespace column {
constexpr Column x{"x_m", {-green_reach_m, green_reach_m}},
    y{"y_m", {-green_reach_m, green_reach_m}};
constexpr Column paces{"paces", {0, 200}}, walked{"walked_deg", {-360, 360}};
constexpr Column slope{"slope_percent", {0, 20}, true}, fall{"falls_toward_deg", {-360, 360}};
constexpr Column up{"up_percent", {-20, 20}, true}, left{"falls_left_percent", {-20, 20}, true};
}  // namespace column

/// Places measured or walked, each with a slope and its fall or with the slopes along and across.
const std::vector<Kind> level_kinds{{column::x, column::y, column::slope, column::fall},
                                    {column::x, column::y, column::up, column::left},
                                    {column::paces, column::walked, column::slope, column::fall},
                                    {column::paces, column::walked, column::up, column::left}};
const std::vector<Kind> height_kinds{{column::x, column::y, {"z_m", {-1000, 1000}}}};
const std::vector<Kind> corner_kinds{{{"x", {-1e9, 1e9}}, {"y", {-1e9, 1e9}}}};

std::vector<const char*> names_of(const Kind& kind) {
    std::vector<const char*> names;
    for (const Column& column : kind) names.push_back(column.name);
    return names;
}

/// A table of numbers; the header says which of its kinds it is.
class SurveyTable {
  public:
    SurveyTable(const std::filesystem::path& path, const std::vector<Kind>& kinds)
        : text_(read_text_file(path, most_table_bytes)),
          table_(path.string(), text_, fmt::format("{}", fmt::join(names_of(kinds[0]), ","))),
          kind_(kind_among(kinds)) {
        table_.expect(names_of(kind_));
    }

    bool has(const Column& column) const { return table_.find(column.name).has_value(); }
    const CsvTable& table() const { return table_; }
    double operator[](std::size_t i) const { return values_[i]; }
    /// What pairs of readings tell of the level itself, rise over run.
    const std::vector<double>& instrument_errors() const { return instrument_errors_; }

    /// The next row's numbers; false at the end. A table has a row at least.
    bool next() {
        if (!table_.next()) {
            if (rows_ > 0) return false;
            table_.fail("no readings", "add a row for each reading");
        }
        if (++rows_ > most_table_rows) table_.fail("more than 200,000 rows", "thin the survey");
        values_.clear();
        for (std::size_t i = 0; i < kind_.size(); ++i)
            values_.push_back(kind_[i].slope ? percent(i) : table_.number(i, kind_[i].range));
        return true;
    }

  private:
    /// The kind that goes with the header farthest.
    const Kind& kind_among(const std::vector<Kind>& kinds) const {
        const auto& cells = table_.header().cells;
        const auto same = [&](const Kind& kind) {
            std::size_t count = 0;
            while (count < std::min(kind.size(), cells.size()) &&
                   cells[count].text == kind[count].name)
                ++count;
            return count;
        };
        return *std::max_element(kinds.begin(), kinds.end(),
                                 [&](const Kind& a, const Kind& b) { return same(a) < same(b); });
    }

    /// A slope as a level shows it: a plain figure, one with its unit, or a pair.
    double percent(std::size_t i) {
        const std::string& text = table_.text(i);
        if (plain_number(text)) return table_.number(i, kind_[i].range);
        const double value = with_unit(i, text);
        if (kind_[i].range.holds(value)) return value;
        table_.fail(i,
                    fmt::format("{} {} is outside {} to {}", kind_[i].name, value,
                                kind_[i].range.least, kind_[i].range.most),
                    "check the reading and its unit");
    }

    /// A minus sign may stand before a single one.
    double with_unit(std::size_t i, const std::string& text) {
        try {
            if (text.starts_with('-'))
                if (const auto single = single_slope(text.substr(1), kind_[i]))
                    return -100 * *single;
            const SlopeReading reading = parse_level_reading(cut(text), kind_[i].name);
            if (reading.instrument_error) instrument_errors_.push_back(*reading.instrument_error);
            return 100 * reading.slope;
        } catch (const InputError& error) {
            table_.fail(i, error.problem(), error.remedy());
        }
    }

    /// None where it is a pair, or nothing at all.
    static std::optional<double> single_slope(const std::string& text, const Column& column) {
        try {
            const SlopeReading reading = parse_level_reading(cut(text), column.name);
            return reading.instrument_error ? std::nullopt : std::optional(reading.slope);
        } catch (const InputError&) {
            return std::nullopt;
        }
    }

    std::string text_;
    CsvTable table_;
    const Kind& kind_;
    std::size_t rows_ = 0;
    std::vector<double> values_, instrument_errors_;
};

double radians(double deg) {
    return deg * std::numbers::pi / 180;
}

}  // namespace

LevelTable read_levels_csv(const std::filesystem::path& path, double sd, double pace_m) {
    SurveyTable row(path, level_kinds);
    const bool on_foot = row.has(column::paces), total = row.has(column::slope);
    LevelTable levels{{}, {}, on_foot};
    Vec2 at(0, 0);
    while (row.next()) {
        const Vec2 ahead = on_foot ? along_bearing(radians(row[1])) : Vec2(0, 1);
        if (on_foot)
            at += row[0] * pace_m * ahead;
        else
            at = {row[0], row[1]};
        if (at.cwiseAbs().maxCoeff() > green_reach_m)
            row.table().fail(fmt::format("the walk leads {:.0f} m away", at.norm()),
                             "a green lies within 200 m of where the walk begins");
        levels.readings.push_back(
            total ? level_reading(at, row[2] / 100, radians(row[3]), sd)
                  : level_reading_along(at, ahead, row[2] / 100, row[3] / 100, sd));
    }
    levels.instrument_errors = row.instrument_errors();
    return levels;
}

std::vector<HeightReading> read_heights_csv(const std::filesystem::path& path, double sd_m) {
    SurveyTable row(path, height_kinds);
    std::vector<HeightReading> readings;
    while (row.next()) readings.push_back({{row[0], row[1]}, row[2], sd_m});
    return readings;
}

std::vector<Vec2> read_corners_csv(const std::filesystem::path& path) {
    SurveyTable row(path, corner_kinds);
    std::vector<Vec2> corners;
    while (row.next()) corners.emplace_back(row[0], row[1]);
    if (corners.size() < 3) refuse_file(path, "has fewer than three corners", "add the others");
    return corners;
}

}  // namespace dewtrail
