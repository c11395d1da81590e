#include <nlohmann/json.hpp>

#include <ostream>

#include "viewer/files/dates.hpp"
#include "viewer/paper/progress_page.hpp"
#include "viewer/practice/habits/practice_words.hpp"
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
                   {"leads", name_of(p.findings.lead().of)},
                   {"break", finding_json(p.findings.aim)},
                   {"pace", finding_json(p.findings.pace)},
                   {"slope", slope},
                   {"misses", {{"low", p.real.low}, {"high", p.real.high}}},
                   {"weekly_tests", weeks},
                   {"at_home", home_json(p.at_home)},
                   {"weakest", weak},
                   {"next", next_json(p.next)}});
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
    out << "\nIt begins with: " << next_command(progress.next) << '\n';
    if (progress.at_home)
        out << progress.at_home->words << ' ' << progress.at_home->command() << '\n';
}

}  // namespace

Json share_json(const std::optional<Credible>& share) {
    if (!share) return nullptr;
    return {{"mean", number(share->mean)}, {"lo", number(share->lo)}, {"hi", number(share->hi)}};
}

Json home_json(const std::optional<HomeDrill>& home) {
    if (!home) return nullptr;
    return {{"test", home->test()}, {"words", home->words}, {"command", home->command()}};
}

Json next_json(const NextDrill& next) {
    return {{"drill", name_of(next.drill)},
            {"putts", next.putts},
            {"kind", next.kind ? Json(name_of(*next.kind)) : Json()}};
}

std::string next_command(const NextDrill& next) {
    return fmt::format("dewtrail practise --drill {} --putts {}{}", name_of(next.drill), next.putts,
                       next.kind ? fmt::format(" --kind '{}'", name_of(*next.kind)) : "");
}

Json finding_json(const Finding& f) {
    Json kinds = Json::array();
    for (const KindShare& kind : f.kinds)
        kinds.push_back({{"group", kind.group},
                         {"putts", kind.putts},
                         {"share", share_json(kind.share)},
                         {"differs", kind.differs}});
    return {{"putts", f.putts},
            {"under", f.under},
            {"over", f.over},
            {"wrong_side", f.wrong_side},
            {"share", share_json(f.share)},
            {"stands_out", f.stands_out()},
            {"finding", finding_words(f)},
            {"instruction", instruction_words(f)},
            {"kinds", kinds}};
}

Exit print_progress(Session& session, const Memory& memory, const SheetArguments& page) {
    const Paper paper = paper_of(page);
    const Progress progress = progress_of(memory, session.player());
    return save_sheet(session, page,
                      {paper, {progress_page(progress, session.pupil(), paper, session.units())}});
}

Exit show_progress(Session& session, const Memory& memory) {
    const Progress progress = progress_of(memory, session.player());
    if (session.json())
        print_json(session, progress);
    else if (progress.answers == 0)
        session.out() << "Nothing is remembered yet. Start with: dewtrail practise\n";
    else
        print_text(session, progress);
    return Exit::done;
}

}  // namespace dewtrail
