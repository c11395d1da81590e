#include <fmt/format.h>

#include "greens/green_file.hpp"
#include "greens/input_error.hpp"
#include "viewer/practice/whole_file.hpp"
#include "viewer/terminal/green_fit.hpp"

namespace dewtrail {
namespace {

namespace fs = std::filesystem;

std::string quoted(const std::string& text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f)
            out += fmt::format("\\u{:04x}", static_cast<unsigned char>(c));
        else
            out += c;
    }
    return out + '"';
}

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

std::string heights_text(const Elevation& elevation) {
    std::string text = "x_m,y_m,z_m\n";
    for (const HeightReading& h : elevation.heights)
        text += fmt::format("{:.3f},{:.3f},{:.4f}\n", h.at.x(), h.at.y(), h.height_m);
    return text;
}

std::string surface_text(const NewGreen& green, const FitOptions& options) {
    std::string text = "[surface]\nkind = \"fitted\"\n";
    if (options.levels)
        text += fmt::format("levels = {}\n", quoted(beside(*options.levels, *options.out)));
    if (options.heights)
        text += fmt::format("heights = {}\n", quoted(beside(*options.heights, *options.out)));
    if (green.elevation)
        text +=
            fmt::format("heights = {}\n", quoted(heights_beside(*options.out).filename().string()));
    if (green.spacing_m) text += fmt::format("spacing_m = {}\n", *green.spacing_m);
    if (green.level_sd) text += fmt::format("level_sd_percent = {}\n", 100 * *green.level_sd);
    if (green.height_sd_m) text += fmt::format("height_sd_m = {}\n", *green.height_sd_m);
    return text;
}

std::string green_text(const NewGreen& green, const FitOptions& options) {
    std::string text = fmt::format("name = {}\nstimp = {}  # feet\noutline = [\n",
                                   quoted(green.name), green.stimp_ft);
    for (const Vec2& corner : green.corners)
        text += fmt::format("    [{}, {}],\n", corner.x(), corner.y());
    text += "]\n\n[holes]  # metres\n";
    for (const auto& [name, at] : green.holes)
        text += fmt::format("{} = [{}, {}]\n", quoted(name), at.x(), at.y());
    return text + "\n" + surface_text(green, options);
}

/// A file of that name in the same folder; gone at the end unless it was renamed.
struct Draft {
    fs::path path;
    ~Draft() {
        std::error_code ignored;
        fs::remove(path, ignored);
    }
};

}  // namespace

void check_out(const FitOptions& options) {
    if (!options.out) return;
    std::vector<fs::path> files{*options.out};
    if (options.elevation) files.push_back(heights_beside(*options.out));
    for (const fs::path& file : files) {
        check_may_be_file(file);
        std::error_code unknown;
        if (fs::exists(file, unknown) && !options.force)
            throw InputError(fmt::format("{} is there already", file.string()),
                             "choose another name, or replace it with --force");
    }
}

void save_green(const NewGreen& green, const FitOptions& options) {
    if (green.elevation)
        save_whole_file(heights_beside(*options.out), heights_text(*green.elevation));
    const Draft draft{*options.out + ".draft"};
    save_whole_file(draft.path, green_text(green, options));
    try {
        load_green(draft.path);
    } catch (const InputError& error) {
        throw InputError(fmt::format("{} was not written: {}", *options.out, error.problem()),
                         error.remedy());
    }
    std::error_code error;
    fs::rename(draft.path, *options.out, error);
    if (error)
        throw OutsideError(fmt::format("{} could not be saved: {}", *options.out, error.message()));
}

}  // namespace dewtrail
