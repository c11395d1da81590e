#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <memory>
#include <ostream>

#include "greens/input_error.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/practice/drill/plain_read.hpp"
#include "viewer/practice/rehearse/rehearse.hpp"
#include "viewer/practice/rehearse/swell.hpp"
#include "viewer/terminal/green/green_command.hpp"
#include "viewer/terminal/putt_options.hpp"
#include "viewer/terminal/read_report.hpp"
#include "viewer/text/figures.hpp"
#include "viewer/text/quantity.hpp"
#include "viewer/text/words.hpp"

namespace dewtrail {
namespace {

struct RehearseArguments {
    PuttRequest putt;
    std::optional<std::string> level_putt, mat_stimp, mat, swell;
    bool force = false;
};

constexpr double told_from_m = 0.125 * metres_per_inch;

constexpr const char* rehearse_footer =
    "A mat's stimp is found with: dewtrail speed. The backswing comes from your stroke table, "
    "which\n"
    "is for your usual stimp: dewtrail player set --stimp 10 --stroke 20cm,3m 30cm,5m\n\n"
    "Examples:\n"
    "  dewtrail rehearse 12ft --slope 2% --clock 3 --stimp 10 --mat-stimp 12 --mat 9ft\n"
    "      The pace of that putt, on nine feet of a faster mat.\n"
    "  dewtrail rehearse --swell swell.wav\n"
    "      A tone that swells with your own pendulum, silent at the ball; to be played over and "
    "over.\n"
    "  dewtrail rehearse --level-putt 20ft --stimp 9 --mat-stimp 13";

/// All of the roll that the stroke must give on the green, metres.
std::optional<double> wanted_roll_m(const RehearseArguments& arguments, Session& session,
                                    double& stimp_ft) {
    const double past_m = session.player().usual_past_m;
    if (!arguments.level_putt) {
        const PlacedPutt plan = set_up(arguments.putt, defaults_of(session));
        stimp_ft = plan.setup.stimp_ft;
        if (!session.json()) session.out() << putt_words(plan, session.units()) << "\n\n";
        const auto best = plain_read(plan.putt, past_m);
        return best ? std::optional(best->level_roll_m) : std::nullopt;
    }
    if (arguments.putt.distance)
        throw InputError("a putt and --level-putt were both given", "give one of them");
    stimp_ft = session.player().stimp_ft.value_or(usual_stimp_ft);
    if (arguments.putt.stimp) stimp_ft = parse_stimp_ft(*arguments.putt.stimp);
    return parse_level_roll_m(*arguments.level_putt, session.units()) + past_m;
}

void print_text(Session& session, const Rehearsal& r, double mat_stimp_ft,
                std::optional<double> mat_m) {
    std::ostream& out = session.out();
    const Units units = session.units();
    print_row(out, "On the mat",
              fmt::format("{} at stimp {}; it rolls {} altogether",
                          level_putt_words(r.level_putt_m, units), format_stimp(mat_stimp_ft),
                          format_distance(r.level_roll_m, units)));
    if (r.end_speed_m_s)
        print_row(out, "It runs off",
                  fmt::format("the {} of mat after {}, still at {}; stop it with a cushion",
                              format_distance(*mat_m, units), format_time(*r.end_time_s),
                              format_speed(*r.end_speed_m_s, units)));
    if (r.backswing_m)
        print_row(out, "Backswing",
                  fmt::format("{}{}", format_length(*r.backswing_m, units),
                              *r.backswing_sd_m > told_from_m
                                  ? fmt::format(", give or take {}",
                                                format_length(*r.backswing_sd_m, units))
                                  : ""));
    else
        out << "No stroke table yet. Next: dewtrail player set --stroke 20cm,3m 30cm,5m\n";
}

/// The stroke's rhythm, to be played over and over.
Exit write_swell(Session& session, const RehearseArguments& arguments) {
    const Player& player = session.player();
    const auto own = swing_of(player, player.stimp_ft.value_or(usual_stimp_ft));
    const double swing_s = own.value_or(usual_swing_s);
    const std::filesystem::path file = *arguments.swell;
    check_ending(file, {".wav"}, "a sound");
    check_may_write(file, arguments.force);
    save_whole_file(file, wave_file(swell_samples(swing_s)));
    if (session.json())
        session.print({{"file", file.string()},
                       {"swing_s", number(swing_s)},
                       {"from_stroke_table", own.has_value()}});
    else
        session.out() << fmt::format(
            "{}: a swing of {:.2f} s, {}.\n", printable(file.string()), swing_s,
            own ? "by your stroke table" : "as usual; you have no stroke table yet");
    return Exit::done;
}

Exit run_rehearse(Session& session, const RehearseArguments& arguments) {
    if (arguments.swell) return write_swell(session, arguments);
    if (!arguments.mat_stimp)
        throw InputError("no mat stimp was given",
                         "give --mat-stimp 12; find it with: dewtrail speed --timed …");
    const double mat_stimp = parse_stimp_ft(*arguments.mat_stimp, "mat-stimp");
    std::optional<double> mat_m;
    if (arguments.mat) mat_m = parse_distance_m(*arguments.mat, session.units(), "mat");
    double stimp = usual_stimp_ft;
    const auto roll = wanted_roll_m(arguments, session, stimp);
    if (!roll || !(*roll > 0)) {
        const std::string reason = "No line: this putt has no pace to rehearse.";
        if (session.json())
            session.print({{"error", {{"kind", "no_line"}, {"reason", reason}}}});
        else
            session.err() << reason << '\n';
        return Exit::no_answer;
    }
    const Player& player = session.player();
    const Rehearsal r =
        rehearse(*roll, stimp, mat_stimp, mat_m, player, player.stimp_ft.value_or(usual_stimp_ft));
    if (session.json())
        session.print({{"speed_m_s", number(r.speed_m_s)},
                       {"mat_stimp_ft", number(mat_stimp)},
                       {"level_roll_m", number(r.level_roll_m)},
                       {"level_putt_m", number(r.level_putt_m)},
                       {"mat_end_speed_m_s", number(r.end_speed_m_s)},
                       {"mat_end_time_s", number(r.end_time_s)},
                       {"backswing_m", number(r.backswing_m)},
                       {"backswing_sd_m", number(r.backswing_sd_m)}});
    else
        print_text(session, r, mat_stimp, mat_m);
    return Exit::done;
}

}  // namespace

void add_rehearse_command(const Command& app, Session& session) {
    auto a = std::make_shared<RehearseArguments>();
    const Command command =
        app.add_subcommand("rehearse", "The same pace on a mat or floor at home");
    add_putt_options(command, a->putt);
    command.add_option("--level-putt", a->level_putt, "Instead of a putt: a level one of 12ft");
    command.add_option("--mat-stimp", a->mat_stimp, "Green speed of the mat or floor: 3 to 18 ft");
    command.add_option("--mat", a->mat, "How much of it there is: 9ft");
    command.add_option("--swell", a->swell, "Write the rhythm of your stroke as a tone: swell.wav");
    command.add_flag("--force", a->force, "Replace a file that is there");
    session.add_common_options(command);
    command.footer(rehearse_footer);
    command.callback(
        [&session, a] { session.run = [&session, a] { return run_rehearse(session, *a); }; });
}

}  // namespace dewtrail
