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

const NoteState plain_state{};

struct SpotRow {
    std::size_t spot = 0;
    std::string slope, toward;
    bool chosen = false, doubtful = false;
};

struct GreenNote {
    std::string name, stimp, heading, place;
    std::vector<SpotRow> rows;
    std::size_t first = 0;                  ///< row shown at the top, as a rule
    std::optional<std::size_t> in_sight{};  ///< row that is to be seen
    std::vector<std::string> sentences;
    std::optional<int> typing;
    bool fitted = false;
};

class GreenPen : private NotePen {
  public:
    GreenPen(Picture& picture, Targets& targets, const GreenNote& note, const Attention& attention,
             const Look& look)
        : NotePen(picture, targets, plain_state, attention, look, 0), note_(note) {
        width_ = panel_.w - look.u(2 * margin_u);  // one column, wherever the note lies
    }

    std::size_t shown_first = 0;  ///< row at the top, once painted

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
        y_ += look_.type(38);
        answer(green_name, note_.name, x_, Align::left, 17);
        answer(green_stimp, "stimp " + note_.stimp, right(), Align::right, 17);
        const double size = note_.heading.size() > 40 ? 24 : 32;
        y_ += look_.type(4);
        for (const auto& line :
             wrapped_evenly(note_.heading, Face::book, look_.type(size), width_, look_.width))
            write(line, Face::book, size, x_, y_ += look_.type(size * 1.2), c_.ink);
        y_ += look_.type(16);
        rule(true);
    }

    void answer(int index, const std::string& words, double x, Align align, double size) {
        const double most = width_ * (index == green_place ? 1 : index == green_name ? 0.62 : 0.36);
        const double w = look_.width(Face::sans, look_.type(size), words);
        const double fitted = w > most ? size * most / w : size;
        if (note_.typing != index) write(words, Face::sans, fitted, x, y_, c_.ink2, align);
        const double room =
            index == green_place ? width_ : std::max(std::min(w, most), look_.type(120));
        const Rect hit{align == Align::right ? x - room : x, y_ - look_.type(22), room,
                       look_.type(30)};
        underline(What::answer, index, hit);
        targets_.push_back({What::answer, index, hit});
    }

    void underline(What what, int index, const Rect& hit) {
        const bool focused = attention_.on(attention_.focused, what, index);
        if (focused || attention_.on(attention_.hovered, what, index))
            add_rect(picture_, {hit.x, hit.bottom(), hit.w, look_.u(focused ? 3 : 1.2)},
                     focused ? c_.copper : c_.ink2);
    }

    double button() {
        const double top = panel_.bottom() - look_.u(12) - look_.type(22) - button_height();
        return button_at(top, "Use this green", "Enter", note_.fitted).y - look_.type(14);
    }

    /// Upward from the button, as many as there is room for; returns where they begin.
    double sentences(double foot) {
        const double line_h = look_.type(23), least = y_ + look_.type(150);
        std::vector<std::vector<std::string>> told;
        double needed = 0;
        for (const std::string& words : note_.sentences) {
            auto lines = wrapped(words, Face::book, look_.type(19), width_, look_.width);
            const double h = line_h * static_cast<double>(lines.size()) + look_.type(6);
            if (foot - needed - h < least) break;
            needed += h;
            told.push_back(std::move(lines));
        }
        double y = foot - needed;
        for (const auto& lines : told) {
            for (const std::string& line : lines)
                write(line, Face::book, 19, x_, y += line_h, c_.ink);
            y += look_.type(6);
        }
        return foot - needed;
    }

    void list(double below) {
        const double column = x_ + 0.5 * width_;
        y_ += look_.type(24);
        write("spot", Face::sans, 16, x_, y_, c_.ink2);
        write("slope", Face::sans, 16, column, y_, c_.ink2, Align::right);
        write("drops toward", Face::sans, 16, right(), y_, c_.ink2, Align::right);
        y_ += look_.type(8);
        const double row_h = look_.type(36), tail = look_.type(note_.place.empty() ? 58 : 88);
        const auto room =
            static_cast<std::size_t>(std::max(1.0, std::floor((below - tail - y_) / row_h)));
        const std::size_t most = note_.rows.size() > room ? note_.rows.size() - room : 0;
        std::size_t first = std::min(note_.first, most);
        if (note_.in_sight && *note_.in_sight < first) first = *note_.in_sight;
        if (note_.in_sight && *note_.in_sight >= first + room) first = *note_.in_sight - room + 1;
        shown_first = first;
        const std::size_t last = std::min(note_.rows.size(), first + room);
        for (std::size_t i = first; i < last; ++i) row(note_.rows[i], row_h);
        const std::size_t hidden = note_.rows.size() - (last - first);
        if (!note_.place.empty()) {
            y_ += look_.type(30);
            answer(green_place, note_.place, x_, Align::left, 17);
        }
        y_ += look_.type(30);
        add_words();
        if (hidden > 0)
            write(fmt::format("and {} more", hidden), Face::sans, 16, right(), y_, c_.ink2,
                  Align::right);
    }

    void row(const SpotRow& r, double h) {
        const double base = y_ + look_.type(25), column = x_ + 0.5 * width_;
        const double half = look_.u(5.5);
        const Vec2 at(x_ + half, base - look_.type(7));
        add_rect(picture_, {at.x() - half, at.y() - half, 2 * half, 2 * half},
                 r.chosen ? c_.copper : c_.ink);
        if (!r.chosen)
            add_rect(picture_,
                     {at.x() - half + look_.u(1.8), at.y() - half + look_.u(1.8),
                      2 * half - look_.u(3.6), 2 * half - look_.u(3.6)},
                     c_.paper);
        if (r.doubtful) add_ring(picture_, at, look_.u(11), look_.u(1.6), c_.ink);
        write(std::to_string(r.spot + 1), Face::book, 20, x_ + look_.u(28), base, c_.ink);
        const int spot = static_cast<int>(r.spot);
        const bool typed = r.chosen && note_.typing == green_reading;
        if (!typed) {
            write(r.slope, Face::book, 23, column, base, c_.ink, Align::right);
            write(r.toward, Face::book, 23, right(), base, c_.ink, Align::right);
        }
        const bool focused =
            attention_.on(attention_.focused, What::spot, spot) ||
            (r.chosen && attention_.on(attention_.focused, What::answer, green_reading));
        add_rect(picture_,
                 {x_, y_ + h - look_.u(2), width_, look_.u(r.chosen || focused ? 2.4 : 1)},
                 r.chosen || focused ? c_.copper : c_.rule);
        targets_.push_back({What::spot, spot, {x_, y_, width_, h}});
        if (r.chosen)
            targets_.push_back({What::answer,
                                green_reading,
                                {x_ + look_.u(60), y_, width_ - look_.u(60), h - look_.u(4)}});
        y_ += h;
    }

    void add_words() {
        const double w = look_.width(Face::sans_bold, look_.type(18), "+ add a spot");
        write("+ add a spot", Face::sans_bold, 18, x_, y_, c_.wet_green);
        const Rect hit{x_, y_ - look_.type(24), w, look_.type(34)};
        underline(What::add, 0, hit);
        targets_.push_back({What::add, 0, hit});
    }

    const GreenNote& note_;
};

std::string toward(const Vec2& gradient) {
    if (gradient.norm() < 1e-3) return "level";
    const double deg = bearing_of(-gradient) * 180 / std::numbers::pi;
    const int rounded = static_cast<int>(5 * std::round(deg / 5)) % 360;
    return fmt::format("{}°", (rounded + 360) % 360);
}

}  // namespace

void GreenMode::draw_note(Picture& picture, const Look& look) {
    GreenNote note;
    note.name = draft_.name;
    note.stimp = format_stimp(draft_.stimp_ft);
    note.heading = heading();
    note.sentences = sentences();
    note.typing = typing_;
    note.fitted = fitted();
    const std::vector<std::size_t> order = rows();
    std::size_t chosen = 0;
    for (const std::size_t i : order) {
        const Spot& spot = draft_.spots[i];
        SpotRow row{i, "read it", "", thing_ == Thing::spot && i == spot_, doubtful_[i]};
        if (spot.gradient) {
            row.slope = fmt::format("{:.1f} %", 100 * spot.gradient->norm());
            row.toward = toward(*spot.gradient);
        }
        if (row.chosen) chosen = note.rows.size();
        note.rows.push_back(row);
    }
    if (const Spot* spot = chosen_spot()) {
        note.place = spot_place_text(spot->at, draft_.hole_at(), units()) + " of the hole";
        if (list_follows_) note.in_sight = chosen;
    }
    note.first = first_row_;
    const Attention attention = this->attention();
    GreenPen pen(picture, targets_, note, attention, look);
    pen.paint();
    first_row_ = pen.shown_first;
}

Frame GreenMode::frame(const TextWidth& width) {
    const Look look = this->look(width);
    Frame frame;
    targets_.clear();
    draw_map(frame, look);
    draw_note(frame.picture, look);
    draw_top_bar(frame.picture, targets_, top_bar_of_mode(), attention(), look);
    draw_message_bar(frame.picture, targets_, {message_, "Close"}, layout_.green, attention(),
                     look);
    draw_sheet(frame.picture, look);
    return frame;
}

}  // namespace dewtrail
