#pragma once

#include "viewer/picture/map/room_picture.hpp"
#include "viewer/picture/widgets/spread_fields.hpp"

/// Right of the view Room: the choices side by side, and the spread they are for.
namespace dewtrail {

struct RoomColumn {
    std::string name;
    bool best = false;  ///< a choice to take, in copper
    std::string aim, level_putt, holed, three_putt, putts;
};

struct RoomPanel {
    std::vector<RoomColumn> columns;  ///< this read first
    std::string sentence;             ///< what the choice comes to
};

RoomPanel room_panel(const RoomScene& scene, const RoomPicture& room, const Units& units);

/// Draws it from `top` down in the note's column; returns where it ends.
double draw_room_panel(const Canvas& canvas, const RoomPanel& panel, const SpreadFields& spread,
                       double top);

}  // namespace dewtrail
