#include "viewer/modes/read/room_panel.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "physics/read/aim_offset.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

RoomColumn column(const std::string& name, bool best, const Stroke& stroke, double level_putt_m,
                  const Odds* odds, const Putt& putt, const Units& units) {
    const auto aim = aim_offset_m(putt, stroke.angle_rad);
    RoomColumn c{name,
                 best,
                 aim ? aim_short(*aim, units) : absent,
                 format_level_putt(level_putt_m, units),
                 absent,
                 absent,
                 absent};
    if (!odds) return c;
    c.holed = format_percent(odds->holed);
    c.three_putt = format_percent(odds->three_putt);
    c.putts = format_putts(odds->putts);
    return c;
}

/// Only what the numbers say.
std::string sentence_of(const BestChoice& best) {
    const PlayedChoice &fewest = best.fewest_putts, &most = best.most_holed;
    constexpr double a_finger_m = 0.02, a_percent = 0.005;
    const bool firmer = most.past_m > fewest.past_m + a_finger_m;
    const bool oftener = most.odds.holed > fewest.odds.holed + a_percent;
    const std::string strokes = strokes_words(most.odds.putts - fewest.odds.putts);
    if (firmer && oftener)
        return "Firmer is holed more often, but leaves more: " +
               (strokes == "nothing" ? "no fewer putts." : "it costs " + strokes + ".");
    if (!best.plain) return "";
    const std::string saved = strokes_words(best.plain->odds.putts - fewest.odds.putts);
    if (saved == "nothing") return "No other aim or pace takes fewer putts than the plain read.";
    return "The best choice saves " + saved + ".";
}

class RoomPen : private Brush {
  public:
    RoomPen(const Canvas& canvas, double x, double width, double y)
        : Brush(canvas), x_(x), width_(width), y_(y) {
        if (look_.layout.note_below) row_u_ = 24;
    }

    void rule(bool strong) {
        add_rect(picture_, {x_, std::round(y_), width_, std::max(1.0, std::round(u(1.4)))},
                 strong ? c_.ink2 : c_.rule);
    }

    void table(const std::vector<RoomColumn>& columns) {
        if (columns.size() > 2) row_u_ = std::min(row_u_, 28.0);
        const double size = figure_size(columns);
        header(columns);
        row("Aim", columns, &RoomColumn::aim, size);
        row("Play it as", columns, &RoomColumn::level_putt, size);
        row("Holed", columns, &RoomColumn::holed, size);
        row("Three-putt", columns, &RoomColumn::three_putt, size);
        row("Putts", columns, &RoomColumn::putts, size);
        y_ += type(15);
    }

    void sentence(const std::string& words) {
        y_ = paragraph(words, Face::book, 20, x_, y_, width_, 25, c_.ink);
    }

    double y() const { return y_; }
    void go_to(double y) { y_ = y; }
    void go_to(double x, double y) { x_ = x, y_ = y; }

  private:
    double label_w() const { return width("Three-putt", Face::sans, 16); }

    /// Names in two lines where there are many.
    void header(const std::vector<RoomColumn>& columns) {
        const bool split = columns.size() > 2;
        y_ += type(split ? 22 : 25);
        const double second = type(19);
        for (std::size_t i = 0; i < columns.size(); ++i) {
            const RoomColumn& c = columns[i];
            const Colour colour = c.best ? c_.copper : c_.ink;
            const auto space = c.name.find(' ');
            set(split ? c.name.substr(0, space) : c.name, Face::sans_bold, 16, right_of(i, columns),
                colour);
            if (!split || space == std::string::npos) continue;
            y_ += second;
            set(c.name.substr(space + 1), Face::sans_bold, 16, right_of(i, columns), colour);
            y_ -= second;
        }
        if (split) y_ += second;
    }

    double right_of(std::size_t i, const std::vector<RoomColumn>& columns) const {
        const double from = label_w() + u(8), n = static_cast<double>(columns.size());
        return std::round(x_ + from + (width_ - from) * static_cast<double>(i + 1) / n);
    }

    /// The size, at most 23, at which every figure fits its column.
    double figure_size(const std::vector<RoomColumn>& columns) const {
        const double room =
            (width_ - label_w() - u(8)) / static_cast<double>(columns.size()) - u(10);
        double size = 23;
        for (const RoomColumn& c : columns)
            for (const std::string* words : {&c.aim, &c.level_putt, &c.putts})
                size = std::min(size, fitting(*words, Face::book, 23, room));
        return size;
    }

    void row(const char* label, const std::vector<RoomColumn>& columns,
             std::string RoomColumn::*figure, double size) {
        y_ += type(row_u_);
        write(label, Face::sans, 16, x_, y_, c_.ink2);
        for (std::size_t i = 0; i < columns.size(); ++i)
            set(columns[i].*figure, Face::book, size, right_of(i, columns), c_.ink);
    }

    void set(const std::string& words, Face face, double size, double right, Colour colour) {
        write(words, face, size, right, y_, colour, Align::right);
    }

    double x_, width_, y_, row_u_ = 32;
};

}  // namespace

RoomPanel room_panel(const RoomScene& scene, const RoomPicture& room, const Units& units) {
    const Read& read = *scene.solved.shown();
    const Putt& putt = scene.solved.putt;
    const double usual_past = read.level_roll_m - read.level_putt_m;
    const Odds* odds = scene.outlook.odds && !scene.best_pending ? &*scene.outlook.odds : nullptr;
    RoomPanel panel;
    panel.columns.push_back(
        column("this read", false, read.stroke, read.level_putt_m, odds, putt, units));
    for (const RoomMark& mark : room.marks)
        panel.columns.push_back(column(mark.best ? words_for(*mark.best) : "plain read",
                                       mark.best.has_value(), mark.choice.stroke,
                                       mark.choice.level_roll_m - usual_past, &mark.choice.odds,
                                       putt, units));
    if (scene.outlook.best && !scene.best_pending)
        panel.sentence = sentence_of(*scene.outlook.best);
    return panel;
}

double draw_room_panel(const Canvas& canvas, const RoomPanel& panel, const SpreadFields& spread,
                       double top) {
    const Look& look = canvas.look;
    Picture& picture = canvas.picture;
    const Rect& note = look.layout.note;
    const double margin = look.layout.margin(), full = note.w - 2 * margin;
    const bool below = look.layout.note_below && !look.layout.portrait;
    const double width = below ? (note.w - 3 * margin) / 2 : full;
    const double x = std::round(note.x + margin);
    picture.push_back(Clip{note});
    RoomPen painter(canvas, x, width, top + look.u(1));
    painter.rule(true);
    painter.table(panel.columns);
    const double table_y = painter.y();
    double fields_x = x;
    if (below) {
        fields_x = std::round(x + width + margin);
        painter.go_to(fields_x, note.y + look.u(6));
    } else {
        painter.rule(false);
    }
    painter.go_to(draw_spread_fields(canvas, spread, fields_x, painter.y() + look.u(8), width));
    painter.sentence(panel.sentence);
    picture.push_back(Clip{});
    return std::max(table_y, painter.y());
}

}  // namespace dewtrail
