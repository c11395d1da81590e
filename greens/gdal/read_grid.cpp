/// The only file that knows GDAL: one grid out of one file.

#include <cpl_error.h>
#include <gdal.h>
#include <ogr_srs_api.h>

#include <cmath>
#include <limits>
#include <memory>

#include "greens/gdal/raw_grid.hpp"

namespace dewtrail {
namespace {

constexpr double metres_per_foot = 0.3048;

/// Formats that hold their cells themselves. Others name further files, or addresses to fetch, and
/// a file from somebody else shall not choose what is read.
constexpr const char* formats[] = {"GTiff", "AAIGrid", "GRASSASCIIGrid", "GSAG", "GSBG",
                                   "GS7BG", "USGSDEM", "SRTMHGT",        nullptr};

struct Close {
    void operator()(void* dataset) const { GDALClose(dataset); }
};

struct Quiet {
    Quiet() { CPLPushErrorHandler(CPLQuietErrorHandler); }
    ~Quiet() { CPLPopErrorHandler(); }
};

std::string last_message() {
    std::string text = CPLGetLastErrorMsg();
    for (char& c : text)
        if (static_cast<unsigned char>(c) < 0x20) c = ' ';
    return text.substr(0, 200);
}

void fail(RawGrid& grid, const std::string& problem, const std::string& remedy) {
    grid.problem = problem;
    grid.remedy = remedy;
}

struct Cells {
    int column = 0, row = 0, columns = 0, rows = 0;
};

/// Columns or rows whose middle lies between two places, counted from `from` in steps of `size`.
void cells_between(double from, double size, int count, double a, double b, int& first, int& many) {
    const auto index = [&](double place) {
        return std::min(std::max(std::ceil((place - from) / size - 0.5), 0.0), double(count));
    };
    first = static_cast<int>(index(a));
    many = static_cast<int>(index(b)) - first;
}

void tell_units(GDALDatasetH dataset, GDALRasterBandH band, RawGrid& grid) {
    if (OGRSpatialReferenceH system = GDALGetSpatialRef(dataset)) {
        grid.known_unit = true;
        grid.geographic = OSRIsGeographic(system) != 0;
        if (!grid.geographic) grid.unit_m = OSRGetLinearUnits(system, nullptr);
    }
    const std::string unit = GDALGetRasterUnitType(band);
    if (unit == "ft" || unit == "foot" || unit == "feet") grid.height_unit_m = metres_per_foot;
    if (unit == "US survey foot" || unit == "ftUS") grid.height_unit_m = 1200.0 / 3937.0;
}

void read_cells(GDALRasterBandH band, const Cells& cells, RawGrid& grid) {
    grid.columns = cells.columns;
    grid.rows = cells.rows;
    grid.heights.resize(static_cast<std::size_t>(cells.columns) * cells.rows);
    if (GDALRasterIO(band, GF_Read, cells.column, cells.row, cells.columns, cells.rows,
                     grid.heights.data(), cells.columns, cells.rows, GDT_Float64, 0, 0) != CE_None)
        return fail(grid, "could not be read to its end: " + last_message(),
                    "the file is cut off or damaged; fetch it again");
    int has = 0;
    const double empty = GDALGetRasterNoDataValue(band, &has);
    const double scale = GDALGetRasterScale(band, nullptr),
                 offset = GDALGetRasterOffset(band, nullptr);
    for (double& z : grid.heights) {
        const bool none = !std::isfinite(z) || (has && z == empty) || std::abs(z) > 1e6;
        z = none ? std::numeric_limits<double>::quiet_NaN() : z * scale + offset;
    }
}

void read_grid(const GridQuestion& question, RawGrid& grid) {
    const Quiet quiet;
    GDALAllRegister();
    const std::unique_ptr<void, Close> dataset(GDALOpenEx(
        question.path.c_str(), GDAL_OF_RASTER | GDAL_OF_READONLY, formats, nullptr, nullptr));
    if (!dataset) return fail(grid, "is no elevation file that can be read: " + last_message(), "");
    double g[6];
    if (GDALGetGeoTransform(dataset.get(), g) != CE_None)
        return fail(grid, "says nothing about where its cells lie",
                    "give it a place and a cell size first (a georeferenced GeoTIFF)");
    if (g[2] != 0 || g[4] != 0 || !(g[1] > 0) || !(g[5] < 0))
        return fail(grid, "is turned against north", "bring it north up first");
    const GDALRasterBandH band = GDALGetRasterBand(dataset.get(), 1);
    if (!band) return fail(grid, "holds no heights", "");
    const int columns = GDALGetRasterXSize(dataset.get()), rows = GDALGetRasterYSize(dataset.get());
    Cells cells{0, 0, columns, rows};
    if (question.windowed) {
        cells_between(g[0], g[1], columns, question.least_x, question.most_x, cells.column,
                      cells.columns);
        cells_between(g[3], g[5], rows, question.most_y, question.least_y, cells.row, cells.rows);
        if (cells.columns <= 0 || cells.rows <= 0)
            return fail(grid, "has no cell inside the window",
                        "give the window in the file's own coordinates");
    }
    if (static_cast<long long>(cells.columns) * cells.rows > question.most_cells)
        return fail(grid, "holds more than 4,000,000 cells",
                    "cut a piece out with --window x,y,x,y in its coordinates");
    grid.width = g[1];
    grid.height = -g[5];
    grid.west = g[0] + cells.column * g[1];
    grid.north = g[3] + cells.row * g[5];
    tell_units(dataset.get(), band, grid);
    read_cells(band, cells, grid);
}

}  // namespace
}  // namespace dewtrail

extern "C" void dewtrail_read_grid(const dewtrail::GridQuestion& question,
                                   dewtrail::RawGrid& grid) {
    dewtrail::read_grid(question, grid);
}
