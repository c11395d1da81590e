#include "viewer/files/whole_file.hpp"

#include <signal.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>

#include "tests/support/temporary_folder.hpp"

using namespace dewtrail;
namespace fs = std::filesystem;

namespace {

std::string read(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace

TEST_CASE("A whole file takes its place or leaves nothing behind", "[whole_file]") {
    const TemporaryFolder folder;
    const fs::path path = folder.path() / "a.txt", in_the_way = folder.path() / "in-the-way";
    save_whole_file(path, "one");
    save_whole_file(path, "two");
    REQUIRE(read(path) == "two");
    fs::create_directory(in_the_way);
    REQUIRE_THROWS_AS(save_whole_file(in_the_way, "three"), OutsideError);
    REQUIRE(fs::is_directory(in_the_way));
    REQUIRE(folder.count() == 2);
}

TEST_CASE("A file that does not come so far leaves the old one, and nothing else", "[whole_file]") {
    const TemporaryFolder folder;
    const fs::path path = folder.path() / "a.txt";
    folder.write("a.txt", "old");
    {
        WholeFile file(path);
        file.write("new");
        CHECK(read(path) == "old");
        CHECK(read(file.path()) == "new");
        CHECK(folder.count() == 2);
    }
    CHECK(read(path) == "old");
    CHECK(folder.count() == 1);
}

TEST_CASE("What a killed run left is swept, what is being written is not", "[whole_file]") {
    const TemporaryFolder folder;
    const pid_t child = fork();
    if (child == 0) {
        WholeFile file(folder.path() / "killed.txt");
        file.write("half");
        kill(getpid(), SIGKILL);
    }
    waitpid(child, nullptr, 0);
    REQUIRE(folder.count() == 1);
    folder.write(".dewtrail", "mine");
    WholeFile being_written(folder.path() / "a.txt");
    CHECK(folder.count() == 2);
    being_written.write("a");
    save_whole_file(folder.path() / "b.txt", "b");
    CHECK(folder.count() == 3);
    being_written.take_place();
    CHECK(read(folder.path() / "a.txt") == "a");
    CHECK(read(folder.path() / ".dewtrail") == "mine");
}

TEST_CASE("The old file's rights stay, and a link stays one", "[whole_file]") {
    const TemporaryFolder folder;
    folder.write("a.txt", "old");
    fs::permissions(folder.path() / "a.txt", fs::perms(0640));
    fs::create_symlink("a.txt", folder.path() / "link");
    save_whole_file(folder.path() / "link", "new");
    CHECK(fs::is_symlink(folder.path() / "link"));
    CHECK(read(folder.path() / "a.txt") == "new");
    CHECK(fs::status(folder.path() / "a.txt").permissions() == fs::perms(0640));
}
