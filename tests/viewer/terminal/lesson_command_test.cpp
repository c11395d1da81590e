// A coach's lesson: what it is made from, the file it can be changed in, its page, its homework.

#include <fmt/format.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "tests/support/putts.hpp"
#include "tests/support/shell.hpp"
#include "tests/viewer/terminal/command_line.hpp"
#include "viewer/comparison/demonstrations.hpp"
#include "viewer/paper/lesson_page.hpp"
#include "viewer/practice/coach/kept_lessons.hpp"
#include "viewer/practice/coach/lesson_file.hpp"
#include "viewer/practice/coach/told_lesson.hpp"
#include "viewer/practice/drill/putt_set.hpp"
#include "viewer/practice/memory.hpp"
#include "viewer/practice/memory_csv.hpp"
#include "viewer/text/words.hpp"

using namespace dewtrail;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// Answers to ten putts of the line drill that play this share of the break, as CSV to import.
std::string answers_with(double share) {
    std::vector<Answer> answers;
    for (int i = 0; i < 10; ++i) {
        Answer answer;
        answer.at = "2026-05-01T18:30:0" + std::to_string(i);
        answer.drill = Drill::line;
        answer.putt = plane_putt(3 + 0.1 * i, 0, i % 2 ? 0.02 : -0.02, 10, 0.3);
        answer.category = category_of(3 + 0.1 * i, 0, i % 2 ? 0.02 : -0.02);
        answer.true_aim_m = i % 2 ? 0.4 : -0.4;
        answer.aim_m = share * *answer.true_aim_m;
        answer.break_share = share;
        answer.lost = 0.1;
        answer.score = 6;
        answers.push_back(answer);
    }
    return write_answers_csv(answers);
}

}  // namespace

TEST_CASE("every demonstration has a lesson, and it reads back from its file", "[lesson]") {
    Greenkeeper keeper({oracle::greens_folder()});
    for (const DemonstrationName& name : demonstration_names()) {
        INFO(name.key);
        const TaughtLesson lesson =
            plan_lesson({.theme = std::string(name.key), .date = "2026-05-01"}, {}, keeper);
        CHECK(lesson.title == as_sentence(std::string(name.title)));
        CHECK(lesson.drills.size() == 2);
        CHECK(lesson.homework.size() == 8);
        const std::string text = lesson_text(lesson);
        const TaughtLesson again = read_lesson("lesson.toml", text);
        CHECK(lesson_text(again) == text);
        // The same for the same day.
        CHECK(plan_lesson({.theme = std::string(name.title), .date = "2026-05-01"}, {}, keeper)
                  .homework == lesson.homework);
    }
}

TEST_CASE("a lesson follows from what a pupil plays, and another pupil's is another", "[lesson]") {
    const CommandLine line;
    for (const char* name : {"Anna", "Ben", "Cleo"})
        REQUIRE(line.run(std::string("pupil add ") + name).exit == Exit::done);
    line.home().write("low.csv", answers_with(0.72));
    line.home().write("high.csv", answers_with(1.4));
    REQUIRE(line.run("practise --import " + line.path("low.csv") + " --pupil Anna").exit ==
            Exit::done);
    REQUIRE(line.run("practise --import " + line.path("high.csv") + " --pupil Ben").exit ==
            Exit::done);
    const Json anna = line.run("lesson --pupil Anna --json").json(),
               ben = line.run("lesson --pupil Ben --json").json(),
               cleo = line.run("lesson --pupil Cleo --json").json();
    CHECK(anna["theme"] == "low");
    CHECK(anna["pupil"] == "Anna");
    CHECK_THAT(anna["why"].get<std::string>(), Contains("10 of 10 were too low"));
    CHECK(anna["drills"][0]["drill"] == "line");
    CHECK_THAT(anna["drills"][0]["command"].get<std::string>(), Contains("--pupil 'Anna'"));
    CHECK(ben["theme"] == "misread");
    CHECK(cleo["theme"] == "uphill");  // nothing is known of her
    CHECK(anna["homework"] != ben["homework"]);
}

TEST_CASE("the next lesson deals other putts, on another day or once they have putted",
          "[lesson]") {
    Greenkeeper keeper({oracle::greens_folder()});
    Progress since;
    since.answers = 8;
    for (const char* theme : {"low", "halves"}) {
        const LessonFor who{.pupil = "Anna", .theme = theme, .date = "2026-05-01"};
        const auto first = plan_lesson(who, {}, keeper).homework;
        CHECK(plan_lesson(who, {}, keeper).homework == first);
        LessonFor tomorrow = who, other = who;
        tomorrow.date = "2026-05-02";
        other.pupil = "Ben";
        for (const auto& next :
             {plan_lesson(who, since, keeper).homework, plan_lesson(tomorrow, {}, keeper).homework,
              plan_lesson(other, {}, keeper).homework}) {
            REQUIRE(next.size() == first.size());
            for (const DealtPutt& putt : next)
                CHECK(std::count(first.begin(), first.end(), putt) == 0);
        }
    }
}

TEST_CASE("a lesson is kept under its day and theme, and no other is replaced", "[lesson]") {
    const TemporaryFolder folder;
    Greenkeeper keeper({oracle::greens_folder()});
    TaughtLesson lesson = plan_lesson({.theme = "low", .date = "2026-05-01"}, {}, keeper);
    CHECK(kept_lessons(folder.path()).empty());
    const fs::path first = keep_lesson(folder.path(), lesson, "2026-05-01");
    CHECK(first == folder.path() / "lessons/2026-05-01-low.toml");
    CHECK(keep_lesson(folder.path(), lesson, "2026-05-01") == first);  // it is there
    lesson.why = "Another sentence.";
    const fs::path second = keep_lesson(folder.path(), lesson, "2026-05-01");
    CHECK(second == folder.path() / "lessons/2026-05-01-low-2.toml");
    const fs::path third = keep_lesson(folder.path(), lesson, "2026-05-03");
    std::ofstream(folder.path() / "lessons/notes.txt") << "no lesson";
    CHECK(kept_lessons(folder.path()) == std::vector{third, first, second});
    CHECK(load_lesson(third).why == "Another sentence.");
}

TEST_CASE("a lesson is written, changed by hand, printed, and its homework played", "[lesson]") {
    const CommandLine line;
    const std::string file = line.path("lesson.toml"), set = line.path("homework.toml"),
                      page = line.path("lesson.pdf");
    REQUIRE(line.run("lesson --theme low --out " + file).exit == Exit::done);
    std::string text = content_of(file);
    const std::string say = "No ball may miss low.";
    REQUIRE(text.find(say) != text.npos);
    text.replace(text.find(say), say.size(), "Never below the hole, Anna.");
    line.home().write("lesson.toml", text);
    const auto printed =
        line.run(fmt::format("lesson {} --print {} --homework {}", file, page, set));
    INFO(printed.err);
    REQUIRE(printed.exit == Exit::done);
    CHECK(printed.out == page + "\n" + set + "\n");
    CHECK(load_putt_set(set) == load_lesson(file).homework);
    CHECK_THAT(line.run("practise --set " + set, "15in right\n12ft\ny\nq\n").out,
               Contains("Putt 1 of 8"));
    CHECK_THAT(line.run("lesson " + file).out, Contains("Never below the hole, Anna."));
    if (!installed("pdftotext")) return;
    const std::string words = run_in_shell("pdftotext -layout '" + page + "' -").written;
    CHECK(std::count(words.begin(), words.end(), '\f') == 1);
    for (const char* part : {"Most misses are low", "Never below the hole, Anna.", "Today's ladder",
                             "Homework", "above, 1:30", "Rule 4.3a"})
        CHECK_THAT(words, Contains(part));
}

TEST_CASE("a lesson's homework goes along as a page for a browser", "[lesson]") {
    const CommandLine line;
    line.home().write("page.html", "<p>before</p><script id=\"lesson\"></script><p>after</p>");
    const std::string homework = line.path("homework.html");
    const std::string ask = fmt::format("lesson --theme halves --pocket {} --page {}", homework,
                                        line.path("page.html"));
    const Said written = line.run(ask + " --homework " + line.path("set.toml"));
    INFO(written.err);
    REQUIRE(written.exit == Exit::done);
    CHECK(written.out == line.path("set.toml") + "\n" + homework + "\n");
    const std::string page = content_of(homework);
    const std::string before = "<p>before</p><script id=\"lesson\">",
                      after = "</script><p>after</p>";
    REQUIRE(page.starts_with(before));
    REQUIRE(page.ends_with(after));
    const Json opens_on = Json::parse(page.substr(before.size(), page.find(after) - before.size()));
    CHECK(opens_on.size() == 1);  // the green is a shipped one
    CHECK(opens_on["set.toml"] == content_of(line.path("set.toml")));

    // No file is replaced unasked, and where one cannot be none is written.
    CHECK(line.run(ask).exit == Exit::not_understood);
    CHECK(line.run(ask + " --force").exit == Exit::done);
    const std::size_t files = line.home().count();
    for (const std::string& wrong :
         {"--pocket " + line.path("new.txt"),
          "--pocket " + line.path("new.html") + " --page " + line.path("set.toml")})
        CHECK(line.run("lesson --theme low --out " + line.path("new.toml") + " " + wrong).exit ==
              Exit::not_understood);
    const Said unbuilt =
        line.run(fmt::format("lesson --theme low --print {} --pocket {} --page {}",
                             line.path("new.pdf"), line.path("new.html"), line.path("none.html")));
    CHECK(unbuilt.exit == Exit::not_understood);
    CHECK_THAT(unbuilt.err, Contains("./viewer/run pocket"));
    CHECK(line.home().count() == files);
}

TEST_CASE("a lesson says what its homework is called", "[lesson]") {
    CHECK(homework_words({}, "") == "dewtrail practise --set homework.toml");
    CHECK(homework_words({"Anna's putts.toml", ""}, "Anna") ==
          "dewtrail practise --set 'Anna'\\''s putts.toml' --pupil 'Anna'");
    CHECK(homework_words({"", "anna.html"}, "Anna") == "open anna.html in a browser");
    CHECK(homework_words({"a.toml", "a.html"}, "") ==
          "dewtrail practise --set a.toml, or open a.html in a browser");
    Greenkeeper keeper({oracle::greens_folder()});
    ToldLesson lesson =
        told(plan_lesson({.theme = "low", .date = "2026-05-01"}, {}, keeper), 0.3, keeper, Units{});
    lesson.files = {"a.toml", "a.html"};
    const auto says = [&](const std::string& words) {
        const Picture page = lesson_page(lesson, Paper::a4, Units{});
        return std::any_of(page.begin(), page.end(), [&](const Shape& shape) {
            const auto* text = std::get_if<Text>(&shape);
            return text && text->words.find(words) != std::string::npos;
        });
    };
    CHECK(says("--set a.toml, or open a.html in a browser"));
    CHECK_FALSE(says("homework.toml"));
}

TEST_CASE("a lesson that is as long as can be still ends on its page", "[lesson]") {
    Greenkeeper keeper({oracle::greens_folder()});
    for (const Units& units : {Units{false}, Units{true}})
        for (const Paper paper : {Paper::a4, Paper::letter}) {
            TaughtLesson lesson =
                plan_lesson({.theme = "halves", .date = "2026-05-01"}, {}, keeper);
            lesson.drills.push_back(lesson.drills.front());
            for (TaughtDrill& drill : lesson.drills)
                drill.say = fmt::format("{0} {0} {0}", std::string(45, 'm'));
            lesson.rungs = {"4ft", "8ft", "12ft", "20ft", "30ft"};
            while (lesson.homework.size() < most_homework)
                lesson.homework.push_back(lesson.homework.front());
            const double end = size_of(paper).y() - page_margin;
            double caution_top = end;
            std::vector<double> baselines;
            for (const Shape& shape : lesson_page(told(lesson, 0.3, keeper, units), paper, units))
                if (const auto* text = std::get_if<Text>(&shape)) {
                    if (text->words.starts_with("For practice"))
                        caution_top = text->at.y() - text->size;
                    baselines.push_back(text->at.y());
                }
            // The foot is written first: three lines of caution, and nothing else below its top.
            CHECK(std::count_if(baselines.begin(), baselines.end(),
                                [&](double y) { return y > caution_top; }) <= 3);
        }
}

TEST_CASE("what is no lesson is refused with its place, and nothing is written", "[lesson]") {
    const CommandLine line;
    const std::string file = line.path("lesson.toml");
    REQUIRE(line.run("lesson --theme low --out " + file).exit == Exit::done);
    const std::string good = content_of(file);
    const auto changed = [&](const std::string& from, const std::string& to) {
        std::string text = good;
        REQUIRE(text.find(from) != text.npos);
        text.replace(text.find(from), from.size(), to);
        return text;
    };
    const std::size_t before = line.home().count();
    for (const auto& [text, says] : std::vector<std::pair<std::string, std::string>>{
             {changed("theme = \"low\"", "theme = \"lowest\""), "'lowest' is not known"},
             {changed("drill = 'line'", "drill = 'chip'"), "line, pace, read, slope"},
             {changed("putts = 10", "putts = 1000"), "lesson.toml:"},
             {changed("putts = 10", "putts = 2.5"), "whole"},
             {changed("4ft 8ft", "4ft eight"), "lesson.toml:"},
             {changed("4ft 8ft 12ft 20ft", "1ft 2ft 3ft 4ft 5ft 6ft"), "one to five"},
             {changed("format = 1", "format = 2"), "newer"},
             {changed("stimp = 10", "stimp = 40"), "lesson.toml:"},
             {changed("stimp = 10", "speed = 10"), "lesson.toml:"}}) {
        INFO(says);
        line.home().write("lesson.toml", text);
        const auto said = line.run(fmt::format("lesson {} --print {}", file, line.path("l.pdf")));
        CHECK(said.exit == Exit::not_understood);
        CHECK_THAT(said.err, Contains(says));
    }
    line.home().write("lesson.toml", good);
    for (const std::string& arguments :
         {fmt::format("lesson {} --theme low", file), std::string("lesson --theme lowly"),
          fmt::format("lesson --out {}", line.path("l.txt")), fmt::format("lesson --out {}", file),
          fmt::format("lesson --print {}", line.path("l.doc")),
          fmt::format("lesson --data {}", line.path("nowhere")),
          fmt::format("lesson {}", line.path("none.toml"))}) {
        INFO(arguments);
        CHECK(line.run(arguments).exit == Exit::not_understood);
    }
    CHECK(line.home().count() == before);
}
