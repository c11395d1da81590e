#pragma once

#include <filesystem>
#include <string>

#include "greens/green.hpp"
#include "viewer/survey/fit_trust.hpp"
#include "viewer/terminal/session.hpp"

/// What the parts of the green command share.
namespace dewtrail {

void add_green_check(const Command& green, Session& session);
void add_green_show(const Command& green, Session& session);
void add_green_fit(const Command& green, Session& session);

/// Slope and fall at one place of a surface.
struct Fall {
    double slope = 0;                  ///< rise over run
    std::optional<double> toward_deg;  ///< bearing, 0 to 360; none where it is under 0.1 %
};
Fall fall_at(const Surface& surface, const Vec2& at);

/// '95°' to 5 degrees, as a level tells it; 'level' where there is none.
std::string toward_words(const Fall& fall);

/// Tenths of a percent, for what a fit leaves: '0.3 %'; hundredths where that is 0.0.
std::string tenths_percent(double share);

/// '22 levels and 8 heights'.
std::string readings_words(const Survey& survey);

/// The figures of a fit, for both show and fit.
Json fit_json(const Survey& survey, const SurfaceFit& fit, const SlopeTrust& trust);
void print_fit(const Session& session, const Survey& survey, const SurfaceFit& fit,
               const SlopeTrust& trust);

}  // namespace dewtrail
