#pragma once

#include <string>
#include <vector>

#include "greens/units.hpp"
#include "viewer/practice/measure/line_measure.hpp"
#include "viewer/practice/measure/pace_measure.hpp"

/// What the tests of pace and line say, sentence by sentence. A bias is told only where its 90 %
/// interval leaves nought out.
namespace dewtrail {

/// 'Short ones (6 ft) stop 9 % long (4–14 %).', 'Your pace scatters by 12 % (9–16 %).', 'A level
/// putt of 20 ft stops within 3 ft of its length: about 7 in 10.'
std::vector<std::string> pace_words(const PaceFound& found, const Units& units);

/// 'Your line starts 0.8° right of where it is meant (0.3–1.3°).', 'It scatters by 1.6°
/// (1.1–2.3°).', 'At 10 ft that is 3½ in to either side.'
std::vector<std::string> line_words(const LineFound& found, const Units& units);

/// '8 cm wide, 1 m away'.
std::string gate_words(const GateSize& gate, const Units& units);

}  // namespace dewtrail
