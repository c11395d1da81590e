#include "viewer/picture/widgets/message_bar.hpp"

#include <algorithm>
#include <cmath>

namespace dewtrail {

Rect draw_message_bar(const Canvas& canvas, const Message& message) {
    if (message.words.empty()) return {};
    const Look& look = canvas.look;
    const Palette& c = look.colours;
    Brush brush(canvas);
    const Rect& pane = look.layout.message;
    const double size = look.type(21), pad = look.u(20), line_h = look.type(26);
    const auto button_w = [&](const Message::Answer& answer) {
        return brush.width(answer.words, Face::sans_bold, 18) + look.u(28);
    };
    double buttons_w = 0;
    for (const Message::Answer& answer : message.answers) buttons_w += button_w(answer);
    const auto lines = wrapped(message.words, Face::book, size,
                               pane.w - 2 * pad - buttons_w - look.u(20), look.width);
    const auto count = static_cast<double>(lines.size());
    const Rect bar{pane.x, pane.y, pane.w, std::max(look.u(44), look.u(16) + line_h * count)};
    add_rect(canvas.picture, bar, c.paper2);
    add_rect(canvas.picture, {bar.x, bar.bottom() - 1, bar.w, 1}, c.ink2);
    brush.target(What::sheet, 1, bar);
    double y = bar.centre().y() + 0.32 * size - line_h * (count - 1) / 2;
    for (const auto& line : lines) {
        brush.write(line, Face::book, 21, bar.x + look.u(40), y, c.ink);
        y += line_h;
    }
    double x = bar.right() - pad - buttons_w;
    for (const Message::Answer& answer : message.answers) {
        const Rect box{x, bar.centre().y() - look.u(18), button_w(answer), look.u(36)};
        brush.button(answer.words, box.grown(-look.u(2)), {answer.what, answer.index, {}}, 18);
        x += box.w;
    }
    return bar;
}

}  // namespace dewtrail
