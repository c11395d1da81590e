#pragma once

#include <optional>
#include <vector>

#include "viewer/picture/map/read_labels.hpp"
#include "viewer/picture/targets.hpp"

namespace dewtrail {

/// Where the keyboard is: a mark on the green, or a target outside it.
struct FocusStop {
    MarkId mark = MarkId::none;
    What what = What::mode;
    int index = 0;

    bool operator==(const FocusStop&) const = default;
    static FocusStop on(MarkId mark) { return {mark, What::mode, 0}; }
    static FocusStop on(What what, int index = 0) { return {MarkId::none, what, index}; }
};

/// The next stop, or the one before; from nowhere, the first or the last.
std::optional<FocusStop> step_focus(const std::vector<FocusStop>& order,
                                    const std::optional<FocusStop>& from, bool back);

}  // namespace dewtrail
