/// A folder of before there were pupils, whose putts become a pupil's while the program is killed
/// or the disk fails: all of it is nobody's, or all of it is the pupil's, and the next run says
/// which.

#ifdef DEWTRAIL_FAILING

#include <catch2/catch.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "tests/support/shell.hpp"
#include "tests/support/temporary_folder.hpp"

using namespace dewtrail;
namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

namespace {

constexpr const char* naming = "pupil rename 'my own putts' Anna";
constexpr int killed = 128 + 9;

class OldHome {
  public:
    OldHome() {
        run("player set --stimp 9");
        for (const char* putt : {"12ft --holed", "8ft --missed low", "20ft --missed high"})
            run(std::string("log ") + putt);
        fs::create_directories(home() / "data/dewtrail/lessons");
        run("lesson --theme low --out data/dewtrail/lessons/2026-05-01-low.toml");
        putts_ = run("log export").written;
        REQUIRE(fs::exists(home() / "data/dewtrail/lessons/2026-05-01-low.toml"));
        fs::copy(home(), before(), fs::copy_options::recursive);
    }

    void begin_anew() const {
        fs::remove_all(home());
        fs::copy(before(), home(), fs::copy_options::recursive);
    }

    ShellOutcome run(const std::string& typed, const std::string& failing = "") const {
        fs::create_directories(home());
        const std::string here = home().string();
        const std::string load = failing.empty() ? "" : " LD_PRELOAD=" DEWTRAIL_FAILING;
        return run_in_shell("cd " + here + " && env -u DISPLAY HOME=" + here +
                            " XDG_DATA_HOME=" + here + "/data XDG_CONFIG_HOME=" + here +
                            "/config XDG_STATE_HOME=" + here + "/state FAIL_BELOW=" + here +
                            " timeout 60 env" + load + " " + failing + " " DEWTRAIL_PROGRAM " " +
                            typed + " 2>" + (folder_ / "errors").string());
    }

    long calls(const std::string& call) const {
        begin_anew();
        const std::string count = (folder_ / "count").string();
        CHECK(run(naming, "FAIL_CALL=" + call + " FAIL_COUNT=" + count).code == 0);
        return std::stol("0" + content_of(count));
    }

    /// All of it is of one and the same, and the next run knows whose. Returns whether it is hers.
    bool is_whole() const {
        const Json list = Json::parse(run("pupil list --json").written);
        const bool hers = !list["pupils"].empty();
        CHECK(list["own"].is_null() == hers);
        const std::string whose = hers ? " --pupil Anna" : "";
        const fs::path data = home() / "data/dewtrail", there = hers ? data / "pupils/Anna" : data;
        CHECK(run("log export" + whose).written == putts_);
        const ShellOutcome player = run("player show --json" + whose);
        CHECK(Json::parse(player.written)["player"]["stimp_ft"] == 9);
        CHECK(fs::exists(there / "lessons/2026-05-01-low.toml"));
        CHECK(fs::exists(home() / "config/dewtrail/player.toml") != hers);
        CHECK_FALSE(fs::exists(data / "pupils/.adopted-by"));
        return hers;
    }

    std::string errors() const { return content_of(folder_ / "errors"); }

  private:
    fs::path home() const { return folder_ / "home"; }
    fs::path before() const { return folder_ / "before"; }

    TemporaryFolder folder_;
    std::string putts_;
};

}  // namespace

TEST_CASE("Killed at any moment of it, one's own putts are one's own or a pupil's as a whole",
          "[faults]") {
    const OldHome home;
    int hers = 0, own = 0;
    for (const std::string call : {"open", "write", "sync", "rename", "remove"}) {
        const long count = home.calls(call);
        CHECK(count > 0);
        for (long n = 1; n <= count; ++n) {
            home.begin_anew();
            INFO(call << " " << n << " of " << count);
            CHECK(
                home.run(naming, "FAIL_KILL=1 FAIL_CALL=" + call + " FAIL_AT=" + std::to_string(n))
                    .code == killed);
            ++(home.is_whole() ? hers : own);
        }
    }
    CHECK(hers > 5);
    CHECK(own > 5);
}

TEST_CASE("Where the disk fails one's own putts stay whole, and the program says so", "[faults]") {
    const OldHome home;
    for (const std::string call : {"open", "write", "sync", "rename", "remove"}) {
        const long count = home.calls(call);
        for (long n = 1; n <= count; ++n) {
            home.begin_anew();
            const ShellOutcome outcome =
                home.run(naming, "FAIL_CALL=" + call + " FAIL_AT=" + std::to_string(n));
            INFO(call << " " << n << " of " << count << ": exit " << outcome.code << "\n"
                      << home.errors());
            CHECK((outcome.code == 0 || outcome.code == 3));
            if (outcome.code == 3) CHECK_FALSE(home.errors().empty());
            const bool hers = home.is_whole();
            if (outcome.code == 0) CHECK(hers);
        }
    }
}

#endif
