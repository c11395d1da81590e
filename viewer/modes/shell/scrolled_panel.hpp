#pragma once

#include <functional>

#include "viewer/picture/widgets/brush.hpp"

namespace dewtrail {

/// A panel that scrolls where there is more than it has room for. It is laid out before it is
/// painted, for what a mode paints does not change the mode.
class ScrolledPanel {
  public:
    /// Paints all there is from `from_px` above the panel's top on; returns where that ends.
    using Paint = std::function<double(const Canvas& canvas, double from_px)>;

    void lay_out(const Look& look, const Attention& attention, const Rect& panel,
                 const Paint& paint);
    /// The picture as laid out, what of it can be clicked, and how far down it is. A line of text
    /// is there as a whole or not at all.
    void paint(const Canvas& canvas) const;
    /// False where all of it is seen.
    bool wheel(double clicks, double scale);
    void to_top() { scrolled_px_ = 0; }

  private:
    Rect panel_;
    double scrolled_px_ = 0, most_px_ = 0;
    Picture picture_;
    Targets targets_;
};

}  // namespace dewtrail
