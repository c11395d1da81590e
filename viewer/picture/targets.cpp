#include "viewer/picture/targets.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace dewtrail {

std::optional<Target> target_at(const Targets& targets, const Vec2& px) {
    const auto found = std::find_if(targets.rbegin(), targets.rend(),
                                    [&](const Target& t) { return t.hit.contains(px); });
    if (found == targets.rend()) return std::nullopt;
    return *found;
}

namespace {

bool is_panel(What what) {
    return what == What::note || what == What::sheet || what == What::row;
}

/// At least as large as a finger each way.
Rect finger_box(const Rect& hit) {
    const double w = std::max(hit.w, finger_px), h = std::max(hit.h, finger_px);
    return {hit.x - (w - hit.w) / 2, hit.y - (h - hit.h) / 2, w, h};
}

double away(const Rect& box, const Vec2& px) {
    const double x = std::max({box.x - px.x(), px.x() - box.right(), 0.0});
    const double y = std::max({box.y - px.y(), px.y() - box.bottom(), 0.0});
    return std::hypot(x, y);
}

}  // namespace

std::optional<Target> touched_target(const Targets& targets, const Vec2& px) {
    std::optional<Target> best;
    double least = HUGE_VAL;
    for (const Target& target : targets) {
        if (is_panel(target.what) || !finger_box(target.hit).contains(px)) continue;
        const double distance = away(target.hit, px);
        if (distance > least) continue;
        least = distance;
        best = target;
    }
    return best ? best : target_at(targets, px);
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
        {What::mode, "mode"},          {What::made, "made"},         {What::view, "view"},
        {What::page, "page"},          {What::face, "face"},         {What::preset, "preset"},
        {What::choice, "choice"},      {What::putt, "putt"},         {What::session, "session"},
        {What::demonstration, "show"}, {What::measured, "measured"}, {What::lesson, "lesson"}};
    if (target.what == What::sure) return target.index == 0 ? "sure" : "not-sure";
    for (const auto& [what, name] : one)
        if (what == target.what) return name;
    for (const auto& [what, name] : many)
        if (what == target.what) return name + std::to_string(target.index);
    return "";
}

}  // namespace dewtrail
