#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>

#include "physics/surface/outline.hpp"
#include "physics/surface/surface.hpp"
#include "physics/survey/survey_fit.hpp"

namespace dewtrail {

/// A green as its file describes it. Positions in the green frame, metres.
struct Green {
    std::string name;
    double stimp_ft = 10;
    std::shared_ptr<const Surface> surface{};
    Outline outline;
    std::map<std::string, Vec2> holes{};  ///< at least one, each inside by its radius or more
    std::map<std::string, Vec2> balls{};  ///< inside the outline

    /// What the surface was fitted to, and the fit; only where it was.
    std::optional<Survey> survey{};
    std::optional<SurfaceFit> fit{};
    std::optional<double> spacing_m{};  ///< of its cells, where the file gives it

    std::filesystem::path file{};  ///< where it was read from
};

}  // namespace dewtrail
