#include "viewer/practice/coach/kept_lessons.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "greens/input_error.hpp"
#include "greens/text_file.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/practice/coach/lesson_file.hpp"

namespace dewtrail {
namespace fs = std::filesystem;
namespace {

/// Whether the very same words are there; what cannot be read is something else.
bool holds(const fs::path& file, const std::string& text) {
    try {
        return read_text_file(file, 2 * text.size()) == text;
    } catch (const InputError&) {
        return false;
    }
}

}  // namespace

fs::path lessons_folder(const fs::path& memory_folder) {
    return memory_folder / "lessons";
}

std::vector<fs::path> kept_lessons(const fs::path& memory_folder) {
    std::vector<fs::path> files;
    std::error_code none;
    for (const auto& entry : fs::directory_iterator(lessons_folder(memory_folder), none))
        if (entry.path().extension() == ".toml" && entry.is_regular_file(none))
            files.push_back(entry.path());
    std::sort(files.rbegin(), files.rend());
    return files;
}

fs::path keep_lesson(const fs::path& memory_folder, const TaughtLesson& lesson,
                     const std::string& date) {
    const std::string text = lesson_text(lesson);
    const std::string first =
        (lessons_folder(memory_folder) / fmt::format("{}-{}", date, lesson.theme)).string();
    std::string name = first;
    std::error_code unknown;
    for (int i = 2; fs::exists(name + ".toml", unknown); ++i) {
        if (holds(name + ".toml", text)) return name + ".toml";
        name = fmt::format("{}-{}", first, i);
    }
    make_folder_of(name + ".toml");
    save_whole_file(name + ".toml", text);
    return name + ".toml";
}

}  // namespace dewtrail
