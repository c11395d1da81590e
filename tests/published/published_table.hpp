#pragma once

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "physics/base/ball_and_hole.hpp"
#include "physics/odds/spread_fit.hpp"

namespace dewtrail::published {

/// Rows of a table beside the tests: a comment line with the source, a header, then numbers; cells
/// that are no numbers end a row.
inline std::vector<std::vector<double>> table(const std::string& name) {
    std::ifstream file(DEWTRAIL_SOURCE_DIR "/tests/published/data/" + name);
    if (!file) throw std::runtime_error("cannot read " + name);
    std::vector<std::vector<double>> rows;
    std::string line, cell;
    std::getline(file, line);
    std::getline(file, line);
    while (std::getline(file, line)) {
        std::istringstream cells(line);
        rows.emplace_back();
        while (std::getline(cells, cell, ',') && !cell.empty() && std::isdigit(cell[0]))
            rows.back().push_back(std::stod(cell));
    }
    return rows;
}

inline std::vector<HoledRow> putts(const std::string& name) {
    std::vector<HoledRow> rows;
    for (const auto& row : table(name)) rows.push_back({row[0] * metres_per_foot, row[1], row[2]});
    return rows;
}

}  // namespace dewtrail::published
