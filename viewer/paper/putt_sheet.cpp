#include "viewer/paper/putt_sheet.hpp"

#include <stdexcept>

#include "viewer/paper/compare_page.hpp"
#include "viewer/paper/form_pages.hpp"
#include "viewer/paper/green_page.hpp"
#include "viewer/paper/ladder_page.hpp"
#include "viewer/paper/lesson_page.hpp"
#include "viewer/paper/measure_form.hpp"
#include "viewer/paper/page_name.hpp"
#include "viewer/paper/progress_page.hpp"
#include "viewer/paper/read_page.hpp"
#include "viewer/paper/today_page.hpp"
#include "viewer/putt/solved.hpp"

namespace dewtrail {
namespace {

constexpr Paper paper = Paper::a4;

Picture page_of_read(const Setup& setup, const Units& units, double past_m) {
    const Solved solved = solve(setup, past_m, Effort::settled);
    if (!solved.read) throw std::invalid_argument("the putt has no read");
    return read_page(setup, solved, paper, units);
}

Picture page_of_green(const Setup& setup, const Units& units) {
    if (!setup.green) throw std::invalid_argument("the putt is on no green");
    const Green& green = *setup.green;
    const std::string hole =
        green.holes.count(setup.hole_name) ? setup.hole_name : green.holes.begin()->first;
    return green_page(green, hole, paper, units);
}

Sheet ladder(const Setup& setup, const Units& units, double past_m) {
    Ladder ladder{.ground = {}, .distances_m = usual_rungs_m(units.metric), .usual_past_m = past_m};
    ladder.ground.stimp_ft = setup.stimp_ft;
    ladder.ground.finish = setup.finish;
    Sheet sheet{paper, {}};
    for (const double slope : {0.01, 0.02, 0.03, 0.04}) {
        ladder.ground.slope = slope;
        sheet.pages.push_back(ladder_page(ladder, paper, units));
    }
    return sheet;
}

}  // namespace

Sheet putt_sheet(const std::string& page, const Setup& setup, const Units& units, double past_m) {
    if (page == "read") return {paper, {page_of_read(setup, units, past_m)}};
    if (page == "green") return {paper, {page_of_green(setup, units)}};
    if (page == "today" && setup.green) return {paper, {today_page({setup}, past_m, paper, units)}};
    if (page == "ladder") return ladder(setup, units, past_m);
    if (page == "survey") return {paper, {survey_form(paper, units)}};
    if (page == "results") return {paper, {result_form(paper, units)}};
    if (page == "measure") return {paper, {measure_form(paper, units)}};
    throw std::invalid_argument("there is no page '" + page + "'");
}

Sheet wished_sheet(const Wish& wish, const Units& units, const WishedBy& by) {
    if (wish.text == "compare" && wish.compared)
        return {paper, {compare_page(*wish.compared, paper, units)}};
    if (wish.text == "progress")
        return {paper, {progress_page(by.progress(), by.pupil, paper, units)}};
    if (wish.text == "lesson") return {paper, {lesson_page(by.lesson(), paper, units)}};
    return putt_sheet(wish.text, wish.putt.value_or(Setup{}), units, by.usual_past_m);
}

TaughtLesson wished_lesson(const Wish& wish,
                           const std::function<TaughtLesson(const std::string& theme)>& plan) {
    return wish.lesson ? *wish.lesson : plan(wish.compared ? wish.compared->title : "");
}

std::string wished_name(const Wish& wish, const Units& units, const std::string& pupil) {
    const bool of_the_putt = wish.text == "read" || wish.text == "green" || wish.text == "today";
    std::string name = wish.text;
    if (of_the_putt && wish.putt) name += "-" + putt_name(*wish.putt, units);
    if (wish.compared) name += "-" + wish.compared->title;
    if ((wish.text == "progress" || wish.text == "lesson") && !pupil.empty()) name += "-" + pupil;
    return as_file_name(name);
}

}  // namespace dewtrail
