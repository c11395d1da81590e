/// The program where memory, disk or clock fail it: it says so and ends with 3, or it has done what
/// it says; what was remembered before stays, and no file is half.

#ifdef DEWTRAIL_FAILING

#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <set>

#include "tests/support/shell.hpp"
#include "tests/support/temporary_folder.hpp"

using namespace dewtrail;
namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

namespace {

/// Somebody's home, and the program in it.
class Home {
  public:
    ShellOutcome run(const std::string& typed, const std::string& failing = "") const {
        const std::string here = folder_.path().string();
        const std::string load = failing.empty() ? "" : " LD_PRELOAD=" DEWTRAIL_FAILING;
        // A hang is a failure, and ends as one.
        return run_in_shell("cd " + here + " && env -u DISPLAY HOME=" + here +
                            " XDG_DATA_HOME=" + here + "/data XDG_CONFIG_HOME=" + here +
                            "/config FAIL_BELOW=" + here + " timeout 60 env" + load + " " +
                            failing + " " DEWTRAIL_PROGRAM " " + typed + " 2>errors");
    }
    std::string errors() const { return content_of(folder_ / "errors"); }
    const fs::path& path() const { return folder_.path(); }

    /// How many such calls it makes.
    long calls(const std::string& typed, const std::string& call) const {
        run(typed, "FAIL_CALL=" + call + " FAIL_COUNT=" + (folder_ / "count").string());
        return std::stol("0" + content_of(folder_ / "count"));
    }

    std::size_t remembered() const {
        const ShellOutcome list = run("log list --last 1 --json");
        REQUIRE(list.code == 0);
        return Json::parse(list.written)["in_all"].get<std::size_t>();
    }

    /// Files on their way that nobody finished.
    std::size_t left_over() const {
        std::size_t count = 0;
        for (const auto& entry : fs::recursive_directory_iterator(folder_.path()))
            count += entry.path().filename().string().starts_with(".dewtrail-");
        return count;
    }

  private:
    TemporaryFolder folder_;
};

bool one_line(const std::string& text) {
    return !text.empty() && text.find('\n') == text.size() - 1;
}

/// All of the first, then fewer and fewer: where a program has a thousand, most are alike.
std::vector<long> chosen(long count) {
    std::vector<long> all;
    for (long n = 1; n <= count; n = n < 12 ? n + 1 : n + n / 4) all.push_back(n);
    return all;
}

std::string failing(const std::string& call, long n) {
    return "FAIL_CALL=" + call + " FAIL_AT=" + std::to_string(n);
}

}  // namespace

TEST_CASE("Memory that runs out at any moment: one line and exit 3", "[faults]") {
    const Home home;
    for (const std::string typed :
         {"read 12ft --slope 2% --clock 3 --stimp 10",
          "read --green meadow --hole flag --ball left --json", "log 12ft --holed",
          "practise --putts 1 --seed 7 </dev/null", "window --screenshot a.png"}) {
        const long count = home.calls(typed, "alloc");
        REQUIRE(count > 100);
        for (const long n : chosen(count)) {
            const ShellOutcome outcome = home.run(typed, failing("alloc", n));
            INFO(typed << ", allocation " << n << " of " << count << ": exit " << outcome.code
                       << "\n"
                       << home.errors());
            CHECK(outcome.code == 3);
            CHECK_FALSE(home.errors().empty());
        }
    }
    CHECK(home.run("log list").code == 0);
}

// Here what was made is taken apart again, and some of that asks for memory where none may throw.
TEST_CASE("Memory that runs out near the end: all was said, or exit 3", "[faults]") {
    for (const std::string typed : {"read --green meadow --hole flag --ball left --json",
                                    "log 12ft --holed", "player --json"}) {
        const std::string said = Home().run(typed).written;
        const long count = Home().calls(typed, "alloc");
        for (long left = 0; left < 40 && left < count; left = 2 * left + 1) {
            const Home home;
            const ShellOutcome outcome = home.run(typed, failing("alloc", count - left));
            INFO(typed << ", allocation " << count - left << " of " << count << ": exit "
                       << outcome.code << "\n"
                       << home.errors());
            CHECK((outcome.code == 3 || (outcome.code == 0 && outcome.written == said)));
        }
    }
}

// The libraries that draw letters do not all survive it; what they were drawing must.
TEST_CASE("A page that memory does not suffice for leaves the old one whole", "[faults]") {
    const Home home;
    const std::string typed = "sheet survey --out a.svg --force";
    const long count = home.calls(typed, "alloc");
    REQUIRE(count > 1000);
    for (long n = count / 2; n < count; n += count / 40) {
        home.run(typed, failing("alloc", n) + " FAIL_ONCE=1");
        INFO("allocation " << n << " of " << count << "\n" << home.errors());
        const std::string page = content_of(home.path() / "a.svg");
        CHECK(page.starts_with("<?xml"));
        CHECK(page.ends_with("</svg>\n"));
    }
    CHECK(home.run(typed).code == 0);
    CHECK(home.left_over() == 0);
}

TEST_CASE("A disk that fails at any moment: nothing is half, and nothing remembered is lost",
          "[faults]") {
    const Home home;
    home.run("player set --stimp 9");
    home.run("log 12ft --holed");
    std::size_t before = home.remembered();
    for (const std::string call : {"open", "write", "short", "sync", "rename"})
        for (const std::string typed : {"log 8ft --missed low", "player set --stimp 11",
                                        "sheet survey --out a.svg --force", "log export all.csv"}) {
            home.run("sheet survey --out a.svg --force");
            home.run("log export all.csv");
            home.run("player set --stimp 9");
            const fs::path file =
                home.path() / (typed.starts_with("sheet")    ? "a.svg"
                               : typed.starts_with("player") ? "config/dewtrail/player.toml"
                                                             : "all.csv");
            const std::string old = content_of(file);
            const long count = home.calls(typed, call);
            const std::string done = content_of(file);
            if (typed.starts_with("log 8ft")) before = home.remembered();
            for (const long n : chosen(count)) {
                home.run("player set --stimp 9");
                const ShellOutcome outcome = home.run(typed, failing(call, n));
                INFO(typed << ", " << call << " " << n << " of " << count << ": exit "
                           << outcome.code << "\n"
                           << outcome.written << home.errors());
                CHECK((outcome.code == 0 || outcome.code == 3));
                if (outcome.code == 3) CHECK(one_line(home.errors()));
                CHECK(home.left_over() == 0);
                if (typed.starts_with("log 8ft")) {
                    const std::size_t now = home.remembered();
                    if (outcome.code == 0) CHECK(now == before + 1);
                    CHECK((now == before || now == before + 1));
                    before = now;
                } else {
                    const std::string now = content_of(file);
                    CHECK((now == done || (outcome.code == 3 && now == old)));
                }
            }
        }
}

TEST_CASE("Several programs that log at once lose nothing", "[faults]") {
    const Home home;
    constexpr int programs = 6, putts = 5;
    std::string all;
    for (int i = 0; i < programs; ++i) {
        all += "( for k in $(seq " + std::to_string(putts) +
               "); do env HOME=" + home.path().string() + " XDG_DATA_HOME=" + home.path().string() +
               "/data " DEWTRAIL_PROGRAM " log 12ft --holed --json || echo failed; done ) & ";
    }
    const ShellOutcome outcome = run_in_shell("{ " + all + "wait; } 2>&1");
    CHECK(outcome.written.find("failed") == std::string::npos);
    CHECK(home.remembered() == programs * putts);
    const Json list = Json::parse(home.run("log export --json").written);
    std::set<int> ids;
    for (const Json& putt : list["putts"]) ids.insert(putt["id"].get<int>());
    CHECK(ids.size() == programs * putts);
}

TEST_CASE("The clock at the edges of days, years and leaps, and set back", "[faults]") {
    const auto at = [](const char* moment) { return std::string("TZ=UTC FAIL_NOW=") + moment; };
    struct Edge {
        const char *now, *date;
    };
    for (const Edge& edge : {Edge{"1835481599", "2028-02-29"}, Edge{"1835481600", "2028-03-01"},
                             Edge{"1798761599", "2026-12-31"}, Edge{"1798761600", "2027-01-01"},
                             Edge{"2147483647", "2038-01-19"}, Edge{"2147483648", "2038-01-19"},
                             Edge{"0", "1970-01-01"}}) {
        const Home home;
        INFO(edge.date);
        CHECK(home.run("log 12ft --holed", at(edge.now)).code == 0);
        const Json list = Json::parse(home.run("log list --json", at(edge.now)).written);
        CHECK(list["putts"][0]["date"] == edge.date);
        for (const char* test : {"--day", "--week"})
            CHECK(home.run(std::string("practise ") + test + " </dev/null", at(edge.now)).code ==
                  0);
    }
    const Home home;
    CHECK(home.run("log 12ft --slope 2% --clock 3 --left '2ft past'", at("1798761600")).code == 0);
    const std::string practise = "practise --putts 1 --seed 7 --json <answers";
    std::ofstream(home.path() / "answers") << "15in right\n12ft\ny\n";
    CHECK(home.run(practise, at("1798761600")).code == 0);
    // A year earlier.
    for (const std::string typed :
         {"log list", "log 8ft --holed", "review --last 2", "practise --progress",
          "practise --day </dev/null", practise.c_str(), "log export all.csv"}) {
        const ShellOutcome outcome = home.run(typed, at("1767225600"));
        INFO(typed << "\n" << home.errors());
        CHECK(outcome.code == 0);
    }
    CHECK(home.remembered() == 2);
}

#endif
