#include "viewer/survey/green_draft.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <numbers>

#include "greens/input_error.hpp"
#include "greens/level_value.hpp"
#include "greens/measure.hpp"
#include "greens/number.hpp"
#include "physics/base/ball_and_hole.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"
#include "viewer/text/reading.hpp"

namespace dewtrail {
namespace {

constexpr double usual_margin_m = 1;
constexpr const char* ball_name = "ball";

constexpr double radian = std::numbers::pi / 180;

std::vector<Vec2> places_on(const GreenDraft& draft) {
    std::vector<Vec2> places;
    for (const Spot& spot : draft.spots) places.push_back(spot.at);
    if (draft.heights)
        for (const HeightReading& h : *draft.heights) places.push_back(h.at);
    for (const auto* named : {&draft.holes, &draft.balls})
        for (const auto& [name, at] : *named) places.push_back(at);
    if (draft.ball) places.push_back(*draft.ball);
    return places;
}

/// Whether holes and balls may stay where they are inside these corners.
bool holds(const Outline& outline, const GreenDraft& draft) {
    const auto inside = [&](double by_m) {
        return
            [&outline, by_m](const auto& named) { return outline.inside_by(named.second) > by_m; };
    };
    return std::all_of(draft.holes.begin(), draft.holes.end(), inside(hole_radius_m)) &&
           std::all_of(draft.balls.begin(), draft.balls.end(), inside(0)) &&
           (!draft.ball || outline.inside_by(*draft.ball) > 0);
}

const Subject reading_subject{"reading", "2% 95 (the bearing it falls toward) or up 1%, left 2%"};
const Subject place_subject{"place",
                            "'4m right, 2m up' of the hole, or '5 paces 90' from the "
                            "spot before"};

constexpr const char* bearing_endings[] = {"°", "degrees", "deg"};

double bearing_deg(std::string_view text, const Subject& subject, std::string_view whole) {
    std::string plain = plain_text(text);
    for (const char* ending : bearing_endings) drop_ending(plain, ending);
    std::string_view rest = plain;
    double value = 0;
    if (!take_number(rest, value) || !rest.empty() || value > 360)
        refuse(subject, whole, "has no bearing from 0 to 360 at its end");
    return value;
}

struct Side {
    std::string_view word;
    int axis;  ///< 0 right and left, 1 up and down
    double sign;
};

/// A length with its sign, and the side it lies on.
double signed_length_m(std::string part, int axis, const Units& units, std::string_view whole) {
    constexpr std::array sides{Side{"right", 0, 1}, Side{"left", 0, -1}, Side{"up", 1, 1},
                               Side{"down", 1, -1}};
    const auto side = std::find_if(sides.begin(), sides.end(),
                                   [&](const Side& s) { return drop_ending(part, s.word); });
    if (side != sides.end() && side->axis != axis)
        refuse(place_subject, whole, "is not right or left first, then up or down");
    const bool minus = !part.empty() && part[0] == '-';
    if (minus) part.erase(0, 1);
    const double length_m = parse_level_roll_m(part, units, "place");
    return (minus ? -1 : 1) * (side != sides.end() ? side->sign : 1) * length_m;
}

std::string length_and_side(double length_m, const char* more, const char* less,
                            const Units& units) {
    return format_distance(std::abs(length_m), units) + " " + (length_m < 0 ? less : more);
}

}  // namespace

std::optional<GreenDraft> draft_of(const Green& green) {
    if (!green.survey) return std::nullopt;
    GreenDraft draft;
    draft.name = green.name;
    draft.stimp_ft = green.stimp_ft;
    for (const LevelReading& level : green.survey->levels)
        draft.spots.push_back({level.at, level.gradient});
    if (!green.survey->levels.empty()) draft.level_sd = green.survey->levels[0].sd;
    if (!green.survey->heights.empty())
        draft.heights = std::make_shared<const std::vector<HeightReading>>(green.survey->heights);
    draft.spacing_m = green.spacing_m;
    draft.holes = green.holes;
    draft.balls = green.balls;
    draft.hole = green.holes.begin()->first;
    draft.corners = green.outline.corners();
    return draft;
}

Survey survey_of(const GreenDraft& draft) {
    Survey survey;
    for (const Spot& spot : draft.spots)
        if (spot.gradient)
            survey.levels.push_back(
                {spot.at, *spot.gradient, draft.level_sd.value_or(default_level_sd)});
    if (draft.heights) survey.heights = *draft.heights;
    return survey;
}

std::vector<Vec2> outline_round(const std::vector<Vec2>& places, double margin_m) {
    constexpr int corners = 16;
    std::vector<Vec2> around;
    for (const Vec2& at : places)
        for (int i = 0; i < corners; ++i) {
            const Vec2 corner = at + margin_m * along_bearing(2 * std::numbers::pi * i / corners);
            around.emplace_back(std::round(100 * corner.x()) / 100,
                                std::round(100 * corner.y()) / 100);
        }
    return convex_hull(std::move(around));
}

std::vector<Vec2> outline_of(const GreenDraft& draft) {
    if (draft.corners.size() > 2 && holds(Outline(draft.corners), draft)) return draft.corners;
    return outline_round(places_on(draft), usual_margin_m);
}

bool same_survey(const GreenDraft& a, const GreenDraft& b) {
    return a.spots == b.spots && a.heights == b.heights && a.level_sd == b.level_sd &&
           a.spacing_m == b.spacing_m && outline_of(a) == outline_of(b);
}

SurfaceFit fit_draft(const GreenDraft& draft) {
    SurveyFitOptions options{.cover = outline_of(draft)};
    options.spacing_m = draft.spacing_m;
    return fit_survey(survey_of(draft), options);
}

std::shared_ptr<const Green> green_of(const GreenDraft& draft, const SurfaceFit& fit) {
    Green green{.name = draft.name,
                .stimp_ft = draft.stimp_ft,
                .surface = fit.surface,
                .outline = Outline(outline_of(draft)),
                .holes = draft.holes,
                .balls = draft.balls};
    green.survey = survey_of(draft);
    green.fit = fit;
    green.spacing_m = draft.spacing_m;
    return std::make_shared<const Green>(std::move(green));
}

GreenFileContent content_of(const GreenDraft& draft, const std::string& levels,
                            const std::string& heights) {
    GreenFileContent content{
        draft.name, draft.stimp_ft, outline_of(draft), draft.holes, draft.balls, levels, heights};
    const bool named = std::any_of(draft.balls.begin(), draft.balls.end(), [&](const auto& ball) {
        return draft.ball && ball.second == *draft.ball;
    });
    if (draft.ball && !named) content.balls[ball_name] = *draft.ball;
    content.spacing_m = draft.spacing_m;
    content.level_sd = draft.level_sd;
    if (draft.heights) content.height_sd_m = draft.heights->front().sd_m;
    return content;
}

Vec2 parse_spot_reading(std::string_view text) {
    std::string plain = plain_text(text);
    if (plain == "level" || plain == "flat") return Vec2::Zero();
    double facing_deg = 0;
    if (const std::size_t facing = plain.find("facing"); facing != plain.npos) {
        facing_deg = bearing_deg(plain.substr(facing + 6), reading_subject, text);
        plain = plain_text(plain.substr(0, facing));
    }
    if (!plain.empty() && std::isalpha(static_cast<unsigned char>(plain[0]))) {
        const PlacedReading level = parse_along_across(plain, reading_subject);
        return level_reading_along(Vec2::Zero(), along_bearing(facing_deg * radian), level.up,
                                   level.falls_left)
            .gradient;
    }
    for (const char* ending : bearing_endings) drop_ending(plain, ending);
    const std::size_t space = plain.find_last_of(" ,");
    if (space == plain.npos) refuse(reading_subject, text, "says no direction");
    const double toward_deg = bearing_deg(plain.substr(space + 1), reading_subject, text);
    std::string slope = plain_text(plain.substr(0, space));
    for (const char* ending : {",", "toward", "to"}) drop_ending(slope, ending);
    return level_reading({0, 0}, parse_slope(slope, "reading"), toward_deg * radian).gradient;
}

std::string spot_reading_text(const Vec2& gradient) {
    if (gradient.norm() < 5e-4) return "level";
    const double toward_deg = std::remainder(bearing_of(-gradient) / radian - 180, 360) + 180;
    return fmt::format("{:.1f}% {:.0f}", 100 * gradient.norm(), toward_deg + 0.0);
}

Vec2 parse_spot_place(std::string_view text, const Units& units, const Vec2& hole,
                      const Vec2& last) {
    const std::vector<std::string> parts = split_at_commas(plain_text(text));
    if (parts.size() > 2) refuse(place_subject, text, "is not a place");
    Vec2 at;
    if (parts.size() == 2) {
        at = hole + Vec2(signed_length_m(parts[0], 0, units, text),
                         signed_length_m(parts[1], 1, units, text));
    } else {
        const std::size_t space = parts[0].find_last_of(' ');
        if (space == parts[0].npos) refuse(place_subject, text, "is not a place");
        const double bearing = bearing_deg(parts[0].substr(space + 1), place_subject, text);
        at = last + parse_level_roll_m(parts[0].substr(0, space), units, "walk") *
                        along_bearing(bearing * radian);
    }
    if (at.cwiseAbs().maxCoeff() > green_reach_m)
        throw InputError(fmt::format("place '{}' is more than 200 m away", text),
                         "a green is smaller than that");
    return at;
}

std::string spot_place_text(const Vec2& at, const Vec2& hole, const Units& units) {
    const Vec2 from = at - hole;
    return length_and_side(from.x(), "right", "left", units) + ", " +
           length_and_side(from.y(), "up", "down", units);
}

}  // namespace dewtrail
