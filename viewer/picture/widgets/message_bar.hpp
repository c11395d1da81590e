#pragma once

#include "viewer/picture/widgets/brush.hpp"

namespace dewtrail {

/// A message and the buttons to answer it, if any: "Close", or an offer.
struct Message {
    struct Answer {
        std::string words;
        What what = What::close;
        int index = 0;
    };
    std::string words;
    std::vector<Answer> answers{};
};

/// A bar at the top of the layout's place for it. Returns its box; empty where there is nothing to
/// say.
Rect draw_message_bar(const Canvas& canvas, const Message& message);

}  // namespace dewtrail
