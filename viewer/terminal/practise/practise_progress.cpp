#include <nlohmann/json.hpp>

#include <ostream>

#include "viewer/files/dates.hpp"
#include "viewer/paper/progress_page.hpp"
#include "viewer/practice/habits/progress.hpp"
#include "viewer/terminal/practise/practise.hpp"

namespace dewtrail {
namespace {

void print_json(Session& session, const Progress& p) {
    Json weeks = Json::array();
    for (const WeekTest& test : p.tests)
        weeks.push_back(
            {{"week", test.week}, {"score", number(test.score)}, {"putts", test.putts}});
    Json weak = nullptr;
    if (p.weakest)
        weak = {{"kind", name_of(p.weakest->kind)},
                {"putts", p.weakest->putts},
                {"lost_putts", number(p.weakest->lost)}};
    Json slope = nullptr;
    if (p.slope)
        slope = {{"spots", p.slope->answers},
                 {"felt", number(p.slope->felt)},
                 {"shown", number(p.slope->shown)},
                 {"fall_off_deg", number(p.slope->fall_off_deg)}};
    session.print({{"answers", p.answers},
                   {"break", habits_json(p.breaks)},
                   {"pace", habits_json(p.paces)},
                   {"slope", slope},
                   {"misses", {{"low", p.real.low}, {"high", p.real.high}}},
                   {"weekly_tests", weeks},
                   {"weakest", weak}});
}

void print_tests(std::ostream& out, const std::vector<WeekTest>& tests) {
    if (tests.empty()) return;
    out << "\nTen-putt test by week\n";
    constexpr double points_per_mark = 2.5;
    for (const WeekTest& test : tests)
        print_row(
            out, test.week,
            fmt::format("{:>3.0f} of {:<3} {}", test.score, 10 * test.putts,
                        std::string(static_cast<std::size_t>(test.score / points_per_mark), '#')));
}

void print_text(Session& session, const Progress& progress) {
    std::ostream& out = session.out();
    for (const std::string& sentence : progress_sentences(progress)) out << sentence << '\n';
    print_tests(out, progress.tests);
    out << (tested_this_week(progress, today()) ? "\nNext: dewtrail practise\n"
                                                : "\nNext: dewtrail practise --week\n");
}

}  // namespace

Json share_json(const std::optional<Credible>& share) {
    if (!share) return nullptr;
    return {{"mean", number(share->mean)}, {"lo", number(share->lo)}, {"hi", number(share->hi)}};
}

Json habits_json(const std::vector<Habit>& habits) {
    Json list = Json::array();
    for (const Habit& habit : habits)
        list.push_back(
            {{"group", habit.group}, {"putts", habit.putts}, {"share", share_json(habit.share)}});
    return list;
}

Exit print_progress(Session& session, const Memory& memory, const SheetArguments& page) {
    const Paper paper = paper_of(page);
    const Progress progress = progress_of(memory.answers(), memory.putts(), session.player());
    return save_sheet(session, page, {paper, {progress_page(progress, paper, session.units())}});
}

Exit show_progress(Session& session, const Memory& memory) {
    const Progress progress = progress_of(memory.answers(), memory.putts(), session.player());
    if (session.json())
        print_json(session, progress);
    else if (progress.answers == 0)
        session.out() << "Nothing is remembered yet. Start with: dewtrail practise\n";
    else
        print_text(session, progress);
    return Exit::done;
}

}  // namespace dewtrail
