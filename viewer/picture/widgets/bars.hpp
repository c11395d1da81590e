#pragma once

#include <optional>
#include <string>

#include "viewer/picture/widgets/brush.hpp"
#include "viewer/putt/fields.hpp"
#include "viewer/putt/playback.hpp"
#include "viewer/putt/trail.hpp"

/// The top bar and the two strips below the green.
namespace dewtrail {

/// A mode by its number, in full and in brief.
struct ModeWord {
    int mode;
    const char *full, *brief;
};

struct TopBarState {
    int mode = 0;                      ///< the one at the front
    std::vector<ModeWord> modes{};     ///< that there are to choose from
    std::vector<std::string> views{};  ///< none where the mode has but one
    int view = 0;
    bool help = false;
    std::string name{};   ///< of the green, beside the modes where there is room; or empty
    std::string pupil{};  ///< in the place of the program's name; or empty
};

void draw_top_bar(const Canvas& canvas, const TopBarState& state);

void draw_roll_strip(const Canvas& canvas, const Playback& playback, const Trail& trail);

/// Where the time line runs, and the time of the roll at a pixel of it.
Rect time_line_of(const Layout& layout);
double time_at(const Layout& layout, const Playback& playback, double x);

}  // namespace dewtrail
