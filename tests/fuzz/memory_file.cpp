/// A file that is opened as the memory: it is used, or refused and left as it was.

#include <fstream>
#include <iterator>

#include "fuzz/fuzzing.hpp"
#include "greens/input_error.hpp"
#include "viewer/practice/memory.hpp"
#include "viewer/practice/whole_file.hpp"

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
    try {
        Memory memory(fuzz::folder());
        memory.answers();
        memory.putts();
    } catch (const InputError&) {
        fuzz::require(content(path) == bytes, "a file that is refused is left as it was");
    } catch (const OutsideError&) {
    }
    return 0;
}
