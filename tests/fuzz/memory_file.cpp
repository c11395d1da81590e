/// A file that is opened as the memory: it is used, or refused and left as it was; what a row says
/// that cannot be understood is told.

#include <fstream>
#include <iterator>
#include <optional>

#include "fuzz/fuzzing.hpp"
#include "greens/input_error.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/practice/memory.hpp"

using namespace dewtrail;

namespace {

std::string content(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size > 100'000) return 0;
    std::filesystem::remove(fuzz::folder() / "memory.sqlite-wal");
    std::filesystem::remove(fuzz::folder() / "memory.sqlite-shm");
    const std::string_view bytes = fuzz::text_of(data, size);
    const auto path = fuzz::file("memory.sqlite", bytes);
    std::optional<Memory> memory;
    try {
        memory.emplace(fuzz::folder());
    } catch (const InputError&) {
        fuzz::require(content(path) == bytes, "a file that is refused is left as it was");
        return 0;
    } catch (const OutsideError&) {
        return 0;
    }
    // It is one of ours and whole; a row may still be none.
    try {
        memory->answers();
        memory->putts();
    } catch (const InputError& error) {
        fuzz::require_message(error.what());
    } catch (const OutsideError&) {
    }
    return 0;
}
