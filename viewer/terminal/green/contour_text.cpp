#include "viewer/terminal/green/contour_text.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "greens/contours.hpp"
#include "greens/input_error.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr int most_rows = 44;
constexpr double rows_between_lines = 3;

/// The letters of a text, one string each.
std::vector<std::string> letters_of(const std::string& text) {
    std::vector<std::string> letters;
    for (const char c : text) {
        if ((static_cast<unsigned char>(c) & 0xC0) != 0x80) letters.emplace_back();
        if (!letters.empty()) letters.back() += c;
    }
    return letters;
}

class Page {
  public:
    Page(const Box& box, int columns) {
        const Vec2 size_m = box.size();
        cell_.x() = std::max(size_m.x() / columns, size_m.y() / most_rows / 2);
        cell_.y() = 2 * cell_.x();
        columns_ = std::min(columns, static_cast<int>(std::ceil(size_m.x() / cell_.x())));
        rows_ = static_cast<int>(std::ceil(size_m.y() / cell_.y()));
        upper_left_ = box.middle() + Vec2(-columns_ * cell_.x(), rows_ * cell_.y()) / 2;
        letters_.assign(static_cast<std::size_t>(rows_ * columns_), " ");
        words_.assign(letters_.size(), false);
    }

    int rows() const { return rows_; }
    int columns() const { return columns_; }
    const Vec2& cell_m() const { return cell_; }
    Vec2 place(int row, int column) const {
        return upper_left_ + Vec2((column + 0.5) * cell_.x(), -(row + 0.5) * cell_.y());
    }
    int row_of(const Vec2& at) const {
        return std::clamp(static_cast<int>((upper_left_.y() - at.y()) / cell_.y()), 0, rows_ - 1);
    }
    int column_of(const Vec2& at) const {
        return std::clamp(static_cast<int>((at.x() - upper_left_.x()) / cell_.x()), 0,
                          columns_ - 1);
    }

    void put(int row, int column, const std::string& letter) {
        letters_[cell(row, column)] = letter;
    }

    /// Whether a word could stand here without covering another.
    bool room_for(int row, int column, std::size_t length) const {
        const int end = column + static_cast<int>(length);
        if (column < 0 || end > columns_) return false;
        for (int c = column; c < end; ++c)
            if (words_[cell(row, c)]) return false;
        return true;
    }
    void write(int row, int column, const std::vector<std::string>& word) {
        for (std::size_t i = 0; i < word.size(); ++i) {
            const std::size_t at = cell(row, column + static_cast<int>(i));
            letters_[at] = word[i];
            words_[at] = true;
        }
    }

    std::vector<std::string> lines() const {
        std::vector<std::string> lines;
        for (int row = 0; row < rows_; ++row) {
            std::string line;
            for (int column = 0; column < columns_; ++column) line += letters_[cell(row, column)];
            line.erase(line.find_last_not_of(' ') + 1);
            lines.push_back(line);
        }
        return lines;
    }

  private:
    std::size_t cell(int row, int column) const {
        return static_cast<std::size_t>(row * columns_ + column);
    }

    Vec2 cell_, upper_left_;
    int rows_, columns_;
    std::vector<std::string> letters_;
    std::vector<bool> words_;  // letters that belong to a word
};

void draw_edge(Page& page, const Outline& outline) {
    const auto is_inside = [&](int row, int column) {
        return outline.inside_by(page.place(row, column)) >= 0;
    };
    for (int row = 0; row < page.rows(); ++row)
        for (int column = 0; column < page.columns(); ++column) {
            const bool amid = is_inside(row - 1, column) && is_inside(row + 1, column) &&
                              is_inside(row, column - 1) && is_inside(row, column + 1);
            if (is_inside(row, column) && !amid) page.put(row, column, ".");
        }
}

/// The stroke nearest to the way a contour runs, in cells.
const char* stroke_along(const Vec2& gradient, const Vec2& cell_m) {
    const double angle =
        std::atan2(gradient.x() / cell_m.y(), -gradient.y() / cell_m.x());  // of (-hy, hx)
    static constexpr const char* strokes[] = {"-", "/", "|", "\\"};
    const long eighth = std::lround(angle / (std::numbers::pi / 4));
    return strokes[((eighth % 4) + 4) % 4];
}

struct Crossing {
    int row, column;
    double height_m;
};

/// Cells that a contour crosses from one side to the other, so that lines are one letter thin.
std::vector<Crossing> draw_lines(Page& page, const Green& green, double base_m, double step_m) {
    std::vector<Crossing> crossings;
    const auto height = [&](const Vec2& at) { return green.surface->at(at.x(), at.y()).h; };
    for (int row = 0; row < page.rows(); ++row)
        for (int column = 0; column < page.columns(); ++column) {
            const Vec2 at = page.place(row, column);
            if (green.outline.inside_by(at) < page.cell_m().x()) continue;
            const Vec2 gradient = green.surface->at(at.x(), at.y()).gradient();
            const bool runs_across = std::abs(gradient.y()) * page.cell_m().y() >
                                     std::abs(gradient.x()) * page.cell_m().x();
            const Vec2 half =
                runs_across ? Vec2(0, page.cell_m().y() / 2) : Vec2(page.cell_m().x() / 2, 0);
            const double from = std::floor((height(at - half) - base_m) / step_m);
            const double to = std::floor((height(at + half) - base_m) / step_m);
            if (from == to) continue;
            page.put(row, column, stroke_along(gradient, page.cell_m()));
            crossings.push_back({row, column, base_m + std::max(from, to) * step_m});
        }
    return crossings;
}

void write_places(Page& page, const std::map<std::string, Vec2>& places, const char* mark) {
    for (const auto& [name, at] : places) page.write(page.row_of(at), page.column_of(at), {mark});
}

/// Right of its mark, else left of it, above or below; a blank keeps it off the mark.
void write_name(Page& page, const std::string& name, int row, int column) {
    const int length = static_cast<int>(letters_of(name).size());
    const int amid = column - length / 2;
    struct Place {
        int row, column;
        std::string word;
    };
    for (const Place& place :
         {Place{row, column + 1, " " + name}, Place{row, column - 1 - length, name + " "},
          Place{row - 1, amid, name}, Place{row + 1, amid, name}}) {
        const auto word = letters_of(place.word);
        if (place.row < 0 || place.row >= page.rows()) continue;
        if (!page.room_for(place.row, place.column, word.size())) continue;
        page.write(place.row, place.column, word);
        return;
    }
}

void write_names(Page& page, const std::map<std::string, Vec2>& places) {
    for (const auto& [name, at] : places)
        write_name(page, printable(name), page.row_of(at), page.column_of(at));
}

std::string figure(double height_m, const Units& units) {
    const std::string text = format_height(height_m, units);
    return text.substr(0, text.find(' '));
}

/// Each line's height once, as near the middle column as there is room.
void write_heights(Page& page, std::vector<Crossing> crossings, double base_m, double step_m,
                   const Units& units) {
    const auto from_middle = [&](const Crossing& c) {
        return std::abs(c.column - page.columns() / 2);
    };
    std::stable_sort(crossings.begin(), crossings.end(),
                     [&](const auto& a, const auto& b) { return from_middle(a) < from_middle(b); });
    std::vector<long> told{0};  // the line through the hole needs no figure
    for (const Crossing& crossing : crossings) {
        const long n = std::lround((crossing.height_m - base_m) / step_m);
        if (std::find(told.begin(), told.end(), n) != told.end()) continue;
        const auto word = letters_of(figure(static_cast<double>(n) * step_m, units));
        const int column = crossing.column - static_cast<int>(word.size()) / 2;
        if (!page.room_for(crossing.row, column - 1, word.size() + 2)) continue;
        page.write(crossing.row, column, word);
        told.push_back(n);
    }
}

}  // namespace

ContourText contour_text(const Green& green, double base_m, const Units& units, int columns) {
    if (columns < 20 || columns > 400)
        throw std::invalid_argument("contour_text: columns must be 20 to 400");
    Page page(box_round(green.outline.corners()), columns);
    const Ground ground = look_at_ground(*green.surface, green.outline);
    const double step_m =
        contour_spacing(ground.typical_slope, rows_between_lines * page.cell_m().y(), units.metric)
            .index_m;
    draw_edge(page, green.outline);
    const auto crossings = draw_lines(page, green, base_m, step_m);
    write_places(page, green.holes, "O");
    write_places(page, green.balls, "o");
    write_names(page, green.holes);
    write_names(page, green.balls);
    write_heights(page, crossings, base_m, step_m, units);
    return {page.lines(), step_m};
}

}  // namespace dewtrail
