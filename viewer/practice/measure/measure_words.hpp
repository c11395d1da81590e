#pragma once

#include <string>
#include <vector>

#include "greens/units.hpp"
#include "viewer/practice/measure/measured.hpp"

/// What the tests of pace and line say, sentence by sentence. A bias is told only where its 90 %
/// interval leaves nought out.
namespace dewtrail {

/// 'Short ones (6 ft) stop 9 % long (4–14 %).', 'Your pace scatters by 12 % (9–16 %).', 'A level
/// putt of 20 ft stops within 3 ft of its length: about 7 in 10.'
std::vector<std::string> pace_words(const PaceFound& found, const Units& units);

/// 'Your line starts 0.8° right of where it is meant (0.3–1.3°).', 'It scatters by 1.6°
/// (1.1–2.3°).', 'At 10 ft that is 3½ in to either side.'
std::vector<std::string> line_words(const LineFound& found, const Units& units);

/// 'Drill: ten balls of 6 to 11 ft, where yours stop long.'; empty where there is none.
std::string drill_words(const PaceFound& found, const Units& units);
/// 'Drill: ten strokes through a gate 6.5 cm wide, 1 m away.'
std::string drill_words(const LineFound& found, const Units& units);

/// Of the first month and the last: 'Your pace scattered by 14 % in May, by 10 % in November: more
/// than chance.', or that chance may have made the difference. None with one month.
std::vector<std::string> change_words(const std::vector<MeasuredMonth>& months);

/// What a spread that was measured changes for a level putt of 8 ft, or 2.5 m, on a green of this
/// speed: 'Of level putts of 8 ft you hole 61 in 100, not 53; best finished 9 in past, not 12 in.'
/// Empty where there are no odds.
std::string taken_words(const Spread& before, const Spread& now, double stimp_ft,
                        const Units& units);

/// '2026-05' in words: 'May 2026'.
std::string month_words(const std::string& month);

/// '9–16 %' and '1.1–2.3°': the middle 90 %.
std::string percent_range(const Credible& part);
std::string degrees_range(const Credible& angle);

/// '8 cm wide, 1 m away'.
std::string gate_words(const GateSize& gate, const Units& units);

}  // namespace dewtrail
