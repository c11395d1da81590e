#include "viewer/practice/measure/home_drill.hpp"

#include "viewer/practice/measure/measure_words.hpp"

namespace dewtrail {

std::optional<HomeDrill> home_drill(const Measured& found, Fault dearer, const Units& units) {
    const std::string pace = found.pace ? drill_words(*found.pace, units) : "";
    const std::string line =
        found.line && is_told(found.line->bias_deg) ? drill_words(*found.line, units) : "";
    if (pace.empty() && line.empty()) return std::nullopt;
    const bool is_pace = line.empty() || (!pace.empty() && dearer == Fault::pace);
    return HomeDrill{is_pace ? Fault::pace : Fault::aim, "At home: " + (is_pace ? pace : line)};
}

}  // namespace dewtrail
