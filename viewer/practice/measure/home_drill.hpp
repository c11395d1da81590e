#pragma once

#include <optional>
#include <string>

#include "greens/units.hpp"
#include "viewer/practice/drill/diagnosis.hpp"
#include "viewer/practice/measure/measured.hpp"

namespace dewtrail {

/// What the tests at home ask to be practised there.
struct HomeDrill {
    Fault of = Fault::pace;  ///< the test it belongs to: the aim's is the line's
    std::string words;       ///< 'At home: ten balls of 6 to 11 ft, where yours stop long.'

    /// 'pace' or 'line', as the command and the mode are asked for it.
    std::string test() const { return of == Fault::pace ? "pace" : "line"; }
    /// 'dewtrail measure pace --drill'.
    std::string command() const { return "dewtrail measure " + test() + " --drill"; }
};

/// Only where a bias is told; of two that of the part that cost `dearer`.
std::optional<HomeDrill> home_drill(const Measured& found, Fault dearer, const Units& units);

}  // namespace dewtrail
