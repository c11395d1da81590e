#pragma once

#include <array>
#include <string>

#include "greens/units.hpp"
#include "viewer/practice/drill/diagnosis.hpp"

/// What is said of one answer beside the truth. What stands side by side is told in one measure,
/// and differences and shares are those of the figures as told: whoever reads them can check them.
namespace dewtrail {

/// What happened, by the fault: 'Missed low, by 4 in', 'Wrong side, by 13 in', 'Long, by 4 ft',
/// 'Holed, off the high edge'; without a fault 'Holed' or '8 in from the hole'.
std::string headline(const Diagnosis& diagnosis, const Units& units);

/// The table: aim and pace, yours, true, strokes each cost. At most one leads. Aims are lengths
/// from the centre on both sides, paces feet or metres: what stands side by side can be compared.
struct DiagnosisRow {
    std::string label, yours, truth, strokes;
    bool leads = false;
};
std::array<DiagnosisRow, 2> diagnosis_rows(const Diagnosis& diagnosis, const Units& units);

/// About the row that leads, share and difference as its figures give them: 'You played 67 % of the
/// break: 5 in more.', 'You hit it 3 ft too firm: 12 ft, not 15 ft.', 'The pace fits, a shade soft:
/// 6 ft.', 'Wrong side: it breaks right to left.'; 'Line and pace fit.'
std::string diagnosis_sentence(const Diagnosis& diagnosis, const Units& units);

/// '5 of 10: the aim cost 0.14 strokes.'
std::string score_words(const Diagnosis& diagnosis);

}  // namespace dewtrail
