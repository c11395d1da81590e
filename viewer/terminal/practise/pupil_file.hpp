#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "viewer/practice/memory.hpp"
#include "viewer/practice/player.hpp"

namespace dewtrail {

/// All of one pupil, as it goes from one machine to another.
struct PupilRecord {
    std::string name;
    Player player;
    std::vector<Answer> answers;
    std::vector<LoggedPutt> putts;
    Measures measures;
};

/// One JSON text that holds the player file, answers, putts and measures as CSV. Reads back the
/// same; InputError with `file`, and the place in the part that is wrong, for anything else.
std::string write_pupil(const PupilRecord& pupil);
PupilRecord read_pupil(const std::string& file, std::string_view text);

}  // namespace dewtrail
