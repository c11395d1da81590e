#pragma once

#include "viewer/picture/layout.hpp"
#include "viewer/picture/picture.hpp"
#include "viewer/practice/habits/progress.hpp"

namespace dewtrail {

/// A finding as a picture: a ring for each putt by its share, the whole with its interval, and
/// where all of the break or the pace would be. Returns the foot of what was drawn.
double draw_shares(Picture& picture, const Finding& finding,
                   const std::vector<NumberedShare>& putts, const Rect& box, const Look& look);

/// The share of each putt in turn against the whole, and their mean, in a box with its axis.
/// `last_told`: the last of them is the one that is looked at.
void draw_share_by_putt(Picture& picture, const std::vector<double>& shares, bool last_told,
                        const Rect& box, const Look& look);

/// How practice goes, in a box of the window or of a page: the finding, strokes lost over time, the
/// weekly tests, and what there is to say, as far as there is room. Returns its foot.
double draw_progress(Picture& picture, const Progress& progress, const Rect& box, const Look& look);

}  // namespace dewtrail
