#pragma once

#include "viewer/paper/paper.hpp"
#include "viewer/practice/coach/told_lesson.hpp"

namespace dewtrail {

/// A lesson on one page, in the order in which it is given: what to show and say, the drills with
/// boxes to tick, the ladder, the putts for home with room for an answer.
Picture lesson_page(const ToldLesson& told, Paper paper, const Units& units);

}  // namespace dewtrail
