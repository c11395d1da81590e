#include "viewer/paper/compare_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/modes/compare/compare_style.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/outcome.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

constexpr double head_height = 34, least_row = 46, row_margin = 22;
constexpr double name_size = 16, name_line = 21, figures_size = 13, figures_line = 17;
constexpr double cell_size = 16, head_size = 13;
constexpr double style_width = 60, number_width = 26;  // before a name
constexpr double least_gap = 18;

constexpr std::array heads{"aim", "play it as", "on the way", "result"};

/// '2½ cups right': short, with its side.
std::string aim_cell(const Read& stroke, const Units& units) {
    if (!stroke.aim_offset_m) return absent;
    const std::string words = aim_short(*stroke.aim_offset_m, units);
    const bool counted = !(words[0] >= 'a' && words[0] <= 'z');  // '2½ cups', not 'inside'
    if (!counted) return aim_words(*stroke.aim_offset_m, units);
    return words + (*stroke.aim_offset_m > 0 ? " right" : " left");
}

std::array<std::string, heads.size()> cells_of(const ComparedPutt& putt, const Units& units) {
    const Read* stroke = putt.shown();
    if (!stroke) return {"no line"};
    return {aim_cell(*stroke, units), format_level_putt(stroke->level_putt_m, units),
            format_time(putt.time_on_the_way_s()),
            outcome_words(outcome_of(putt.plan.putt, *stroke), units)};
}

/// Nothing where the name says it.
std::string figures_of(const ComparedPutt& putt) {
    return putt.name.starts_with(putt.figures) ? "" : putt.figures;
}

}  // namespace

std::string row_number(const Comparison& comparison, std::size_t putt) {
    return comparison.putts.size() > 2 ? fmt::format(" ({})", putt + 1) : "";
}

double CompareTable::Row::words_height() const {
    return name_line * static_cast<double>(name.size()) +
           figures_line * static_cast<double>(figures.size());
}

double CompareTable::Row::height() const {
    return std::max(least_row, words_height() + row_margin);
}

CompareTable::CompareTable(const Comparison& comparison, const Units& units, const Page& page) {
    for (const ComparedPutt& putt : comparison.putts) {
        rows_.emplace_back();
        rows_.back().number = row_number(comparison, rows_.size() - 1);
        rows_.back().cells = cells_of(putt, units);
    }
    place_columns(comparison, page);
    const TextWidth& width = page.look().width;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        const ComparedPutt& putt = comparison.putts[i];
        rows_[i].name =
            wrapped(as_sentence(putt.name), Face::book_bold, name_size, name_width_, width);
        if (const std::string figures = figures_of(putt); !figures.empty())
            rows_[i].figures = wrapped(figures, Face::sans, figures_size, name_width_, width);
    }
}

/// What the figures leave is the names'; what these do not need goes between the columns.
void CompareTable::place_columns(const Comparison& comparison, const Page& page) {
    std::array<double, columns> wide{};
    double all = 0;
    for (std::size_t k = 0; k < columns; ++k) {
        wide[k] = page.width_of(heads[k], Face::sans, head_size);
        for (const Row& row : rows_)
            wide[k] = std::max(wide[k], page.width_of(row.cells[k], Face::book, cell_size));
        all += wide[k];
    }
    double names = 0;
    for (const ComparedPutt& putt : comparison.putts)
        names = std::max({names, page.width_of(as_sentence(putt.name), Face::book_bold, name_size),
                          page.width_of(figures_of(putt), Face::sans, figures_size)});
    name_from_ = style_width + (rows_.front().number.empty() ? 0 : number_width);
    const double room = page.body().w - name_from_ - all;
    name_width_ = std::min(names + 1, room - columns * least_gap);
    const double gap = (room - name_width_) / columns;
    double x = page.body().x + name_from_ + name_width_ + gap;
    for (std::size_t k = 0; k < columns; x += wide[k] + gap, ++k) at_[k] = x;
    at_.back() = page.body().right();
}

double CompareTable::height() const {
    double sum = head_height;
    for (const Row& row : rows_) sum += row.height();
    return sum;
}

double CompareTable::write(Page& page, double top) const {
    const Rect& body = page.body();
    page.rule(top);
    for (std::size_t k = 0; k < columns; ++k)
        page.text({at_[k], top + 20}, heads[k], Face::sans, head_size, page.look().colours.ink2,
                  k + 1 < columns ? Align::left : Align::right);
    double y = top + head_height;
    for (std::size_t i = 0; i < rows_.size(); y += rows_[i].height(), ++i) {
        page.hairline(y, body.x, body.right());
        write_row(page, i, y);
    }
    page.hairline(y, body.x, body.right());
    return y;
}

void CompareTable::write_row(Page& page, std::size_t index, double top) const {
    const Row& row = rows_[index];
    const Palette& c = page.look().colours;
    const Colour own = compare_colour(index, c);
    const double left = page.body().x, y = std::round(top + row.height() / 2 + 6);
    const CompareStyle& style = compare_style(index);
    add_dashes(page.picture(), {{left + 2, y - 6}, {left + 46, y - 6}}, style.dash, style.gap,
               style.width, own);
    if (!row.number.empty())
        page.text({left + style_width - 8, y}, row.number, Face::book, cell_size, own);
    double base = std::round(top + (row.height() - row.words_height()) / 2 + 16);
    for (const std::string& line : row.name) {
        page.text({left + name_from_, base}, line, Face::book_bold, name_size, own);
        base += name_line;
    }
    base -= name_line - figures_line;
    for (const std::string& line : row.figures) {
        page.text({left + name_from_, base}, line, Face::sans, figures_size, c.ink2);
        base += figures_line;
    }
    for (std::size_t k = 0; k < columns; ++k)
        if (!row.cells[k].empty())
            page.text({at_[k], y}, row.cells[k], Face::book, cell_size, c.ink,
                      k + 1 < columns ? Align::left : Align::right);
}

}  // namespace dewtrail
