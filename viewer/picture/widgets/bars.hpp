#pragma once

#include <optional>
#include <string>

#include "viewer/picture/layout.hpp"
#include "viewer/picture/targets.hpp"
#include "viewer/putt/fields.hpp"
#include "viewer/putt/playback.hpp"
#include "viewer/putt/trail.hpp"

/// The top bar and the two strips below the green.
namespace dewtrail {

/// What has the pointer or the focus.
struct Attention {
    std::optional<Target> hovered, focused;

    bool on(const std::optional<Target>& which, What what, int index) const {
        return which && which->what == what && which->index == index;
    }
};

struct TopBarState {
    int mode = 0;                      ///< see ModeName
    std::vector<int> modes{};          ///< that there are to choose from
    std::vector<std::string> views{};  ///< none where the mode has but one
    int view = 0;
    bool help = false;
    std::string name{};  ///< of the green, beside the modes where there is room; or empty
};

void draw_top_bar(Picture& picture, Targets& targets, const TopBarState& state,
                  const Attention& attention, const Look& look);

void draw_roll_strip(Picture& picture, Targets& targets, const Playback& playback,
                     const Trail& trail, const Attention& attention, const Look& look);

/// Where the time line runs, and the time of the roll at a pixel of it.
Rect time_line_of(const Layout& layout);
double time_at(const Layout& layout, const Playback& playback, double x);

}  // namespace dewtrail
