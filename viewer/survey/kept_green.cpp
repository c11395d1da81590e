#include "viewer/survey/kept_green.hpp"

#include <fmt/format.h>

#include "greens/input_error.hpp"
#include "greens/text_file.hpp"
#include "greens/toml_section.hpp"
#include "viewer/files/folders.hpp"
#include "viewer/files/whole_file.hpp"

namespace dewtrail {
namespace {

constexpr double reach_m = 1000;
constexpr std::uintmax_t most_bytes = 4u << 20;
constexpr std::size_t most_points = 20'000;

std::string points_text(const char* key, const std::vector<Vec2>& points) {
    if (points.empty()) return "";
    std::string text = fmt::format("{} = [", key);
    for (const Vec2& p : points) text += fmt::format("[{}, {}], ", p.x(), p.y());
    return text + "]\n";
}

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
    return text + points_text("corners", draft.corners) + points_text("spots", spots) +
           points_text("gradients", gradients) + points_text("unread", unread) +
           points_text("heights_at", heights_at) + points_text("heights", heights) +
           toml_places("holes", draft.holes) + toml_places("balls", draft.balls);
}

std::vector<Vec2> points_of(const TomlSection& section, const char* key) {
    if (!section.has(key)) return {};
    return section.points(key, most_points, reach_m);
}

GreenDraft read_draft(const TomlSection& section) {
    GreenDraft draft;
    draft.name = section.text("name");
    draft.stimp_ft = section.number("stimp", {3, 18});
    draft.holes = section.section("holes").named_points(reach_m);
    if (section.has("balls")) draft.balls = section.section("balls").named_points(reach_m);
    draft.hole = section.text("hole");
    if (!draft.holes.count(draft.hole)) section.fail("hole", "there is no such hole", "");
    if (section.has("ball")) draft.ball = section.point("ball", reach_m);
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
    return draft;
}

}  // namespace

std::optional<std::filesystem::path> kept_green_path() {
    const auto folder = state_folder();
    return folder ? std::optional(*folder / "survey.toml") : std::nullopt;
}

void keep_green(const std::optional<std::filesystem::path>& path,
                const std::optional<GreenDraft>& draft) {
    if (!path) return;
    std::error_code unknown;
    if (!draft) return void(std::filesystem::remove(*path, unknown));
    try {
        save_whole_file(*path, text_of(*draft));
    } catch (const OutsideError&) {
    }
}

std::optional<GreenDraft> kept_green(const std::optional<std::filesystem::path>& path) {
    std::error_code unknown;
    if (!path || !std::filesystem::exists(*path, unknown)) return std::nullopt;
    try {
        return read_draft(
            TomlSection::parse(path->string(), "the survey", read_text_file(*path, most_bytes)));
    } catch (const InputError&) {
        return std::nullopt;
    } catch (const std::invalid_argument&) {
        return std::nullopt;
    }
}

}  // namespace dewtrail
