/// A green from five readings of a level, how well one putt on it is known, and where to read next.

#include <cstdio>
#include <numbers>

#include "physics/read/survey_advice.hpp"

int main() {
    using namespace dewtrail;
    constexpr double degree = std::numbers::pi / 180;
    Survey survey;
    survey.levels = {
        level_reading({0, 0}, 0.020, 180 * degree), level_reading({6, 0}, 0.015, 170 * degree),
        level_reading({6, 5}, 0.018, 160 * degree), level_reading({0, 5}, 0.025, 190 * degree),
        level_reading({3, 2}, 0.020, 175 * degree)};
    const SurfaceFit fit = fit_survey(survey);
    if (fit.status != FitStatus::fitted) {
        std::printf("%s\n", fit.message.c_str());
        return 1;
    }
    const Vec2 ball(1, 1), hole(5, 4);
    const LineDoubt doubt = line_doubt(fit, ball, hole);
    std::printf("slope known to %.2f %% along, %.2f %% across\n", 100 * doubt.along,
                100 * doubt.across);
    if (const auto next = next_spot(fit, ball, hole))
        std::printf("read next at (%.1f, %.1f)\n", next->at.x(), next->at.y());
    return 0;
}
