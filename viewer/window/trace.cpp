#include "viewer/window/trace.hpp"

#include "viewer/practice/player.hpp"
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
        if (t.what == What::choice)
            json["choice" + std::to_string(t.index)] = place(t.hit.centre());
    }
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
