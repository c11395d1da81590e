#pragma once

#include "viewer/paper/sheet.hpp"
#include "viewer/practice/habits/progress.hpp"

namespace dewtrail {

/// How practice goes, on one page.
Picture progress_page(const Progress& progress, Paper paper, const Units& units);

}  // namespace dewtrail
