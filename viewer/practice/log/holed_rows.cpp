#include "viewer/practice/log/holed_rows.hpp"

#include <cmath>
#include <map>

#include "greens/csv.hpp"
#include "greens/input_error.hpp"

namespace dewtrail {
namespace {

constexpr const char* usual_columns = "distance_ft,tries,holed";
constexpr const char* remedy =
    "the header is distance_ft (or distance_m) with tries,holed or with holed alone (1 or 0)";

/// Adds up what was tried and holed from about the same distance.
class Gathered {
  public:
    void add(const HoledRow& row, bool single) {
        const double half_foot = 0.5 * metres_per_foot;
        const double key = single ? std::max(std::round(row.distance_m / half_foot) * half_foot,
                                             putt_range::distance_m.least)
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

double yes_or_no(const CsvTable& table, std::size_t column) {
    const std::string& text = table.text(column);
    for (const char* yes : {"1", "yes", "made", "holed"})
        if (text == yes) return 1;
    for (const char* no : {"0", "no", "missed"})
        if (text == no) return 0;
    table.fail(column, "'" + cut(text) + "' is neither 1 (holed) nor 0 (missed)", remedy);
}

}  // namespace

std::vector<HoledRow> read_holed_rows(const std::string& name, std::string_view text) {
    CsvTable table(name, text, usual_columns);
    const auto feet = table.find("distance_ft"), distance = feet ? feet : table.find("distance_m");
    const auto tries = table.find("tries"), holed = table.find("holed");
    if (!distance || !holed) table.fail("has no usual_columns distance_ft and holed", remedy);
    const double unit_m = feet ? metres_per_foot : 1;
    const Range reach{putt_range::distance_m.least / unit_m, putt_range::distance_m.most / unit_m};
    Gathered gathered;
    while (table.next()) {
        HoledRow row;
        row.distance_m = table.number(*distance, reach) * unit_m;
        row.tries = tries ? table.number(*tries, {1, 1e9}) : 1;
        row.holed = tries ? table.number(*holed, {0, row.tries}) : yes_or_no(table, *holed);
        gathered.add(row, !tries);
    }
    auto rows = gathered.rows();
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
