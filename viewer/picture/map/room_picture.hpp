#pragma once

#include <optional>
#include <string>
#include <vector>

#include "viewer/picture/widgets/bars.hpp"
#include "viewer/putt/outlook.hpp"

/// The view Room: which strokes drop, which the player makes, and the best one to mean.
namespace dewtrail {

/// What the view shows. `pending`: the outlook is of the putt before; `best_pending`: its odds and
/// best choices are.
struct RoomScene {
    const Solved& solved;
    const Outlook& outlook;
    std::optional<TakenChoice> taken;
    bool detail = false;
    bool pending = false, best_pending = false;
};

/// A stroke that is worth a name. Choices nearer to the read than 20 u share its mark.
struct RoomMark {
    StrokeOff off;
    std::optional<BestKind> best;  ///< none: the plain read, where a best choice was taken
    PlayedChoice choice;
    Vec2 at = Vec2::Zero();  ///< pixels
};

struct RoomPicture {
    Picture picture;
    std::vector<RoomMark> marks;     ///< beside the read's own
    std::vector<BestKind> the_read;  ///< what the read is itself
};

/// Everything left of the note.
Rect room_pane(const Layout& layout);
Picture room_ground(const Rect& pane, const Look& look);
RoomPicture room_picture(const RoomScene& scene, Targets& targets, const Attention& attention,
                         const Look& look);

const char* words_for(BestKind kind);

}  // namespace dewtrail
