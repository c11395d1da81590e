#include "viewer/window/window_command.hpp"

#include <cmath>
#include <cstdio>
#include <memory>
#include <random>

#include "greens/green_file.hpp"
#include "greens/input_error.hpp"
#include "viewer/comparison/demonstrations.hpp"
#include "viewer/files/dates.hpp"
#include "viewer/files/folders.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/files/window_state.hpp"
#include "viewer/modes/compare/compare_mode.hpp"
#include "viewer/modes/green/green_mode.hpp"
#include "viewer/modes/measure/measure_mode.hpp"
#include "viewer/modes/practise/practise_mode.hpp"
#include "viewer/modes/review/review_mode.hpp"
#include "viewer/practice/memory.hpp"
#include "viewer/practice/rehearse/swell.hpp"
#include "viewer/putt/kept_putt.hpp"
#include "viewer/putt/presets.hpp"
#include "viewer/survey/green_save.hpp"
#include "viewer/survey/kept_green.hpp"
#include "viewer/terminal/picture_options.hpp"
#include "viewer/terminal/putt_options.hpp"
#include "viewer/text/english.hpp"
#include "viewer/window/printed_page.hpp"
#include "viewer/window/window.hpp"

namespace dewtrail {
namespace {

struct WindowArguments {
    PuttRequest putt;
    std::string screenshot, trace, size, theme = "dew", view = "plan", mode, show;
    std::optional<std::uint64_t> seed;
    std::optional<double> text, scale;
    bool detail = false, hints = false, still = false;
};

constexpr const char* footer =
    "Examples:\n"
    "  dewtrail window\n"
    "  dewtrail window --green meadow --hole flag --ball left --view eye";

/// Then the window opens on the last putt.
bool says_nothing_at_all(const PuttRequest& r) {
    return r.names_no_putt() && !r.stimp && !r.wet && !r.past && !r.hole_speed;
}

/// Stimp and finish from the command line apply to the first putt as well.
PlacedPutt planned(PuttRequest request, const PuttDefaults& defaults) {
    if (request.names_no_putt()) {
        const PuttRequest first = first_putt();
        request.distance = first.distance;
        request.slope = first.slope;
        request.clock = first.clock;
    }
    return set_up(request, defaults);
}

void set_size(ReadStart& start, const std::string& text) {
    if (text.empty()) return;
    int w = 0, h = 0, used = 0;
    const bool read = std::sscanf(text.c_str(), "%dx%d%n", &w, &h, &used) == 2 &&
                      used == static_cast<int>(text.size());
    if (!read || w < least_window_width || h < least_window_height || w > 7680 || h > 4320)
        throw InputError("size '" + text + "' is not a window's size",
                         "Write it like 1280x800; 1024x640 is the smallest.");
    start.width = w;
    start.height = h;
}

Tell tell_on(Session& session) {
    return [&session](const std::string& words) { session.err() << words << '\n'; };
}

std::uint64_t fresh_seed(const WindowArguments& arguments) {
    return arguments.seed ? *arguments.seed : std::random_device()() % 1'000'000;
}

/// Ten putts of the whole read; another session is chosen in the window.
PractiseStart practise_start(const WindowArguments& arguments, Session& session) {
    PractiseStart start;
    const Player& player = session.player();
    start.memory_folder = session.memory_folder();
    start.green_folders = green_folders();
    start.player = player;
    start.plan = usual_plan(player, fresh_seed(arguments));
    return start;
}

/// Where the survey was left, if it was not saved.
GreenStart green_start(const ReadStart& read, bool picture, const Tell& tell) {
    GreenStart start;
    start.greens = read.greens;
    start.load = read.load;
    if (picture) return start;
    start.draft = kept_green(kept_green_path(), tell);
    start.keep = [](const std::optional<GreenDraft>& draft) {
        keep_green(kept_green_path(), draft);
    };
    start.save = [](const GreenDraft& draft, bool replace) -> SavedGreen {
        const auto data = data_folder();
        if (!data) throw OutsideError("HOME is not set: there is no folder for greens");
        return save_draft(*data / "greens", draft, replace);
    };
    return start;
}

void add_modes(WindowOptions& options, const WindowArguments& arguments, Session& session) {
    options.modes.emplace_back(ModeName::compare,
                               [&arguments, &session](const Appearance& appearance) {
                                   CompareStart start;
                                   start.usual_past_m = session.player().usual_past_m;
                                   start.spread = session.player().spread;
                                   start.show = arguments.show;
                                   return Shell::with<CompareMode>(appearance, start);
                               });
    options.modes.emplace_back(
        ModeName::practise, [&arguments, &session](const Appearance& appearance) {
            return Shell::with<PractiseMode>(appearance, practise_start(arguments, session));
        });
    options.modes.emplace_back(
        ModeName::review, [setup = options.start.setup, &session](const Appearance& appearance) {
            ReviewStart start;
            start.setup = setup;
            start.usual_past_m = session.player().usual_past_m;
            start.spread = session.player().spread;
            start.memory_folder = session.memory_folder();
            return Shell::with<ReviewMode>(appearance, start);
        });
    options.modes.emplace_back(
        ModeName::green, [start = options.start, picture = !arguments.screenshot.empty(),
                          tell = tell_on(session)](const Appearance& appearance) {
            return Shell::with<GreenMode>(appearance, green_start(start, picture, tell));
        });
    options.modes.emplace_back(ModeName::measure,
                               [&arguments, &session](const Appearance& appearance) {
                                   MeasureStart start;
                                   start.memory_folder = session.memory_folder();
                                   start.player = session.player();
                                   start.seed = fresh_seed(arguments);
                                   return Shell::with<MeasureMode>(appearance, start);
                               });
    if (!arguments.show.empty()) options.first = ModeName::compare;
    for (int i = 0; i < mode_count; ++i)
        if (arguments.mode == lower_case(words_for(static_cast<ModeName>(i))))
            options.first = static_cast<ModeName>(i);
}

std::vector<std::string> mode_names() {
    std::vector<std::string> names;
    for (int i = 0; i < mode_count; ++i)
        names.push_back(lower_case(words_for(static_cast<ModeName>(i))));
    return names;
}

/// A size that was given, or the design's at the scale given now or the last time. A picture does
/// not depend on what was remembered.
void choose_size(WindowOptions& options, const WindowArguments& arguments, Session& session) {
    const bool picture = !arguments.screenshot.empty();
    WindowState state = load_window_state(window_state_path(), tell_on(session));
    if (arguments.scale && !picture && state.scale != arguments.scale) {
        state.scale = arguments.scale;
        save_window_state(window_state_path(), state);
    }
    const std::optional<double> scale = picture ? arguments.scale : state.scale;
    options.start.width = std::round(design_width * scale.value_or(1));
    options.start.height = std::round(design_height * scale.value_or(1));
    set_size(options.start, arguments.size);
    options.within_desktop = !picture && arguments.size.empty();
    options.text_by_desktop = !picture && !arguments.text;
}

/// Into the player's file, as 'dewtrail player set' does; what went wrong, or nothing.
std::string remember_spread(const std::optional<std::filesystem::path>& path, const Spread& spread,
                            const std::string& from) {
    try {
        Player player = load_player(path, IfMissing::defaults);
        player.adopt(spread, from.empty() ? "by hand" : from, today());
        save_player(path, player);
        return "";
    } catch (const InputError& error) {
        return "The spread was not kept: " + std::string(error.what());
    } catch (const OutsideError& error) {
        return "The spread was not kept: " + std::string(error.what());
    }
}

ReadStart start_of(const WindowArguments& arguments, Session& session) {
    const PuttDefaults defaults = defaults_of(session);
    ReadStart start;
    const bool unsaid = arguments.putt.names_no_putt();
    start.setup = planned(arguments.putt, defaults).setup;
    start.load = [folders = defaults.green_folders](const std::string& name) {
        return std::make_shared<const Green>(load_green(name, folders));
    };
    const bool picture = !arguments.screenshot.empty();
    if (says_nothing_at_all(arguments.putt) && !arguments.hints && !picture)
        if (const auto kept =
                kept_putt(last_putt_file_of(session.pupil()), start.load, tell_on(session)))
            start.setup = *kept;
    start.units = defaults.units;
    start.pupil = session.pupil();
    start.usual_past_m = defaults.usual_past_m;
    start.setup.spread = session.player().spread;
    start.presets = named_presets();
    start.theme = arguments.theme == "dusk" ? Theme::dusk : Theme::dew;
    start.eye = arguments.view == "eye";
    start.room = arguments.view == "room";
    start.detail = arguments.detail;
    start.text = arguments.text.value_or(1);
    start.less_motion = arguments.still;
    start.greens = [folders = defaults.green_folders] { return known_greens(folders); };
    const auto memory = window_state_path();
    const bool first =
        unsaid && arguments.screenshot.empty() && memory && !load_window_state(memory).hints_seen;
    start.first_start = arguments.hints || first;
    if (arguments.screenshot.empty()) start.solver = solver_beside();
    return start;
}

/// What goes by the player, whoever that is by then.
void add_player(WindowOptions& options, const WindowArguments& arguments, Session& session) {
    options.swing_s = [&session] { return swing_s(session.player()); };
    options.remember_spread = [&session](const Spread& spread, const std::string& from) {
        session.forget_player();
        return remember_spread(session.player_path(), spread, from);
    };
    options.keep_putt = [&session](const Setup& setup) {
        keep_putt(last_putt_file_of(session.pupil()), setup);
    };
    options.read_again = [&arguments, &session](const Appearance& appearance) {
        ReadStart start = start_of(arguments, session);
        static_cast<Appearance&>(start) = appearance;
        start.first_start = false;
        return Shell::with<ReadMode>(appearance, start);
    };
    options.pupils = {.names = [] { return pupils_here().names(); },
                      .add = add_pupil,
                      .choose =
                          [&session](const std::string& name) {
                              session.choose_pupil(name);
                              return session.units();
                          },
                      .has_own = has_own_putts,
                      .adopt_own = adopt_own_putts};
}

}  // namespace

void add_window_command(const Command& app, Session& session) {
    const Command command = app.add_subcommand("window", "Open the window, on a putt or a green");
    const auto arguments = std::make_shared<WindowArguments>();
    session.add_common_options(command);
    session.add_memory_option(command);
    add_putt_options(command, arguments->putt);
    command
        .add_option(
            "--mode", arguments->mode,
            "What to begin with: read (the default), compare, practise, review, green or measure")
        .one_of(mode_names());
    command.add_option("--show", arguments->show,
                       "Begin with a ready demonstration (see compare --show list)");
    command.add_option("--seed", arguments->seed, "Of the putts that are dealt in practise");
    command.add_option("--view", arguments->view, "plan, eye or room")
        .one_of({"plan", "eye", "room"});
    command.add_option("--theme", arguments->theme, "dew (light) or dusk (dark)")
        .one_of({"dew", "dusk"});
    command.add_option("--text", arguments->text, "Size of type: 1, 1.25 or 1.5")
        .one_of_numbers({1.0, 1.25, 1.5});
    command.add_flag("--detail", arguments->detail, "Coach detail open");
    command.add_option("--size", arguments->size, "Window size in pixels, like 1280x800");
    command
        .add_option("--scale", arguments->scale,
                    "Window this many times 1280x800, 0.8 to 4; remembered")
        .within(least_window_scale, most_window_scale);
    command.add_flag("--still", arguments->still,
                     "Less motion: nothing eases, nothing rolls by itself");
    command.add_flag("--hints", arguments->hints, "Show the first hints again");
    command.add_option("--screenshot", arguments->screenshot,
                       "Write the first picture to a PNG file and end");
    command.add_option("--trace", arguments->trace, "Write what happens as JSON lines");
    command.footer(footer);
    command.callback([arguments, &session] {
        session.run = [arguments, &session] {
            if (!arguments->show.empty()) check_demonstration(arguments->show);
            if (!arguments->screenshot.empty()) check_picture(arguments->screenshot);
            WindowOptions options;
            options.start = start_of(*arguments, session);
            choose_size(options, *arguments, session);
            add_modes(options, *arguments, session);
            options.screenshot = arguments->screenshot;
            options.trace = arguments->trace;
            options.hints_done = [] { remember_hints(window_state_path()); };
            add_player(options, *arguments, session);
            options.print = [&session](const Wish& wish, const Units& units) {
                return print_page(wish, units, session);
            };
            return run_window(std::move(options));
        };
    });
}

}  // namespace dewtrail
