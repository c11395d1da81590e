#include "viewer/window/trace.hpp"

#include <nlohmann/json.hpp>

#include "viewer/modes/read/read_mode.hpp"
#include "viewer/practice/player.hpp"
#include "viewer/terminal/odds_report.hpp"
#include "viewer/terminal/read_report.hpp"

namespace dewtrail {
namespace {

Json place(const Vec2& px) {
    return Json::array({px.x(), px.y()});
}

Account account_of_shown(const ReadMode& mode, const Units& units) {
    const OddsShown shown = mode.odds_shown();
    const Setup& setup = mode.setup();
    KnownBeside known = known_of(setup);
    if (shown.fresh) known.odds = known_odds(setup.spread, *shown.odds);
    return account_of(mode.solved().putt, *mode.solved().read, units, known);
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
void add_read(Json& json, const ReadMode& mode, const Shell& shell) {
    const PlacedPutt plan = placed(mode.setup());
    json["putt"] = putt_json(plan);
    Json read = {{"start", nullptr}, {"aim", nullptr}, {"odds", nullptr}};
    if (mode.solved().read) read = read_json(account_of_shown(mode, shell.units()));
    json["start"] = read["start"];
    json["aim"] = read["aim"];
    json["odds"] = odds(read, mode);
    json["view"] = mode.view_words();
    json["detail"] = mode.detail();
    json["commit"] = mode.commit();
    json["message"] =
        shell.message().empty() ? trouble_of(mode.solved(), shell.units()).words : shell.message();
    json["time_s"] = number(shell.playback.time_s);
    json["end_s"] = number(shell.playback.end_s);
    json["running"] = shell.playback.running;
    json["solve_ms"] = mode.solved().solve_ms;
}

}  // namespace

Trace::Trace(const std::string& path) {
    if (path.empty()) return;
    file_.open(path);
    if (!file_) throw OutsideError("could not write " + path);
}

void Trace::write(const std::string& action, const Shell& shell, double frame_ms) {
    if (!file_.is_open()) return;
    Json json = {{"action", action}, {"mode", words_for(shell.name())}};
    json["theme"] = shell.appearance().theme == Theme::dusk ? "dusk" : "dew";
    json["units"] = shell.units().metric ? "metric" : "imperial";
    json["text"] = shell.text();
    json["message"] = shell.message();
    for (const auto& [name, value] : shell.state())
        std::visit([&, &key = name](const auto& v) { json[key] = v; }, value);
    json["places"] = Json::object();
    for (const auto& [name, px] : shell.places()) json["places"][name] = place(px);
    if (const auto* read = dynamic_cast<const ReadMode*>(&shell.mode()))
        add_read(json, *read, shell);
    json["frame_ms"] = frame_ms;
    file_ << json.dump(-1, ' ', false, Json::error_handler_t::replace) << std::endl;
}

}  // namespace dewtrail
