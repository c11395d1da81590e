#include "fuzz/fuzzing.hpp"

#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>

namespace dewtrail::fuzz {
namespace {

namespace fs = std::filesystem;

struct Folder {
    Folder() {
        std::error_code unknown;
        const fs::path memory = "/dev/shm";
        path = fs::is_directory(memory, unknown) ? memory : fs::temp_directory_path();
        path /= "dewtrail-fuzz-" + std::to_string(getpid());
        fs::create_directories(path);
    }
    ~Folder() {
        std::error_code ignored;
        fs::remove_all(path, ignored);
    }
    fs::path path;
};

}  // namespace

void require(bool kept, const char* promise) {
    if (kept) return;
    std::fprintf(stderr, "broken promise: %s\n", promise);
    std::abort();
}

const fs::path& folder() {
    static const Folder made;
    return made.path;
}

fs::path file(const std::string& name, std::string_view bytes) {
    const fs::path path = folder() / name;
    std::ofstream(path, std::ios::binary) << bytes;
    return path;
}

void require_message(const std::string& message) {
    require(!message.empty() && message.size() < 1000, "a message is not empty and not long");
    for (const char c : message)
        require(static_cast<unsigned char>(c) >= 0x20, "a message is one line that can be printed");
}

}  // namespace dewtrail::fuzz
