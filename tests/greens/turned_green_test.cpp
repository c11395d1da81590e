#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>

#include "greens/green_file.hpp"
#include "physics/read/survey_advice.hpp"
#include "support/as_eigen.hpp"
#include "support/putts.hpp"

/// A fitted green is the same green whichever way its plan is laid: the cells of the fit are not.
namespace dewtrail {
namespace {

constexpr int turns = 20;
constexpr double past_m = 0.3;

struct Line {
    Vec2 ball, hole;
};

Survey turned(Survey survey, double by_rad) {
    for (LevelReading& r : survey.levels) {
        r.at = turned(r.at, by_rad);
        r.gradient = turned(r.gradient, by_rad);
    }
    for (HeightReading& r : survey.heights) r.at = turned(r.at, by_rad);
    return survey;
}

SurfaceFit fit_turned(const Green& green, double by_rad) {
    SurveyFitOptions options{.spacing_m = green.spacing_m};
    for (const Vec2& corner : green.outline.corners())
        options.cover.push_back(turned(corner, by_rad));
    return fit_survey(turned(*green.survey, by_rad), options);
}

Putt putt_on(const SurfaceFit& fit, const Line& line, double by_rad) {
    return oracle::putt_on(fit.surface, turned(line.ball, by_rad), turned(line.hole, by_rad),
                           Finish::past(past_m));
}

/// The first putts of at most 12 m, every ball to every hole.
std::vector<Line> lines_of(const Green& green, std::size_t most) {
    std::vector<Line> lines;
    for (const auto& [hole, at] : green.holes)
        for (const auto& [ball, from] : green.balls)
            if ((at - from).norm() < 12 && lines.size() < most) lines.push_back({from, at});
    return lines;
}

/// How far reads differ from those of the green as it lies: as shares of their stated sd, and as
/// the angle and the level putt themselves.
struct Moved {
    double aim = 0, pace = 0, aim_deg = 0, pace_m = 0;
};

Moved moved_by_turning(const std::string& name, std::size_t lines) {
    const Green green = oracle::shipped_green(name);
    struct Known {
        Line line;
        Read read;
        ReadDoubt doubt;
    };
    std::vector<Known> known;
    for (const Line& line : lines_of(green, lines)) {
        const Putt putt = putt_on(*green.fit, line, 0);
        const auto found = oracle::aimed_read_of(putt);
        if (!found) continue;
        const auto doubt = read_doubt(putt, *found, *green.fit, past_m);
        if (doubt) known.push_back({line, *found, *doubt});
    }
    REQUIRE(2 * known.size() > lines);
    Moved worst;
    for (int i = 1; i <= turns; ++i) {
        const double by_rad = 2 * M_PI * i / (turns + 0.618);
        const SurfaceFit fit = fit_turned(green, by_rad);
        for (const Known& k : known) {
            const auto found = oracle::aimed_read_of(putt_on(fit, k.line, by_rad));
            REQUIRE(found);
            const double aim_m = std::abs(*found->aim_offset_m - *k.read.aim_offset_m);
            const double pace_m = std::abs(found->level_putt_m - k.read.level_putt_m);
            const double aim_rad = aim_m / (k.line.hole - k.line.ball).norm();
            worst.aim = std::max(worst.aim, aim_m / k.doubt.aim_m);
            worst.pace = std::max(worst.pace, pace_m / k.doubt.level_putt_m);
            worst.aim_deg = std::max(worst.aim_deg, aim_rad * 180 / M_PI);
            worst.pace_m = std::max(worst.pace_m, pace_m);
        }
    }
    std::printf("%-8s %zu putts turned: aim by %.2f sd (%.3f degrees), pace by %.2f sd (%.3f m)\n",
                name.c_str(), known.size(), worst.aim, worst.aim_deg, worst.pace, worst.pace_m);
    std::fflush(stdout);
    return worst;
}

}  // namespace

TEST_CASE("a fitted green that is turned gives the same reads", "[greens]") {
    const Moved worst = moved_by_turning("meadow", 4);
    CHECK(worst.aim < 0.3);
    CHECK(worst.pace < 0.3);
}

TEST_CASE("every fitted green that is turned gives the same reads", "[.turned]") {
    for (const char* name : {"meadow", "stairs", "turtle", "saddle"}) {
        CAPTURE(name);
        const Moved worst = moved_by_turning(name, 15);
        CHECK(worst.aim < 0.3);
        CHECK(worst.pace < 0.3);
    }
}

}  // namespace dewtrail
