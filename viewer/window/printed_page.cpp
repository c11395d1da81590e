#include "viewer/window/printed_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "greens/input_error.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/paper/putt_sheet.hpp"
#include "viewer/paper/sheet.hpp"
#include "viewer/practice/coach/lesson_file.hpp"
#include "viewer/practice/drill/putt_set.hpp"
#include "viewer/terminal/pocket/pocket_page.hpp"
#include "viewer/terminal/practise/practise.hpp"

namespace dewtrail {
namespace {

namespace fs = std::filesystem;

/// The page itself; the lesson as text, its putts for home as a set and as a page for a browser.
constexpr const char *page_end = ".pdf", *lesson_end = ".toml", *set_end = "-homework.toml",
                     *pocket_end = "-homework.html";

/// In the folder the program was started in: read, read-2 …; nothing of that name is there yet.
std::string free_name(const std::string& name) {
    const auto taken = [](const std::string& path) {
        for (const char* end : {page_end, lesson_end, set_end, pocket_end})
            if (fs::exists(path + end)) return true;
        return false;
    };
    const std::string first = (fs::current_path() / name).string();
    std::string path = first;
    for (int i = 2; taken(path); ++i) path = fmt::format("{}-{}", first, i);
    return path;
}

std::string name_alone(const std::string& path) {
    return fs::path(path).filename().string();
}

ToldLesson lesson_of(const Wish& wish, const Units& units, Session& session) {
    Greenkeeper keeper(green_folders());
    const TaughtLesson lesson = wished_lesson(
        wish, [&](const std::string& theme) { return planned_lesson(session, theme, {}, keeper); });
    return told(lesson, session.player().usual_past_m, keeper, units);
}

Sheet sheet_of(const Wish& wish, const Units& units, Session& session) {
    WishedBy by{.pupil = session.pupil(), .usual_past_m = session.player().usual_past_m};
    by.progress = [&session] { return progress_of(memory_of(session), session.player()); };
    return wished_sheet(wish, units, by);
}

/// On one page, with what goes along; says what that is.
std::string print_lesson(const Wish& wish, const Units& units, Session& session,
                         const std::string& name) {
    ToldLesson lesson = lesson_of(wish, units, session);
    lesson.files.set = name_alone(name + set_end);
    std::string beside = "the lesson as text, its homework as a set";
    if (PocketPage::is_built()) {
        lesson.files.page = name_alone(name + pocket_end);
        save_whole_file(name + pocket_end, homework_page(lesson));
        beside += " and as a page for a phone";
    }
    save_whole_file(name + page_end,
                    sheet_pdf(wished_sheet(wish, units, {.lesson = [&] { return lesson; }})));
    save_whole_file(name + lesson_end, lesson_text(lesson.lesson));
    save_putt_set(name + set_end, lesson.lesson.homework);
    return "; beside it " + beside + ".";
}

}  // namespace

PrintedPage print_page(const Wish& wish, const Units& units, Session& session) {
    try {
        const std::string name = free_name(wished_name(wish, units, session.pupil()));
        std::string beside;
        if (wish.text == "lesson")
            beside = print_lesson(wish, units, session, name);
        else
            save_whole_file(name + page_end, sheet_pdf(sheet_of(wish, units, session)));
        return {"Print at actual size: " + name + page_end + beside, name + page_end};
    } catch (const std::exception& error) {
        return {"The page was not made: " + std::string(error.what()), {}};
    }
}

}  // namespace dewtrail
