#include "viewer/files/whole_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cctype>
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>

#include "greens/input_error.hpp"

namespace dewtrail {
namespace fs = std::filesystem;
namespace {

constexpr const char* beginning = ".dewtrail-";

[[noreturn]] void fail_outside(const fs::path& path, const std::string& reason) {
    throw OutsideError(fmt::format("{} could not be saved: {}", path.string(), reason));
}

bool has_name(int file) {
    struct stat now {};
    return fstat(file, &now) == 0 && now.st_nlink > 0;
}

/// Removes what killed runs have left: whoever still writes a file holds it.
void sweep(const fs::path& folder) {
    std::error_code unknown;
    for (const fs::directory_entry& entry : fs::directory_iterator(folder, unknown)) {
        const std::string name = entry.path().filename().string();
        if (!name.starts_with(beginning) ||
            entry.symlink_status(unknown).type() != fs::file_type::regular)
            continue;
        const int file = open(entry.path().c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW);
        if (file < 0) continue;
        if (flock(file, LOCK_EX | LOCK_NB) == 0) fs::remove(entry.path(), unknown);
        close(file);
    }
}

// The old file's rights; a new file gets the usual ones.
mode_t mode_for(const fs::path& target) {
    struct stat old {};
    if (stat(target.c_str(), &old) == 0) return old.st_mode & 07777;
    const mode_t masked = umask(0);
    umask(masked);
    return 0666 & ~masked;
}

// Makes the new name itself survive a power cut. Not every file system can; the file is whole
// anyway.
void settle_folder(const fs::path& folder) {
    const int opened = open(folder.c_str(), O_RDONLY | O_DIRECTORY);
    if (opened < 0) return;
    fsync(opened);
    close(opened);
}

}  // namespace

void make_folder_of(const fs::path& file) {
    std::error_code error;
    const fs::path folder = fs::absolute(file).parent_path();
    fs::create_directories(folder, error);
    if (error)
        throw OutsideError(
            fmt::format("folder {} could not be made: {}", folder.string(), error.message()));
}

void check_is_folder(const fs::path& folder) {
    std::error_code unknown;
    if (!folder.empty() && fs::status(folder, unknown).type() == fs::file_type::not_found)
        throw InputError(fmt::format("there is no folder {}", folder.string()),
                         "Make it first, or correct its name.");
}

void check_may_be_file(const fs::path& path) {
    check_is_folder(path.parent_path());
    std::error_code unknown;
    const auto status = fs::status(path, unknown);
    if (fs::exists(status) && !fs::is_regular_file(status))
        fail_outside(path, "it is there, and no file");
}

void check_ending(const fs::path& path, std::initializer_list<std::string_view> endings,
                  const std::string& what) {
    std::string ending = path.extension().string();
    for (char& c : ending) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    if (std::find(endings.begin(), endings.end(), ending) != endings.end()) return;
    throw InputError(fmt::format("{} is no name of {}", path.string(), what),
                     fmt::format("Let it end in {}.", fmt::join(endings, " or ")));
}

void check_may_write(const fs::path& path, bool replace) {
    check_may_be_file(path);
    std::error_code unknown;
    if (fs::exists(path, unknown) && !replace)
        throw InputError(fmt::format("{} is there already", path.string()),
                         "Choose another name, or replace it with --force.");
}

WholeFile::WholeFile(const fs::path& wanted) : named_(wanted) {
    std::error_code error;
    // Through links, to the file itself.
    target_ = fs::weakly_canonical(fs::absolute(wanted), error);
    if (error) fail(error.message());
    // A rename would put a file in the place of a device or a folder.
    check_may_be_file(target_);
    sweep(target_.parent_path());
    make_beside();
}

WholeFile::~WholeFile() {
    if (!beside_.empty()) unlink(beside_.c_str());
    if (file_ >= 0) close(file_);
}

void WholeFile::fail(const std::string& reason) const {
    fail_outside(named_, reason);
}

void WholeFile::make_beside() {
    do {
        if (file_ >= 0) close(file_);
        std::string name = (target_.parent_path() / beginning).string() + "XXXXXX";
        file_ = mkostemp(name.data(), O_CLOEXEC);
        if (file_ < 0) fail(std::strerror(errno));
        beside_ = name;
        flock(file_, LOCK_EX);
        // Between the two a sweep may have taken it for left over.
    } while (!has_name(file_));
}

void WholeFile::write(std::string_view text) {
    while (!text.empty()) {
        const ssize_t written = ::write(file_, text.data(), text.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) fail(std::strerror(errno));
        text.remove_prefix(static_cast<std::size_t>(written));
    }
}

void WholeFile::take_place() {
    if (fsync(file_) != 0 || fchmod(file_, mode_for(target_)) != 0 ||
        std::rename(beside_.c_str(), target_.c_str()) != 0)
        fail(std::strerror(errno));
    beside_.clear();
    settle_folder(target_.parent_path());
}

void save_whole_file(const fs::path& path, std::string_view text) {
    WholeFile file(path);
    file.write(text);
    file.take_place();
}

}  // namespace dewtrail
