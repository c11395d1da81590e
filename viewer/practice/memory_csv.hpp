#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "viewer/practice/drill/answer.hpp"
#include "viewer/practice/measure/measured.hpp"

/// What is remembered as CSV: SI units, a header with the names of the fields. Everything reads
/// back the same to the last bit; InputError with file, line and column for anything else.
namespace dewtrail {

std::string write_answers_csv(const std::vector<Answer>& answers);
std::vector<Answer> read_answers_csv(const std::string& name, std::string_view text);

/// Balls and strokes in one table: what a row has not is empty.
std::string write_measures_csv(const Measures& measures);
Measures read_measures_csv(const std::string& name, std::string_view text);

}  // namespace dewtrail
