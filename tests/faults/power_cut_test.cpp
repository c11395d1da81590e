/// The power fails at any moment of a program that remembers: what it had said to be remembered is
/// there, and every file is an old or a new one, whole.
///
/// A run is recorded (recording.cpp) and its disk made again as it may be found after a cut. Until
/// a file is synced its writes may be on the disk or not, each for itself, the last torn; until its
/// folder is synced a new name may be missing and an old one still there ('All File Systems Are Not
/// Created Equal', Pillai et al., OSDI 2014, section 2).

#ifdef DEWTRAIL_RECORDING

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <sstream>

#include "tests/support/random.hpp"
#include "tests/support/shell.hpp"
#include "tests/support/temporary_folder.hpp"
#include "viewer/practice/memory.hpp"

using namespace dewtrail;
namespace fs = std::filesystem;

namespace {

struct Entry {
    std::string what, path, other, bytes;
    std::size_t offset = 0;
};

std::vector<Entry> entries_of(const std::string& journal) {
    std::vector<Entry> entries;
    for (std::size_t at = 0; at < journal.size();) {
        const std::size_t end = journal.find('\n', at);
        std::istringstream line(journal.substr(at, end - at));
        Entry entry;
        std::string offset, count;
        for (std::string* part : {&entry.what, &offset, &count, &entry.path, &entry.other})
            std::getline(line, *part, '\t');
        entry.offset = std::stoul(offset);
        entry.bytes = journal.substr(end + 1, std::stoul(count));
        at = end + 1 + entry.bytes.size();
        entries.push_back(entry);
    }
    return entries;
}

void apply(std::string& content, const Entry& entry, std::size_t bytes) {
    if (entry.what == "cut") return content.resize(entry.offset);
    if (content.size() < entry.offset + bytes) content.resize(entry.offset + bytes);
    content.replace(entry.offset, bytes, entry.bytes, 0, bytes);
}

/// What is on its way to the disk, and what is surely there.
class Disk {
  public:
    void take(const Entry& entry) {
        if (entry.what == "make") {
            files_.emplace_back();
            names_[entry.path] = files_.size() - 1;
        } else if (entry.what == "rename") {
            names_[entry.other] = names_.at(entry.path);
            names_.erase(entry.path);
        } else if (entry.what == "remove") {
            names_.erase(entry.path);
        } else if (entry.what != "sync") {
            files_.at(names_.at(entry.path)).pending.push_back(entry);
        } else if (names_.count(entry.path) > 0) {
            File& file = files_[names_[entry.path]];
            for (const Entry& write : file.pending) apply(file.synced, write, write.bytes.size());
            file.pending.clear();
        } else {  // a folder: what is in it, and no other's names
            const auto is_in = [&](const auto& name) {
                return fs::path(name.first).parent_path() == entry.path;
            };
            std::erase_if(sure_names_, is_in);
            std::copy_if(names_.begin(), names_.end(),
                         std::inserter(sure_names_, sure_names_.end()), is_in);
        }
    }

    enum class Cut { nothing_lost, all_lost, some_lost };

    /// As it may be found, in a folder of its own.
    void put_into(const fs::path& folder, const fs::path& was, Cut cut, oracle::Random& random) {
        const bool sure =
            cut == Cut::all_lost || (cut == Cut::some_lost && random.between(0, 1) < 0.5);
        for (const auto& [name, file] : sure ? sure_names_ : names_) {
            const fs::path to = folder / fs::path(name).lexically_relative(was);
            fs::create_directories(to.parent_path());
            std::ofstream(to, std::ios::binary) << found(files_[file], cut, random);
        }
    }

  private:
    struct File {
        std::string synced;
        std::vector<Entry> pending;
    };

    static std::string found(const File& file, Cut cut, oracle::Random& random) {
        std::string content = file.synced;
        if (cut == Cut::all_lost) return content;
        for (const Entry& write : file.pending) {
            const bool lost = cut == Cut::some_lost && random.between(0, 1) < 0.5;
            const bool torn = cut == Cut::some_lost && &write == &file.pending.back();
            if (!lost) apply(content, write, torn ? write.bytes.size() / 2 : write.bytes.size());
        }
        return content;
    }

    std::vector<File> files_;
    std::map<std::string, std::size_t> names_, sure_names_;
};

/// A home whose program is recorded.
class Recorded {
  public:
    Recorded() {
        for (const char* folder : {"home/data/dewtrail", "home/config/dewtrail"})
            fs::create_directories(folder_ / folder);
    }

    void run(const std::string& typed) {
        const std::string home = this->home().string();
        const ShellOutcome outcome =
            run_in_shell("cd " + home + " && env -u DISPLAY HOME=" + home +
                         " XDG_DATA_HOME=" + home + "/data XDG_CONFIG_HOME=" + home +
                         "/config RECORD_BELOW=" + home + " RECORD_IN=" + journal_file() +
                         " LD_PRELOAD=" DEWTRAIL_RECORDING " " DEWTRAIL_PROGRAM " " + typed);
        INFO(typed << ": " << outcome.written);
        REQUIRE(outcome.code == 0);
        done_at_.push_back(entries().size());
    }

    fs::path home() const { return folder_ / "home"; }
    std::vector<Entry> entries() const { return entries_of(content_of(journal_file())); }
    /// How many of the runs were over when so many entries were written.
    std::size_t done_by(std::size_t entries) const {
        return static_cast<std::size_t>(std::count_if(
            done_at_.begin(), done_at_.end(), [&](std::size_t at) { return at <= entries; }));
    }

  private:
    std::string journal_file() const { return (folder_ / "journal").string(); }

    TemporaryFolder folder_;
    std::vector<std::size_t> done_at_;
};

/// Looks at the disk after a cut at each point of the record, in each of these ways. Where syncs
/// are not `kept`, as on a disk that only says that it has written.
template <class Look>
void cut_everywhere(const Recorded& recorded, Look look, bool kept = true,
                    const std::vector<Disk::Cut>& cuts = {Disk::Cut::nothing_lost,
                                                          Disk::Cut::all_lost, Disk::Cut::some_lost,
                                                          Disk::Cut::some_lost}) {
    oracle::Random random(20261130);
    Disk disk;
    const std::vector<Entry> entries = recorded.entries();
    for (std::size_t i = 0; i <= entries.size(); ++i) {
        for (const auto cut : cuts) {
            const TemporaryFolder found;
            disk.put_into(found.path(), recorded.home(), cut, random);
            INFO("before entry " << i << " of " << entries.size() << ", way "
                                 << static_cast<int>(cut));
            look(found.path(), recorded.done_by(i));
        }
        if (i < entries.size() && (kept || entries[i].what != "sync")) disk.take(entries[i]);
    }
}

/// Putts that are remembered there; none where nothing can be read.
std::optional<std::size_t> putts_in(const fs::path& home) {
    try {
        return Memory(home / "data/dewtrail").putts().size();
    } catch (const std::runtime_error&) {
        return std::nullopt;
    }
}

}  // namespace

TEST_CASE("A power cut at any moment loses no putt that was said to be logged", "[faults]") {
    Recorded recorded;
    constexpr std::size_t putts = 4;
    for (std::size_t i = 0; i < putts; ++i) recorded.run("log 12ft --holed");
    REQUIRE(recorded.entries().size() > 10 * putts);
    cut_everywhere(recorded, [&](const fs::path& found, std::size_t said) {
        const auto kept = putts_in(found);
        REQUIRE(kept.has_value());
        REQUIRE(*kept >= said);
        REQUIRE(*kept <= std::min(putts, said + 1));
    });
    std::size_t lost = 0;  // where the disk lies, or the program did not ask
    cut_everywhere(recorded,
                   [&](const fs::path& found, std::size_t said) {
                       lost += putts_in(found).value_or(0) < said;
                   },
                   false, {Disk::Cut::some_lost});
    REQUIRE(lost > 20);
}

TEST_CASE("A power cut at any moment leaves the old player or the new one", "[faults]") {
    Recorded recorded;
    constexpr std::size_t runs = 3;
    for (const char* handicap : {"5", "10", "20"})
        recorded.run(std::string("player set --handicap ") + handicap);
    std::vector<std::string> after{""};
    cut_everywhere(recorded, [&](const fs::path& found, std::size_t said) {
        const std::string text = content_of(found / "config/dewtrail/player.toml");
        if (after.back() != text && std::find(after.begin(), after.end(), text) == after.end())
            after.push_back(text);
        REQUIRE(after.size() <= runs + 1);  // nothing but what a run had written
        const auto which = std::find(after.begin(), after.end(), text) - after.begin();
        REQUIRE(static_cast<std::size_t>(which) >= said);
    });
    REQUIRE(after.size() == runs + 1);
}

#endif
