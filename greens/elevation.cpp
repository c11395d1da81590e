#include "greens/elevation.hpp"

#include <dlfcn.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "greens/csv.hpp"
#include "greens/gdal/raw_grid.hpp"
#include "greens/input_error.hpp"
#include "greens/text_file.hpp"
#include "physics/surface/outline.hpp"

namespace dewtrail {
namespace {

namespace fs = std::filesystem;

constexpr long long most_cells = 4'000'000;
constexpr double most_heights = 10'000;
constexpr double usual_spacing_m = 0.5;
constexpr double least_noise_m = 1e-3;  ///< nobody's grid is better
constexpr double most_extent_m = 200;   ///< of a green, either way

/// Where the part that holds GDAL may lie: beside the program, or where it was installed.
std::vector<fs::path> parts() {
    std::error_code unknown;
    const fs::path program = fs::read_symlink("/proc/self/exe", unknown);
    const fs::path folder = program.parent_path();
    return {folder / "libdewtrail_gdal.so", folder / "../lib/dewtrail/libdewtrail_gdal.so"};
}

ReadGrid* reader() {
    static ReadGrid* const found = [] {
        for (const fs::path& part : parts())
            if (void* library = dlopen(part.c_str(), RTLD_NOW | RTLD_LOCAL))
                return reinterpret_cast<ReadGrid*>(dlsym(library, read_grid_name));
        return static_cast<ReadGrid*>(nullptr);
    }();
    return found;
}

/// File coordinates to metres east and north of the south-west corner.
struct Frame {
    Vec2 corner, metres_per_unit;

    Vec2 operator()(const Vec2& file) const {
        return (file - corner).cwiseProduct(metres_per_unit);
    }
};

/// Metres per degree on the WGS 84 ellipsoid (a, e^2 from memory; NIMA TR8350.2).
Vec2 metres_per_degree(double latitude_deg) {
    constexpr double a = 6378137.0, e2 = 6.69437999014e-3, radian = std::numbers::pi / 180;
    const double sine = std::sin(latitude_deg * radian), w2 = 1 - e2 * sine * sine;
    const double east = a / std::sqrt(w2) * std::cos(latitude_deg * radian);
    const double north = a * (1 - e2) / (w2 * std::sqrt(w2));
    return {east * radian, north * radian};
}

Frame frame_of(const RawGrid& grid) {
    const double south = grid.north - grid.rows * grid.height;
    const Vec2 unit = grid.geographic ? metres_per_degree(0.5 * (south + grid.north))
                                      : Vec2(grid.unit_m, grid.unit_m);
    return {{grid.west, south}, unit};
}

/// Noise of a cell from fourth differences along rows, which leave nothing of a cubic: their
/// variance is 70 times that of the cell. The median makes it blind to edges and bushes.
double noise_of(const RawGrid& grid) {
    std::vector<double> sizes;
    for (int row = 0; row < grid.rows; ++row)
        for (int c = 2; c + 2 < grid.columns; ++c) {
            const double* z = &grid.heights[static_cast<std::size_t>(row) * grid.columns + c];
            const double fourth = z[-2] - 4 * z[-1] + 6 * z[0] - 4 * z[1] + z[2];
            if (std::isfinite(fourth)) sizes.push_back(std::abs(fourth));
        }
    if (sizes.size() < 10) return 0;
    const auto middle = sizes.begin() + static_cast<std::ptrdiff_t>(sizes.size() / 2);
    std::nth_element(sizes.begin(), middle, sizes.end());
    constexpr double median_of_normal = 0.674490;
    return *middle / median_of_normal / std::sqrt(70.0);
}

/// Averages cells over squares, so that a fine noisy grid becomes fewer and better heights.
class Squares {
  public:
    Squares(double width_m, double size_m)
        : size_m_(size_m), columns_(static_cast<std::size_t>(width_m / size_m) + 2) {}

    void add(const Vec2& at, double z) {
        const auto column = static_cast<std::size_t>(std::max(0.0, at.x() / size_m_));
        const auto row = static_cast<std::size_t>(std::max(0.0, at.y() / size_m_));
        const std::size_t index = row * columns_ + column;
        if (index >= sums_.size()) sums_.resize(index + 1);
        sums_[index].at += at;
        sums_[index].z += z;
        ++sums_[index].count;
    }

    std::vector<HeightReading> heights(double noise_m) const {
        std::vector<HeightReading> heights;
        for (const Sum& s : sums_)
            if (s.count > 0)
                heights.push_back({s.at / s.count, s.z / s.count,
                                   std::max(least_noise_m, noise_m / std::sqrt(s.count))});
        return heights;
    }

  private:
    struct Sum {
        Vec2 at = Vec2::Zero();
        double z = 0;
        double count = 0;
    };
    double size_m_;
    std::size_t columns_;
    std::vector<Sum> sums_;
};

RawGrid raw_grid(const fs::path& path, const ElevationCut& cut) {
    if (!can_read_elevation())
        throw InputError("this build cannot read elevation files",
                         "install dewtrail-elevation, or build where GDAL is (libgdal-dev), or "
                         "give heights as CSV");
    check_is_file(path);
    GridQuestion question{.path = path.string(), .most_cells = most_cells};
    if (cut.window) {
        question.windowed = true;
        question.least_x = cut.window->least.x();
        question.least_y = cut.window->least.y();
        question.most_x = cut.window->most.x();
        question.most_y = cut.window->most.y();
    }
    RawGrid grid;
    reader()(question, grid);
    if (!grid.problem.empty()) refuse_file(path, grid.problem, grid.remedy);
    return grid;
}

std::vector<std::string> notes_of(const RawGrid& grid) {
    std::vector<std::string> notes;
    if (!grid.known_unit) notes.push_back("the file names no coordinate system: taken as metres");
    if (grid.geographic) notes.push_back("longitude and latitude: laid flat round their middle");
    if (grid.height_unit_m != 1) notes.push_back("heights in feet: taken as metres after division");
    return notes;
}

double spacing_for(const RawGrid& grid, const Frame& frame, const ElevationCut& cut, double cell_m,
                   const fs::path& path) {
    if (cut.spacing_m && *cut.spacing_m < 0.999 * cell_m)
        refuse_file(path,
                    fmt::format("has cells of {:.2f} m, more than the spacing asked for", cell_m),
                    "ask for a coarser spacing");
    const double area = grid.columns * grid.width * frame.metres_per_unit.x() * grid.rows *
                        grid.height * frame.metres_per_unit.y();
    return std::max(
        {cut.spacing_m.value_or(usual_spacing_m), cell_m, std::sqrt(area / most_heights)});
}

std::array<double, 3> three_numbers(const CsvRow& row, const fs::path& path) {
    std::array<double, 3> values{};
    for (std::size_t i = 0; i < std::max(row.cells.size(), values.size()); ++i) {
        const auto number = i < std::min(row.cells.size(), values.size())
                                ? plain_number(row.cells[i].text)
                                : std::nullopt;
        if (!number || std::abs(*number) >= 1e9)
            throw InputError(path.string(), row.line,
                             row.cells[std::min(i, row.cells.size() - 1)].column,
                             "is not a line of three numbers", "write x y z, in metres");
        values[i] = *number;
    }
    return values;
}

/// Subtracts the smallest x, y and z.
void move_to_corner(std::vector<HeightReading>& heights) {
    Vec2 least = heights.front().at;
    double lowest = heights.front().height_m;
    for (const HeightReading& h : heights) {
        least = least.cwiseMin(h.at);
        lowest = std::min(lowest, h.height_m);
    }
    for (HeightReading& h : heights) {
        h.at -= least;
        h.height_m -= lowest;
    }
}

/// The part of the grid inside the cut, averaged; heights in the file's unit.
std::vector<HeightReading> averaged(const RawGrid& grid, const Frame& frame,
                                    const ElevationCut& cut, Squares squares, double noise_m,
                                    std::size_t& empty) {
    std::optional<Outline> polygon;
    if (!cut.polygon.empty()) polygon.emplace(cut.polygon);
    for (int row = 0; row < grid.rows; ++row)
        for (int column = 0; column < grid.columns; ++column) {
            const double z = grid.heights[static_cast<std::size_t>(row) * grid.columns + column];
            const Vec2 file(grid.west + (column + 0.5) * grid.width,
                            grid.north - (row + 0.5) * grid.height);
            if (polygon && polygon->inside_by(file) < 0) continue;
            if (std::isfinite(z))
                squares.add(frame(file), z * grid.height_unit_m);
            else
                ++empty;
        }
    return squares.heights(noise_m);
}

}  // namespace

bool can_read_elevation() {
    return reader() != nullptr;
}

Elevation read_elevation(const fs::path& path, const ElevationCut& cut) {
    const RawGrid grid = raw_grid(path, cut);
    const Frame frame = frame_of(grid);
    const Vec2 cell = Vec2(grid.width, grid.height).cwiseProduct(frame.metres_per_unit);
    if (!(cell.maxCoeff() < 1e4) || !(cell.minCoeff() > 1e-4))
        refuse_file(path, fmt::format("has cells of {:.3g} m", cell.maxCoeff()),
                    "its coordinate system is not what it says; give it the right one first");
    Elevation elevation{.cell_m = cell.maxCoeff(),
                        .noise_m = noise_of(grid) * grid.height_unit_m,
                        .notes = notes_of(grid)};
    const Vec2 extent(cell.x() * grid.columns, cell.y() * grid.rows);
    if (extent.maxCoeff() > 2 * most_extent_m)
        refuse_file(path, fmt::format("covers {:.0f} m, more than a green", extent.maxCoeff()),
                    "cut a piece out with --window x,y,x,y in its coordinates");
    elevation.spacing_m = spacing_for(grid, frame, cut, elevation.cell_m, path);
    elevation.heights = averaged(grid, frame, cut, Squares(extent.x(), elevation.spacing_m),
                                 elevation.noise_m, elevation.empty);
    if (elevation.heights.empty())
        refuse_file(path, "has no heights there", "check the window or the cut-out, and NoData");
    double lowest = HUGE_VAL;
    for (const HeightReading& h : elevation.heights) lowest = std::min(lowest, h.height_m);
    for (HeightReading& h : elevation.heights) h.height_m -= lowest;
    for (const Vec2& corner : cut.polygon) elevation.outline.push_back(frame(corner));
    return elevation;
}

std::vector<HeightReading> read_heights_xyz(const fs::path& path, double sd_m) {
    const std::string text = read_text_file(path, most_table_bytes);
    std::vector<HeightReading> heights;
    CsvReader reader(path.string(), text, CsvReader::Between::commas_or_blanks);
    for (CsvRow row; reader.next(row);) {
        const auto [x, y, z] = three_numbers(row, path);
        heights.push_back({{x, y}, z, sd_m});
        if (heights.size() > most_table_rows)
            throw InputError(path.string(), row.line, 1, "more than 200,000 rows",
                             "thin the heights");
    }
    if (heights.empty()) refuse_file(path, "no heights", "write x y z, in metres, a line each");
    move_to_corner(heights);
    for (const HeightReading& h : heights)
        if (h.at.maxCoeff() > 2 * most_extent_m)
            refuse_file(path, "covers more than a green (400 m)", "cut a piece out of it");
    return heights;
}

}  // namespace dewtrail
