#pragma once

#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "greens/input_error.hpp"
#include "greens/units.hpp"
#include "tests/support/tolerances.hpp"

/// Tables of typed text for the tests of what people type: text and value, text and complaint.
namespace dewtrail::typed {

using oracle::round_off;

struct Good {
    std::string text;
    double value;
};

struct Bad {
    std::string text;
    std::string message;  // must occur in the message
};

using Parser = std::function<double(const std::string&)>;

inline void check_good(const Parser& parse, const std::vector<Good>& cases) {
    for (const Good& good : cases) {
        INFO("'" << good.text << "'");
        REQUIRE_THAT(parse(good.text), Catch::WithinAbs(good.value, round_off));
        REQUIRE_FALSE(std::signbit(parse(good.text)) != (good.value < 0.0));
    }
}

inline void check_bad(const Parser& parse, const std::vector<Bad>& cases) {
    for (const Bad& bad : cases) {
        INFO("'" << bad.text << "'");
        try {
            const double value = parse(bad.text);
            FAIL("was taken for " << value);
        } catch (const InputError& error) {
            REQUIRE_THAT(std::string(error.what()), Catch::Matchers::Contains(bad.message));
            REQUIRE(std::string(error.what()).find('\n') == std::string::npos);
            REQUIRE_FALSE(error.remedy().empty());
        }
    }
}

inline Parser with(double (*parse)(std::string_view, std::string_view), const char* what) {
    return [=](const std::string& text) { return parse(text, what); };
}

inline Parser with(double (*parse)(std::string_view, const Units&, std::string_view),
                   const Units& units, const char* what) {
    return [=](const std::string& text) { return parse(text, units, what); };
}

}  // namespace dewtrail::typed
