#include "viewer/modes/shell/scrolled_panel.hpp"

#include <algorithm>
#include <cmath>

#include "viewer/picture/portrait.hpp"
#include "viewer/picture/widgets/whole_lines.hpp"

namespace dewtrail {
namespace {

constexpr double step_u = 48;  ///< of the wheel

Rect within(const Rect& hit, const Rect& panel) {
    const double x = std::max(hit.x, panel.x), y = std::max(hit.y, panel.y);
    return {x, y, std::min(hit.right(), panel.right()) - x,
            std::min(hit.bottom(), panel.bottom()) - y};
}

}  // namespace

void ScrolledPanel::lay_out(const Look& look, const Attention& attention, const Rect& panel,
                            const Paint& paint) {
    panel_ = panel;
    const auto lay = [&] {
        picture_.clear(), targets_.clear();
        const Canvas canvas{picture_, targets_, attention, look};
        return paint(canvas, scrolled_px_) + scrolled_px_ - panel.bottom();
    };
    most_px_ = std::max(0.0, std::ceil(lay()));
    if (scrolled_px_ > most_px_) {
        scrolled_px_ = most_px_;
        lay();
    }
    keep_whole_lines(picture_, panel);
    // For a finger what is cut is not there yet either.
    const bool fingers = is_small(look.layout);
    std::erase_if(targets_, [&](Target& t) {
        const double whole = t.hit.h;
        t.hit = within(t.hit, panel);
        return t.hit.w <= 0 || t.hit.h <= 0 ||
               (fingers && t.hit.h < whole - 0.5 && t.what != What::note);
    });
}

void ScrolledPanel::paint(const Canvas& canvas) const {
    append(canvas.picture, picture_);
    canvas.targets.insert(canvas.targets.end(), targets_.begin(), targets_.end());
    if (most_px_ <= 0) return;
    const Look& look = canvas.look;
    const double w = look.u(5), all = panel_.h + most_px_;
    const Rect bar{panel_.right() - 2 * w, panel_.y + panel_.h * scrolled_px_ / all, w,
                   panel_.h * panel_.h / all};
    add_rounded_rect(canvas.picture, bar, w / 2, look.colours.rule);
}

bool ScrolledPanel::wheel(double clicks, double scale) {
    if (most_px_ <= 0) return false;
    scrolled_px_ = std::clamp(scrolled_px_ - std::round(step_u * scale * clicks), 0.0, most_px_);
    return true;
}

}  // namespace dewtrail
