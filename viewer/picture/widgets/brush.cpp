#include "viewer/picture/widgets/brush.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace dewtrail {

void add_edged_paper(const Canvas& canvas, const Rect& box, double radius_u) {
    const Look& look = canvas.look;
    const double edge = look.u(1.5), radius = look.u(radius_u);
    add_rounded_rect(canvas.picture, box.grown(edge), radius + edge, look.colours.ink);
    add_rounded_rect(canvas.picture, box, radius, look.colours.paper);
}

Brush::Brush(const Canvas& canvas)
    : picture_(canvas.picture),
      targets_(canvas.targets),
      attention_(canvas.attention),
      look_(canvas.look),
      c_(canvas.look.colours) {}

double Brush::width(std::string_view words, Face face, double size) const {
    return look_.width(face, type(size), words);
}

double Brush::fitting(std::string_view words, Face face, double size, double room) const {
    const double w = width(words, face, size);
    return w > room ? size * room / w : size;
}

void Brush::write(std::string words, Face face, double size, double x, double baseline,
                  Colour colour, Align align) {
    picture_.push_back(Text{std::move(words),
                            face,
                            type(size),
                            {std::round(x), std::round(baseline)},
                            faded(colour, ink_share_),
                            align});
}

double Brush::paragraph(const std::string& words, Face face, double size, double x, double y,
                        double wide, double line_h, Colour colour, double foot) {
    for (auto& line : wrapped(words, face, type(size), wide, look_.width)) {
        if (y + type(line_h) > foot) break;
        write(std::move(line), face, size, x, y += type(line_h), colour);
    }
    return y;
}

Rect Brush::word(const Word& w, double x, double baseline) {
    const Face face = w.on ? Face::sans_bold : Face::sans;
    const double wide = width(w.words, face, w.size);
    write(w.words, face, w.size, x, baseline, w.on || hot(w.what, w.index) ? c_.ink : c_.ink2,
          w.align);
    const double before = w.align == Align::left ? 0 : w.align == Align::right ? wide : wide / 2;
    const Rect box{x - before, baseline - type(22), wide, type(34)};
    if (w.on)
        add_rounded_rect(picture_, {box.x, baseline + u(w.below), wide, u(4)}, u(2),
                         w.players_own ? c_.heather : c_.wet_green);
    focus_bar(w.what, w.index, {box.x, baseline + u(w.below + (w.on ? 6 : 0)), wide, 0});
    target(w.what, w.index, box.grown(u(4)));
    return box;
}

void Brush::button(const std::string& words, const Rect& box, Target target, double size,
                   bool lit) {
    const bool hovered = hot(target.what, target.index);
    const Colour green = hovered ? lightened(c_.wet_green, 0.08) : c_.wet_green;
    add_rounded_rect(picture_, box, u(8), lit ? green : c_.rule);
    focus_bar(target.what, target.index, {box.x, box.bottom() + u(3), box.w, 0});
    write(words, Face::sans_bold, size, box.centre().x(), box.centre().y() + type(size * 0.341),
          lit ? c_.on_button : c_.ink2, Align::centre);
    target.hit = box;
    targets_.push_back(target);
}

void Brush::rule(double x, double y, double w, bool strong) {
    const double h = std::max(1.0, std::round(u(strong ? 1.6 : 1.2)));
    add_rect(picture_, {x, std::round(y), w, h}, strong ? c_.ink2 : c_.rule);
}

void Brush::focus_bar(What what, int index, const Rect& line) {
    if (focused(what, index)) add_rect(picture_, {line.x, line.y, line.w, u(3)}, c_.copper);
}

}  // namespace dewtrail
