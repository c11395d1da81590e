/// Tables of levels, heights and corners from others, and heights line by line.

#include <cmath>

#include "fuzz/fuzzing.hpp"
#include "greens/elevation.hpp"
#include "greens/input_error.hpp"
#include "greens/survey_csv.hpp"

using namespace dewtrail;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size < 1 || size > 50'000) return 0;
    const auto path = fuzz::file("t.csv", fuzz::text_of(data + 1, size - 1));
    try {
        switch (data[0] & 3) {
            case 0:
                for (const LevelReading& level : read_levels_csv(path, 0.002, 0.9).readings)
                    fuzz::require(level.at.allFinite() && level.gradient.norm() < 0.3,
                                  "a level is in its range");
                break;
            case 1:
                for (const HeightReading& h : read_heights_csv(path, 0.003))
                    fuzz::require(h.at.allFinite() && std::isfinite(h.height_m),
                                  "a height is finite");
                break;
            case 2:
                fuzz::require(read_corners_csv(path).size() >= 3, "a polygon has three corners");
                break;
            default:
                for (const HeightReading& h : read_heights_xyz(path, 0.003))
                    fuzz::require(h.at.allFinite() && std::isfinite(h.height_m),
                                  "a height is finite");
        }
    } catch (const InputError& error) {
        fuzz::require(std::string(error.what()).find("t.csv") != std::string::npos,
                      "an error names its file");
    }
    return 0;
}
