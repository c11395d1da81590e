#include "viewer/survey/kept_green.hpp"

#include <fmt/format.h>

#include "physics/survey/survey_layout.hpp"

namespace dewtrail {
namespace {

constexpr double kept_reach_m = 1000;
constexpr std::size_t most_points = 20'000;

std::string text_of(const GreenDraft& draft) {
    std::vector<Vec2> spots, gradients, unread, heights_at, heights;
    for (const Spot& spot : draft.spots) {
        if (!spot.gradient) unread.push_back(spot.at);
        if (spot.gradient) spots.push_back(spot.at), gradients.push_back(*spot.gradient);
    }
    if (draft.heights)
        for (const HeightReading& h : *draft.heights)
            heights_at.push_back(h.at), heights.emplace_back(h.height_m, h.sd_m);
    std::string text = fmt::format("name = {}\nstimp = {}\nhole = {}\n", toml_string(draft.name),
                                   draft.stimp_ft, toml_string(draft.hole));
    if (draft.ball) text += fmt::format("ball = [{}, {}]\n", draft.ball->x(), draft.ball->y());
    if (draft.level_sd) text += fmt::format("level_sd = {}\n", *draft.level_sd);
    if (draft.spacing_m) text += fmt::format("spacing_m = {}\n", *draft.spacing_m);
    return text + toml_points("corners", draft.corners) + toml_points("spots", spots) +
           toml_points("gradients", gradients) + toml_points("unread", unread) +
           toml_points("heights_at", heights_at) + toml_points("heights", heights) +
           toml_places("holes", draft.holes) + toml_places("balls", draft.balls);
}

std::vector<Vec2> points_of(const TomlSection& section, const char* key) {
    if (!section.has(key)) return {};
    return section.points(key, most_points, kept_reach_m);
}

/// std::invalid_argument for readings that no surface can be asked of.
void check_can_be_fitted(const GreenDraft& draft) {
    const Survey survey = survey_of(draft);
    check_readings(survey);
    SurveyFitOptions options{.cover = outline_of(draft)};
    options.spacing_m = draft.spacing_m;
    if (!what_is_missing(survey)) lay_grid(survey, options);
}

std::optional<GreenDraft> read_draft(const TomlSection& section) {
    GreenDraft draft;
    draft.name = section.text("name");
    draft.stimp_ft = section.number("stimp", putt_range::stimp_ft);
    draft.holes = section.section("holes").named_points(kept_reach_m);
    if (section.has("balls")) draft.balls = section.section("balls").named_points(kept_reach_m);
    draft.hole = section.text("hole");
    if (!draft.holes.count(draft.hole)) section.fail("hole", "there is no such hole", "");
    if (section.has("ball")) draft.ball = section.point("ball", kept_reach_m);
    draft.level_sd = section.optional_number("level_sd", {1e-4, 0.05});
    draft.spacing_m = section.optional_number("spacing_m", {0.2, 10});
    draft.corners = points_of(section, "corners");
    if (draft.corners.size() > 2) Outline{draft.corners};  // throws where it is none
    const auto spots = points_of(section, "spots"), gradients = points_of(section, "gradients");
    const auto at = points_of(section, "heights_at"), heights = points_of(section, "heights");
    if (spots.size() != gradients.size() || at.size() != heights.size())
        section.fail("spots", "the survey is not whole", "");
    for (std::size_t i = 0; i < spots.size(); ++i) draft.spots.push_back({spots[i], gradients[i]});
    for (const Vec2& place : points_of(section, "unread")) draft.spots.push_back({place, {}});
    std::vector<HeightReading> all;
    for (std::size_t i = 0; i < at.size(); ++i)
        all.push_back({at[i], heights[i].x(), heights[i].y()});
    if (!all.empty())
        draft.heights = std::make_shared<const std::vector<HeightReading>>(std::move(all));
    check_can_be_fitted(draft);
    return draft;
}

}  // namespace

void keep_green(const std::optional<std::filesystem::path>& path,
                const std::optional<GreenDraft>& draft) {
    std::error_code unknown;
    if (draft)
        keep_state(path, text_of(*draft));
    else if (path)
        std::filesystem::remove(*path, unknown);
}

std::optional<GreenDraft> kept_green(const std::optional<std::filesystem::path>& path,
                                     const Tell& tell) {
    return kept_state(path, read_draft, tell);
}

}  // namespace dewtrail
