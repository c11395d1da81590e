#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <cmath>
#include <memory>
#include <ostream>

#include "greens/input_error.hpp"
#include "physics/read/told_stroke.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/paper/roll_picture.hpp"
#include "viewer/terminal/animation.hpp"
#include "viewer/terminal/busy.hpp"
#include "viewer/terminal/picture_options.hpp"
#include "viewer/terminal/putt_options.hpp"
#include "viewer/terminal/read_report.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/clock_and_angle.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/hole_words.hpp"
#include "viewer/text/outcome.hpp"
#include "viewer/text/quantity.hpp"

namespace dewtrail {
namespace {

struct RollArguments {
    PuttRequest putt;
    std::optional<std::string> aim, angle;
    std::optional<std::string> level_putt, level_roll, speed;
    bool path = false;
    PictureOptions picture;
    std::optional<std::string> animate;
};

constexpr const char* roll_footer =
    "A line or a pace that is not given is the read's own.\n"
    "Examples:\n"
    "  dewtrail roll 12ft --slope 2% --clock 3 --aim '8in right' --level-putt 12ft\n"
    "      Aimed 8 in right of the centre, hit like a level 12-footer: where does it go?\n"
    "  dewtrail roll 12ft --slope 2% --clock 3 --aim '1 cup right'\n"
    "      The read's own pace on a lower line.\n"
    "  dewtrail roll 12ft --slope 2% --clock 3 --animate roll.gif\n"
    "      The read itself, as a film.";

void refuse_two(int given, const char* what, const char* remedy) {
    if (given > 1) throw InputError(fmt::format("more than one {} was given", what), remedy);
}

/// The read whose line or pace stands in for what was not said.
std::optional<Read> stand_in_read(const PlacedPutt& plan, const ReadOptions& options) {
    ReadOptions bare = options;
    bare.room = bare.costs = bare.open_hole = false;
    auto result = read(plan.putt, bare);
    if (result.lines.empty()) return std::nullopt;
    return result.lines.front();
}

double angle_of(const RollArguments& arguments, const PlacedPutt& plan, const Units& units) {
    if (arguments.angle) return parse_angle_rad(*arguments.angle);
    return start_angle_rad(plan.putt, parse_aim_offset_m(*arguments.aim, units));
}

double speed_of(const RollArguments& arguments, const PlacedPutt& plan, const Player& player) {
    const Units units = player.units();
    double speed = 0;
    if (arguments.speed) {
        speed = parse_speed_m_s(*arguments.speed, units);
    } else {
        const double level =
            arguments.level_roll
                ? parse_level_roll_m(*arguments.level_roll, units, "level roll")
                : parse_level_roll_m(*arguments.level_putt, units) + player.usual_past_m;
        speed = level > 0 ? launch_speed_m_s(plan.putt, level) : 0;
    }
    if (!(speed > 0))
        throw InputError("the ball would not move",
                         "Give a pace above nothing: --level-putt 12ft.");
    return speed;
}

std::optional<Stroke> stroke_of(const RollArguments& arguments, const PlacedPutt& plan,
                                const Player& player, const ReadOptions& options) {
    const bool line = arguments.aim || arguments.angle;
    const bool pace = arguments.level_putt || arguments.level_roll || arguments.speed;
    std::optional<Read> own;
    if (!line || !pace) {
        own = stand_in_read(plan, options);
        if (!own) return std::nullopt;
    }
    return Stroke{line ? angle_of(arguments, plan, player.units()) : own->stroke.angle_rad,
                  pace ? speed_of(arguments, plan, player) : own->stroke.speed_m_s};
}

/// What becomes of the stroke, in the words of a miss.
struct Verdict {
    std::string words;
    bool holed = false;
};

/// It ends farther from the hole than it set off, or never ends: friction could not hold it.
bool rolls_back(const PlacedPutt& plan, const Roll& roll) {
    return in_player_frame(plan.putt, roll.last.at).along_m < 0 ||
           roll.end == RollEnd::keeps_rolling;
}

Verdict verdict_of(const PlacedPutt& plan, const Read& rolled) {
    const OpenRoll& open = *rolled.open;
    if (!open.meetings.empty()) return {verdict_at_hole(plan.putt, open), open.holed};
    const Outcome outcome = outcome_of(plan.putt, rolled);
    if (outcome.plainly_short())
        return {rolls_back(plan, rolled.roll) ? "short, and rolls back" : "short", false};
    return {
        fmt::format("missed, {}{}", side_words(outcome.side), outcome.short_of ? ", short" : ""),
        false};
}

Json leave_json(const PlacedPutt& plan, const OpenRoll& roll) {
    if (roll.holed || roll.end == RollEnd::keeps_rolling) return nullptr;
    const Vec2 off = roll.last.at - plan.putt.hole;
    return {{"distance_m", number(off.norm())},
            {"clock_h", number(clock_of(plan.putt, roll.last.at))},
            {"x_m", number(roll.last.at.x())},
            {"y_m", number(roll.last.at.y())}};
}

/// How it left the hole the first time, if that is how: place, heading and speed there.
Json out_json(const PlacedPutt& plan, const OpenRoll& roll, HoleOutcome::How how) {
    if (roll.meetings.empty() || roll.meetings.front().outcome.how != how) return nullptr;
    const HoleMeeting& meeting = roll.meetings.front();
    const PathPoint exit = exit_of(plan.putt, meeting);
    const RimArrival arrival = arrival_at(plan.putt, meeting.rim);
    return {{"side", side_words(side_of(arrival.offset_m, arrival.slope_right))},
            {"exit_speed_m_s", number(exit.speed_m_s)},
            {"turn_deg", number(meeting.outcome.turn_rad * degrees_per_rad)},
            {"exit_x_m", number(exit.at.x())},
            {"exit_y_m", number(exit.at.y())},
            {"time_s", number(exit.time_s)}};
}

void print_roll_json(Session& session, const PlacedPutt& plan, const Read& rolled,
                     const Verdict& verdict, bool path) {
    const Roll& roll = rolled.roll;
    const OpenRoll& open = *rolled.open;
    const PathPoint& nearest = roll.pass.value_or(roll.last);
    const PlayerPoint at = in_player_frame(plan.putt, nearest.at);
    Json full = read_json(account_of(plan.putt, rolled, session.units()));
    Json json = {{"putt", putt_json(plan)},
                 {"start", full["start"]},
                 {"aim", full["aim"]},
                 {"stand_in_hole", full["stand_in_hole"]},
                 {"apex", full["apex"]},
                 {"turns", full["turns"]},
                 {"holed", verdict.holed},
                 {"how", verdict.words},
                 {"entry", open.meetings.empty() ? Json(nullptr) : full["entry"]},
                 {"lip_out", out_json(plan, open, HoleOutcome::How::lips_out)},
                 {"hop", out_json(plan, open, HoleOutcome::How::hops_over)},
                 {"times_at_hole", open.meetings.size()},
                 {"room", full["room"]},
                 {"nearest",
                  {{"miss_m", number((nearest.at - plan.putt.hole).norm())},
                   {"along_m", number(at.along_m)},
                   {"offset_m", number(at.offset_m)},
                   {"speed_m_s", number(nearest.speed_m_s)},
                   {"time_s", number(nearest.time_s)}}},
                 {"end", open.holed ? "in the hole" : describe(open.end)},
                 {"leave", leave_json(plan, open)},
                 {"notes", plan.notes}};
    if (path) json["path"] = path_json(open.path, followed_arc_m(roll));
    session.print(json);
}

std::string leave_words(const PlacedPutt& plan, const OpenRoll& roll, const Units& units) {
    if (roll.end == RollEnd::keeps_rolling) return "nothing: it keeps rolling on this slope";
    if (roll.end == RollEnd::left_the_green) return "nothing: it ran off the green";
    const double left = (roll.last.at - plan.putt.hole).norm();
    const auto clock = clock_of(plan.putt, roll.last.at);
    return fmt::format("{}{}", format_distance(left, units),
                       clock ? ", ball at " + format_clock(*clock) : "");
}

void print_roll_text(Session& session, const PlacedPutt& plan, const Read& rolled,
                     const Verdict& verdict) {
    std::ostream& out = session.out();
    const Units units = session.units();
    const PlayerPoint at =
        in_player_frame(plan.putt, rolled.roll.pass.value_or(rolled.roll.last).at);
    const OpenRoll& open = *rolled.open;
    out << putt_words(plan, units) << "\n\n" << verdict.words;
    if (!open.meetings.empty() && !open.holed && open.end == RollEnd::at_rest)
        out << ", " << format_distance((open.last.at - plan.putt.hole).norm(), units) << " left";
    out << '\n';
    const Account account = account_of(plan.putt, rolled, units);
    for (const Glyph told : {Glyph::aim, Glyph::stand_in}) print_row(out, *account.row(told));
    const bool beside = std::abs(at.offset_m) >= hole_radius_m;
    if (open.meetings.empty() && rolled.roll.pass && beside)
        print_row(out, "Missed by",
                  fmt::format("{}, {}", format_length(at.offset_m, units),
                              side_words(side_of(plan.putt, at.offset_m))));
    if (!verdict.holed) print_row(out, "Leaves", leave_words(plan, open, units));
    if (verdict.holed)
        print_row(out, "Time", format_time(open.meetings.back().rim.time_s));
    else if (open.end == RollEnd::at_rest)
        print_row(out, "Time", format_time(open.last.time_s));
    print_notes(out, plan.notes);
}

/// The stroke on the plan, at its end or as a film in real time.
void save_pictures(Session& session, const RollArguments& arguments, const PlacedPutt& plan,
                   const Read& rolled, const Verdict& verdict) {
    if (!arguments.picture.png && !arguments.animate) return;
    constexpr double frames_per_s = 25, stays_s = 1.2;
    const RollPicture picture(plan, rolled, verdict.words, session.units(),
                              arguments.picture.look());
    if (arguments.picture.png)
        save_whole_file(*arguments.picture.png, picture.png(picture.end_s()));
    if (!arguments.animate) return;
    Busy busy(session, "Animating");
    const int frames = static_cast<int>(std::ceil((picture.end_s() + stays_s) * frames_per_s));
    save_animation(*arguments.animate,
                   {.width = RollPicture::width,
                    .height = RollPicture::height,
                    .frames = frames,
                    .frames_per_s = frames_per_s,
                    .frame = [&](int i) {
                        busy.at(static_cast<double>(i) / frames);
                        return picture.bgr0(std::min(i / frames_per_s, picture.end_s()));
                    }});
}

Exit run_roll(Session& session, const RollArguments& arguments) {
    check_picture(arguments.picture.png);
    if (arguments.animate)
        check_animation(*arguments.animate);
    else
        check_picture(arguments.picture);
    refuse_two(arguments.aim.has_value() + arguments.angle.has_value(), "line",
               "Use --aim or --angle.");
    refuse_two(arguments.level_putt.has_value() + arguments.level_roll.has_value() +
                   arguments.speed.has_value(),
               "pace", "Use --level-putt, --level-roll or --speed.");
    const PlacedPutt plan = set_up(arguments.putt, defaults_of(session));
    ReadOptions options;
    options.usual_past_m = session.player().usual_past_m;
    options.keep_path = arguments.path || arguments.picture.png || arguments.animate;
    options.open_hole = true;
    const auto stroke = stroke_of(arguments, plan, session.player(), options);
    session.caution();
    if (!stroke) {
        const bool has_line = arguments.aim || arguments.angle;
        const std::string reason = fmt::format(
            "This putt has no read to take the {} from ('dewtrail read' says why). Give "
            "it: {}.",
            has_line ? "pace" : "line", has_line ? "--level-putt 12ft" : "--aim centre");
        if (session.json())
            session.print({{"error", {{"kind", "no_line"}, {"reason", reason}}}});
        else
            session.err() << reason << '\n';
        return Exit::no_answer;
    }
    const Read rolled = describe_stroke(plan.putt, *stroke, options);
    const Verdict verdict = verdict_of(plan, rolled);
    save_pictures(session, arguments, plan, rolled, verdict);
    if (session.json())
        print_roll_json(session, plan, rolled, verdict, arguments.path);
    else
        print_roll_text(session, plan, rolled, verdict);
    print_picture(session, arguments.picture.png);
    print_picture(session, arguments.animate);
    return Exit::done;
}

}  // namespace

void add_roll_command(const Command& app, Session& session) {
    const Command command =
        app.add_subcommand("roll", "What a given stroke does: line and pace in, where it goes out");
    auto arguments = std::make_shared<RollArguments>();
    add_putt_options(command, arguments->putt);
    add_condition_options(command, arguments->putt.conditions);
    constexpr const char* group = "Stroke";
    command
        .add_option("--aim", arguments->aim,
                    "Where it is aimed: '15in right', '2 cups left', centre")
        .group(group);
    command.add_option("--angle", arguments->angle, "… or its start angle: '5.9deg right', -3")
        .group(group);
    command.add_option("--level-putt", arguments->level_putt, "Hit like a level putt of: 12ft")
        .group(group);
    command.add_option("--level-roll", arguments->level_roll, "… or to roll on the level: 13ft")
        .group(group);
    command.add_option("--speed", arguments->speed, "… or leaving at: 6.8ft/s").group(group);
    command.add_flag("--path", arguments->path, "The whole path as well (with --json)");
    add_picture_options(command, arguments->picture, "The roll from above");
    command
        .add_option("--animate", arguments->animate,
                    "… as a film in real time: a .gif or .mp4; ffmpeg makes it")
        .group("Picture");
    session.add_common_options(command);
    command.footer(roll_footer);
    command.callback([&session, arguments] {
        session.run = [&session, arguments] { return run_roll(session, *arguments); };
    });
}

}  // namespace dewtrail
