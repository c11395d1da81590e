#pragma once

#include "viewer/picture/widgets/brush.hpp"

namespace dewtrail {

/// A message and a button to answer it, if any: "Close", or an offer.
struct Message {
    std::string words, button;
    Target answer{What::close, 0, {}};
};

/// A bar at the top of the layout's place for it. Returns its box; empty where there is nothing to
/// say.
Rect draw_message_bar(const Canvas& canvas, const Message& message);

}  // namespace dewtrail
