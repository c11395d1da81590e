#include "viewer/window/trace.hpp"

#include <nlohmann/json.hpp>

#include "viewer/modes/read/read_mode.hpp"
#include "viewer/picture/map/room_picture.hpp"
#include "viewer/practice/player.hpp"
#include "viewer/terminal/odds_report.hpp"
#include "viewer/terminal/read_report.hpp"

namespace dewtrail {
namespace {

Json place(const Vec2& px) {
    return Json::array({px.x(), px.y()});
}

/// Middles of the words of the top bar and of a list's rows.
void add_words(Json& json, const Mode& mode) {
    for (const Target& t : mode.targets()) {
        const std::string index = std::to_string(t.index);
        if (t.what == What::mode) json["mode" + index] = place(t.hit.centre());
        if (t.what == What::view) json["view" + index] = place(t.hit.centre());
        if (t.what == What::print) json["sheet"] = place(t.hit.centre());
        if (t.what == What::page) json["page" + index] = place(t.hit.centre());
        if (t.what == What::close) json["close"] = place(t.hit.centre());
    }
}

/// Middles of what else can be clicked or dragged in Read, pixels.
void add_places(Json& json, const ReadMode& mode) {
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
        if (t.what == What::choice)
            json["choice" + std::to_string(t.index)] = place(t.hit.centre());
    }
}

Account account_of_shown(const ReadMode& mode) {
    const OddsShown shown = mode.odds_shown();
    const Setup& setup = mode.setup();
    KnownBeside known = known_of(setup);
    if (shown.fresh) known.odds = known_odds(setup.spread, *shown.odds);
    return account_of(mode.solved().putt, *mode.solved().read, mode.units(), known);
}

/// The block of `read --json`, and what the window knows besides.
Json odds(const Json& read, const ReadMode& mode) {
    const OddsShown shown = mode.odds_shown();
    Json json = read["odds"];
    if (json.is_null()) json = spread_json(mode.setup().spread);
    json["fresh"] = shown.fresh;
    json["chance"] = number(shown.holed);
    json["outline_corners"] = mode.outlook_fresh() ? mode.outlook().outline.size() : 0;
    json["taken"] = shown.taken;
    return json;
}

/// What Read adds: the keys of `read --json`, and where the handles are.
void add_read(Json& json, const ReadMode& mode) {
    const PlacedPutt plan = placed(mode.setup());
    json["putt"] = putt_json(plan);
    Json read = {{"start", nullptr}, {"aim", nullptr}, {"odds", nullptr}};
    if (mode.solved().read) read = read_json(account_of_shown(mode));
    json["start"] = read["start"];
    json["aim"] = read["aim"];
    json["odds"] = odds(read, mode);
    json["view"] = mode.view_words();
    json["detail"] = mode.detail();
    json["commit"] = mode.commit();
    json["message"] =
        mode.message().empty() ? trouble_of(mode.solved(), mode.units()).words : mode.message();
    json["time_s"] = number(mode.playback().time_s);
    json["end_s"] = number(mode.playback().end_s);
    json["running"] = mode.playback().running;
    json["undo"] = mode.undo_depth();
    json["redo"] = mode.redo_depth();
    add_places(json["places"], mode);
    json["solve_ms"] = mode.solved().solve_ms;
}

}  // namespace

Trace::Trace(const std::string& path) {
    if (path.empty()) return;
    file_.open(path);
    if (!file_) throw OutsideError("could not write " + path);
}

void Trace::write(const std::string& action, const Mode& mode, double frame_ms) {
    if (!file_.is_open()) return;
    Json json = {{"action", action}, {"mode", words_for(mode.name())}};
    json["theme"] = mode.theme() == Theme::dusk ? "dusk" : "dew";
    json["units"] = mode.units().metric ? "metric" : "imperial";
    json["text"] = mode.text();
    json["message"] = mode.message();
    for (const auto& [name, value] : mode.state())
        std::visit([&, &key = name](const auto& v) { json[key] = v; }, value);
    json["places"] = Json::object();
    add_words(json["places"], mode);
    for (const auto& [name, px] : mode.places()) json["places"][name] = place(px);
    if (const auto* read = dynamic_cast<const ReadMode*>(&mode)) add_read(json, *read);
    json["frame_ms"] = frame_ms;
    file_ << json.dump(-1, ' ', false, Json::error_handler_t::replace) << std::endl;
}
}  // namespace dewtrail
