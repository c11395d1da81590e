#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "viewer/modes/green/green_mode.hpp"
#include "viewer/picture/widgets/note_pen.hpp"
#include "viewer/text/figures.hpp"

/// Green: the list of spots and what they make.
namespace dewtrail {

namespace {

std::string toward(const Vec2& gradient) {
    if (gradient.norm() < 1e-3) return "level";
    const double deg = bearing_of(-gradient) * 180 / std::numbers::pi;
    const int rounded = static_cast<int>(5 * std::round(deg / 5)) % 360;
    return fmt::format("{}°", (rounded + 360) % 360);
}

}  // namespace

class GreenMode::NotePart : private NotePen {
  public:
    NotePart(const Canvas& canvas, const GreenMode& mode) : NotePen(canvas), m_(mode) {
        width_ = panel_.w - 2 * look_.layout.margin();  // one column, wherever the note lies
    }

    void paint() {
        open_panel();
        head();
        const double foot = button();
        const double below = sentences(foot);
        list(below);
        picture_.push_back(Clip{});
    }

  private:
    /// Name and stimp on one line, then what the readings make.
    void head() {
        y_ += type(38);
        answer(green_name, m_.draft_.name, x_, Align::left, 17);
        answer(green_stimp, "stimp " + format_stimp(m_.draft_.stimp_ft), right(), Align::right, 17);
        const std::string heading = m_.heading();
        const double size = heading.size() > 40 ? 24 : 32;
        y_ += type(4);
        for (const auto& line :
             wrapped_evenly(heading, Face::book, type(size), width_, look_.width))
            write(line, Face::book, size, x_, y_ += type(size * 1.2), c_.ink);
        y_ += type(16);
        rule(true);
    }

    void answer(int index, const std::string& words, double x, Align align, double size) {
        const double most = width_ * (index == green_place ? 1 : index == green_name ? 0.62 : 0.36);
        const double w = width(words, Face::sans, size);
        if (!typed(index))
            write(words, Face::sans, fitting(words, Face::sans, size, most), x, y_, c_.ink2, align);
        const double room = index == green_place ? width_ : std::max(std::min(w, most), type(120));
        const Rect hit{align == Align::right ? x - room : x, y_ - type(22), room, type(30)};
        underline(What::answer, index, hit);
        targets_.push_back({What::answer, index, hit});
    }

    bool typed(int index) const { return m_.shell_.typed_index(What::answer) == index; }

    void underline(What what, int index, const Rect& hit) {
        if (hot(what, index)) add_rect(picture_, {hit.x, hit.bottom(), hit.w, u(1.2)}, c_.ink2);
        focus_bar(what, index, {hit.x, hit.bottom(), hit.w, 0});
    }

    double button() {
        const double top = panel_.bottom() - u(12) - type(22) - button_height();
        return button_at(top, "Use this green", "Enter", m_.fitted()).y - type(14);
    }

    /// Upward from the button, as many as there is room for; returns where they begin.
    double sentences(double foot) {
        const double line_h = type(23), least = y_ + type(150);
        std::vector<std::vector<std::string>> told;
        double needed = 0;
        for (const std::string& words : m_.sentences()) {
            auto lines = wrapped(words, Face::book, type(19), width_, look_.width);
            const double h = line_h * static_cast<double>(lines.size()) + type(6);
            if (foot - needed - h < least) break;
            needed += h;
            told.push_back(std::move(lines));
        }
        double y = foot - needed;
        for (const auto& lines : told) {
            for (const std::string& line : lines)
                write(line, Face::book, 19, x_, y += line_h, c_.ink);
            y += type(6);
        }
        return foot - needed;
    }

    void list(double below) {
        const double column = x_ + 0.5 * width_;
        y_ += type(24);
        write("spot", Face::sans, 16, x_, y_, c_.ink2);
        write("slope", Face::sans, 16, column, y_, c_.ink2, Align::right);
        write("drops toward", Face::sans, 16, right(), y_, c_.ink2, Align::right);
        y_ += type(8);
        const Spot* chosen = m_.chosen_spot();
        const std::size_t count = m_.draft_.spots.size();
        const double row_h = type(look_.layout.portrait ? 51 : 36), tail = type(chosen ? 88 : 58);
        const auto room =
            static_cast<std::size_t>(std::max(1.0, std::floor((below - tail - y_) / row_h)));
        std::size_t first = std::min(m_.first_row_, count - std::min(count, room));
        if (chosen && m_.list_follows_) {
            const std::size_t at = m_.spot_;
            first = std::clamp(first, at < room ? 0 : at - room + 1, at);
        }
        const std::size_t last = std::min(count, first + room);
        for (std::size_t i = first; i < last; ++i) row(i, row_h);
        const std::size_t hidden = count - (last - first);
        if (chosen) {
            y_ += type(30);
            answer(green_place,
                   spot_place_text(chosen->at, m_.draft_.hole_at(), look_.units) + " of the hole",
                   x_, Align::left, 17);
        }
        y_ += type(30);
        add_words();
        if (hidden > 0)
            write(fmt::format("and {} more", hidden), Face::sans, 16, right(), y_, c_.ink2,
                  Align::right);
    }

    void row(std::size_t i, double h) {
        const Spot& spot = m_.draft_.spots[i];
        const int index = static_cast<int>(i);
        const bool chosen = m_.chosen_spot() == &spot, lit = chosen || focused(What::spot, index);
        const double base = y_ + type(25), column = x_ + 0.5 * width_, half = u(5.5);
        const Rect mark{x_ + half, base - type(7), 0, 0};
        add_rect(picture_, mark.grown(half), chosen ? c_.copper : c_.ink);
        if (!chosen) add_rect(picture_, mark.grown(half - u(1.8)), c_.paper);
        if (m_.doubtful_[i]) add_ring(picture_, {mark.x, mark.y}, u(11), u(1.6), c_.ink);
        write(std::to_string(i + 1), Face::book, 20, x_ + u(28), base, c_.ink);
        if (!chosen || !typed(green_reading)) {
            const auto& g = spot.gradient;
            write(g ? fmt::format("{:.1f} %", 100 * g->norm()) : "read it", Face::book, 23, column,
                  base, c_.ink, Align::right);
            write(g ? toward(*g) : "", Face::book, 23, right(), base, c_.ink, Align::right);
        }
        add_rect(picture_, {x_, y_ + h - u(2), width_, u(lit ? 2.4 : 1)},
                 lit ? c_.copper : c_.rule);
        target(What::spot, index, {x_, y_, width_, h});
        if (chosen) target(What::answer, green_reading, {x_ + u(60), y_, width_ - u(60), h - u(4)});
        y_ += h;
    }

    void add_words() {
        const double end = add_word("+ add a spot", What::add, x_);
        if (!m_.draft_.ball) add_word("+ a ball", What::ball, end + u(22));
    }

    double add_word(const std::string& words, What what, double x) {
        const double w = width(words, Face::sans_bold, 18);
        write(words, Face::sans_bold, 18, x, y_, c_.wet_green);
        const Rect hit{x, y_ - type(24), w, type(34)};
        underline(what, 0, hit);
        targets_.push_back({what, 0, hit});
        return x + w;
    }

    const GreenMode& m_;
};

void GreenMode::paint_note(const Canvas& canvas) const {
    NotePart(canvas, *this).paint();
}

}  // namespace dewtrail
