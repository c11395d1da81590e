/// Numeric tests run with floating-point traps on: a division by nought, an overflow or an invalid
/// operation in the physics ends the test with SIGFPE at its place.

#define CATCH_CONFIG_EXTERNAL_INTERFACES
#include <cfenv>
#include <string>

#include <catch2/catch.hpp>

namespace {

/// Tests that hand a NaN in, to see it refused, say so with the tag [nan].
bool is_numeric(const Catch::TestCaseInfo& test) {
    if (test.tagsAsString().find("[nan]") != std::string::npos) return false;
    const std::string file = test.lineInfo.file;
    for (const char* folder : {"tests/physics/", "tests/published/", "tests/reference/"})
        if (file.find(folder) != std::string::npos) return true;
    return false;
}

using Listener = Catch::TestEventListenerBase;

struct FloatTraps : Listener {
    using Listener::Listener;

    void testCaseStarting(const Catch::TestCaseInfo& test) override {
        Listener::testCaseStarting(test);
        if (!is_numeric(test)) return;
        std::feclearexcept(FE_ALL_EXCEPT);
        feenableexcept(FE_DIVBYZERO | FE_OVERFLOW | FE_INVALID);
    }
    void testCaseEnded(const Catch::TestCaseStats& stats) override {
        fedisableexcept(FE_ALL_EXCEPT);
        Listener::testCaseEnded(stats);
    }
};

CATCH_REGISTER_LISTENER(FloatTraps)

}  // namespace
