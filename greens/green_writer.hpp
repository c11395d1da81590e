#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "physics/survey/survey_fit.hpp"

/// Writes what green_file and survey_csv read.
namespace dewtrail {

/// A fitted green as its file tells it. Positions in the green frame, metres.
struct GreenFileContent {
    std::string name;
    double stimp_ft = 10;
    std::vector<Vec2> corners{};
    std::map<std::string, Vec2> holes{}, balls{};
    std::string levels{}, heights{};  ///< names of the tables beside it; empty: there is none
    std::optional<double> spacing_m{}, level_sd{}, height_sd_m{}, pace_m{};
};
std::string green_text(const GreenFileContent& green);

/// A quoted TOML string; a line of points and a section of named places, empty if there are none.
std::string toml_string(const std::string& text);
std::string toml_points(const char* key, const std::vector<Vec2>& points);
std::string toml_places(const char* section, const std::map<std::string, Vec2>& places);

/// Tables with their header. Places to a millimetre, slopes to a thousandth of a percent, bearings
/// to a hundredth of a degree, heights to a tenth of a millimetre.
std::string levels_text(const std::vector<LevelReading>& levels);
std::string heights_text(const std::vector<HeightReading>& heights);

}  // namespace dewtrail
