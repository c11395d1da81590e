/// Keeps a journal of what a program does to the files of a folder, for tests that cut the power at
/// any point of it: loaded before the C library (LD_PRELOAD).
///
/// RECORD_BELOW: the folder. RECORD_IN: the journal, appended to; it lies outside the folder. An
/// entry is a line, 'what TAB offset TAB bytes TAB path TAB other path', and then so many bytes.
/// What: make, write, cut (to the offset), sync, rename (to the other path), remove.

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cstdarg>
#include <cstdlib>
#include <string>

#include "tests/faults/loaded.hpp"

using loaded::next;

namespace {

ssize_t plain_write(int file, const void* bytes, size_t count) {
    static const auto real = next<ssize_t (*)(int, const void*, size_t)>("write");
    return real(file, bytes, count);
}

int plain_open(const char* path, int flags, mode_t mode) {
    static const auto real = next<int (*)(const char*, int, ...)>("open64");
    return real(path, flags, mode);
}

std::string variable(const char* name) {
    const char* const value = std::getenv(name);
    return value ? value : "";
}

bool is_below(const std::string& path) {
    static const std::string below = variable("RECORD_BELOW");
    return loaded::lies_below(path.c_str(), below.c_str());
}

std::string path_of(int file) {
    return loaded::PathOf(file).path;
}

void record(const char* what, const std::string& path, off_t offset = 0,
            const void* bytes = nullptr, size_t count = 0, const std::string& other = "") {
    if (!is_below(path)) return;
    static const int journal =
        plain_open(variable("RECORD_IN").c_str(), O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
    const std::string line = std::string(what) + '\t' + std::to_string(offset) + '\t' +
                             std::to_string(count) + '\t' + path + '\t' + other + '\n';
    if (plain_write(journal, line.data(), line.size()) < 0 ||
        (count > 0 && plain_write(journal, bytes, count) < 0))
        std::abort();
}

bool is_there(const char* path) {
    struct stat found {};
    return lstat(path, &found) == 0;
}

}  // namespace

extern "C" {

ssize_t write(int file, const void* bytes, size_t count) {
    const off_t at = lseek(file, 0, SEEK_CUR);
    const ssize_t written = plain_write(file, bytes, count);
    if (at >= 0 && written > 0)
        record("write", path_of(file), at, bytes, static_cast<size_t>(written));
    return written;
}

ssize_t pwrite64(int file, const void* bytes, size_t count, off64_t at) {
    static const auto real = next<ssize_t (*)(int, const void*, size_t, off64_t)>("pwrite64");
    const ssize_t written = real(file, bytes, count, at);
    if (written > 0) record("write", path_of(file), at, bytes, static_cast<size_t>(written));
    return written;
}

int ftruncate64(int file, off64_t size) {
    static const auto real = next<int (*)(int, off64_t)>("ftruncate64");
    const int failed = real(file, size);
    if (!failed) record("cut", path_of(file), size);
    return failed;
}

int fsync(int file) {
    static const auto real = next<int (*)(int)>("fsync");
    const int failed = real(file);
    if (!failed) record("sync", path_of(file));
    return failed;
}

int fdatasync(int file) {
    static const auto real = next<int (*)(int)>("fdatasync");
    const int failed = real(file);
    if (!failed) record("sync", path_of(file));
    return failed;
}

int rename(const char* from, const char* to) {
    static const auto real = next<int (*)(const char*, const char*)>("rename");
    const int failed = real(from, to);
    if (!failed) record("rename", from, 0, nullptr, 0, to);
    return failed;
}

int unlink(const char* path) {
    static const auto real = next<int (*)(const char*)>("unlink");
    const int failed = real(path);
    if (!failed) record("remove", path);
    return failed;
}

int remove(const char* path) {
    static const auto real = next<int (*)(const char*)>("remove");
    const int failed = real(path);
    if (!failed) record("remove", path);
    return failed;
}

int mkostemp(char* name, int flags) {
    static const auto real = next<int (*)(char*, int)>("mkostemp");
    const int file = real(name, flags);
    if (file >= 0) record("make", name);
    return file;
}

int open64(const char* path, int flags, ...) {
    va_list more;
    va_start(more, flags);
    const mode_t mode = (flags & O_CREAT) != 0 ? va_arg(more, mode_t) : 0;
    va_end(more);
    const bool makes = (flags & O_CREAT) != 0 && is_below(path) && !is_there(path);
    const int file = plain_open(path, flags, mode);
    if (file < 0) return file;
    if (makes) record("make", path);
    if ((flags & O_TRUNC) != 0) record("cut", path);
    return file;
}

int open(const char* path, int flags, ...) __attribute__((alias("open64")));
}
