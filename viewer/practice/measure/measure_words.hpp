#pragma once

#include <string>
#include <vector>

#include "greens/units.hpp"
#include "viewer/practice/measure/measure_typed.hpp"
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

/// What to do with it: 'ten balls of 6 to 11 ft, where yours stop long.'; empty where no bias is
/// told.
std::string drill_words(const PaceFound& found, const Units& units);
/// 'ten strokes through a gate 6.5 cm wide, 1 m away; yours start left.'
std::string drill_words(const LineFound& found, const Units& units);

/// Where a ball lies off by more than half of what was called: 'A ball called at 20 ft stopped at
/// 8 ft 6 in: is that right?' Else empty.
std::string far_off_words(double called_m, double stopped_m, const Units& units);

// ---- on a floor too short for the roll

/// What is to be typed: 'It stopped at', 'Seconds to the line', 'Seconds between the marks'.
std::string asked_words(const PaceFloor& floor);
/// '6 ft away', 'from 3 ft to 6 ft'; and as one would type it, '6 ft', '3 ft, 6 ft'.
std::string stretch_words(const Stretch& stretch, const Units& units);
std::string stretch_as_typed(const Stretch& stretch, const Units& units);
/// What a hand's error of timing makes of the middle length that is called: 'Timed a twentieth of a
/// second short, a roll of 13 ft counts as 14 ft 2 in: a film times it finer.' Empty where nothing
/// is timed.
std::string timing_words(const PaceFloor& floor, const Units& units);
/// 'By your stroke table this floor is stimp 11½ (10½–12½).'
std::string floor_words(const Credible& stimp_ft);

/// Of the first month and the last: 'Your pace scattered by 14 % (11–18 %) in May, by 10 % (8–13 %)
/// in November: more than chance.', or that chance may have made the difference. None with one
/// month.
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
