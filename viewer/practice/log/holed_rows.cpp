#include "viewer/practice/log/holed_rows.hpp"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <map>

#include "greens/input_error.hpp"
#include "viewer/files/csv.hpp"

namespace dewtrail {
namespace {

constexpr const char* remedy =
    "the header is distance_ft (or distance_m) with tries,holed or with holed alone (1 or 0)";
constexpr double least_m = 0.15, most_m = 40;

/// Adds up what was tried and holed from about the same distance.
class Gathered {
  public:
    void add(const HoledRow& row, bool single) {
        const double half_foot = 0.5 * metres_per_foot;
        const double key =
            single ? std::max(std::round(row.distance_m / half_foot) * half_foot, least_m)
                   : row.distance_m;
        HoledRow& sum = rows_[key];
        const double tries = sum.tries + row.tries;
        sum.distance_m = (sum.distance_m * sum.tries + row.distance_m * row.tries) / tries;
        sum.tries = tries;
        sum.holed += row.holed;
    }

    std::vector<HoledRow> rows() const {
        std::vector<HoledRow> rows;
        for (const auto& [distance, row] : rows_) rows.push_back(row);
        return rows;
    }

  private:
    std::map<double, HoledRow> rows_;
};

/// Reads the table row by row; knows where it is, for messages.
class Table {
  public:
    Table(const std::string& name, std::string_view text) : name_(name) {
        for (const CsvRow& row : parse_csv(name_, text)) {
            line_ = row.line;
            if (distance_ < 0)
                read_header(row.cells);
            else
                read_row(row.cells);
        }
    }

    std::vector<HoledRow> rows() const { return gathered_.rows(); }

  private:
    void read_header(const std::vector<CsvCell>& cells) {
        columns_ = static_cast<int>(cells.size());
        for (int i = 0; i < columns_; ++i) {
            const std::string& key = cells[i].text;
            if (key == "distance_ft" || key == "distance_m") {
                distance_ = i;
                unit_m_ = key == "distance_ft" ? metres_per_foot : 1;
            }
            if (key == "tries") tries_ = i;
            if (key == "holed") holed_ = i;
        }
        if (distance_ < 0 || holed_ < 0) fail(1, "has no columns distance_ft and holed");
    }

    void read_row(const std::vector<CsvCell>& cells) {
        if (static_cast<int>(cells.size()) != columns_)
            fail(1, fmt::format("has {} columns where the header has {}", cells.size(), columns_));
        HoledRow row;
        row.distance_m = number(cells[distance_], least_m / unit_m_, most_m / unit_m_) * unit_m_;
        row.tries = tries_ < 0 ? 1 : number(cells[tries_], 1, 1e9);
        row.holed = tries_ < 0 ? yes_or_no(cells[holed_]) : number(cells[holed_], 0, row.tries);
        gathered_.add(row, tries_ < 0);
    }

    double number(const CsvCell& cell, double least, double most) const {
        double value = 0;
        const char *begin = cell.text.data(), *end = begin + cell.text.size();
        const auto [stop, error] = std::from_chars(begin, end, value);
        if (error != std::errc() || stop != end)
            fail(cell.column, "'" + cell.text + "' is no number");
        if (!(value >= least && value <= most))
            fail(cell.column,
                 fmt::format("{} is outside {:.4g} to {:.4g}", cell.text, least, most));
        return value;
    }

    double yes_or_no(const CsvCell& cell) const {
        for (const char* yes : {"1", "yes", "made", "holed"})
            if (cell.text == yes) return 1;
        for (const char* no : {"0", "no", "missed"})
            if (cell.text == no) return 0;
        fail(cell.column, "'" + cell.text + "' is neither 1 (holed) nor 0 (missed)");
    }

    [[noreturn]] void fail(int column, const std::string& problem) const {
        throw InputError(name_, line_, column, problem, remedy);
    }

    std::string name_;
    int line_ = 0;
    int columns_ = 0, distance_ = -1, tries_ = -1, holed_ = -1;
    double unit_m_ = 1;
    Gathered gathered_;
};

}  // namespace

std::vector<HoledRow> read_holed_rows(const std::string& name, std::string_view text) {
    auto rows = Table(name, text).rows();
    if (rows.empty()) throw InputError(name, 0, 0, "holds no putts", remedy);
    return rows;
}

std::vector<HoledRow> holed_rows(const std::vector<LoggedPutt>& putts) {
    Gathered gathered;
    for (const LoggedPutt& putt : putts) {
        HoledRow row;
        row.distance_m = putt.distance_m;
        row.tries = 1;
        row.holed = putt.holed ? 1 : 0;
        gathered.add(row, true);
    }
    return gathered.rows();
}

}  // namespace dewtrail
