#include "viewer/practice/coach/lesson_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <sstream>

#include "greens/green_writer.hpp"
#include "greens/input_error.hpp"
#include "greens/text_file.hpp"
#include "greens/toml_section.hpp"
#include "viewer/comparison/demonstrations.hpp"
#include "viewer/practice/drill/putt_set.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {
namespace {

constexpr std::uintmax_t most_bytes = 1'000'000;
constexpr std::size_t most_rungs = 5, most_letters = 300;
constexpr int most_drill_putts = 20;

std::string words(const TomlSection& section, std::string_view key) {
    std::string text = section.has(key) ? section.text(key) : "";
    if (text.size() > most_letters)
        section.fail(key, fmt::format("{} has over {} letters", key, most_letters), "shorten it");
    return text;
}

/// Runs what refuses by an InputError, which then names the key.
template <class Check>
auto checked(const TomlSection& section, std::string_view key, Check check) {
    try {
        return check();
    } catch (const InputError& error) {
        section.fail(key, error.problem(), error.remedy());
    }
}

TaughtDrill read_drill(const TomlSection& section) {
    section.allow_only({"drill", "putts", "say", "green"});
    const auto drill = find_drill(section.text("drill"));
    if (!drill)
        section.fail("drill", "the drill is not known",
                     fmt::format("write one of {}", fmt::join(drill_names(), ", ")));
    const double putts = section.number("putts", {1, most_drill_putts});
    if (putts != std::floor(putts)) section.fail("putts", "putts are whole", "write 10");
    TaughtDrill read{*drill, static_cast<int>(putts), words(section, "say"),
                     words(section, "green")};
    checked(section, "green", [&] { check_names_green(read.green); });
    return read;
}

void read_ladder(TaughtLesson& lesson, const TomlSection& section) {
    section.allow_only({"slope_percent", "lengths"});
    lesson.ladder_slope = section.number("slope_percent", {0.1, 20}) / 100;
    std::istringstream lengths(section.text("lengths"));
    for (std::string length; lengths >> length;) {
        checked(section, "lengths", [&] { parse_distance_m(length, Units{}, "length"); });
        lesson.rungs.push_back(length);
    }
    if (lesson.rungs.empty() || lesson.rungs.size() > most_rungs)
        section.fail("lengths", "a ladder has one to five lengths", "write '4ft 8ft 12ft'");
}

std::string drill_text(const TaughtDrill& drill) {
    return fmt::format("\n[[drill]]\ndrill = '{}'\nputts = {}\nsay = {}\n", name_of(drill.drill),
                       drill.putts, toml_string(drill.say)) +
           (drill.green.empty() ? "" : fmt::format("green = {}\n", toml_string(drill.green)));
}

}  // namespace

std::string lesson_text(const TaughtLesson& lesson) {
    std::string text = fmt::format(
        "# A lesson. Change what you like, then: dewtrail lesson FILE --print lesson.pdf\n"
        "# Themes: dewtrail compare --show list. Drills: {}.\n"
        "format = 1\ntitle = {}\nwhy = {}\n",
        fmt::join(drill_names(), ", "), toml_string(lesson.title), toml_string(lesson.why));
    if (!lesson.pupil.empty()) text += fmt::format("pupil = {}\n", toml_string(lesson.pupil));
    text += fmt::format("theme = {}\nstimp = {}\n", toml_string(lesson.theme), lesson.stimp_ft);
    for (const TaughtDrill& drill : lesson.drills) text += drill_text(drill);
    return text +
           fmt::format("\n[ladder]\nslope_percent = {}\nlengths = {}\n", 100 * lesson.ladder_slope,
                       toml_string(fmt::format("{}", fmt::join(lesson.rungs, " ")))) +
           "\n# Putts for home.\n" + putt_set_text(lesson.homework).substr(1);
}

TaughtLesson read_lesson(const std::string& file, std::string_view text) {
    const TomlSection top = TomlSection::parse(file, "the lesson", text);
    if (top.number("format", {1, 1e6}) != 1)
        top.fail("format", "the lesson is newer than this program", "use the newer program");
    top.allow_only(
        {"format", "title", "why", "pupil", "theme", "stimp", "drill", "ladder", "putt"});
    TaughtLesson lesson;
    lesson.title = words(top, "title");
    lesson.why = words(top, "why");
    lesson.pupil = words(top, "pupil");
    lesson.theme = top.text("theme");
    checked(top, "theme", [&] { check_demonstration(lesson.theme); });
    lesson.stimp_ft = top.number("stimp", putt_range::stimp_ft);
    for (const TomlSection& section : top.sections("drill", most_taught_drills))
        lesson.drills.push_back(read_drill(section));
    read_ladder(lesson, top.section("ladder"));
    lesson.homework = read_putts(top);
    if (lesson.homework.size() > most_homework)
        top.fail("putt", fmt::format("{} putts for home are too many", lesson.homework.size()),
                 fmt::format("leave {}: more go into a set of putts", most_homework));
    return lesson;
}

TaughtLesson load_lesson(const std::filesystem::path& path) {
    return read_lesson(path.string(), read_text_file(path, most_bytes));
}

}  // namespace dewtrail
