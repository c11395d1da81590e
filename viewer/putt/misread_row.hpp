#pragma once

#include "viewer/putt/account.hpp"

namespace dewtrail {

/// 'A misread costs': what aim and pace would be if slope, cross slope or stimp were half a percent
/// or a foot other than told, both ways round. What would change no figure of the read is left out,
/// and the cross slope where slope along the fall line moves the aim already: straight putts and
/// level ones tell it. The figures hold both.
AccountRow misread_row(const Putt& putt, const Read& read, const Units& units);

}  // namespace dewtrail
