#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace dewtrail {

/// What a read says of a putt given as it is typed (distance, slope, clock, stimp, distance past;
/// or green, ball as x,y, hole, stimp, distance past), a figure of the account a line:
/// 'start.angle_deg 1.25'. To compare one build with another.
std::string figures_of_read(const std::vector<std::string>& words,
                            const std::filesystem::path& greens);

}  // namespace dewtrail
