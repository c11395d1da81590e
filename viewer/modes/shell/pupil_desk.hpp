#pragma once

#include <functional>
#include <string>
#include <vector>

#include "viewer/modes/shell/modes.hpp"

namespace dewtrail {

/// Those who keep pupils for the modes. All but `names` throw InputError or OutsideError.
struct PupilDesk {
    std::function<std::vector<std::string>()> names{};
    /// A new one, who thinks in these units.
    std::function<void(const std::string&, const Units&)> add{};
    /// From now on everything is this pupil's, or nobody's; returns in which units they think. If
    /// it throws, all is whose it was.
    std::function<Units(const std::string&)> choose{};
    /// Whether there are putts of nobody's, and a new pupil who has them.
    std::function<bool()> has_own{};
    std::function<void(const std::string&, const Units&)> adopt_own{};
};

/// What the mode at the front wishes of pupils: to see them, to change to another, to add one.
/// What that would cut short is asked first.
/// Whether all modes are somebody else's now; where that cannot be, it is said there, and they are
/// whose they were.
bool grant_pupil_wish(Modes& modes, const PupilDesk& desk, const Wish& wish);

}  // namespace dewtrail
