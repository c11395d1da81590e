#pragma once

#include "viewer/picture/widgets/brush.hpp"

namespace dewtrail {

/// Takes away the texts that a panel's edge would cut: a line is there as a whole or not at all.
void keep_whole_lines(Picture& picture, const Rect& panel);
/// The same, and what is touched there.
void keep_whole(Picture& picture, Targets& targets, const Rect& panel);

}  // namespace dewtrail
