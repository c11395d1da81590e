#include "viewer/window/printed_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "greens/input_error.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/paper/compare_page.hpp"
#include "viewer/paper/lesson_page.hpp"
#include "viewer/paper/progress_page.hpp"
#include "viewer/paper/putt_sheet.hpp"
#include "viewer/practice/coach/lesson_file.hpp"
#include "viewer/putt/clock.hpp"
#include "viewer/terminal/practise/practise.hpp"

namespace dewtrail {
namespace {

namespace fs = std::filesystem;

constexpr Paper paper = Paper::a4;

/// What a name of a file may hold on any machine.
std::string as_file_name(std::string words) {
    for (char& c : words) {
        const auto byte = static_cast<unsigned char>(c);
        if (byte <= ' ' || std::string_view("/\\:*?\"<>|").find(c) != std::string_view::npos)
            c = '-';
    }
    return words;
}

/// '12ft-2pct-at-3.00'; on a green its name and those of the places.
std::string putt_name(const Setup& setup, const Units& units) {
    if (setup.green) {
        std::string name = setup.green->name;
        for (const std::string& place : {setup.hole_name, setup.ball_name})
            if (!place.empty()) name += "-" + place;
        return name;
    }
    const double distance = units.metric ? setup.distance_m : setup.distance_m / metres_per_foot;
    std::string name =
        fmt::format("{:.4g}{}-{:.3g}pct", distance, units.metric ? "m" : "ft", 100 * setup.slope);
    if (const auto clock_h = clock_of(setup)) {
        const long minutes = std::lround(*clock_h * 60);
        name += fmt::format("-at-{}.{:02}", minutes / 60, minutes % 60);
    }
    return name;
}

std::string page_name(const Wish& wish, const Units& units, const Session& session) {
    const bool of_the_putt = wish.text == "read" || wish.text == "green" || wish.text == "today";
    std::string name = wish.text;
    if (of_the_putt && wish.putt) name += "-" + putt_name(*wish.putt, units);
    if (wish.compared) name += "-" + wish.compared->title;
    if (wish.text == "progress" || wish.text == "lesson")
        if (!session.pupil().empty()) name += "-" + session.pupil();
    return as_file_name(name);
}

/// In the folder the program was started in: read.pdf, read-2.pdf …
fs::path free_name(const std::string& name) {
    const fs::path folder = fs::current_path();
    fs::path path = folder / (name + ".pdf");
    for (int i = 2; fs::exists(path); ++i) path = folder / fmt::format("{}-{}.pdf", name, i);
    return path;
}

ToldLesson lesson_of(const Wish& wish, const Units& units, Session& session) {
    Greenkeeper keeper(green_folders());
    const std::string theme = wish.compared ? wish.compared->title : "";
    return told(planned_lesson(session, theme, {}, keeper), session.player().usual_past_m, keeper,
                units);
}

Sheet sheet_of(const Wish& wish, const Units& units, Session& session) {
    if (wish.text == "compare" && wish.compared)
        return {paper, {compare_page(*wish.compared, paper, units)}};
    if (wish.text == "progress") {
        const Memory memory = memory_of(session);
        return {paper,
                {progress_page(progress_of(memory.answers(), memory.putts(), memory.measures(),
                                           session.player()),
                               session.pupil(), paper, units)}};
    }
    return putt_sheet(wish.text, wish.putt.value_or(Setup{}), units, session.player().usual_past_m);
}

}  // namespace

PrintedPage print_page(const Wish& wish, const Units& units, Session& session) {
    try {
        fs::path file = free_name(page_name(wish, units, session));
        if (wish.text != "lesson") {
            save_whole_file(file, sheet_pdf(sheet_of(wish, units, session)));
            return {"Print at actual size: " + file.string(), file};
        }
        const ToldLesson lesson = lesson_of(wish, units, session);
        save_whole_file(file, sheet_pdf({paper, {lesson_page(lesson, paper, units)}}));
        save_whole_file(fs::path(file).replace_extension(".toml"), lesson_text(lesson.lesson));
        return {"Print at actual size: " + file.string() + "; beside it the lesson as text.", file};
    } catch (const std::exception& error) {
        return {"The page was not made: " + std::string(error.what()), {}};
    }
}

}  // namespace dewtrail
