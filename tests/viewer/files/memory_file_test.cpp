#include "viewer/files/memory_file.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

#include <catch2/catch.hpp>

#include "greens/input_error.hpp"
#include "tests/support/temporary_folder.hpp"

using namespace dewtrail;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

constexpr const char* one_version[] = {"CREATE TABLE thing(id INTEGER PRIMARY KEY, name TEXT);"};

std::string complaint(const std::function<void()>& work) {
    try {
        work();
    } catch (const InputError& error) {
        return error.what();
    }
    return "none";
}

void write_database(const fs::path& path, const std::string& sql) {
    SQLite::Database(path.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE).exec(sql);
}

int count(const MemoryFile& file) {
    int things = 0;
    file.look([&](SQLite::Database& d) { things = d.execAndGet("SELECT count(*) FROM thing"); });
    return things;
}

}  // namespace

TEST_CASE("A file that only calls itself a memory is not changed by a byte", "[memory]") {
    const TemporaryFolder folder;
    const fs::path path = folder.path() / "m.sqlite";
    const std::string ours = "PRAGMA application_id = 0x44455754; PRAGMA user_version = ";
    const std::string thing = "CREATE TABLE thing(id INTEGER PRIMARY KEY, name TEXT);";
    for (const std::string& made : {
             ours + "1; CREATE TABLE other(x)",  // none of the tables
             ours + "1; CREATE TABLE thing(id INTEGER PRIMARY KEY, title TEXT)",
             ours + "1; CREATE TABLE thing(id INTEGER PRIMARY KEY, name TEXT, more TEXT)",
             ours + "1; CREATE TABLE thing(id INTEGER PRIMARY KEY, "
                    "name TEXT AS (hex(zeroblob(100000000))))",
             ours + "1; CREATE VIEW thing AS SELECT 1 AS id, 'a' AS name",
             ours + "0; " + thing,
             ours + "0",
             ours + "-1; " + thing,
         }) {
        CAPTURE(made);
        fs::remove(path);
        write_database(path, made);
        const std::string before = content_of(path);
        REQUIRE(before.size() > 0);
        CHECK_THAT(complaint([&] { MemoryFile(path, one_version); }),
                   Contains("is no memory of this program"));
        CHECK(content_of(path) == before);
        CHECK(folder.count() == 1);
    }
}

TEST_CASE("A row of many megabytes is refused, not taken in", "[memory]") {
    const TemporaryFolder folder;
    const fs::path path = folder.path() / "m.sqlite";
    { MemoryFile(path, one_version); }
    write_database(path, "INSERT INTO thing(name) VALUES(hex(zeroblob(2000000)))");
    CHECK_THAT(complaint([&] {
                   MemoryFile file(path, one_version);
                   file.look([](SQLite::Database& d) { d.execAndGet("SELECT name FROM thing"); });
               }),
               Contains("is damaged"));
}

TEST_CASE("A folder whose name looks like an address is a folder", "[memory]") {
    const TemporaryFolder folder;
    const fs::path here = fs::current_path(), named = "file:x?mode=memory&y=/m.sqlite";
    fs::current_path(folder.path());
    {
        MemoryFile file(named, one_version);
        file.change([](SQLite::Database& d) { d.exec("INSERT INTO thing(name) VALUES('a')"); });
    }
    const int kept = count(MemoryFile(named, one_version));
    fs::current_path(here);
    CHECK(kept == 1);
    CHECK(fs::exists(folder.path() / named));
}
