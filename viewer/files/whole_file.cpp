#include "viewer/files/whole_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>

namespace dewtrail {
namespace fs = std::filesystem;
namespace {

[[noreturn]] void fail_outside(const fs::path& path, const std::string& reason) {
    throw OutsideError(fmt::format("{} could not be saved: {}", path.string(), reason));
}

/// A draft beside the file; removed unless it has taken the file's place.
class FileBeside {
  public:
    explicit FileBeside(const fs::path& wanted)
        : wanted_(wanted), name_(wanted.string() + ".XXXXXX"), file_(mkstemp(name_.data())) {
        if (file_ < 0) fail_outside(wanted_, std::strerror(errno));
    }
    FileBeside(const FileBeside&) = delete;
    FileBeside& operator=(const FileBeside&) = delete;
    ~FileBeside() {
        if (file_ >= 0) close(file_);
        if (!placed_) unlink(name_.c_str());
    }

    void write_all(std::string_view text) {
        while (!text.empty()) {
            const ssize_t written = write(file_, text.data(), text.size());
            if (written < 0 && errno == EINTR) continue;
            if (written < 0) fail_outside(wanted_, std::strerror(errno));
            text.remove_prefix(static_cast<std::size_t>(written));
        }
        if (fsync(file_) != 0) fail_outside(wanted_, std::strerror(errno));
    }

    void let_read(mode_t mode) {
        if (fchmod(file_, mode) != 0) fail_outside(wanted_, std::strerror(errno));
    }

    void take_its_place() {
        if (std::rename(name_.c_str(), wanted_.c_str()) != 0) {
            fail_outside(wanted_, std::strerror(errno));
        }
        placed_ = true;
    }

  private:
    fs::path wanted_;
    std::string name_;
    int file_;
    bool placed_ = false;
};

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

void check_may_be_file(const fs::path& path) {
    std::error_code unknown;
    const auto status = fs::status(path, unknown);
    if (fs::exists(status) && !fs::is_regular_file(status))
        fail_outside(path, "it is there, and no file");
}

void save_whole_file(const fs::path& path, std::string_view text) {
    std::error_code error;
    // Through links, to the file itself.
    const fs::path target = fs::weakly_canonical(fs::absolute(path), error);
    if (error) fail_outside(path, error.message());
    fs::create_directories(target.parent_path(), error);
    if (error) fail_outside(path, error.message());

    // A rename would put a file in the place of a device or a folder.
    check_may_be_file(target);

    FileBeside beside(target);
    beside.write_all(text);
    beside.let_read(mode_for(target));
    beside.take_its_place();
    settle_folder(target.parent_path());
}

}  // namespace dewtrail
