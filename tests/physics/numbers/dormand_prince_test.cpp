#include "physics/numbers/dormand_prince.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using Catch::WithinAbs;

namespace dewtrail {
namespace {

/// A pendulum that swings all the way: an equation with no closed form that an order could hide in.
/// Its energy is the third state, summed up from the power, which is nothing.
using Swing = std::array<double, 3>;
constexpr auto swinging = [](const Swing& y, Swing& rate) { rate = {y[1], -std::sin(y[0]), y[1]}; };
using Stepper = DormandPrince<Swing, 2>;

Stepper swung(double step, double until) {
    Stepper stepper;
    stepper.start(swinging, {1, 1.2, 1});
    for (int i = 0; i < std::lround(until / step); ++i) {
        stepper.go_on();
        stepper.attempt(swinging, step);
        stepper.settle(swinging);
    }
    return stepper;
}

double energy(const Swing& y) {
    return 0.5 * y[1] * y[1] - std::cos(y[0]);
}

TEST_CASE("the step is of order 8, its dense output of order 7", "[numbers]") {
    const Swing exact = swung(0.01, 4).state();
    CHECK_THAT(energy(exact), WithinAbs(energy({1, 1.2, 1}), 1e-14));
    const auto error = [&](double step) { return std::abs(swung(step, 4).state()[0] - exact[0]); };
    // Twice the step: 2^8 the error, within what the next order adds.
    const double order = std::log2(error(1.0) / error(0.5));
    CHECK(order > 7);
    CHECK(order < 10);

    const auto within_error = [&](double step) {
        auto stepper = swung(step, 2 * step);
        double worst = 0;
        for (const double share : {0.2, 0.5, 0.8}) {
            const double until = step + share * step;
            const Swing there = swung(until / 200, until).state();
            worst = std::max(worst, std::abs(stepper.within(swinging, share)[0] - there[0]));
        }
        return worst;
    };
    const double dense_order = std::log2(within_error(0.8) / within_error(0.4));
    CHECK(dense_order > 6.5);
}

TEST_CASE("within a step its ends are met, and what is summed up follows", "[numbers]") {
    auto stepper = swung(0.5, 2);
    CHECK(stepper.within(swinging, 0) == stepper.before());
    CHECK(stepper.within(swinging, 1) == stepper.state());
    CHECK_THAT(stepper.within(swinging, 1 - 1e-12)[0], WithinAbs(stepper.state()[0], 1e-11));
    // The third state has the rate of the first.
    for (const double share : {0.3, 0.7, 1.0})
        CHECK_THAT(stepper.within(swinging, share)[2],
                   WithinAbs(stepper.within(swinging, share)[0], 1e-13));
}

TEST_CASE("the estimate bounds the error of a step", "[numbers]") {
    for (const double step : {0.3, 0.6, 1.0}) {
        const Swing exact = swung(step / 100, step).state();
        const Stepper stepper = swung(step, step);
        const double error = std::max(std::abs(stepper.state()[0] - exact[0]),
                                      std::abs(stepper.state()[1] - exact[1]));
        INFO("step " << step);
        CHECK(stepper.error(std::array<double, 2>{1, 1}) > error);
    }
}

}  // namespace
}  // namespace dewtrail
