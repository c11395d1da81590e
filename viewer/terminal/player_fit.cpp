#include "viewer/terminal/player_fit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>
#include <ostream>
#include <string_view>

#include "greens/input_error.hpp"
#include "greens/text_file.hpp"
#include "physics/green_speed.hpp"
#include "physics/spread_fit.hpp"
#include "viewer/practice/presets.hpp"
#include "viewer/scene/figures.hpp"
#include "viewer/scene/putt_request.hpp"
#include "viewer/terminal/odds_report.hpp"

namespace dewtrail {
namespace {

constexpr const char* remedy =
    "the header is distance_ft (or distance_m) with tries,holed or with holed alone (1 or 0)";

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
    while (!text.empty() && (text.back() == ' ' || text.back() == '\t' || text.back() == '\r'))
        text.remove_suffix(1);
    return text;
}

struct Cell {
    std::string text;
    int column;
};

std::vector<Cell> cells_of(std::string_view line) {
    std::vector<Cell> cells;
    for (std::size_t from = 0; from <= line.size();) {
        const std::size_t comma = std::min(line.find(',', from), line.size());
        cells.push_back(
            {std::string(trimmed(line.substr(from, comma - from))), static_cast<int>(from) + 1});
        from = comma + 1;
    }
    return cells;
}

/// Reads the table line by line; knows where it is, for messages.
class PuttsFile {
  public:
    PuttsFile(std::string name, const std::string& text) : name_(std::move(name)) {
        std::string_view rest = text;
        for (int line = 1; !rest.empty(); ++line) {
            const std::size_t end = std::min(rest.find('\n'), rest.size());
            const std::string_view here = trimmed(rest.substr(0, end));
            rest.remove_prefix(std::min(end + 1, rest.size()));
            line_ = line;
            if (here.empty() || here.front() == '#') continue;
            if (distance_ < 0)
                read_header(cells_of(here));
            else
                read_row(cells_of(here));
        }
        if (rows_.empty()) throw InputError(name_, 0, 0, "holds no putts", remedy);
    }

    std::vector<HoledRow> rows() const {
        std::vector<HoledRow> rows;
        for (const auto& [distance, row] : rows_) rows.push_back(row);
        return rows;
    }

  private:
    void read_header(const std::vector<Cell>& cells) {
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

    void read_row(const std::vector<Cell>& cells) {
        if (static_cast<int>(cells.size()) != columns_)
            fail(1, fmt::format("has {} columns where the header has {}", cells.size(), columns_));
        HoledRow row;
        row.distance_m = number(cells[distance_], 0.15 / unit_m_, 40 / unit_m_) * unit_m_;
        row.tries = tries_ < 0 ? 1 : number(cells[tries_], 1, 1e9);
        row.holed = tries_ < 0 ? yes_or_no(cells[holed_]) : number(cells[holed_], 0, row.tries);
        // Single putts are gathered to the half foot: as near as distances are paced.
        const double half_foot = 0.5 * metres_per_foot;
        const double key =
            tries_ < 0 ? std::round(row.distance_m / half_foot) * half_foot : row.distance_m;
        HoledRow& sum = rows_[std::max(key, 0.15)];
        const double tries = sum.tries + row.tries;
        sum.distance_m = (sum.distance_m * sum.tries + row.distance_m * row.tries) / tries;
        sum.tries = tries;
        sum.holed += row.holed;
    }

    double number(const Cell& cell, double least, double most) const {
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

    double yes_or_no(const Cell& cell) const {
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
    std::map<double, HoledRow> rows_;
};

std::string found_words(const SpreadFit& fit) {
    switch (fit.outcome) {
        case SpreadFit::Outcome::both:
            return "line and pace";
        case SpreadFit::Outcome::line_only:
            return "the line; these putts do not tell the pace, so that was kept";
        case SpreadFit::Outcome::none:
            break;
    }
    return "nothing: too few putts, or all holed or all missed; the spread was kept";
}

void print_text(Session& session, const std::vector<HoledRow>& rows, const SpreadFit& fit,
                const Spread& spread) {
    std::ostream& out = session.out();
    print_row(out, "Found", found_words(fit));
    const double line_error = fit.line_error_rad * 180 / M_PI;
    if (fit.outcome != SpreadFit::Outcome::none)
        print_row(out, "Line", fmt::format("{:.2f}° ± {:.2f}°", spread.line_deg, line_error));
    if (fit.outcome == SpreadFit::Outcome::both)
        print_row(out, "Pace",
                  fmt::format("{:.1f} % ± {:.1f} %", 100 * spread.pace, 100 * fit.pace_error));
    std::vector<std::vector<std::string>> table{{"from", "putts", "holed", "the fit says"}};
    for (std::size_t i = 0; i < rows.size(); ++i)
        table.push_back({format_distance(rows[i].distance_m, session.units()),
                         fmt::format("{:.0f}", rows[i].tries),
                         format_percent(rows[i].holed / rows[i].tries),
                         format_percent(fit.expected[i])});
    print_table(out, table);
    if (fit.outcome != SpreadFit::Outcome::none)
        out << fmt::format(
            "Keep it with: dewtrail player set --line {:.2f}deg --pace-spread {:.1f}%\n",
            spread.line_deg, 100 * spread.pace);
}

Json fit_json(const std::vector<HoledRow>& rows, const SpreadFit& fit, const Spread& spread) {
    const bool both = fit.outcome == SpreadFit::Outcome::both;
    const bool any = fit.outcome != SpreadFit::Outcome::none;
    Json list = Json::array();
    for (std::size_t i = 0; i < rows.size(); ++i)
        list.push_back({{"distance_m", number(rows[i].distance_m)},
                        {"tries", number(rows[i].tries)},
                        {"holed", number(rows[i].holed)},
                        {"expected", number(fit.expected[i])}});
    return {{"found", both  ? "line_and_pace"
                      : any ? "line"
                            : "nothing"},
            {"spread", spread_json(spread)},
            {"line_error_deg", any ? number(fit.line_error_rad * 180 / M_PI) : Json(nullptr)},
            {"pace_error", both ? number(fit.pace_error) : Json(nullptr)},
            {"deviance", number(fit.deviance)},
            {"rows", list}};
}

}  // namespace

Exit run_player_fit(Session& session, const std::string& path) {
    constexpr std::uintmax_t most_bytes = 10'000'000;
    const auto rows = PuttsFile(path, read_text_file(path, most_bytes)).rows();
    const Player& player = session.player();
    FitGround ground;
    ground.resistance =
        resistance_of_stimp(player.stimp_ft.value_or(usual_stimp_ft) * metres_per_foot);
    ground.past_m = player.usual_past_m;
    const SpreadFit fit = fit_spread(rows, scatter_of(player.spread), ground);
    Spread spread = player.spread;
    spread.line_deg = fit.scatter.line_rad * 180 / M_PI;
    spread.pace = fit.scatter.pace;
    if (session.json())
        session.print(fit_json(rows, fit, spread));
    else
        print_text(session, rows, fit, spread);
    return fit.outcome == SpreadFit::Outcome::none ? Exit::no_answer : Exit::done;
}

}  // namespace dewtrail
