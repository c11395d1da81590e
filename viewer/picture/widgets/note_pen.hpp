#pragma once

#include <string>

#include "viewer/picture/widgets/brush.hpp"

namespace dewtrail {

/// Writes one column of the note from `y_` downward; what its parts have in common.
class NotePen : protected Brush {
  protected:
    explicit NotePen(const Canvas& canvas, double scrolled_px = 0);

    /// The panel's paper, and nothing drawn beyond it until the next Clip.
    void open_panel();
    /// The button that goes on, over the column's width, its top at `top`; its key below it.
    /// Returns its box. Not lit: there is nothing to go on to yet.
    Rect button_at(double top, const std::string& words, const std::string& key, bool lit = true);
    /// The same for fingers: at the panel's foot, over what reaches down there; that is not to be
    /// seen or touched yet. Returns where the note ends, for a panel that scrolls.
    double pinned_button(const std::string& words);
    double button_height() const;
    double text_x() const;
    double text_w() const;
    double right() const;
    void rule(bool strong);

    const Rect& panel_;
    double x_ = 0, width_ = 0, y_ = 0;
};

}  // namespace dewtrail
