#pragma once

#include "viewer/paper/paper.hpp"

namespace dewtrail {

/// A blank form for levels and heights of a green, its columns those of the survey tables
/// (greens/survey_csv.hpp), with squares to sketch the green on, 1 : 200.
Picture survey_form(Paper paper, const Units& units);

/// A blank form for real putts, its columns those of viewer/practice/log/log_columns.hpp.
Picture result_form(Paper paper, const Units& units);

}  // namespace dewtrail
