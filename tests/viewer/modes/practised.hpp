#pragma once

#include "tests/support/temporary_folder.hpp"
#include "viewer/modes/faults.hpp"
#include "viewer/modes/practise/practise_mode.hpp"

namespace dewtrail {

inline PractiseStart practise_start_in(const std::filesystem::path& folder,
                                       Drill drill = Drill::read) {
    PractiseStart start;
    start.memory_folder = folder;
    start.green_folders = {std::filesystem::path(DEWTRAIL_SOURCE_DIR) / "greens"};
    start.plan.drill = drill;
    start.plan.seed = 7;
    start.plan.date = "2026-05-01";
    return start;
}

/// The mode in a memory of its own.
struct Remembering {
    std::vector<Answer> remembered() const { return Memory(folder.path()).answers(); }
    TemporaryFolder folder;
};
struct Practised : Remembering, DrawnMode<PractiseMode> {
    explicit Practised(Drill drill = Drill::read)
        : DrawnMode(quiet_look(), practise_start_in(folder.path(), drill)) {}
};

}  // namespace dewtrail
