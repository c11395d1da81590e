#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <memory>
#include <ostream>

#include "greens/input_error.hpp"
#include "viewer/comparison/demonstrations.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/paper/lesson_page.hpp"
#include "viewer/practice/coach/lesson_file.hpp"
#include "viewer/practice/coach/told_lesson.hpp"
#include "viewer/practice/drill/putt_set.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/terminal/busy.hpp"
#include "viewer/terminal/pocket/pocket_page.hpp"
#include "viewer/terminal/practise/practise.hpp"
#include "viewer/terminal/read_report.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

struct LessonArguments {
    std::string file, theme, out, homework, pocket, pocket_page;
    std::optional<std::string> stimp;
    SheetArguments page;
};

constexpr const char* lesson_footer =
    "Without a theme or a file the lesson follows from what was practised (--pupil Anna: by her).\n"
    "The file is plain text: change it, then print it. In the window a lesson is a view of "
    "Practise\n"
    "(T), which keeps such files in the folder 'lessons' beside the memory.\n"
    "Examples:\n"
    "  dewtrail lesson --theme low --out lesson.toml\n"
    "      A lesson on why most misses are low, as a text file.\n"
    "  dewtrail lesson lesson.toml --print lesson.pdf --homework homework.toml\n"
    "      The lesson on one page, and its putts for home as a set.\n"
    "  dewtrail practise --set homework.toml\n"
    "      What the pupil does with them.\n"
    "  dewtrail lesson lesson.toml --pocket homework.html\n"
    "      The same putts as a page for the pupil's phone (built once by './viewer/run pocket').\n"
    "  dewtrail lesson --theme list";

TaughtLesson lesson_of(Session& session, const LessonArguments& arguments, Greenkeeper& keeper) {
    std::optional<double> stimp_ft;
    if (arguments.stimp) stimp_ft = parse_stimp_ft(*arguments.stimp);
    if (arguments.file.empty()) return planned_lesson(session, arguments.theme, stimp_ft, keeper);
    if (!arguments.theme.empty())
        throw InputError("a file and --theme are two lessons", "Leave one of them out.");
    TaughtLesson lesson = load_lesson(arguments.file);
    lesson.stimp_ft = stimp_ft.value_or(lesson.stimp_ft);
    if (!session.pupil().empty()) lesson.pupil = session.pupil();
    return lesson;
}

Json rung_json(double distance_m, const std::optional<Read>& read, const LadderFall& fall) {
    return {{"distance_m", number(distance_m)},
            {"clock_h", number(fall.clock_h)},
            {"aim_m", read ? number(read->aim_offset_m) : Json(nullptr)},
            {"level_putt_m", read ? number(read->level_putt_m) : Json(nullptr)}};
}

Json lesson_json(const ToldLesson& told) {
    const TaughtLesson& lesson = told.lesson;
    Json drills = Json::array(), ladder = Json::array(), home = Json::array();
    for (const TaughtDrill& drill : lesson.drills)
        drills.push_back({{"drill", name_of(drill.drill)},
                          {"putts", drill.putts},
                          {"say", drill.say},
                          {"command", drill_command(drill, lesson.pupil)}});
    for (std::size_t rung = 0; rung < told.rungs_m.size(); ++rung)
        for (std::size_t i = 0; i < ladder_falls.size(); ++i)
            ladder.push_back(rung_json(told.rungs_m[rung], told.ladder[rung][i], ladder_falls[i]));
    for (const PlacedPutt& putt : told.home) home.push_back(putt_json(putt));
    return {{"title", lesson.title},
            {"pupil", lesson.pupil.empty() ? Json(nullptr) : Json(lesson.pupil)},
            {"why", lesson.why},
            {"theme", lesson.theme},
            {"say", told.say},
            {"drills", drills},
            {"stimp_ft", number(lesson.stimp_ft)},
            {"ladder_slope", number(lesson.ladder_slope)},
            {"ladder", ladder},
            {"homework", home}};
}

void print_ladder(Session& session, const ToldLesson& told) {
    std::vector<std::vector<std::string>> table{{""}};
    for (const LadderFall& fall : ladder_falls) table[0].push_back(fall.brief);
    for (std::size_t rung = 0; rung < told.rungs_m.size(); ++rung) {
        auto& row = table.emplace_back();
        row.push_back("   " + format_distance(told.rungs_m[rung], session.units()));
        for (const auto& read : told.ladder[rung]) {
            const auto [aim, pace] = rung_words(read, session.units());
            row.push_back(pace.empty() ? aim : aim + ", " + pace);
        }
    }
    print_table(session.out(), table);
}

void print_lesson(Session& session, const ToldLesson& told) {
    const TaughtLesson& lesson = told.lesson;
    std::ostream& out = session.out();
    const auto heading = [&](LessonPart part, const std::string& more) {
        out << fmt::format("\n{}  {}{}\n", static_cast<int>(part) + 1, heading_of(part, told),
                           more);
    };
    out << printable(lesson.title) << '\n'
        << printable(lesson_setting(lesson)) << '\n'
        << printable(lesson.why) << '\n';
    heading(LessonPart::show, "");
    out << fmt::format("   {}\n   {}\n   dewtrail window --mode compare --show {}\n", told.say[0],
                       told.say[1], lesson.theme);
    heading(LessonPart::drills, "");
    for (const TaughtDrill& drill : lesson.drills)
        out << "   " << printable(drill_words(drill) + ": " + drill.say) << "\n   "
            << printable(drill_command(drill, lesson.pupil)) << '\n';
    heading(LessonPart::ladder, std::string("; ") + ladder_words);
    print_ladder(session, told);
    heading(LessonPart::homework, "");
    for (const PlacedPutt& putt : told.home)
        out << "   " << putt_words(putt, session.units()) << '\n';
    out << "   " << printable(homework_words(told.files, lesson.pupil)) << '\n'
        << "   (--homework homework.toml writes them, --pocket homework.html a page for a phone)\n";
}

Exit list_themes(Session& session) {
    Json list = Json::array();
    std::vector<std::vector<std::string>> table;
    for (const DemonstrationName& name : demonstration_names()) {
        list.push_back({{"theme", name.key}, {"title", name.title}});
        table.push_back({std::string(name.key), as_sentence(std::string(name.title))});
    }
    if (session.json())
        session.print({{"themes", list}});
    else
        print_table(session.out(), table);
    return Exit::done;
}

void check_files(const LessonArguments& a) {
    for (const std::string& file : {a.out, a.homework})
        if (!file.empty()) check_ending(file, {".toml"}, "a text file of a lesson");
    if (!a.pocket.empty()) check_ending(a.pocket, {".html"}, "a page for a browser");
    for (const std::string& file : {a.out, a.homework, a.pocket})
        if (!file.empty()) check_may_write(file, a.page.force);
}

/// The files that were asked for; every name is looked at before the first is written.
std::vector<std::string> write_files(const LessonArguments& a, const ToldLesson& told,
                                     const Units& units) {
    check_files(a);
    const std::string for_phone = a.pocket.empty() ? "" : homework_page(told, a.pocket_page);
    std::vector<std::string> files;
    if (!a.page.out.empty()) {
        const Paper paper = paper_of(a.page);
        for (const auto& file : write_sheet(a.page, {paper, {lesson_page(told, paper, units)}}))
            files.push_back(file.string());
    }
    if (!a.out.empty()) save_whole_file(a.out, lesson_text(told.lesson));
    if (!a.homework.empty()) save_putt_set(a.homework, told.lesson.homework);
    if (!a.pocket.empty()) save_whole_file(a.pocket, for_phone);
    for (const std::string& file : {a.out, a.homework, a.pocket})
        if (!file.empty()) files.push_back(file);
    return files;
}

/// With neither of them asked for, the set as it is called in the examples.
HomeworkFiles homework_files(const LessonArguments& a) {
    if (a.homework.empty() && a.pocket.empty()) return {};
    return {a.homework, a.pocket};
}

Exit run_lesson_command(Session& session, const LessonArguments& arguments) {
    if (arguments.theme == "list") return list_themes(session);
    Greenkeeper keeper(green_folders());
    const Units units = session.units();
    ToldLesson lesson = while_busy(session, "Working the lesson out …", [&] {
        return told(lesson_of(session, arguments, keeper), session.player().usual_past_m, keeper,
                    units);
    });
    lesson.files = homework_files(arguments);
    const auto files = write_files(arguments, lesson, units);
    if (session.json()) {
        Json json = lesson_json(lesson);
        json["files"] = files;
        session.print(json);
    } else if (files.empty()) {
        print_lesson(session, lesson);
    } else {
        for (const std::string& file : files) session.out() << printable(file) << '\n';
    }
    session.caution();
    return Exit::done;
}

}  // namespace

TaughtLesson planned_lesson(Session& session, const std::string& theme,
                            std::optional<double> stimp_ft, Greenkeeper& keeper) {
    const Player& player = session.player();
    const Memory memory = memory_of(session, Session::Use::looks);
    LessonFor who = lesson_today(session.pupil(), player, session.units());
    who.theme = theme;
    who.stimp_ft = stimp_ft.value_or(who.stimp_ft);
    return plan_lesson(who, progress_of(memory, player), keeper);
}

std::string homework_page(const ToldLesson& told, const std::string& page) {
    PocketPage pocket(page);
    pocket.open_on(told.lesson.homework, putt_set_file(told.lesson.homework));
    return pocket.text();
}

void add_lesson_command(const Command& app, Session& session) {
    auto a = std::make_shared<LessonArguments>();
    const Command command =
        app.add_subcommand("lesson", "A plan: demonstration, drills, today's ladder, homework");
    std::vector<std::string> themes{"list"};
    for (const DemonstrationName& name : demonstration_names()) themes.emplace_back(name.key);
    command.add_option("file", a->file, "A lesson that was written before");
    command.add_option("--theme", a->theme, "What it is about; list tells them").one_of(themes);
    command.add_option("--stimp", a->stimp, "Today's green speed (the player's)");
    command.add_option("--out", a->out, "Write it as a text file to change: lesson.toml");
    command.add_option("--print", a->page.out, "Print it on one page: lesson.pdf, .svg or .png");
    command.add_option("--homework", a->homework, "Write its putts for home as a set: putts.toml");
    command.add_option("--pocket", a->pocket,
                       "Write its putts for home as a page for a browser or phone: putts.html");
    command.add_option("--page", a->pocket_page,
                       "The page that one begins with; the one that was built");
    command.add_option("--paper", a->page.paper, "Of the page (a4)").one_of({"a4", "letter"});
    command.add_flag("--force", a->page.force, "Replace a file that is there");
    session.add_memory_option(command);
    session.add_common_options(command);
    command.footer(lesson_footer);
    command.callback(
        [&session, a] { session.run = [&session, a] { return run_lesson_command(session, *a); }; });
}

}  // namespace dewtrail
