#include "greens/green_writer.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace dewtrail {
std::string toml_string(const std::string& text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f)
            out += fmt::format("\\u{:04x}", static_cast<unsigned char>(c));
        else
            out += c;
    }
    return out + '"';
}

std::string toml_points(const char* key, const std::vector<Vec2>& points) {
    if (points.empty()) return "";
    std::string text = fmt::format("{} = [", key);
    for (const Vec2& p : points) text += fmt::format("[{}, {}], ", p.x(), p.y());
    return text + "]\n";
}

std::string toml_places(const char* kind, const std::map<std::string, Vec2>& places) {
    if (places.empty()) return "";
    std::string text = fmt::format("\n[{}]  # metres\n", kind);
    for (const auto& [name, at] : places)
        text += fmt::format("{} = [{}, {}]\n", toml_string(name), at.x(), at.y());
    return text;
}

std::string green_text(const GreenFileContent& green) {
    std::string text = fmt::format("name = {}\nstimp = {}  # feet\noutline = [\n",
                                   toml_string(green.name), green.stimp_ft);
    for (const Vec2& corner : green.corners)
        text += fmt::format("    [{}, {}],\n", corner.x(), corner.y());
    text += "]\n" + toml_places("holes", green.holes) + toml_places("balls", green.balls);
    text += "\n[surface]\nkind = \"fitted\"\n";
    if (!green.levels.empty()) text += fmt::format("levels = {}\n", toml_string(green.levels));
    if (!green.heights.empty()) text += fmt::format("heights = {}\n", toml_string(green.heights));
    if (green.spacing_m) text += fmt::format("spacing_m = {}\n", *green.spacing_m);
    if (green.level_sd) text += fmt::format("level_sd_percent = {}\n", 100 * *green.level_sd);
    if (green.height_sd_m) text += fmt::format("height_sd_m = {}\n", *green.height_sd_m);
    if (green.pace_m) text += fmt::format("pace_m = {}\n", *green.pace_m);
    return text;
}

std::string levels_text(const std::vector<LevelReading>& levels) {
    std::string text = "x_m,y_m,slope_percent,falls_toward_deg\n";
    for (const LevelReading& level : levels) {
        const double toward_deg = bearing_of(-level.gradient) * 180 / std::numbers::pi;
        text += fmt::format("{:.3f},{:.3f},{:.3f},{:.2f}\n", level.at.x(), level.at.y(),
                            100 * level.gradient.norm(), toward_deg + 0.0);
    }
    return text;
}

std::string heights_text(const std::vector<HeightReading>& heights) {
    std::string text = "x_m,y_m,z_m\n";
    for (const HeightReading& h : heights)
        text += fmt::format("{:.3f},{:.3f},{:.4f}\n", h.at.x(), h.at.y(), h.height_m);
    return text;
}

}  // namespace dewtrail
