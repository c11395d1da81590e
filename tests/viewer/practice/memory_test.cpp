#include "viewer/practice/memory.hpp"
#include "viewer/practice/memory_csv.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <limits>

#include "greens/input_error.hpp"
#include "tests/support/ordinary_user.hpp"
#include "tests/support/random.hpp"
#include "tests/support/temporary_folder.hpp"
#include "viewer/files/memory_file.hpp"
#include "viewer/files/whole_file.hpp"

using namespace dewtrail;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

constexpr const char* first_step = "CREATE TABLE thing(id INTEGER PRIMARY KEY, name TEXT);";
constexpr const char* second_step = "ALTER TABLE thing ADD COLUMN size REAL;";
constexpr const char* one_version[] = {first_step};
constexpr const char* two_versions[] = {first_step, second_step};

std::string complaint(const std::function<void()>& work) {
    try {
        work();
    } catch (const InputError& error) {
        return std::string("input: ") + error.what();
    } catch (const OutsideError& error) {
        return std::string("outside: ") + error.what();
    }
    return "none";
}

void add_thing(MemoryFile& file, const std::string& name) {
    file.change([&](SQLite::Database& database) {
        SQLite::Statement statement(database, "INSERT INTO thing(name) VALUES(?)");
        statement.bind(1, name);
        statement.exec();
    });
}

int count(const MemoryFile& file) {
    int things = 0;
    file.look([&](SQLite::Database& d) { things = d.execAndGet("SELECT count(*) FROM thing"); });
    return things;
}

/// Another for each i; every length is one that can be putted.
Answer some_answer(int i) {
    Answer answer;
    answer.at = "2026-05-01T18:30:00";
    answer.drill = Drill::line;
    answer.seed = std::numeric_limits<std::uint64_t>::max() - static_cast<std::uint64_t>(i);
    answer.putt = plane_putt(3.0 + 1.0 / 3 + i % 30, -0.013, 0.021, 10.3, 0.3048);
    answer.category = category_of(3.3, -0.013, 0.021);
    answer.aim_m = 0.1 + 1e-17;
    answer.sure = i % 2 == 0;
    answer.break_share = 1.0 / 7;
    answer.told = false;
    return answer;
}

LoggedPutt some_putt() {
    LoggedPutt putt;
    putt.date = "2026-05-01";
    putt.green = "Larch, the \"upper\" one";
    putt.hole = "7";
    putt.distance_m = 3.6576;
    putt.slope = 0.02;
    putt.clock_h = 3.5;
    putt.aim_m = -0.381;
    putt.past_m = 0.7;
    putt.right_m = -0.1;
    putt.missed = "low long";
    putt.side = "right-to-left";
    putt.grade = "uphill";
    return putt;
}

}  // namespace

TEST_CASE("What is remembered comes back to the last bit", "[memory]") {
    const TemporaryFolder folder;
    {
        Memory memory(folder.path() / "not-there-yet");
        REQUIRE(memory.remember(some_answer(1)) == 1);
        REQUIRE(memory.remember(some_answer(2)) == 2);
        REQUIRE(memory.remember(some_putt()) == 1);
    }
    const Memory memory(folder.path() / "not-there-yet");
    const auto answers = memory.answers();
    REQUIRE(answers.size() == 2);
    REQUIRE(answers[0].seed == some_answer(1).seed);
    REQUIRE(answers[0].putt == some_answer(1).putt);
    REQUIRE(answers[0].category == some_answer(1).category);
    REQUIRE(answers[1].sure == true);
    REQUIRE_FALSE(answers[0].lost);
    REQUIRE_FALSE(answers[0].told);
    REQUIRE(write_answers_csv(answers) == write_answers_csv({some_answer(1), some_answer(2)}));
    REQUIRE(write_putts_csv(memory.putts()) == write_putts_csv({some_putt()}));
}

TEST_CASE("An export that is imported again adds nothing", "[memory]") {
    const TemporaryFolder folder;
    Memory memory(folder.path());
    memory.remember(some_answer(1));
    memory.remember(some_putt());
    const auto answers = read_answers_csv("a.csv", write_answers_csv(memory.answers()));
    const auto putts = read_putts_csv("p.csv", write_putts_csv(memory.putts()), Units{});
    REQUIRE(memory.add(answers) == 0);
    REQUIRE(memory.add(putts) == 0);
    REQUIRE(memory.add({answers[0], some_answer(5)}) == 1);

    Memory other(folder.path() / "other");
    REQUIRE(other.add(answers) == 1);
    REQUIRE(other.add(putts) == 1);
    REQUIRE(write_putts_csv(other.putts()) == write_putts_csv(memory.putts()));
}

TEST_CASE("A bad row of an import is refused at its place, and nothing is added", "[memory]") {
    const std::string good = write_answers_csv({some_answer(1)});
    const std::string header = good.substr(0, good.find('\n') + 1);
    REQUIRE_THAT(complaint([] { read_answers_csv("a.csv", "x,y\n"); }), Contains("a.csv:1:1"));
    REQUIRE_THAT(complaint([&] { read_answers_csv("a.csv", header + "1,2\n"); }),
                 Contains("a.csv:2:4: occasion is missing"));
    std::string far = good;
    far.replace(far.find(",10.3,"), 6, ",30.3,");
    REQUIRE_THAT(complaint([&] { read_answers_csv("a.csv", far); }), Contains("out of range"));
    std::string wrong = good;
    wrong.replace(wrong.find("line,practice"), 4, "bend");
    REQUIRE_THAT(complaint([&] { read_answers_csv("a.csv", wrong); }),
                 Contains("a.csv:2:21: drill 'bend' is not known"));
}

TEST_CASE("An older file is copied, then brought up to date", "[memory]") {
    const TemporaryFolder folder;
    const fs::path path = folder.path() / "m.sqlite";
    {
        MemoryFile old(path, one_version);
        add_thing(old, "a");
    }
    {
        MemoryFile file(path, two_versions);
        REQUIRE(count(file) == 1);
        file.change([](SQLite::Database& d) { d.exec("UPDATE thing SET size = 3"); });
    }
    const MemoryFile copy(folder.path() / "m.sqlite.version-1", one_version);
    REQUIRE(count(copy) == 1);
    // Opened again there is nothing to do, and no second copy.
    const MemoryFile again(path, two_versions);
    REQUIRE_FALSE(fs::exists(folder.path() / "m.sqlite.version-2"));
    REQUIRE_FALSE(fs::exists(folder.path() / "m.sqlite.version-1-2"));
}

TEST_CASE("A step that fails leaves the old file and says so", "[memory]") {
    const TemporaryFolder folder;
    const fs::path path = folder.path() / "m.sqlite";
    {
        MemoryFile old(path, one_version);
        add_thing(old, "a");
    }
    const char* const broken[] = {first_step, "ALTER TABLE thing ADD COLUMN size REAL; NO SQL;"};
    REQUIRE_THAT(complaint([&] { MemoryFile(path, broken); }), Contains("outside: "));
    MemoryFile file(path, one_version);
    REQUIRE(count(file) == 1);
}

TEST_CASE("A newer file is refused and not touched", "[memory]") {
    const TemporaryFolder folder;
    const fs::path path = folder.path() / "m.sqlite";
    {
        MemoryFile newer(path, two_versions);
        add_thing(newer, "a");
    }
    const std::string before = content_of(path);
    REQUIRE_THAT(complaint([&] { MemoryFile(path, one_version); }),
                 Contains("input: ") && Contains("is of version 2, newer than this program"));
    REQUIRE(content_of(path) == before);
}

TEST_CASE("A newer file with unfinished business is not touched either", "[memory]") {
    const TemporaryFolder folder;
    const fs::path path = folder.path() / "m.sqlite";
    {
        // A copy taken while the file is open has its last changes in the log beside it.
        MemoryFile newer(path, two_versions);
        add_thing(newer, "a");
        fs::copy_file(path, folder.path() / "n.sqlite");
        fs::copy_file(folder.path() / "m.sqlite-wal", folder.path() / "n.sqlite-wal");
    }
    const std::string before = content_of(folder.path() / "n.sqlite");
    const std::string log = content_of(folder.path() / "n.sqlite-wal");
    REQUIRE(log.size() > 0);
    REQUIRE_THAT(complaint([&] { MemoryFile(folder.path() / "n.sqlite", one_version); }),
                 Contains("newer"));
    REQUIRE(content_of(folder.path() / "n.sqlite") == before);
    REQUIRE(content_of(folder.path() / "n.sqlite-wal") == log);
}

TEST_CASE("Damaged files and other people's are refused and not touched", "[memory]") {
    const TemporaryFolder folder;
    const fs::path path = folder.path() / "m.sqlite";
    const auto refused_untouched = [&](const std::string& message) {
        const std::string before = content_of(path);
        REQUIRE_THAT(complaint([&] { MemoryFile(path, one_version); }),
                     Contains("input: ") && Contains(message));
        REQUIRE(content_of(path) == before);
    };
    folder.write("m.sqlite",
                 "this was never a memory, whatever its name says. " + std::string(2000, 'x'));
    refused_untouched("is damaged");
    fs::remove(path);
    {
        MemoryFile file(path, one_version);
        for (int i = 0; i < 400; ++i) add_thing(file, std::string(200, 'a'));
    }
    std::string half = content_of(path);
    for (std::size_t i = 4200; i < half.size(); i += 7) half[i] = '\x5a';
    folder.write("m.sqlite", half);
    refused_untouched("is damaged");
    fs::remove(path);
    {
        SQLite::Database other(path.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
        other.exec("CREATE TABLE shopping(item TEXT)");
    }
    refused_untouched("is no memory of this program");
}

TEST_CASE("Rows that could never have been asked or played are left out, and told once",
          "[memory]") {
    const TemporaryFolder folder;
    {
        Memory memory(folder.path());
        for (int i = 0; i < 3; ++i) memory.remember(some_answer(i)), memory.remember(some_putt());
    }
    const std::string row = "UPDATE answer SET ", putt = "UPDATE putt SET ";
    for (const std::string& change :
         {row + "stimp_ft = 0", row + "ball_x_m = hole_x_m, ball_y_m = hole_y_m",
          row + "past_m = -0.3", row + "slope = 9e999", row + "slope = 1e300",
          row + "aim_m = -9e999", row + "score = 1e300", row + "drill = 'bend'", row + "told = 7",
          putt + "distance_m = 0", putt + "stimp_ft = 1e300", putt + "slope = 9e999",
          putt + "clock_h = 13", putt + "distance_m = 'far'"}) {
        CAPTURE(change);
        const TemporaryFolder copy;
        fs::copy_file(folder.path() / "memory.sqlite", copy.path() / "memory.sqlite");
        SQLite::Database((copy.path() / "memory.sqlite").string(), SQLite::OPEN_READWRITE)
            .exec(change + " WHERE id = 2");
        std::vector<std::string> told;
        const Memory memory(copy.path(), [&](const std::string& words) { told.push_back(words); });
        const std::size_t answers = memory.answers().size(), putts = memory.putts().size();
        CHECK(answers + putts == 5);
        memory.answers(), memory.putts();
        REQUIRE(told.size() == 1);
        CHECK_THAT(told.front(),
                   Contains("memory.sqlite: 1 row of the table") && Contains("row 2: "));
    }
}

TEST_CASE("What a file from somebody else defines beside tables does not run", "[memory]") {
    const TemporaryFolder folder;
    const fs::path path = folder.path() / "things.sqlite";
    {
        MemoryFile file(path, one_version);
        add_thing(file, "first");
    }
    {
        SQLite::Database database(path.string(), SQLite::OPEN_READWRITE);
        database.exec("CREATE TRIGGER wipe AFTER INSERT ON thing BEGIN DELETE FROM thing; END");
    }
    MemoryFile file(path, one_version);
    add_thing(file, "second");
    file.look([](SQLite::Database& database) {
        CHECK(database.execAndGet("SELECT count(*) FROM thing").getInt() == 2);
    });
}

TEST_CASE("What fails outside is one line, and nothing is overwritten", "[memory]") {
    const TemporaryFolder folder;
    folder.write("in-the-way", "not a folder");
    REQUIRE_THAT(complaint([&] { MemoryFile(folder.path() / "in-the-way/m.sqlite", one_version); }),
                 Contains("outside: ") && Contains("could not be made"));
    REQUIRE_THAT(complaint([&] { MemoryFile(folder.path(), one_version); }),
                 Contains("it is there") || Contains("is there, and no file"));
    REQUIRE(content_of(folder.path() / "in-the-way") == "not a folder");
    fs::permissions(folder.path(), fs::perms(0555));
    const std::string said = [&] {
        const OrdinaryUser user;
        return complaint([&] { MemoryFile(folder.path() / "m.sqlite", one_version); });
    }();
    fs::permissions(folder.path(), fs::perms::owner_all);
    REQUIRE_THAT(said, Contains("outside: "));
}

TEST_CASE("A memory that cannot be written is still read, and left as it was", "[memory]") {
    const TemporaryFolder above;
    fs::permissions(above.path(), fs::perms(0755));
    const fs::path folder = above.path() / "a?b#c%20 d";  // what an address would take for more
    {
        Memory memory(folder);
        for (int i = 0; i < 3; ++i) memory.remember(some_answer(i));
        MemoryFile(folder / "old.sqlite", one_version);
    }
    std::ofstream(folder / "begun.sqlite") << content_of(folder / "old.sqlite");
    std::ofstream(folder / "begun.sqlite-wal") << "what is not yet in the file";
    const std::string before = content_of(folder / "memory.sqlite");
    fs::permissions(folder, fs::perms(0555));
    {
        const OrdinaryUser user;
        Memory memory(folder);
        CHECK(memory.answers().size() == 3);
        CHECK_THAT(complaint([&] { memory.remember(some_answer(4)); }),
                   Contains("outside: ") && Contains("read-only; nothing was changed"));
        CHECK_THAT(complaint([&] { MemoryFile(folder / "old.sqlite", two_versions); }),
                   Contains("outside: ") && Contains("older version"));
        CHECK_THAT(complaint([&] { MemoryFile(folder / "begun.sqlite", one_version); }),
                   Contains("outside: ") && Contains("not whole without begun.sqlite-wal"));
        CHECK_THAT(complaint([&] { MemoryFile(folder / "new.sqlite", one_version); }),
                   Contains("outside: ") && Contains("could not be opened"));
    }
    fs::permissions(folder, fs::perms(0755));
    CHECK(content_of(folder / "memory.sqlite") == before);
}

TEST_CASE("A full disk loses nothing that was said to be remembered", "[memory]") {
    const TemporaryFolder folder;
    const fs::path path = folder.path() / "m.sqlite";
    int channel[2];
    REQUIRE(pipe(channel) == 0);
    const pid_t child = fork();
    if (child == 0) {
        // No file of this process grows beyond 100 kB: what a full disk looks like to a program.
        signal(SIGXFSZ, SIG_IGN);
        const rlimit limit{100'000, 100'000};
        setrlimit(RLIMIT_FSIZE, &limit);
        int remembered = 0;
        int code = 1;
        try {
            MemoryFile file(path, one_version);
            for (; remembered < 10'000; ++remembered) add_thing(file, std::string(500, 'a'));
        } catch (const OutsideError&) {
            code = 0;
        } catch (...) {
        }
        if (write(channel[1], &remembered, sizeof remembered) != sizeof remembered) code = 2;
        _exit(code);
    }
    int status = 0, remembered = 0;
    waitpid(child, &status, 0);
    REQUIRE(WIFEXITED(status));
    REQUIRE(WEXITSTATUS(status) == 0);
    REQUIRE(read(channel[0], &remembered, sizeof remembered) == sizeof remembered);
    REQUIRE(remembered > 10);
    MemoryFile file(path, one_version);
    REQUIRE(count(file) == remembered);
}
