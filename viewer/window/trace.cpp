#include "viewer/window/trace.hpp"

#include "viewer/practice/player.hpp"
#include "viewer/scene/room_picture.hpp"
#include "viewer/terminal/odds_report.hpp"
#include "viewer/terminal/read_report.hpp"

namespace dewtrail {
namespace {

Json place(const Vec2& px) {
    return Json::array({px.x(), px.y()});
}

/// Middles of what can be clicked or dragged, pixels.
Json places(const ReadMode& mode) {
    Json json = Json::object();
    const Marks& m = mode.marks();
    if (m.ball) json["ball"] = place(*m.ball);
    if (m.hole) json["hole"] = place(*m.hole);
    if (m.aim) json["aim"] = place(*m.aim);
    json["drop"] = place(mode.drop_px());
    json["bar"] = place(mode.bar_px());
    for (const Target& t : mode.targets()) {
        if (t.what == What::figure)
            json[field_name(static_cast<Field>(t.index))] = place(t.hit.centre());
        if (t.what == What::play) json["play"] = place(t.hit.centre());
        if (t.what == What::offer) json["offer"] = place(t.hit.centre());
        if (t.what == What::face) json["face" + std::to_string(t.index)] = place(t.hit.centre());
        if (t.what == What::spread) json["spread"] = place(t.hit.centre());
        if (t.what == What::preset)
            json["preset" + std::to_string(t.index)] = place(t.hit.centre());
        if (t.what == What::best)
            json[words_for(static_cast<BestKind>(t.index))] = place(t.hit.centre());
        if (t.what == What::detail) json["detail"] = place(t.hit.centre());
        if (t.what == What::view) json["view" + std::to_string(t.index)] = place(t.hit.centre());
        if (t.what == What::choice)
            json["choice" + std::to_string(t.index)] = place(t.hit.centre());
    }
    return json;
}

/// As in `read --json`, and what the window knows beside.
Json odds(const ReadMode& mode) {
    const OddsShown shown = mode.odds_shown();
    Json json = odds_json(mode.setup().spread, shown.fresh ? shown.odds : std::nullopt);
    if (json.is_null()) json = spread_json(mode.setup().spread);
    json["fresh"] = shown.fresh;
    json["chance"] = number(shown.holed);
    json["outline_corners"] = mode.outlook_fresh() ? mode.outlook().outline.size() : 0;
    json["taken"] = shown.taken;
    return json;
}

PlannedPutt plan_of(const ReadMode& mode) {
    const Solved& s = mode.solved();
    PlannedPutt plan;
    plan.putt = s.putt;
    plan.stimp_ft = mode.setup().stimp_ft;
    plan.slope_at_hole = s.slope;
    plan.clock_h = s.clock_h;
    plan.mean_up = s.mean_up;
    if (mode.setup().green) plan.green = *mode.setup().green;
    plan.ball_name = mode.setup().ball_name;
    plan.hole_name = mode.setup().hole_name;
    return plan;
}

}  // namespace

Trace::Trace(const std::string& path) {
    if (path.empty()) return;
    file_.open(path);
    if (!file_) throw OutsideError("could not write " + path);
}

void Trace::write(const std::string& action, const ReadMode& mode, double frame_ms) {
    if (!file_.is_open()) return;
    const PlannedPutt plan = plan_of(mode);
    Json json = {{"action", action}, {"putt", putt_json(plan)}};
    if (mode.solved().read) {
        const Json read = read_json(plan, *mode.solved().read);
        json["start"] = read["start"];
        json["aim"] = read["aim"];
    } else {
        json["start"] = json["aim"] = nullptr;
    }
    json["odds"] = odds(mode);
    json["view"] = mode.view_words();
    json["theme"] = mode.theme() == Theme::dusk ? "dusk" : "dew";
    json["units"] = mode.units().metric ? "metric" : "imperial";
    json["text"] = mode.text();
    json["detail"] = mode.detail();
    json["commit"] = mode.commit();
    json["message"] =
        mode.message().empty() ? trouble_of(mode.solved(), mode.units()).words : mode.message();
    json["time_s"] = number(mode.playback().time_s);
    json["end_s"] = number(mode.playback().end_s);
    json["running"] = mode.playback().running;
    json["undo"] = mode.undo_depth();
    json["redo"] = mode.redo_depth();
    json["places"] = places(mode);
    json["solve_ms"] = mode.solved().solve_ms;
    json["frame_ms"] = frame_ms;
    file_ << json.dump() << std::endl;
}

}  // namespace dewtrail
