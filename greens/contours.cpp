#include "greens/contours.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <unordered_map>
#include <utility>

namespace dewtrail {
namespace {

constexpr double height_tolerance_m = 1e-7;
constexpr double edge_tolerance_m = 1e-7;
constexpr int most_steps = 60;  // halvings of a metre to far below any tolerance

/// Where a function of a stretch from a to b, of opposite signs at its ends, is zero: regula falsi
/// (Illinois; Dowell and Jarratt 1971, BIT 11, 168, from memory).
template <class Function>
Vec2 zero_between(Vec2 a, double fa, Vec2 b, double fb, double tolerance, const Function& f) {
    Vec2 c = a;
    for (int step = 0; step < most_steps; ++step) {
        c = a + fa / (fa - fb) * (b - a);
        const double fc = f(c);
        if (std::abs(fc) <= tolerance) break;
        if ((fc > 0) == (fb > 0)) {
            fa /= 2;
        } else {
            a = b;
            fa = fb;
        }
        b = c;
        fb = fc;
    }
    return c;
}

/// Heights at the corners of a lattice, and the edges between neighbours, each with a number.
class Lattice {
  public:
    Lattice(const Surface& surface, const Box& box, int cells)
        : surface_(surface), box_(box), cells_(cells) {
        for (int j = 0; j <= cells; ++j)
            for (int i = 0; i <= cells; ++i) heights_.push_back(height(corner(i, j)));
    }

    int cells() const { return cells_; }
    int along_x(int i, int j) const { return 2 * (j * (cells_ + 1) + i); }
    int along_y(int i, int j) const { return along_x(i, j) + 1; }

    double height_at(int i, int j) const {
        return heights_[static_cast<std::size_t>(j * (cells_ + 1) + i)];
    }
    double height_amid(int i, int j) const {
        return height((corner(i, j) + corner(i + 1, j + 1)) / 2);
    }

    /// Where the edge has this height, which lies between those of its ends.
    Vec2 crossing(int edge, double height_m) const {
        const int i = edge / 2 % (cells_ + 1), j = edge / 2 / (cells_ + 1);
        const int di = edge % 2 == 0 ? 1 : 0, dj = 1 - di;
        return zero_between(corner(i, j), height_at(i, j) - height_m, corner(i + di, j + dj),
                            height_at(i + di, j + dj) - height_m, height_tolerance_m,
                            [&](const Vec2& at) { return height(at) - height_m; });
    }

  private:
    Vec2 corner(int i, int j) const {
        return box_.least + box_.size().cwiseProduct(Vec2(i, j)) / cells_;
    }
    double height(const Vec2& at) const { return surface_.at(at.x(), at.y()).h; }

    const Surface& surface_;
    Box box_;
    int cells_;
    std::vector<double> heights_;
};

/// Edges that a line of one height crosses, each with the one or two crossed next.
class Chains {
  public:
    void join(int a, int b) {
        next_[a].push_back(b);
        next_[b].push_back(a);
        met_.insert(met_.end(), {a, b});
    }

    /// Open chains first, so that none is begun in its middle; what is left then are loops.
    std::vector<std::vector<int>> take_all() {
        std::vector<std::vector<int>> chains;
        for (const int edge : met_)
            if (next_[edge].size() == 1) chains.push_back(take_from(edge));
        for (const int edge : met_)
            if (!next_[edge].empty()) chains.push_back(take_from(edge));
        return chains;
    }

  private:
    std::vector<int> take_from(int edge) {
        std::vector<int> chain{edge};
        while (!next_[edge].empty()) {
            const int following = next_[edge].back();
            next_[edge].pop_back();
            std::erase(next_[following], edge);
            chain.push_back(edge = following);
        }
        return chain;
    }

    std::unordered_map<int, std::vector<int>> next_;
    std::vector<int> met_;  // in the order met, so that the answer has one order
};

/// Joins the crossed edges of one cell. A corner on the height counts as above it.
void march_cell(const Lattice& lattice, int i, int j, double height_m, Chains& chains) {
    const auto above = [&](int di, int dj) {
        return lattice.height_at(i + di, j + dj) >= height_m;
    };
    // Corners and edges anticlockwise; edge k leads from corner k to corner k + 1.
    const std::array<bool, 4> up{above(0, 0), above(1, 0), above(1, 1), above(0, 1)};
    const std::array<int, 4> edges{lattice.along_x(i, j), lattice.along_y(i + 1, j),
                                   lattice.along_x(i, j + 1), lattice.along_y(i, j)};
    std::array<int, 4> crossed{};
    std::size_t count = 0;
    for (std::size_t k = 0; k < 4; ++k)
        if (up[k] != up[(k + 1) % 4]) crossed[count++] = edges[k];
    if (count == 2) chains.join(crossed[0], crossed[1]);
    if (count != 4) return;
    // A saddle: the lines keep the two corners apart that differ from the middle.
    const std::size_t first = (lattice.height_amid(i, j) >= height_m) == up[0] ? 0 : 1;
    chains.join(crossed[first], crossed[first + 1]);
    chains.join(crossed[first + 2], crossed[(first + 3) % 4]);
}

void add_lines(const Lattice& lattice, double height_m, std::vector<ContourLine>& lines) {
    Chains chains;
    for (int j = 0; j < lattice.cells(); ++j)
        for (int i = 0; i < lattice.cells(); ++i) march_cell(lattice, i, j, height_m, chains);
    for (const std::vector<int>& chain : chains.take_all()) {
        ContourLine line{height_m, {}};
        for (const int edge : chain) line.points.push_back(lattice.crossing(edge, height_m));
        lines.push_back(std::move(line));
    }
}

/// The parts of one line inside the outline.
std::vector<ContourLine> parts_inside(const ContourLine& line, const Outline& outline) {
    std::vector<ContourLine> parts;
    double before = -1;
    for (std::size_t i = 0; i < line.points.size(); ++i) {
        const double here = outline.inside_by(line.points[i]);
        const bool enters = here >= 0 && (i == 0 || before < 0);
        if (enters) parts.push_back({line.height_m, {}});
        if (i > 0 && (here >= 0) != (before >= 0))
            parts.back().points.push_back(
                zero_between(line.points[i - 1], before, line.points[i], here, edge_tolerance_m,
                             [&](const Vec2& at) { return outline.inside_by(at); }));
        if (here >= 0) parts.back().points.push_back(line.points[i]);
        before = here;
    }
    return parts;
}

/// A loop that was cut begins and ends inside: its last part goes on with its first.
void mend_seam(const ContourLine& line, std::vector<ContourLine>& parts) {
    if (!line.closed() || parts.size() < 2) return;
    ContourLine& first = parts.front();
    ContourLine& last = parts.back();
    if (first.points.front() != line.points.front() || last.points.back() != line.points.back())
        return;
    last.points.insert(last.points.end(), first.points.begin() + 1, first.points.end());
    parts.erase(parts.begin());
}

double area_of(const std::vector<Vec2>& corners) {
    double twice = 0;
    for (std::size_t i = 0, j = corners.size() - 1; i < corners.size(); j = i++)
        twice += corners[j].x() * corners[i].y() - corners[i].x() * corners[j].y();
    return std::abs(twice) / 2;
}

}  // namespace

Box box_round(const std::vector<Vec2>& points) {
    if (points.empty()) throw std::invalid_argument("box_round: no points");
    Box box{points.front(), points.front()};
    for (const Vec2& point : points) {
        box.least = box.least.cwiseMin(point);
        box.most = box.most.cwiseMax(point);
    }
    return box;
}

std::vector<ContourLine> contour_lines(const Surface& surface, const Box& box,
                                       const std::vector<double>& heights_m, int cells) {
    if (cells < 1 || cells > 2000)
        throw std::invalid_argument("contour_lines: cells must be 1 to 2000");
    if (!(box.size().minCoeff() > 0)) throw std::invalid_argument("contour_lines: empty box");
    const Lattice lattice(surface, box, cells);
    std::vector<ContourLine> lines;
    for (const double height_m : heights_m) add_lines(lattice, height_m, lines);
    return lines;
}

std::vector<ContourLine> inside(const std::vector<ContourLine>& lines, const Outline& outline) {
    std::vector<ContourLine> all;
    for (const ContourLine& line : lines) {
        std::vector<ContourLine> parts = parts_inside(line, outline);
        mend_seam(line, parts);
        all.insert(all.end(), parts.begin(), parts.end());
    }
    return all;
}

ContourSpacing contour_spacing(double typical_slope, double least_apart_m, bool metric) {
    const double base_m = metric ? 0.01 : 0.5 * 0.0254;
    const double least_m = typical_slope * least_apart_m;
    double index_m = base_m;
    for (double decade = 1; index_m < least_m && decade < 1e6; decade *= 10)
        for (const double factor : {1, 2, 5})
            if (index_m < least_m) index_m = base_m * decade * factor;
    return {index_m, index_m / 2};
}

std::vector<double> contour_heights(double base_m, double step_m, double lowest_m,
                                    double highest_m) {
    if (!(step_m > 0) || !((highest_m - lowest_m) / step_m < 1000))
        throw std::invalid_argument("contour_heights: more than 1000 steps");
    std::vector<double> heights;
    for (double n = std::ceil((lowest_m - base_m) / step_m); base_m + n * step_m <= highest_m; ++n)
        heights.push_back(base_m + n * step_m);
    return heights;
}

Ground look_at_ground(const Surface& surface, const Outline& outline) {
    const Box box = box_round(outline.corners());
    const double step_m = box.size().maxCoeff() / 100;
    constexpr double none = std::numeric_limits<double>::infinity();
    Ground ground{.lowest_m = none, .highest_m = -none, .steepest = -1};
    ground.area_m2 = area_of(outline.corners());
    std::vector<double> slopes;
    const auto look = [&](const Vec2& at) {
        const SurfaceJet jet = surface.at(at.x(), at.y());
        ground.lowest_m = std::min(ground.lowest_m, jet.h);
        ground.highest_m = std::max(ground.highest_m, jet.h);
        slopes.push_back(jet.gradient().norm());
        if (slopes.back() <= ground.steepest) return;
        ground.steepest = slopes.back();
        ground.steepest_at = at;
    };
    for (double y = box.least.y() + step_m / 2; y < box.most.y(); y += step_m)
        for (double x = box.least.x() + step_m / 2; x < box.most.x(); x += step_m)
            if (outline.inside_by({x, y}) >= 0) look({x, y});
    for (const Vec2& corner : outline.corners()) look(corner);
    std::nth_element(slopes.begin(), slopes.begin() + slopes.size() / 2, slopes.end());
    ground.typical_slope = slopes[slopes.size() / 2];
    return ground;
}

}  // namespace dewtrail
