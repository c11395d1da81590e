#include "viewer/files/window_state.hpp"

#include <catch2/catch.hpp>
#include <fstream>

#include "support/temporary_folder.hpp"

using namespace dewtrail;

TEST_CASE("what the window remembers comes back, and a damaged file is no trouble") {
    const TemporaryFolder folder;
    const auto path = folder.path() / "deep/window.toml";
    CHECK_FALSE(load_window_state(path).scale);
    save_window_state(path, {1.25, true});
    CHECK(load_window_state(path).scale == 1.25);
    CHECK(load_window_state(path).hints_seen);
    std::ofstream(path) << "scale = 99\nhints_seen = 1\n";
    CHECK_FALSE(load_window_state(path).scale);
    std::ofstream(path) << "scale = = 2";
    CHECK_FALSE(load_window_state(path).scale);
    CHECK_FALSE(load_window_state(std::nullopt).hints_seen);
    save_window_state("/proc/nowhere/window.toml", {});  // best effort: no exception
}
