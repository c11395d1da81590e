#pragma once

#include "viewer/paper/paper.hpp"

namespace dewtrail {

/// A form for the tests of pace and line: twenty lengths in a mixed order with room for where each
/// ball stopped, and twenty strokes through a gate.
Picture measure_form(Paper paper, const Units& units);

}  // namespace dewtrail
