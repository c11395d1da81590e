#include "viewer/picture/targets.hpp"

#include <algorithm>
#include <utility>

namespace dewtrail {

std::optional<Target> target_at(const Targets& targets, const Vec2& px) {
    const auto found = std::find_if(targets.rbegin(), targets.rend(),
                                    [&](const Target& t) { return t.hit.contains(px); });
    if (found == targets.rend()) return std::nullopt;
    return *found;
}

std::optional<Target> find_target(const Targets& targets, What what, int index) {
    const auto found = std::find_if(targets.begin(), targets.end(), [&](const Target& t) {
        return t.what == what && t.index == index;
    });
    if (found == targets.end()) return std::nullopt;
    return *found;
}

bool is_stop(What what) {
    return what < What::ruler;
}

What rank_of(What what) {
    return what == What::face ? What::field : what;
}

std::string place_name(const Target& target) {
    static constexpr std::pair<What, const char*> one[] = {
        {What::pupil, "pupils"},  {What::print, "sheet"},   {What::close, "close"},
        {What::offer, "offer"},   {What::play, "play"},     {What::spread, "spread"},
        {What::detail, "detail"}, {What::button, "button"}, {What::add, "add"},
        {What::holed, "holed"},   {What::swap, "swap"},     {What::stretch, "stretch"},
        {What::commit, "commit"}};
    static constexpr std::pair<What, const char*> many[] = {
        {What::mode, "mode"},        {What::view, "view"},       {What::page, "page"},
        {What::face, "face"},        {What::preset, "preset"},   {What::choice, "choice"},
        {What::putt, "putt"},        {What::session, "session"}, {What::demonstration, "show"},
        {What::measured, "measured"}};
    if (target.what == What::sure) return target.index == 0 ? "sure" : "not-sure";
    for (const auto& [what, name] : one)
        if (what == target.what) return name;
    for (const auto& [what, name] : many)
        if (what == target.what) return name + std::to_string(target.index);
    return "";
}

}  // namespace dewtrail
