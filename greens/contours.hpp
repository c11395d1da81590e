#pragma once

#include <vector>

#include "physics/surface/outline.hpp"
#include "physics/surface/surface.hpp"

/// Contours of a green: where they run and at which heights. Nothing is drawn here. Green frame,
/// metres.
namespace dewtrail {

/// An upright rectangle of the plan.
struct Box {
    Vec2 least{0, 0};
    Vec2 most{0, 0};

    Vec2 size() const { return most - least; }
    Vec2 middle() const { return (least + most) / 2; }
};

/// The smallest box that holds the points; at least one, else std::invalid_argument.
Box box_round(const std::vector<Vec2>& points);

/// A piece of the line of one height. A closed one repeats its first point at its end.
struct ContourLine {
    double height_m = 0;
    std::vector<Vec2> points;

    bool closed() const { return points.size() > 2 && points.front() == points.back(); }
};

/// The lines of a surface at the given heights inside a box, by marching squares over
/// cells x cells. Every point lies on its height to 1e-6 m or better; between points the line is
/// straight. What is smaller than a cell may be missed; a cell that two branches of a saddle share
/// is decided by the height at its middle. std::invalid_argument if cells is outside 1 to 2000 or
/// the box is empty.
std::vector<ContourLine> contour_lines(const Surface& surface, const Box& box,
                                       const std::vector<double>& heights_m, int cells = 96);

/// The parts of the lines inside the outline, cut on the edge to 1e-6 m.
std::vector<ContourLine> inside(const std::vector<ContourLine>& lines, const Outline& outline);

/// How far apart the heights of neighbouring contours are, metres.
struct ContourSpacing {
    double index_m;         ///< bold lines, which carry their height
    double intermediate_m;  ///< half of that
};

/// Steps that people count in: index lines every ½ in (metric: 1 cm) times 1, 2, 5, 10, ..., the
/// smallest that keeps them `least_apart_m` or more apart on the plan where the green has its
/// typical slope (rise over run). A level green gets the smallest.
ContourSpacing contour_spacing(double typical_slope, double least_apart_m, bool metric);

/// All heights base + n * step within [lowest, highest], rising. At most 1000, else
/// std::invalid_argument.
std::vector<double> contour_heights(double base_m, double step_m, double lowest_m,
                                    double highest_m);

/// The ground inside an outline, sampled on a lattice of a hundredth of its larger side.
struct Ground {
    double lowest_m = 0, highest_m = 0;
    double typical_slope = 0;  ///< median, rise over run
    double steepest = 0;       ///< rise over run
    Vec2 steepest_at{0, 0};
    double area_m2 = 0;  ///< of the outline, exact
};

Ground look_at_ground(const Surface& surface, const Outline& outline);

}  // namespace dewtrail
