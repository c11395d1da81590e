#include "viewer/paper/page_name.hpp"

#include <fmt/format.h>

#include <cmath>
#include <string_view>

#include "viewer/putt/clock.hpp"

namespace dewtrail {

std::string as_file_name(std::string words) {
    for (char& c : words) {
        const auto byte = static_cast<unsigned char>(c);
        if (byte <= ' ' || std::string_view("/\\:*?\"<>|").find(c) != std::string_view::npos)
            c = '-';
    }
    return words;
}

std::string putt_name(const Setup& setup, const Units& units) {
    if (setup.green) {
        std::string name = setup.green->name;
        for (const std::string& place : {setup.hole_name, setup.ball_name})
            if (!place.empty()) name += "-" + place;
        return name;
    }
    const double distance = units.metric ? setup.distance_m : setup.distance_m / metres_per_foot;
    std::string name =
        fmt::format("{:.4g}{}-{:.3g}pct", distance, units.metric ? "m" : "ft", 100 * setup.slope);
    if (const auto clock_h = clock_of(setup)) {
        const long minutes = std::lround(*clock_h * 60);
        name += fmt::format("-at-{}.{:02}", minutes / 60, minutes % 60);
    }
    return name;
}

}  // namespace dewtrail
