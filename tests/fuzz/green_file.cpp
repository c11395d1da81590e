/// Green files from others: a green whose parts agree, or one line that names the place.

#include <cmath>

#include "fuzz/fuzzing.hpp"
#include "greens/green_file.hpp"
#include "greens/input_error.hpp"

using namespace dewtrail;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size > 20'000) return 0;
    static const bool tables = [] {
        fuzz::file("l.csv",
                   "x_m,y_m,slope_percent,falls_toward_deg\n0,0,2,90\n9,0,1,80\n4,8,2,95\n");
        fuzz::file("h.csv", "x_m,y_m,z_m\n0,0,0\n9,0,0.1\n4,8,0.2\n5,5,0.1\n");
        return true;
    }();
    (void)tables;
    const auto path = fuzz::file("g.toml", fuzz::text_of(data, size));
    try {
        const Green green = load_green(path);
        fuzz::require(!green.holes.empty(), "a green has a hole");
        for (const auto& [name, at] : green.holes) {
            const double slope = green.surface->at(at.x(), at.y()).gradient().norm();
            fuzz::require(std::isfinite(slope) && slope < 0.3, "a green can be putted on");
            fuzz::require(green.outline.inside_by(at) > 0, "a hole lies on the green");
        }
    } catch (const InputError& error) {
        fuzz::require(std::string(error.what()).find("g.toml") != std::string::npos ||
                          std::string(error.what()).find(".csv") != std::string::npos,
                      "an error names its file");
    }
    return 0;
}
