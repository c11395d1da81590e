#pragma once

#include "viewer/paper/paper.hpp"
#include "viewer/practice/habits/progress.hpp"

namespace dewtrail {

/// How practice goes, on one page. `name`: whose it is; to be filled in where it is empty.
Picture progress_page(const Progress& progress, const std::string& name, Paper paper,
                      const Units& units);

}  // namespace dewtrail
