#include "viewer/practice/habits/progress.hpp"

#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cmath>

#include "viewer/modes/drawn_mode.hpp"
#include "viewer/modes/practise/progress_picture.hpp"
#include "viewer/practice/drill/lesson.hpp"
#include "viewer/practice/habits/practice_words.hpp"

using namespace dewtrail;
using Catch::Matchers::Contains;

namespace {

constexpr Category short_downhill{BreakSide::left_to_right, Grade::downhill, Reach::short_putt};

/// Answers of a day, all the break and all the pace, and what each lost.
void add_day(std::vector<Answer>& answers, const std::string& day, int putts, double lost,
             const Category& kind = short_downhill) {
    for (int i = 0; i < putts; ++i) {
        Answer answer;
        answer.id = static_cast<std::int64_t>(answers.size()) + 1;
        answer.at = fmt::format("{}T18:{:02}:00", day, i);
        answer.category = kind;
        answer.true_aim_m = answer.aim_m = 0.4;
        answer.break_share = answer.pace_share = 1;
        answer.level_putt_m = 3;
        answer.lost = lost + 0.02 * (i % 3 - 1);
        answers.push_back(answer);
    }
}

Progress progress_over(const std::vector<Answer>& answers) {
    return progress_of(answers, {}, {}, {});
}

Look usual_look() {
    return {palette(Theme::dew), lay_out(1280, 800, 1, true), {}, type_width};
}

Finding whole_break() {
    Finding finding;
    finding.share = Credible{0.9, 0.8, 1};
    return finding;
}

std::vector<Text> texts_of(const Picture& picture, const std::string& words) {
    std::vector<Text> found;
    for (const Text& text : all_of<Text>(picture))
        if (text.words == words) found.push_back(text);
    return found;
}

}  // namespace

TEST_CASE("two evenings a week apart are told beside each other, with what chance would do",
          "[progress]") {
    std::vector<Answer> answers;
    add_day(answers, "2026-11-30", 18, 0.2);
    add_day(answers, "2026-12-07", 10, 0.07);
    CHECK(progress_over(answers).lately ==
          "On 30 Nov 0.20 strokes a putt, on 7 Dec 0.07: more than chance.");
    CHECK_THAT(progress_sentences(progress_over(answers)),
               Catch::Matchers::VectorContains(progress_over(answers).lately));

    // Of days one after the other the last is told beside the week before it, not beside older
    // ones.
    std::vector<Answer> daily;
    add_day(daily, "2026-11-01", 10, 0.9);
    for (int day = 1; day <= 7; ++day) add_day(daily, fmt::format("2026-12-0{}", day), 3, 0.2);
    add_day(daily, "2026-12-08", 9, 0.199);
    CHECK(progress_over(daily).lately ==
          "In the week to 7 Dec 0.20 strokes a putt, on 8 Dec 0.20: chance alone may have done "
          "that.");

    std::vector<Answer> few;
    add_day(few, "2026-11-30", 18, 0.2);
    add_day(few, "2026-12-07", 5, 0.07);
    CHECK(progress_over(few).lately.empty());
    few.resize(18);
    CHECK(progress_over(few).lately.empty());
}

TEST_CASE("over time each day stands by itself, and the last one has its date", "[progress]") {
    std::vector<Answer> answers;
    add_day(answers, "2026-11-30", 18, 0.2);
    add_day(answers, "2026-12-07", 10, 0.07);
    Picture picture;
    const Look look = usual_look();
    draw_progress(picture, progress_over(answers), {40, 60, 832, 4000}, look);
    std::vector<Line> curves;
    for (const Line& line : all_of<Line>(picture))
        if (line.points.size() > 2 && !line.closed) curves.push_back(line);
    REQUIRE(curves.size() == 2);
    const double width = 832 - look.type(52), day = width / 8;
    CHECK(curves[0].points.size() == 13);  // a mean of fewer than six says nothing
    CHECK(curves[0].points.back().x() - curves[0].points.front().x() < day);
    CHECK(curves[1].points.front().x() - curves[0].points.back().x() > 6 * day);
    for (const char* date : {"30 Nov", "7 Dec"}) {
        INFO(date);
        REQUIRE(texts_of(picture, date).size() == 1);
    }
    const Text last = texts_of(picture, "7 Dec")[0];
    const double middle = last.at.x() + look.width(last.face, last.size, last.words) / 2;
    CHECK(std::abs(middle - (curves[1].points.front().x() + curves[1].points.back().x()) / 2) <
          day / 2);
}

TEST_CASE("where no habit stands out the next drill is of the kind that costs most", "[progress]") {
    std::vector<Answer> answers;
    add_day(answers, "2026-11-30", 12, 0.3);
    add_day(answers, "2026-12-07", 8, 0.02, {BreakSide::straight, Grade::level, Reach::middle});
    const Progress progress = progress_over(answers);
    REQUIRE_FALSE(progress.findings.lead().stands_out());
    REQUIRE(progress.next.kind);
    CHECK(*progress.next.kind == short_downhill);
    CHECK(next_drill_words(progress.next) == "Whole read, five short left-to-right downhill putts");
    const auto said = progress_sentences(progress);
    CHECK_THAT(said[said.size() - 2], Contains("Costs most: short left-to-right downhill putts, "));
    CHECK(said.back() == "Next: Whole read, five short left-to-right downhill putts.");

    // Putts that cost next to nothing are no reason.
    std::vector<Answer> good;
    add_day(good, "2026-11-30", 20, 0.02);
    CHECK_FALSE(progress_over(good).next.kind);
    CHECK(putts_words({BreakSide::straight, Grade::level, Reach::middle}) ==
          "middle-length straight level putts");
}

TEST_CASE("a drill of one kind deals it alone, of yesterday's putts too", "[progress]") {
    std::vector<Answer> answers;
    add_day(answers, "2026-11-30", 8, 0.3, {BreakSide::straight, Grade::level, Reach::middle});
    for (Answer& answer : answers) answer.putt = plane_putt(4, 0, 0, 10, 0.3);
    LessonPlan plan;
    plan.date = "2026-12-01";
    plan.putts = 5;
    plan.kind = short_downhill;
    Greenkeeper keeper;
    Lesson lesson(plan, answers, keeper);
    int putts = 0;
    while (const auto task = lesson.next()) {
        CHECK(task->kind == short_downhill);
        ++putts;
        Answer missed;
        missed.putt = task->putt;
        missed.category = task->kind;
        missed.score = 0;
        lesson.answered(missed);
    }
    CHECK(putts == 5);
}

TEST_CASE("shares beyond the scale are marked as beyond, and none stands on its end",
          "[progress]") {
    const Look look = usual_look();
    Picture picture;
    draw_shares(picture, whole_break(), {{"1", 0.8}, {"2", 1.94}, {"3", -0.4}}, {0, 0, 800, 0},
                look);
    int rings = 0;
    for (const Line& line : all_of<Line>(picture)) rings += line.closed;
    CHECK(rings == 1);
    CHECK(texts_of(picture, "194 %").size() == 1);
    CHECK(texts_of(picture, "wrong side").size() == 1);
    CHECK(texts_of(picture, "putt").size() == 1);
    Picture last;
    draw_shares(last, whole_break(), {{"", 0.8}, {"", 1.1}}, {0, 0, 800, 0}, look);
    CHECK(texts_of(last, "the last 2").size() == 1);
}

TEST_CASE("the figures of the small trend never meet, whatever was answered", "[progress]") {
    for (const double scale : {1.0, 1.25, 1.5}) {
        Look look = usual_look();
        look.layout = lay_out(1280, 800, scale, true);
        for (const std::vector<double>& shares :
             {std::vector<double>{}, {0.9, 1}, {0.9, -3, 1}, {1, 4}, {-2, 5}}) {
            Picture picture;
            draw_share_by_putt(picture, shares, true, {0, 0, 296, look.u(70)}, look);
            REQUIRE(texts_of(picture, "100 %").size() == 1);
            for (const Text& half : texts_of(picture, "50 %"))
                CHECK(half.at.y() - texts_of(picture, "100 %")[0].at.y() >= half.size);
            for (const Line& line : all_of<Line>(picture))
                for (const Vec2& point : line.points) {
                    CHECK(point.y() >= -1);
                    CHECK(point.y() <= look.u(70) + 1);
                }
        }
    }
}
