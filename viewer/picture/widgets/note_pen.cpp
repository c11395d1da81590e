#include "viewer/picture/widgets/note_pen.hpp"

#include <algorithm>
#include <cmath>

#include "viewer/picture/portrait.hpp"
#include "viewer/picture/widgets/whole_lines.hpp"

namespace dewtrail {
namespace {

constexpr double text_from_u = 34;

}  // namespace

NotePen::NotePen(const Canvas& canvas, double scrolled_px)
    : Brush(canvas), panel_(look_.layout.note) {
    const Layout& l = look_.layout;
    const bool columns = l.note_below && !l.portrait;
    x_ = std::round(panel_.x + l.margin());
    width_ = columns ? (panel_.w - 3 * l.margin()) / 2 : panel_.w - 2 * l.margin();
    y_ = panel_.y - scrolled_px;
}

void NotePen::open_panel() {
    picture_.push_back(Clip{panel_});
    add_rect(picture_, panel_, c_.paper);
    if (!look_.layout.note_below) add_rect(picture_, {panel_.x, panel_.y, 1, panel_.h}, c_.rule);
    targets_.push_back({What::note, 0, panel_});
}

double NotePen::button_height() const {
    return std::round(type(look_.layout.portrait ? 56 : 50));
}

Rect NotePen::button_at(double top, const std::string& words, const std::string& key, bool lit) {
    const Rect box{x_, std::round(top), width_, button_height()};
    button(words, box, {What::button, 0, {}}, 22, lit);
    if (!attention_.enter_types && !is_small(look_.layout))
        write(key, Face::sans, 16, box.centre().x(), box.bottom() + type(22), c_.ink2,
              Align::centre);
    return box;
}

double NotePen::pinned_button(const std::string& words) {
    const double top = panel_.bottom() - button_height() - u(12);
    const Rect above{panel_.x, panel_.y, panel_.w, top - u(10) - panel_.y};
    keep_whole(picture_, targets_, above);
    add_rect(picture_,
             {panel_.x + 1, above.bottom(), panel_.w - 1, panel_.bottom() - above.bottom()},
             c_.paper);
    button_at(top, words, "");
    return y_ + panel_.bottom() - above.bottom();
}

double NotePen::text_x() const {
    return std::round(x_ + u(text_from_u));
}
double NotePen::text_w() const {
    return width_ - u(text_from_u);
}
double NotePen::right() const {
    return std::round(x_ + width_);
}

void NotePen::rule(bool strong) {
    Brush::rule(x_, y_, width_, strong);
}

}  // namespace dewtrail
