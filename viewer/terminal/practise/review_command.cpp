#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <ostream>

#include "greens/input_error.hpp"
#include "greens/text_file.hpp"
#include "physics/roll/green_speed.hpp"
#include "viewer/practice/drill/plain_read.hpp"
#include "viewer/practice/habits/practice_words.hpp"
#include "viewer/practice/memory.hpp"
#include "viewer/practice/review/review_log.hpp"
#include "viewer/terminal/busy.hpp"
#include "viewer/terminal/putt_options.hpp"
#include "viewer/terminal/read_report.hpp"
#include "viewer/text/aim.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

struct ReviewArguments {
    PuttRequest putt;
    std::optional<std::string> aim, level_putt, left, missed, csv;
    std::vector<std::int64_t> putts;
    std::optional<int> last;
    bool holed = false;
};

constexpr const char* review_footer =
    "A line or a pace that is not given was the read's own. The hole is taken as covered.\n\n"
    "Examples:\n"
    "  dewtrail review 12ft --slope 2% --clock 3 --left '2ft past 6in left'\n"
    "      Meant the read, ended there: the stroke that did it, and what most likely went wrong.\n"
    "  dewtrail review 12ft --slope 2% --clock 3 --aim '1 cup right' --missed 'low long'\n"
    "  dewtrail review --last 5\n"
    "      The last five logged putts together.";

constexpr double sds_of_95_percent = 1.96;

struct ReviewedPutts {
    std::vector<PlayedPutt> putts;
    bool exact = false;  ///< of one putt: the stroke can be solved
    int left_out = 0;
};

[[noreturn]] void refuse_result() {
    throw InputError("where did it end?",
                     "add --left '2ft past 6in left', or --missed 'low long', or --holed");
}

ReviewedPutts one_putt(Session& session, const ReviewArguments& arguments, const PlacedPutt& plan) {
    const Units units = session.units();
    if (!arguments.left && !arguments.missed) refuse_result();
    const Leave leave = arguments.left ? parse_leave(*arguments.left, units) : Leave{};
    const std::string missed = arguments.missed ? parse_missed(*arguments.missed) : "";
    const auto rest = told_rest(plan.putt, leave, missed);
    if (!rest) refuse_result();
    std::optional<double> aim_m, level_putt_m;
    if (arguments.aim) aim_m = parse_aim_offset_m(*arguments.aim, units);
    if (arguments.level_putt) level_putt_m = parse_level_roll_m(*arguments.level_putt, units);
    ReviewedPutts reviewed;
    reviewed.exact = rest->exact;
    if (auto played = played_putt(plan, aim_m, level_putt_m, *rest, session.player().usual_past_m))
        reviewed.putts.push_back(*played);
    return reviewed;
}

std::vector<LoggedPutt> logged_putts(Session& session, const ReviewArguments& arguments) {
    if (arguments.csv)
        return read_putts_csv(*arguments.csv, read_text_file(*arguments.csv, 50'000'000),
                              session.units());
    const auto all = Memory(session.memory_folder(Session::Use::looks)).putts();
    std::vector<LoggedPutt> putts;
    if (arguments.last) {
        const auto count =
            std::min(all.size(), static_cast<std::size_t>(std::max(1, *arguments.last)));
        putts.assign(all.end() - static_cast<std::ptrdiff_t>(count), all.end());
    }
    for (const std::int64_t id : arguments.putts) {
        const auto found = std::find_if(all.begin(), all.end(),
                                        [&](const LoggedPutt& putt) { return putt.id == id; });
        if (found == all.end())
            throw InputError(fmt::format("no putt {} is logged", id), "see dewtrail log list");
        putts.push_back(*found);
    }
    return putts;
}

ReviewedPutts several_putts(Session& session, const ReviewArguments& arguments) {
    ReviewedPutts reviewed;
    for (const LoggedPutt& logged : logged_putts(session, arguments)) {
        const auto played = played_putt(logged, session.player());
        if (!played) {
            ++reviewed.left_out;
            continue;
        }
        reviewed.putts.push_back(*played);
        reviewed.exact = logged.past_m.has_value();
    }
    return reviewed;
}

Doubts doubts_for(Session& session, const ReviewArguments& arguments) {
    Doubts doubts = doubts_of(session.player().spread);
    if (arguments.putt.slope_sure)
        doubts.slope = parse_slope(*arguments.putt.slope_sure, "slope-sure") / sds_of_95_percent;
    if (arguments.putt.stimp_sure)
        doubts.stimp_ft =
            parse_stimp_change_ft(*arguments.putt.stimp_sure, "stimp-sure") / sds_of_95_percent;
    doubts.slope = std::max(doubts.slope, 1e-5);
    doubts.stimp_ft = std::max(doubts.stimp_ft, 1e-3);
    return doubts;
}

/// A stroke in the words of a read.
std::string stroke_words(const PlayedPutt& played, const Stroke& stroke, double past_m,
                         const Units& units) {
    const double level =
        level_roll_m(stroke.speed_m_s, played.putt.resistance, played.putt.conditions) - past_m;
    const bool aims = std::abs(stroke.angle_rad) < M_PI / 2;
    const std::string aim =
        aims ? aim_with_figure(played.putt.distance_m() * std::tan(stroke.angle_rad), units)
             : format_degrees(stroke.angle_rad * 180 / M_PI);
    return fmt::format("{}\n{}", aim, level_putt_words(level, units));
}

Json split_json(const Split& split) {
    Json parts = Json::object();
    const char* const keys[] = {"slope", "stimp", "line", "pace"};
    const char* const units[] = {"slope", "stimp_ft", "angle_deg", "pace"};
    for (int i = 0; i < cause_count; ++i) {
        const Part& part = split.parts[i];
        const double scale = static_cast<Cause>(i) == Cause::line ? 180 / M_PI : 1;
        parts[keys[i]] = {{units[i], number(part.size * scale)},
                          {"sd", number(part.sd * scale)},
                          {"moved_m", number(part.moved_m)},
                          {"chance", number(part.chance)}};
    }
    const auto named = [&](std::size_t i) -> Json {
        if (i >= split.likely.size()) return nullptr;
        return keys[static_cast<int>(split.likely[i])];
    };
    return {{"parts", parts},
            {"most_likely", named(0)},
            {"then", named(1)},
            {"stands_out", split.stands_out()},
            {"cannot_tell", split.cannot_tell()}};
}

Json stroke_json(const PlayedPutt& played, const Stroke& stroke) {
    return {{"angle_deg", number(stroke.angle_rad * 180 / M_PI)},
            {"speed_m_s", number(stroke.speed_m_s)},
            {"level_roll_m", number(level_roll_m(stroke.speed_m_s, played.putt.resistance,
                                                 played.putt.conditions))}};
}

Exit no_answer(Session& session, const std::string& reason) {
    if (session.json())
        session.print({{"error", {{"kind", "no_review"}, {"reason", reason}}}});
    else
        session.err() << reason << '\n';
    return Exit::no_answer;
}

void print_parts(Session& session, const Split& split, const Reviewed& of) {
    std::vector<std::vector<std::string>> rows{{"cause", "off by", "moved the ball", "chance"}};
    const auto told = split.told_chances();
    for (const Cause cause : {Cause::slope, Cause::stimp, Cause::line, Cause::pace}) {
        const Part& part = split.part(cause);
        const int chance = told[static_cast<std::size_t>(cause)];
        const std::string words = cause_part_words(cause, part, of, session.units());
        rows.push_back({std::string(name_of(cause)), words.substr(words.find(": ") + 2),
                        part.moved ? format_length(part.moved_m, session.units()) : absent,
                        part.moved ? fmt::format("{} %", chance) : absent});
    }
    print_table(session.out(), rows);
}

/// First whether the plan itself could have gone in, then what went wrong with it.
void print_plan(Session& session, const PlayedPutt& played, double past_m) {
    const double aim_m = played.putt.distance_m() * std::tan(played.meant.angle_rad);
    const double level_putt_m =
        level_roll_m(played.meant.speed_m_s, played.putt.resistance, played.putt.conditions) -
        past_m;
    const std::string words = plan_words(played.putt, aim_m, level_putt_m, past_m, session.units());
    if (!words.empty()) session.out() << words << '\n';
}

Exit print_review(Session& session, const ReviewedPutts& reviewed, const Split& split,
                  const std::optional<SolvedStroke>& solved) {
    const Units units = session.units();
    const PlayedPutt& first = reviewed.putts.front();
    const double past_m = session.player().usual_past_m;
    if (session.json()) {
        Json json = {{"putts", reviewed.putts.size()}, {"left_out", reviewed.left_out}};
        if (reviewed.putts.size() == 1) {
            json["meant"] = stroke_json(first, first.meant);
            json["struck"] = solved ? stroke_json(first, solved->stroke) : Json(nullptr);
            json["check"] =
                solved ? Json{{"rest_error_m", number(solved->error_m)}} : Json(nullptr);
        }
        json["split"] = split_json(split);
        session.print(json);
        return Exit::done;
    }
    if (reviewed.putts.size() == 1) {
        print_row(session.out(), "Meant", stroke_words(first, first.meant, past_m, units));
        if (solved)
            print_row(session.out(), "Struck", stroke_words(first, solved->stroke, past_m, units));
    } else {
        session.out() << fmt::format("{} putts together.\n", reviewed.putts.size());
    }
    if (reviewed.left_out > 0)
        session.out() << fmt::format("{} left out: holed, or no slope, clock or end is known.\n",
                                     reviewed.left_out);
    const Reviewed means = means_of(reviewed.putts);
    session.out() << '\n';
    if (reviewed.putts.size() == 1) print_plan(session, first, past_m);
    for (const std::string& sentence : verdict_words(split, means, units))
        session.out() << sentence << '\n';
    session.out() << '\n';
    print_parts(session, split, means);
    return Exit::done;
}

Exit run_review(Session& session, const ReviewArguments& arguments) {
    const bool from_log = arguments.last || arguments.csv || !arguments.putts.empty();
    ReviewedPutts reviewed;
    if (from_log) {
        reviewed = several_putts(session, arguments);
        if (reviewed.putts.empty())
            return no_answer(session,
                             "None of these putts can be reviewed. Log them with --slope, --clock "
                             "and --left or --missed.");
    } else {
        if (!arguments.putt.distance && !arguments.putt.green)
            throw InputError(
                "which putt?",
                "give it as in dewtrail read, with --left or --missed: dewtrail review "
                "12ft --slope 2% --clock 3 --left '2ft past'; or --last 5 of the log");
        const PlacedPutt plan = set_up(arguments.putt, defaults_of(session));
        if (arguments.holed) return no_answer(session, "Holed: there is nothing to split.");
        reviewed = one_putt(session, arguments, plan);
        if (!session.json()) session.out() << putt_words(plan, session.units()) << "\n\n";
    }
    session.caution();
    if (reviewed.putts.empty())
        return no_answer(session, "This putt has no read; give both --aim and --level-putt.");
    const Doubts doubts = doubts_for(session, arguments);
    const auto split = while_busy(session, "Weighing what went wrong …",
                                  [&] { return split_of(reviewed.putts, doubts); });
    if (!split)
        return no_answer(
            session, "No review: on this slope a ball would hardly stop. Check slope and stimp.");
    const bool solvable = reviewed.putts.size() == 1 && reviewed.exact;
    const auto solved = solvable ? stroke_that_ends_at(reviewed.putts.front()) : std::nullopt;
    return print_review(session, reviewed, *split, solved);
}

}  // namespace

void add_review_command(const Command& app, Session& session) {
    auto a = std::make_shared<ReviewArguments>();
    const Command command = app.add_subcommand(
        "review", "After a putt: was it the read, the speed, the line or the pace?");
    add_putt_options(command, a->putt);
    add_sure_options(command, a->putt);
    constexpr const char* group = "What was meant, and how it ended";
    command.add_option("--aim", a->aim, "Meant: '15in right', '2 cups left', centre").group(group);
    command.add_option("--level-putt", a->level_putt, "Meant: like a level putt of: 12ft")
        .group(group);
    command.add_option("--left", a->left, "It stopped, seen from the ball: '2ft past 6in left'")
        .group(group);
    command.add_option("--missed", a->missed, "… or only how: 'low long'").group(group);
    command.add_flag("--holed", a->holed, "It went in").group(group);
    constexpr const char* log = "Logged putts instead";
    command.add_option("--last", a->last, "The last so many").group(log);
    command.add_option("--putt", a->putts, "This one, by its number; again for each").group(log);
    command.add_option("--csv", a->csv, "Those of a result form or an export").group(log);
    session.add_memory_option(command);
    session.add_common_options(command);
    command.footer(review_footer);
    command.callback(
        [&session, a] { session.run = [&session, a] { return run_review(session, *a); }; });
}

}  // namespace dewtrail
