#pragma once

#include <dlfcn.h>
#include <unistd.h>

#include <climits>
#include <cstdio>
#include <cstring>

/// What is loaded before the C library stands in for some of its functions. Nothing here asks for
/// memory.
namespace loaded {

/// The function that it stands in for.
template <class Function>
Function next(const char* name) {
    return reinterpret_cast<Function>(dlsym(RTLD_NEXT, name));
}

/// Nothing lies below an empty folder's name.
inline bool lies_below(const char* path, const char* folder) {
    return path && folder && *folder && std::strncmp(path, folder, std::strlen(folder)) == 0;
}

/// The path of an open file; empty where it has none.
struct PathOf {
    explicit PathOf(int file) {
        char link[64];
        std::snprintf(link, sizeof link, "/proc/self/fd/%d", file);
        const ssize_t n = readlink(link, path, sizeof path - 1);
        path[n > 0 ? n : 0] = 0;
    }
    char path[PATH_MAX];
};

}  // namespace loaded
