#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <unistd.h>

#include "greens/input_error.hpp"
#include "greens/text_file.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/practice/coach/kept_lessons.hpp"
#include "viewer/practice/memory.hpp"
#include "viewer/practice/pupils.hpp"

/// Nobody's putts become a pupil's. A folder is made ready beside the others with copies of what is
/// small; then it is written down whose it will be, and from there on the way only leads forward:
/// the memory and the lessons move in, the folder gets the pupil's name, what was copied goes.
/// Every step may have been done before.
namespace dewtrail {
namespace fs = std::filesystem;
namespace {

constexpr const char *ready = ".adopted", *whose = ".adopted-by";
constexpr std::uintmax_t most_memory_bytes = 4u << 20;

/// One at a time: whoever else is at it waits.
class FolderLock {
  public:
    explicit FolderLock(const fs::path& folder)
        : opened_(open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC)) {
        if (opened_ >= 0) flock(opened_, LOCK_EX);
    }
    FolderLock(const FolderLock&) = delete;
    FolderLock& operator=(const FolderLock&) = delete;
    ~FolderLock() {
        if (opened_ >= 0) close(opened_);
    }

  private:
    int opened_;
};

bool is_there(const fs::path& path) {
    std::error_code unknown;
    return fs::exists(path, unknown);
}

void copy(const std::optional<fs::path>& from, const fs::path& to) {
    if (from && is_there(*from)) save_whole_file(to, read_text_file(*from, most_memory_bytes));
}

/// The memory looks after itself where it is whole; killed half way, only its log may be left.
void move_memory(const fs::path& from, const fs::path& to) {
    const fs::path file = from / Memory::file_name;
    if (is_there(file) && !is_there(to / Memory::file_name)) return Memory(from).move_to(to);
    if (!is_there(file)) move_memory_file(file, to / Memory::file_name);
}

void move_lessons(const fs::path& from, const fs::path& to) {
    std::error_code stays;
    if (is_there(lessons_folder(from)) && !is_there(lessons_folder(to)))
        fs::rename(lessons_folder(from), lessons_folder(to), stays);
}

void name_folder(const fs::path& from, const fs::path& to) {
    std::error_code failed;
    fs::rename(from, to, failed);
    if (failed)
        throw OutsideError(fmt::format("{} could not be made: {}", to.string(), failed.message()));
}

/// Whatever is not known here stays, and then the folder does.
void forget_folder(const fs::path& folder) {
    std::error_code stays;
    for (const char* name : {Pupils::player_name, Pupils::last_putt_name})
        fs::remove(folder / name, stays);
    fs::remove(folder, stays);
}

}  // namespace

void Pupils::adopt(const std::string& name, const OwnFiles& own, const Player& otherwise) const {
    check_free(name);
    const fs::path folder = folder_ / ready;
    make_folder_of(folder / player_name);
    const FolderLock alone(folder_);
    forget_folder(folder);  // of one that was killed before anything was moved
    make_folder_of(folder / player_name);
    copy(own.player, folder / player_name);
    copy(own.last_putt, folder / last_putt_name);
    if (!is_there(folder / player_name)) save_player(folder / player_name, otherwise);
    save_whole_file(folder_ / whose, name);
    carry_over(name, own);
}

void Pupils::finish_adopting(const OwnFiles& own) const {
    if (!is_there(folder_ / whose)) return;
    const FolderLock alone(folder_);
    if (is_there(folder_ / whose))
        carry_over(read_text_file(folder_ / whose, most_memory_bytes), own);
}

void Pupils::carry_over(const std::string& name, const OwnFiles& own) const {
    const fs::path folder = folder_ / ready;
    std::error_code stays;
    if (!is_there(place(name))) try {
            move_memory(own.memory_folder, folder);
            move_lessons(own.memory_folder, folder);
            name_folder(folder, place(name));
        } catch (...) {
            move_memory_file(folder / Memory::file_name, own.memory_folder / Memory::file_name);
            move_lessons(folder, own.memory_folder);
            fs::remove(folder_ / whose, stays);
            forget_folder(folder);
            throw;
        }
    // They have copies of these.
    for (const std::optional<fs::path>& file : {own.player, own.last_putt})
        if (file) fs::remove(*file, stays);
    fs::remove(folder_ / whose, stays);
}

}  // namespace dewtrail
