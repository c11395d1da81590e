#include <fmt/format.h>

#include "greens/green_writer.hpp"
#include "greens/input_error.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/survey/green_save.hpp"
#include "viewer/terminal/green/green_fit.hpp"

namespace dewtrail {
namespace {

namespace fs = std::filesystem;

/// The table as the green file will name it: in the same folder, or below.
std::string beside(const fs::path& table, const fs::path& green_file) {
    std::error_code unknown;
    const fs::path folder = fs::weakly_canonical(fs::absolute(green_file).parent_path(), unknown);
    const fs::path relative = fs::weakly_canonical(table, unknown).lexically_relative(folder);
    if (relative.empty() || *relative.begin() == "..")
        throw InputError(
            fmt::format("{} is not in the folder of {}", table.string(), green_file.string()),
            "write the green beside its tables");
    return relative.string();
}

/// Where heights from an elevation file are written: orchard.toml -> orchard-heights.csv.
fs::path heights_beside(const fs::path& green_file) {
    return green_file.parent_path() / (green_file.stem().string() + "-heights.csv");
}

/// The new green as its file will tell it, beside its tables.
GreenFileContent content_of(const NewGreen& green, const FitOptions& options) {
    GreenFileContent content{green.name, green.stimp_ft, green.corners, green.holes, green.balls};
    if (options.levels) content.levels = beside(*options.levels, *options.out);
    if (options.heights) content.heights = beside(*options.heights, *options.out);
    if (green.elevation) content.heights = heights_beside(*options.out).filename().string();
    content.spacing_m = green.spacing_m;
    content.level_sd = green.level_sd;
    content.height_sd_m = green.height_sd_m;
    content.pace_m = green.pace_m;
    return content;
}

}  // namespace

void check_out(const FitOptions& options) {
    if (!options.out) return;
    check_may_write(*options.out, options.force);
    if (options.elevation) check_may_write(heights_beside(*options.out), options.force);
}

void save_green(const NewGreen& green, const FitOptions& options) {
    if (green.elevation)
        save_whole_file(heights_beside(*options.out), heights_text(green.elevation->heights));
    write_green(*options.out, green_text(content_of(green, options)));
}

}  // namespace dewtrail
