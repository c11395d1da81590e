#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "greens/green.hpp"
#include "greens/green_writer.hpp"
#include "greens/units.hpp"
#include "physics/roll/green_speed.hpp"
#include "viewer/putt/putt_request.hpp"
#include "viewer/survey/fit_trust.hpp"

/// A green being surveyed, from readings to a surface. Green frame, metres.
namespace dewtrail {

/// A spot of the survey; none: the level has not been read there yet.
struct Spot {
    Vec2 at{0, 0};
    std::optional<Vec2> gradient{};

    bool operator==(const Spot&) const = default;
};

/// Everything that undo restores.
struct GreenDraft {
    std::string name = "New green";
    double stimp_ft = usual_stimp_ft;
    std::vector<Spot> spots{};
    std::shared_ptr<const std::vector<HeightReading>> heights{};  ///< or none
    std::optional<double> level_sd{}, spacing_m{};                ///< as the file gives them
    std::map<std::string, Vec2> holes{{"hole", Vec2(0, 0)}}, balls{};
    std::string hole = "hole";    ///< the one in play, among `holes`
    std::optional<Vec2> ball{};   ///< of the putt that matters
    std::vector<Vec2> corners{};  ///< of the outline; none: a margin round everything

    const Vec2& hole_at() const { return holes.at(hole); }
    bool operator==(const GreenDraft&) const = default;
};

/// A fitted green to go on with; none for a plane, which has no readings.
std::optional<GreenDraft> draft_of(const Green& green);

Survey survey_of(const GreenDraft& draft);

/// A line round places, `margin_m` from the nearest of them.
std::vector<Vec2> outline_round(const std::vector<Vec2>& places, double margin_m);

/// The draft's own corners while they hold all that lies on the green, else a margin round it.
std::vector<Vec2> outline_of(const GreenDraft& draft);

/// Whether one fit is good for both: only ball, hole, names or speed differ, within one outline.
bool same_survey(const GreenDraft& a, const GreenDraft& b);

/// The surface; its `status` says what is missing.
SurfaceFit fit_draft(const GreenDraft& draft);

/// The green, ready to putt on.
std::shared_ptr<const Green> green_of(const GreenDraft& draft, const SurfaceFit& fit);

/// As its files will hold it, with the names of its tables.
GreenFileContent content_of(const GreenDraft& draft, const std::string& levels,
                            const std::string& heights);

// ---- as typed; InputError says how to write it

/// What a level shows: '2% 95' (slope and the bearing it falls toward), 'up 1%, left 2%' (facing up
/// the plan), 'up 1%, left 2% facing 40', or 'level'. A slope as parse_level_reading has it.
Vec2 parse_spot_reading(std::string_view text);
std::string spot_reading_text(const Vec2& gradient);

/// Where a spot is: '4.1m right, 2m up' or '4.1, 2' from the hole, along the plan, either sign; or
/// walked from `last`: '5 paces 90', a length and a bearing.
Vec2 parse_spot_place(std::string_view text, const Units& units, const Vec2& hole,
                      const Vec2& last);
std::string spot_place_text(const Vec2& at, const Vec2& hole, const Units& units);

}  // namespace dewtrail
