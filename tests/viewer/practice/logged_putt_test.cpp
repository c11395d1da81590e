#include "viewer/practice/log/logged_putt.hpp"

#include <catch2/catch.hpp>

#include "tests/support/tolerances.hpp"
#include "tests/viewer/terminal/typed.hpp"
#include "viewer/files/dates.hpp"

using namespace dewtrail;
using Catch::Matchers::Contains;
using oracle::round_off;

namespace {

std::string complaint(const std::string& csv) {
    try {
        read_putts_csv("putts.csv", csv, Units{});
    } catch (const InputError& error) {
        REQUIRE_FALSE(error.remedy().empty());
        return error.what();
    }
    return "none";
}

}  // namespace

TEST_CASE("A row filled in by hand is read as a person means it", "[logged_putt]") {
    const auto putts = read_putts_csv(
        "putts.csv",
        "date,green,hole,distance,slope,clock,stimp,aim,pace,result,left,missed\n"
        "2026-05-01,Larch,7,12,2,3:30,10,15in right,12ft,missed,2ft past 6in left,low long\n"
        "\n# a remark\n"
        ",,,4½paces,,,,,,holed,,\n",
        Units{});
    REQUIRE(putts.size() == 2);
    const LoggedPutt& putt = putts.front();
    REQUIRE_THAT(putt.distance_m, Catch::WithinAbs(3.6576, round_off));
    REQUIRE(putt.slope == 0.02);
    REQUIRE(putt.clock_h == 3.5);
    REQUIRE_THAT(*putt.aim_m, Catch::WithinAbs(0.381, round_off));
    REQUIRE_THAT(*putt.past_m, Catch::WithinAbs(0.6096, round_off));
    REQUIRE_THAT(*putt.right_m, Catch::WithinAbs(-0.1524, round_off));
    REQUIRE(putt.missed == "low long");
    REQUIRE(putt.missed_in("long"));
    REQUIRE_FALSE(putt.missed_in("short"));
    // At 3:30 a little below level with the hole's side: right to left and a little uphill... the
    // ball lies below the hole from 3 to 9 o'clock.
    REQUIRE(putt.side == "right-to-left");
    REQUIRE(putt.grade == "uphill");
    REQUIRE(putts.back().holed);
    REQUIRE_THAT(putts.back().distance_m, Catch::WithinAbs(4.05, round_off));
}

TEST_CASE("What was exported reads back the same", "[logged_putt]") {
    const auto putts = read_putts_csv(
        "putts.csv",
        "distance,slope,clock,left,result\n11ft,1.7%,4:10,7in short 3in right,missed\n", Units{});
    const std::string once = write_putts_csv(putts);
    REQUIRE(write_putts_csv(read_putts_csv("x.csv", once, Units{.metric = true})) == once);
    // The printed form has the same columns.
    std::string header;
    for (const char* column : putt_columns())
        header += (header.empty() ? "" : ",") + std::string(column);
    REQUIRE(once.substr(0, once.find('\n')) == header);
}

TEST_CASE("A cell that is not understood is named at its place", "[logged_putt]") {
    REQUIRE_THAT(complaint("distance,shoes\n12,brown\n"),
                 Contains("putts.csv:1:10: column 'shoes'"));
    REQUIRE_THAT(complaint("result\nholed\n"), Contains("no column 'distance'"));
    REQUIRE_THAT(complaint("distance,slope\n12,25%\n"), Contains("putts.csv:2:4: slope 25 %"));
    REQUIRE_THAT(complaint("distance,result\n12,perhaps\n"), Contains("result 'perhaps'"));
    REQUIRE_THAT(complaint("distance,missed\n12,low high\n"), Contains("contradict"));
    REQUIRE_THAT(complaint("distance,missed\n12,sideways\n"), Contains("missed 'sideways'"));
    REQUIRE_THAT(complaint("distance,result,left\n12,holed,2ft\n"), Contains("holed left nothing"));
    REQUIRE_THAT(complaint("distance,left\n12,2ft past 3ft short\n"), Contains("left '2ft past"));
    REQUIRE_THAT(complaint("distance,date\n12,2026-02-30\n"), Contains("date '2026-02-30'"));
    REQUIRE_THAT(complaint("distance,date\n,2026-02-03\n"), Contains("no distance"));
    REQUIRE_THAT(complaint("distance,hole\n12\n"), Contains("putts.csv:2:3: hole is missing"));
    REQUIRE_THAT(complaint("distance,green\n12,\"open\n"), Contains("putts.csv:2:4: a quote"));
    REQUIRE_THAT(complaint(""), Contains("no header"));
}

TEST_CASE("A day is written in figures alone", "[dates]") {
    CHECK(parse_date("2026-05-01") == "2026-05-01");
    for (const char* bad : {"2026-05-+1", "2026- 5-01", "+026-05-01", "2026-05-1", "2026-13-01"})
        CHECK_THROWS_AS(parse_date(bad), InputError);
}

TEST_CASE("Weeks run from Monday and belong to the year of their Thursday", "[dates]") {
    REQUIRE(week_of("2026-01-01") == "2026-W01");  // a Thursday
    REQUIRE(week_of("2027-01-03") == "2026-W53");  // a Sunday
    REQUIRE(week_of("2027-01-04") == "2027-W01");
    REQUIRE(week_of("2024-12-30") == "2025-W01");  // a Monday
    REQUIRE(day_before("2026-03-01") == "2026-02-28");
}
