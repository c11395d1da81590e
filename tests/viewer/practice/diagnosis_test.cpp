#include "viewer/practice/drill/diagnosis.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <sstream>

#include "physics/roll/green_speed.hpp"
#include "tests/support/random.hpp"
#include "tests/support/units.hpp"
#include "viewer/practice/drill/deal.hpp"
#include "viewer/practice/drill/plain_read.hpp"
#include "viewer/practice/habits/practice_words.hpp"

using namespace dewtrail;
using oracle::foot;

namespace {

PlacedPutt side_hill() {
    Greenkeeper keeper;
    return keeper.set_up(plane_putt(12 * foot, 0, 0.02, 10, 12 * metres_per_inch));
}

Examiner examiner_of(const Putt& putt) {
    auto examiner = Examiner::make(putt, Spread{}, usual_past_m);
    REQUIRE(examiner);
    return std::move(*examiner);
}

Diagnosis diagnosed(const Examiner& examiner, Drill drill, double aim_m, double level_putt_m) {
    const auto found = examiner.diagnose(drill, aim_m, level_putt_m);
    REQUIRE(found);
    return *found;
}

bool begins(const std::string& text, std::initializer_list<const char*> with) {
    return std::any_of(with.begin(), with.end(),
                       [&](const char* start) { return text.rfind(start, 0) == 0; });
}

bool holds(const std::string& text, const char* part) {
    return text.find(part) != text.npos;
}

/// The fault that a reader takes from the words, without a look at the diagnosis.
Fault named_by_headline(const std::string& words) {
    if (begins(words, {"Missed ", "Aimed ", "Wrong side", "Holed, off the "})) return Fault::aim;
    if (begins(words, {"Long, ", "Short, ", "Too firm", "Too soft", "A shade ", "Holed, but "}))
        return Fault::pace;
    return Fault::none;
}

Fault named_by_sentence(const std::string& words) {
    if (begins(words, {"You played ", "The aim ", "Wrong side"})) return Fault::aim;
    return begins(words, {"You hit it ", "The pace fits, "}) ? Fault::pace : Fault::none;
}

Fault named_by_score(const std::string& words) {
    if (holds(words, "the aim cost ")) return Fault::aim;
    return holds(words, "the pace cost ") ? Fault::pace : Fault::none;
}

/// A length as a reader takes it: inches, or metric centimetres; a tap and straight are none.
double length_read(const std::string& words) {
    double whole = 0, inches = 0, number = 0;
    std::string plain = words;
    for (const auto& [thin, figure] : {std::pair{"¼", ".25"}, {"½", ".5"}, {"¾", ".75"}})
        if (const auto at = plain.find(thin); at != plain.npos)
            plain.replace(at, std::string(thin).size(), figure);
    std::istringstream in(plain);
    for (std::string unit; in >> number >> unit; whole += 1)
        inches += number * (unit == "ft" ? 12 : unit == "m" ? 100 : 1);
    return whole > 0 ? inches : 0;
}

std::string between(const std::string& text, const std::string& from, const std::string& to) {
    const auto begin = text.find(from) + from.size();
    return text.substr(begin, text.find(to, begin) - begin);
}

/// Share and difference in the sentence are those of the two figures in the table, which stand in
/// one unit; so is the difference in the headline.
void check_figures(const Diagnosis& d, const Units& units) {
    const auto rows = diagnosis_rows(d, units);
    const std::string sentence = diagnosis_sentence(d, units), head = headline(d, units);
    for (const DiagnosisRow& row : rows)
        for (const char* other : {"cup", "pace"}) {
            REQUIRE_FALSE(holds(row.yours, other));
            REQUIRE_FALSE(holds(row.truth, other));
        }
    if (d.fault == Fault::none) return;
    const DiagnosisRow& row = rows[d.fault == Fault::aim ? 0 : 1];
    const double side = holds(row.yours, " right") || holds(row.yours, " left") ? -1 : 1;
    const double yours = length_read(row.yours), truth = length_read(row.truth);
    const double off = std::abs(yours - side * truth);
    if (begins(sentence, {"The aim fits", "The pace fits"})) REQUIRE(off < 1e-9);
    if (begins(sentence, {"You hit it "})) {
        REQUIRE_THAT(length_read(between(sentence, "hit it ", " too")),
                     Catch::WithinAbs(off, 1e-9));
        REQUIRE(holds(sentence, (": " + row.truth + ", not " + row.yours + ".").c_str()));
    }
    if (begins(sentence, {"You played "})) {
        REQUIRE_THAT(
            length_read(between(
                sentence, "break: ",
                d.aim_m * *d.best.aim_offset_m < 0 || *d.break_share < 1 ? " more" : " less")),
            Catch::WithinAbs(off, 1e-9));
        if (side > 0)
            REQUIRE(std::stoi(between(sentence, "played ", " %")) ==
                    std::lround(100 * yours / truth));
    }
    if (d.fault == Fault::aim && holds(head, ", by "))
        REQUIRE_THAT(length_read(head.substr(head.find(", by ") + 5)), Catch::WithinAbs(off, 1e-9));
}

/// So many answers on each of so many putts, every fifth on a curved green, where an answer takes
/// twenty times as long and there are fewer: every word names one fault, and a better answer never
/// scores less.
void check_answers(int putts, int answers_on_plane, int answers_on_green) {
    Greenkeeper keeper({DEWTRAIL_SOURCE_DIR "/greens"});
    RandomStream random(31);
    int seen[3] = {}, wrong = 0;
    std::vector<std::pair<double, double>> scores;
    for (int i = 0; i < putts; ++i) {
        DealRanges ranges;
        const bool on_green = i % 5 == 4;
        if (on_green) ranges.greens = {"meadow"};
        const auto dealt = deal(category_at(i % plane_categories), ranges, random, keeper);
        REQUIRE(dealt);
        const Examiner examiner = examiner_of(keeper.set_up(*dealt).putt);
        const Read& best = examiner.best();
        for (int j = 0; j < (on_green ? answers_on_green : answers_on_plane); ++j) {
            const Drill drill = static_cast<Drill>(j % 3);
            const double aim = *best.aim_offset_m * random.between(-0.5, 2) + 0.1 * random.normal();
            const double pace = best.level_roll_m * random.between(0.5, 1.6) - usual_past_m;
            const Units units{j % 2 == 1, 0.9};
            const Diagnosis d = diagnosed(examiner, drill, aim, pace);
            const auto rows = diagnosis_rows(d, units);
            INFO(headline(d, units)
                 << " / " << diagnosis_sentence(d, units) << " / " << score_words(d));
            check_figures(d, units);
            REQUIRE(named_by_headline(headline(d, units)) == d.fault);
            REQUIRE(named_by_sentence(diagnosis_sentence(d, units)) == d.fault);
            REQUIRE(named_by_score(score_words(d)) == d.fault);
            REQUIRE(rows[0].leads == (d.fault == Fault::aim));
            REQUIRE(rows[1].leads == (d.fault == Fault::pace));
            if (d.fault != Fault::none)
                REQUIRE((d.aim_lost >= d.pace_lost) == (d.fault == Fault::aim));
            REQUIRE(d.fault != (drill == Drill::line   ? Fault::pace
                                : drill == Drill::pace ? Fault::aim
                                                       : Fault(-1)));
            scores.emplace_back(d.lost, d.score);
            ++seen[static_cast<int>(d.fault)];
            wrong += d.wrong_side;
        }
    }
    std::sort(scores.begin(), scores.end());
    for (std::size_t i = 1; i < scores.size(); ++i)
        if (scores[i].first > scores[i - 1].first)
            REQUIRE(scores[i].second <= scores[i - 1].second);
    INFO(seen[0] << " without, " << seen[1] << " aim, " << seen[2] << " pace, " << wrong);
    const int all = static_cast<int>(scores.size());
    for (const int count : seen) CHECK(count > all / 20);
    CHECK(wrong > all / 33);
}

}  // namespace

TEST_CASE("The line that fits a pace passes over the hole's centre", "[diagnosis]") {
    oracle::Random random(5);
    Greenkeeper keeper;
    int reached = 0;
    for (int i = 0; i < 200; ++i) {
        const double up = random.between(-0.03, 0.03), left = random.between(-0.03, 0.03);
        const PlacedPutt plan =
            keeper.set_up(plane_putt(random.between(3, 40) * foot, up, left, 10, 0.3));
        const auto best = plain_read(plan.putt, 0);
        REQUIRE(best);
        const double level = best->level_roll_m * random.between(0.7, 1.6);
        const auto line = line_for_pace(plan.putt, level);
        REQUIRE(line);
        if (!line->reaches) continue;
        ++reached;
        RollOptions options;
        options.hole = plan.putt.hole;
        const Stroke stroke{line->angle_rad, speed_of_level_roll_m_s(level, plan.putt.resistance)};
        const Roll rolled =
            roll(*plan.putt.surface, plan.putt.resistance, plan.putt.launch(stroke), options);
        REQUIRE(rolled.pass);
        // 1e-7 m of level roll, times at most some metres of path per metre of level roll.
        REQUIRE((rolled.pass->at - plan.putt.hole).norm() < 1e-5);
    }
    REQUIRE(reached > 100);
}

TEST_CASE("The read itself loses nothing and scores ten", "[diagnosis]") {
    const Examiner examiner = examiner_of(side_hill().putt);
    const Read& best = examiner.best();
    const Diagnosis exact = diagnosed(examiner, Drill::read, *best.aim_offset_m, best.level_putt_m);
    REQUIRE(exact.score == 10);
    REQUIRE(exact.lost < 1e-9);
    REQUIRE_THAT(*exact.break_share, Catch::WithinAbs(1, 1e-12));
    REQUIRE_THAT(exact.pace_share, Catch::WithinAbs(1, 1e-12));
    REQUIRE(exact.holed);
    REQUIRE(headline(exact, Units{}) == "Holed");
    REQUIRE(diagnosis_sentence(exact, Units{}) == "Line and pace fit.");
    REQUIRE(score_words(exact) == "10 of 10: it costs nothing.");
}

TEST_CASE("What a part costs is what it saves to replace it alone", "[diagnosis]") {
    const Examiner examiner = examiner_of(side_hill().putt);
    const Read& best = examiner.best();
    oracle::Random random(2);
    for (int i = 0; i < 20; ++i) {
        const double aim = *best.aim_offset_m * random.between(0.3, 1.6);
        const double pace = best.level_putt_m * random.between(0.7, 1.5);
        const auto lost = [&](double a, double p) {
            return diagnosed(examiner, Drill::read, a, p).lost;
        };
        const Diagnosis d = diagnosed(examiner, Drill::read, aim, pace);
        const double aim_true = lost(*best.aim_offset_m, pace),
                     pace_true = lost(aim, best.level_putt_m);
        CHECK_THAT(d.aim_lost + d.pace_lost, Catch::WithinAbs(d.lost, 1e-12));
        // Whichever righted alone leaves less is the dearer; the quadrature is good to 1e-3.
        if (std::abs(pace_true - aim_true) > 1e-3 && d.fault != Fault::none)
            CHECK((d.fault == Fault::aim) == (pace_true > aim_true));
        if (aim_true > 0 && pace_true > 0 && d.aim_lost > 0 && d.pace_lost > 0)
            CHECK_THAT(d.aim_lost, Catch::WithinAbs(0.5 * (d.lost - aim_true + pace_true), 2e-3));
    }
}

TEST_CASE("Two thirds of the break at the read's pace misses low, and that is told",
          "[diagnosis]") {
    const PlacedPutt plan = side_hill();
    const Examiner examiner = examiner_of(plan.putt);
    const Read& best = examiner.best();
    const double aim = 0.66 * *best.aim_offset_m;
    const Diagnosis low = diagnosed(examiner, Drill::read, aim, best.level_putt_m);
    CHECK(low.fault == Fault::aim);
    CHECK(low.pace_lost < 1e-9);
    CHECK(low.lost > 0.05);  // a twentieth of a stroke shows in the score
    CHECK(low.score <= 8);
    CHECK(headline(low, Units{}) == "Missed low, by 5¼ in");
    CHECK(diagnosis_sentence(low, Units{}) == "You played 65 % of the break: 5¼ in more.");
    const auto rows = diagnosis_rows(low, Units{});
    CHECK(rows[0].leads);
    CHECK(rows[0].yours == "9¾ in");
    CHECK(rows[0].truth == "15 in");
    CHECK(rows[1].strokes == "0.00");

    const Diagnosis wrong = diagnosed(examiner, Drill::read, -aim, best.level_putt_m);
    CHECK(wrong.wrong_side);
    CHECK(diagnosis_sentence(wrong, Units{}) == "Wrong side: it breaks right to left.");
    CHECK(begins(headline(wrong, Units{}), {"Wrong side, by "}));

    const Diagnosis firm =
        diagnosed(examiner, Drill::read, *best.aim_offset_m, 1.9 * best.level_roll_m);
    CHECK(firm.fault == Fault::pace);
    CHECK(firm.aim_lost < 1e-9);
    CHECK(begins(headline(firm, Units{}), {"Long, by "}));
    const Diagnosis soft = diagnosed(examiner, Drill::read, *best.aim_offset_m, 8 * foot);
    CHECK(begins(headline(soft, Units{}), {"Short, by "}));
    CHECK(diagnosis_sentence(soft, Units{}) == "You hit it 4 ft too soft: 12 ft, not 8 ft.");
}

TEST_CASE("Aims near five inches and long paces are told in one measure, on either side of it",
          "[diagnosis]") {
    const Examiner examiner = examiner_of(side_hill().putt);
    Diagnosis d = diagnosed(examiner, Drill::read, 0.1, 3);
    d.fault = Fault::aim;
    d.holed = false;
    d.wrong_side = false;
    d.aim_m = 4 * metres_per_inch;
    d.best.aim_offset_m = 5.8 * metres_per_inch;
    d.break_share = 4 / 5.8;
    CHECK(diagnosis_rows(d, Units{})[0].yours == "4 in");
    CHECK(diagnosis_rows(d, Units{})[0].truth == "5¾ in");
    CHECK(diagnosis_sentence(d, Units{}) == "You played 70 % of the break: 1¾ in more.");
    CHECK(diagnosis_sentence(d, Units{true, 0.9}) == "You played 69 % of the break: 4½ cm more.");
    d.aim_m = 15.02 * metres_per_inch;
    d.best.aim_offset_m = 15.3 * metres_per_inch;
    d.side = "low";
    CHECK(diagnosis_sentence(d, Units{}) == "The aim fits, a shade low: 15 in.");

    d.fault = Fault::pace;
    d.pace_share = 0.9;
    d.best.level_putt_m = 33.2 * foot;
    d.level_putt_m = 28 * foot;
    CHECK(diagnosis_sentence(d, Units{}) == "You hit it 5 ft too soft: 33 ft, not 28 ft.");
    d.best.level_putt_m = 6.1 * foot;
    d.level_putt_m = 6 * foot;
    CHECK(diagnosis_sentence(d, Units{}) == "The pace fits, a shade soft: 6 ft.");
    d.pace_share = 1.9;
    d.best.level_putt_m = -0.1 * foot;
    CHECK(diagnosis_sentence(d, Units{}) == "You hit it 6 ft too firm: tap, not 6 ft.");
}

TEST_CASE("Of every answer each word names one fault, and a better one never scores less",
          "[diagnosis]") {
    check_answers(10, 30, 30);
}

TEST_CASE("Ten thousand answers: every word names one fault", "[.reviews]") {
    check_answers(25, 488, 50);
}

TEST_CASE("Low is where the ground falls, from either side", "[diagnosis]") {
    Greenkeeper keeper;
    const auto from_right = keeper.set_up(plane_putt(3, 0, 0.02, 10, 0.3));  // falls left
    const auto from_left = keeper.set_up(plane_putt(3, 0, -0.02, 10, 0.3));  // falls right
    const auto level = keeper.set_up(plane_putt(3, 0, 0, 10, 0.3));
    REQUIRE(miss_side(from_right.putt, -0.1) == "low");
    REQUIRE(miss_side(from_right.putt, 0.1) == "high");
    REQUIRE(miss_side(from_left.putt, 0.1) == "low");
    REQUIRE(miss_side(level.putt, 0.1) == "right");
}
