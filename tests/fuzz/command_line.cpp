/// Command lines, a word a line: they end with an exit code of the four, and no JSON holds NaN.

#include <cstdlib>
#include <sstream>
#include <vector>

#include "fuzz/fuzzing.hpp"
#include "viewer/terminal/session.hpp"

using namespace dewtrail;

namespace {

/// Everything that is remembered or written stays in a folder of its own.
void settle_in() {
    static const bool done = [] {
        for (const char* name : {"HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME"})
            setenv(name, fuzz::folder().c_str(), 1);
        std::filesystem::current_path(fuzz::folder());
        return true;
    }();
    (void)done;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size > 400) return 0;
    settle_in();
    std::vector<std::string> words;
    std::istringstream lines{std::string(fuzz::text_of(data, size))};
    for (std::string line; std::getline(lines, line);) {
        if (line.find('/') != line.npos && line.find("mm/") == line.npos)
            return 0;                                              // no other folders
        if (line == "--animate" || line == "--threads") return 0;  // starts another program
        if (line == "--serve") return 0;                           // goes on until Ctrl C
        words.push_back(line);
    }
    std::ostringstream out, err;
    std::istringstream in;
    const Exit exit = run_dewtrail(words, out, err, {}, {}, in);
    const int code = static_cast<int>(exit);
    fuzz::require(code >= 0 && code <= 3, "the exit code is one of four");
    if (exit == Exit::not_understood)
        fuzz::require(!out.str().empty() || !err.str().empty(), "what is wrong is said");
    if (exit == Exit::not_understood) return 0;  // it repeats what was typed
    for (const char* bad : {" nan", ": inf", "-nan", "NaN"})
        fuzz::require(out.str().find(bad) == std::string::npos, "nothing prints NaN");
    return 0;
}
