#pragma once

#include <filesystem>
#include <vector>

#include "viewer/practice/coach/taught_lesson.hpp"

/// Lessons that are kept lie as text beside the memory of whoever they are for.
namespace dewtrail {

std::filesystem::path lessons_folder(const std::filesystem::path& memory_folder);

/// The files, the newest first by the day in their names.
std::vector<std::filesystem::path> kept_lessons(const std::filesystem::path& memory_folder);

/// Under the day and the theme, '2026-05-01-low.toml'; where a lesson that is another has that
/// name, '2026-05-01-low-2.toml'. Returns the file. OutsideError.
std::filesystem::path keep_lesson(const std::filesystem::path& memory_folder,
                                  const TaughtLesson& lesson, const std::string& date);

}  // namespace dewtrail
