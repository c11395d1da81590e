#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "greens/elevation.hpp"
#include "physics/read/survey_advice.hpp"
#include "viewer/putt/putt_request.hpp"
#include "viewer/terminal/green/green_command.hpp"

/// What the parts of `green fit` share: what was asked, the green it made, its file and its report.
namespace dewtrail {

struct FitOptions {
    std::optional<std::string> levels, heights, elevation, window, cut_out, level_sd, height_sd,
        spacing, margin, name, stimp, out;
    std::vector<std::string> holes, balls;
    bool force = false, detail = false;
};

/// How well a line of play is known, and where another level would tell most.
struct LineOfPlay {
    std::string ball, hole;
    LineDoubt doubt{};
    std::optional<NextSpot> next{};
};

/// All that goes into a green, with its fit. Positions in the green frame, metres.
struct NewGreen {
    std::string name;
    double stimp_ft = usual_stimp_ft;
    std::map<std::string, Vec2> holes{}, balls{};
    std::vector<Vec2> corners{};
    std::optional<double> spacing_m{}, level_sd{}, height_sd_m{};  ///< as given
    std::optional<double> pace_m{};                                ///< of a table of levels
    std::vector<double> instrument_errors{};                       ///< of the level, rise over run
    std::optional<Elevation> elevation{};
    Survey survey{};
    SurfaceFit fit{};
    SlopeTrust trust{};
    std::vector<LineOfPlay> lines{};  ///< from each ball to the first hole
};

/// InputError if a file that would be written is there already and may not be replaced.
void check_out(const FitOptions& options);
/// Writes the green file, and the heights of an elevation file beside it. Read back first: what
/// cannot be read is never put there.
void save_green(const NewGreen& green, const FitOptions& options);

Json new_green_json(const NewGreen& green, const std::vector<Disagreement>& all,
                    const FitOptions& options);
void print_new_green(const Session& session, const NewGreen& green,
                     const std::vector<Disagreement>& all, const FitOptions& options);

}  // namespace dewtrail
