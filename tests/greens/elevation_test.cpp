/// Elevation files, made here by GDAL's own tools, and heights line by line. Where this build has
/// no GDAL only the refusal is tested.

#include "greens/elevation.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>
#include <fstream>

#include "greens/input_error.hpp"
#include "tests/support/putts.hpp"
#include "tests/support/random.hpp"
#include "tests/support/temporary_folder.hpp"

using Catch::WithinAbs;
using Catch::Matchers::Contains;

namespace dewtrail {
namespace {

namespace fs = std::filesystem;

constexpr double west = 512000, south = 5401000;  // somewhere in a UTM zone
constexpr int side = 60;                          // cells
constexpr double cell_m = 0.25;

/// An invented green: a tilt and a gentle swell.
double height_m(double x, double y) {
    return 300 + 0.02 * x - 0.01 * y + 0.06 * std::sin(x / 4) * std::cos(y / 5);
}

/// An ASCII grid by hand, the plainest of the formats.
std::string ascii_grid(double noise_m = 0, int empty = 0) {
    oracle::Random random(4);
    std::string text =
        "ncols 60\nnrows 60\nxllcorner 512000\nyllcorner 5401000\ncellsize 0.25\n"
        "NODATA_value -9999\n";
    for (int row = 0; row < side; ++row) {
        for (int column = 0; column < side; ++column) {
            const double x = (column + 0.5) * cell_m, y = (side - row - 0.5) * cell_m;
            const bool none = row < empty && column < empty;
            const double z = height_m(x, y) + noise_m * random.normal();
            char cell[32];
            std::snprintf(cell, sizeof cell, none ? "-9999 " : "%.5f ", z);
            text += cell;
        }
        text += '\n';
    }
    return text;
}

bool tool(const std::string& command) {
    return std::system((command + " > /dev/null 2>&1").c_str()) == 0;
}

struct Files {
    TemporaryFolder folder;
    std::string at(const char* name) const { return (folder.path() / name).string(); }
    std::string grid(double noise_m = 0, int empty = 0) const {
        folder.write("grid.asc", ascii_grid(noise_m, empty));
        return at("grid.asc");
    }
    std::string tiff(const std::string& options = "-a_srs EPSG:32632") const {
        REQUIRE(
            tool("gdal_translate -ot Float64 " + options + " " + grid() + " " + at("green.tif")));
        return at("green.tif");
    }
};

/// Aim of a putt on a surface fitted to the heights; ball and hole in metres from the corner.
double aim_m(const Elevation& elevation) {
    Survey survey;
    survey.heights = elevation.heights;
    const SurfaceFit fit = fit_survey(survey, {.spacing_m = 1.0});
    REQUIRE(fit.status == FitStatus::fitted);
    Putt putt;
    putt.surface = fit.surface;
    putt.resistance = oracle::resistance(10);
    putt.ball = {4, 4};
    putt.hole = {8, 6.5};
    putt.finish = Finish::past(0.3);
    const ReadResult result = read(putt, oracle::line_only());
    REQUIRE(result.lines.size() == 1);
    return *result.lines[0].aim_offset_m;
}

void refused(const fs::path& path, const ElevationCut& cut, const char* word) {
    INFO(path << ": " << word);
    try {
        read_elevation(path, cut);
        FAIL("was taken");
    } catch (const InputError& error) {
        CHECK_THAT(error.what(), Contains(word));
        CHECK(std::string(error.what()).find('\n') == std::string::npos);
    }
}

TEST_CASE("without GDAL an elevation file is refused in one line", "[elevation]") {
    if (can_read_elevation()) return;
    refused("green.tif", {}, "cannot read elevation files");
}

TEST_CASE("GeoTIFF and ASCII grid give the same read", "[elevation]") {
    if (!can_read_elevation()) return;
    const Files files;
    const std::string tiff = files.tiff();
    const Elevation from_tiff = read_elevation(tiff), from_grid = read_elevation(files.grid());
    CHECK_THAT(from_tiff.cell_m, WithinAbs(cell_m, 1e-9));
    CHECK(from_tiff.heights.size() == 900);  // 60 x 60 cells averaged two by two
    CHECK(from_tiff.notes.empty());
    CHECK(from_grid.notes.size() == 1);  // names no coordinate system
    CHECK_THAT(aim_m(from_tiff), WithinAbs(aim_m(from_grid), 1e-3));
    // Heights are those of the ground, above the lowest.
    double lowest = HUGE_VAL;
    for (const HeightReading& h : from_tiff.heights) lowest = std::min(lowest, h.height_m);
    CHECK(lowest == 0);
    const HeightReading &a = from_tiff.heights.front(), &b = from_tiff.heights.back();
    CHECK_THAT(b.height_m - a.height_m,
               WithinAbs(height_m(b.at.x(), b.at.y()) - height_m(a.at.x(), a.at.y()), 2e-3));
}

TEST_CASE("longitude and latitude are laid flat", "[elevation]") {
    if (!can_read_elevation()) return;
    const Files files;
    const std::string tiff = files.tiff();
    // Resampled by GDAL on to degrees: another grid, the same ground.
    REQUIRE(tool("gdalwarp -t_srs EPSG:4326 -r cubic -dstnodata -9999 " + tiff + " " +
                 files.at("degrees.tif")));
    const Elevation degrees = read_elevation(files.at("degrees.tif"));
    CHECK(degrees.notes.size() == 1);
    CHECK_THAT(degrees.cell_m, WithinAbs(cell_m, 0.1));
    Vec2 most(0, 0);
    for (const HeightReading& h : degrees.heights) most = most.cwiseMax(h.at);
    CHECK_THAT(most.x(), WithinAbs(side * cell_m, 0.7));
    CHECK_THAT(most.y(), WithinAbs(side * cell_m, 0.7));
}

TEST_CASE("a window, a polygon and NoData leave cells out", "[elevation]") {
    if (!can_read_elevation()) return;
    const Files files;
    ElevationCut cut;
    cut.window = ElevationCut::Window{{west + 2, south + 3}, {west + 7, south + 9}};
    const Elevation window = read_elevation(files.tiff(), cut);
    CHECK(window.heights.size() == 10 * 12);
    cut = {};
    cut.polygon = {{west, south}, {west + 10, south}, {west, south + 10}};
    const Elevation triangle = read_elevation(files.tiff(), cut);
    CHECK(triangle.outline.size() == 3);
    for (const HeightReading& h : triangle.heights) CHECK(h.at.x() + h.at.y() < 10.3);
    const Elevation holes = read_elevation(files.grid(0, 20));
    CHECK(holes.empty == 400);
    CHECK(holes.heights.size() == 800);
}

TEST_CASE("the noise of a grid is found, and averaging lowers it", "[elevation]") {
    if (!can_read_elevation()) return;
    const Files files;
    const Elevation quiet = read_elevation(files.grid()), noisy = read_elevation(files.grid(0.01));
    CHECK(quiet.noise_m < 1e-4);
    // 3,300 differences: known to about 3 %.
    CHECK_THAT(noisy.noise_m, WithinAbs(0.01, 0.001));
    CHECK_THAT(noisy.heights.front().sd_m, WithinAbs(noisy.noise_m / 2, 1e-6));
}

TEST_CASE("feet are understood", "[elevation]") {
    if (!can_read_elevation()) return;
    const Files files;
    // US survey feet, California zone 5: the same numbers are now feet.
    const Elevation feet = read_elevation(files.tiff("-a_srs EPSG:2229"));
    CHECK_THAT(feet.cell_m, WithinAbs(cell_m * 1200 / 3937, 1e-9));
}

TEST_CASE("elevation files that are no use are refused in one clear line", "[elevation]") {
    if (!can_read_elevation()) return;
    const Files files;
    refused(files.at("none.tif"), {}, "no such file");
    files.folder.write("text.tif", "this is not a picture\n");
    refused(files.at("text.tif"), {}, "no elevation file");
    files.folder.write("empty.tif", "");
    refused(files.at("empty.tif"), {}, "no elevation file");
    const std::string whole = files.tiff();
    fs::resize_file(whole, fs::file_size(whole) / 2);
    refused(whole, {}, "read to its end");
    const std::string again = files.tiff();
    ElevationCut cut;
    cut.window = ElevationCut::Window{{0, 0}, {10, 10}};
    refused(again, cut, "no cell inside the window");
    cut = {};
    cut.spacing_m = 0.1;
    refused(again, cut, "more than the spacing");
    cut = {};
    cut.polygon = {{0, 0}, {1, 0}, {0, 1}};
    refused(again, cut, "no heights");
    // Degrees that are really metres: cells of 28 km.
    refused(files.tiff("-a_srs EPSG:4326"), {}, "has cells of");
    // A header that promises more than anybody has memory for.
    files.folder.write("huge.asc",
                       "ncols 2000000\nnrows 2000000\nxllcorner 0\nyllcorner 0\ncellsize 0.25\n"
                       "NODATA_value -9999\n1 2 3\n");
    refused(files.at("huge.asc"), {}, "4,000,000");
    // Every cell empty.
    refused(files.grid(0, side), {}, "no heights");
}

TEST_CASE("a file that only names another is not followed", "[elevation]") {
    if (!can_read_elevation()) return;
    const Files files;
    const std::string grid = files.grid(), virtual_file = files.at("other.vrt");
    if (!tool("gdalbuildvrt " + virtual_file + " " + grid)) return;
    CHECK_THROWS_AS(read_elevation(virtual_file), InputError);
    CHECK_NOTHROW(read_elevation(grid));
}

TEST_CASE("heights line by line lose the offset of their projection", "[elevation]") {
    const TemporaryFolder folder;
    folder.write("a.xyz",
                 "# east north up\n512000.5 5401000.25 301.5\r\n512002.5,5401001.25,301\n\n"
                 "512001.0\t5401003.25\t301.25\n");
    const auto heights = read_heights_xyz(folder.path() / "a.xyz", 0.004);
    REQUIRE(heights.size() == 3);
    CHECK(heights[0].at == Vec2(0, 0));
    CHECK(heights[1].at == Vec2(2, 1));
    CHECK_THAT(heights[0].height_m, WithinAbs(0.5, 1e-12));
    CHECK(heights[2].height_m == 0.25);
    CHECK(heights[2].sd_m == 0.004);
    for (const char* bad : {"1 2\n", "1 2 3 4\n", "1 2 z\n", "", "1 2 nan\n", "1 2 1e12\n"}) {
        INFO(bad);
        folder.write("bad.xyz", bad);
        CHECK_THROWS_AS(read_heights_xyz(folder.path() / "bad.xyz", 0.004), InputError);
    }
    folder.write("bad.xyz", "1 2 3\n4 5 six\n");
    try {
        read_heights_xyz(folder.path() / "bad.xyz", 0.004);
        FAIL("was taken");
    } catch (const InputError& error) {
        CHECK(error.line() == 2);
        CHECK(error.column() == 5);
    }
}

}  // namespace
}  // namespace dewtrail
