/// A machine that fails at a chosen moment, for the program's tests: loaded before the C library
/// (LD_PRELOAD), it lets the n-th call of one kind, counted from the start of main, fail.
///
/// FAIL_CALL: alloc, write, short, sync, rename, open or remove. FAIL_AT: n, from 1; that call and
/// all later ones fail, as memory and disks do when they are full ('alloc': that one alone, if
/// FAIL_ONCE is set). FAIL_KILL: the program is killed at that call instead. FAIL_COUNT: a file to
/// write the number of calls to at the end. Files outside the folder FAIL_BELOW are left alone.
/// FAIL_NOW: what the clock shows, seconds since 1970.

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <climits>
#include <csignal>
#include <cstdarg>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <ctime>

#include "tests/faults/loaded.hpp"

extern "C" {
void* __libc_malloc(size_t size);
void* __libc_calloc(size_t count, size_t size);
void* __libc_realloc(void* old, size_t size);
}

using loaded::next;

namespace {

enum class Call { none, alloc, write, short_write, sync, rename, open, remove };

std::atomic<bool> in_main{false};
std::atomic<long> calls{0};
Call chosen = Call::none;
long fails_at = LONG_MAX;
bool once = false, kills = false;
const char* below = "";

Call call_named(const char* name) {
    constexpr const char* names[] = {"none", "alloc",  "write", "short",
                                     "sync", "rename", "open",  "remove"};
    for (int i = 1; name && i < 8; ++i)
        if (std::strcmp(name, names[i]) == 0) return static_cast<Call>(i);
    return Call::none;
}

/// Counts a call; whether it shall fail.
bool fails(Call call) {
    if (!in_main.load(std::memory_order_relaxed) || call != chosen) return false;
    const long n = ++calls;
    if (kills && n == fails_at) raise(SIGKILL);
    return once ? n == fails_at : n >= fails_at;
}

bool is_below(const char* path) {
    return loaded::lies_below(path, below);
}

bool is_below(int file) {
    return is_below(loaded::PathOf(file).path);
}

int full() {
    errno = ENOSPC;
    return -1;
}

int (*real_main)(int, char**, char**) = nullptr;

int main_with_faults(int argc, char** argv, char** environment) {
    chosen = call_named(std::getenv("FAIL_CALL"));
    if (const char* at = std::getenv("FAIL_AT")) fails_at = std::atol(at);
    once = std::getenv("FAIL_ONCE") != nullptr;
    kills = std::getenv("FAIL_KILL") != nullptr;
    if (const char* folder = std::getenv("FAIL_BELOW")) below = folder;
    in_main = true;
    const int code = real_main(argc, argv, environment);
    in_main = false;
    if (const char* name = std::getenv("FAIL_COUNT"))
        if (FILE* file = std::fopen(name, "w")) {
            std::fprintf(file, "%ld\n", calls.load());
            std::fclose(file);
        }
    return code;
}

}  // namespace

extern "C" {

int __libc_start_main(int (*main)(int, char**, char**), int argc, char** argv, void (*init)(),
                      void (*fini)(), void (*rtld_fini)(), void* stack_end) {
    real_main = main;
    const auto start = next<decltype(&__libc_start_main)>("__libc_start_main");
    return start(main_with_faults, argc, argv, init, fini, rtld_fini, stack_end);
}

void* malloc(size_t size) {
    if (fails(Call::alloc)) return errno = ENOMEM, nullptr;
    return __libc_malloc(size);
}

void* calloc(size_t count, size_t size) {
    if (fails(Call::alloc)) return errno = ENOMEM, nullptr;
    return __libc_calloc(count, size);
}

void* realloc(void* old, size_t size) {
    if (fails(Call::alloc)) return errno = ENOMEM, nullptr;
    return __libc_realloc(old, size);
}

ssize_t write(int file, const void* bytes, size_t count) {
    static const auto real = next<ssize_t (*)(int, const void*, size_t)>("write");
    if (chosen == Call::short_write && count > 1 && is_below(file) && fails(Call::short_write))
        return calls.load() == fails_at ? real(file, bytes, count / 2) : full();
    if (chosen == Call::write && is_below(file) && fails(Call::write)) return full();
    return real(file, bytes, count);
}

ssize_t pwrite64(int file, const void* bytes, size_t count, off64_t at) {
    static const auto real = next<ssize_t (*)(int, const void*, size_t, off64_t)>("pwrite64");
    if (chosen == Call::short_write && count > 1 && is_below(file) && fails(Call::short_write))
        return calls.load() == fails_at ? real(file, bytes, count / 2, at) : full();
    if (chosen == Call::write && is_below(file) && fails(Call::write)) return full();
    return real(file, bytes, count, at);
}

int fsync(int file) {
    static const auto real = next<int (*)(int)>("fsync");
    if (chosen == Call::sync && is_below(file) && fails(Call::sync)) return errno = EIO, -1;
    return real(file);
}

int fdatasync(int file) {
    static const auto real = next<int (*)(int)>("fdatasync");
    if (chosen == Call::sync && is_below(file) && fails(Call::sync)) return errno = EIO, -1;
    return real(file);
}

int rename(const char* from, const char* to) {
    static const auto real = next<int (*)(const char*, const char*)>("rename");
    if (chosen == Call::rename && is_below(to) && fails(Call::rename)) return errno = EIO, -1;
    return real(from, to);
}

int remove(const char* path) {
    static const auto real = next<int (*)(const char*)>("remove");
    if (chosen == Call::remove && is_below(path) && fails(Call::remove)) return errno = EIO, -1;
    return real(path);
}

int unlink(const char* path) {
    static const auto real = next<int (*)(const char*)>("unlink");
    if (chosen == Call::remove && is_below(path) && fails(Call::remove)) return errno = EIO, -1;
    return real(path);
}

int mkostemp(char* name, int flags) {
    static const auto real = next<int (*)(char*, int)>("mkostemp");
    if (chosen == Call::open && is_below(name) && fails(Call::open)) return full();
    return real(name, flags);
}

int open64(const char* path, int flags, ...) {
    static const auto real = next<int (*)(const char*, int, ...)>("open64");
    va_list more;
    va_start(more, flags);
    const mode_t mode = (flags & O_CREAT) != 0 ? va_arg(more, mode_t) : 0;
    va_end(more);
    if (chosen == Call::open && is_below(path) && fails(Call::open)) return errno = EMFILE, -1;
    return real(path, flags, mode);
}

int open(const char* path, int flags, ...) __attribute__((alias("open64")));

time_t time(time_t* out) {
    static const char* const now = std::getenv("FAIL_NOW");
    static const auto real = next<time_t (*)(time_t*)>("time");
    const time_t t = now ? std::atol(now) : real(nullptr);
    if (out) *out = t;
    return t;
}
}
