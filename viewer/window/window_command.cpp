#include "viewer/window/window_command.hpp"

#include <cstdlib>
#include <fstream>
#include <memory>

#include "greens/green_file.hpp"
#include "greens/input_error.hpp"
#include "viewer/practice/presets.hpp"
#include "viewer/terminal/putt_options.hpp"
#include "viewer/window/window.hpp"

namespace dewtrail {
namespace {

struct WindowArguments {
    PuttRequest putt;
    std::string screenshot, trace, size, theme = "dew", view = "plan";
    double text = 1;
    bool detail = false, hints = false, still = false;
};

constexpr const char* footer =
    "Examples:\n"
    "  dewtrail window\n"
    "  dewtrail window --green meadow --hole flag --ball left --view eye";

/// The putt a newcomer sees.
PuttRequest first_putt() {
    PuttRequest request;
    request.distance = "12ft";
    request.slope = "2%";
    request.clock = "3";
    return request;
}

bool says_nothing(const PuttRequest& r) {
    return !r.distance && !r.slope && !r.clock && !r.up && !r.down && !r.falls_left &&
           !r.falls_right && r.readings.empty() && !r.rise && !r.drop && !r.green;
}

/// What was said about stimp and finish goes onto the first putt as well.
PlannedPutt planned(PuttRequest request, const PuttDefaults& defaults) {
    if (says_nothing(request)) {
        const PuttRequest first = first_putt();
        request.distance = first.distance;
        request.slope = first.slope;
        request.clock = first.clock;
    }
    return plan_putt(request, defaults);
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

/// A file that is there once the hints have been seen.
std::filesystem::path hints_file() {
    const char* data = std::getenv("XDG_DATA_HOME");
    const char* home = std::getenv("HOME");
    if (data && *data == '/') return std::filesystem::path(data) / "dewtrail" / "hints-seen";
    if (home && *home == '/')
        return std::filesystem::path(home) / ".local/share/dewtrail/hints-seen";
    return {};
}

/// Best effort: if it cannot be written the hints come again.
void remember_hints() {
    const auto file = hints_file();
    if (file.empty()) return;
    std::error_code failed;
    std::filesystem::create_directories(file.parent_path(), failed);
    std::ofstream(file) << "seen\n";
}

/// Into the player's file, as 'dewtrail player set' does; what went wrong, or nothing.
std::string remember_spread(const std::optional<std::filesystem::path>& path,
                            const Spread& spread) {
    try {
        Player player = load_player(path, IfMissing::defaults);
        player.spread = spread;
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
    const bool unsaid = says_nothing(arguments.putt);
    start.setup = setup_of(planned(arguments.putt, defaults));
    start.units = defaults.units;
    start.usual_past_m = defaults.usual_past_m;
    start.setup.spread = session.player().spread;
    for (const SpreadPreset& preset : spread_presets)
        start.presets.push_back({std::string(preset.name), preset.spread});
    start.theme = arguments.theme == "dusk" ? Theme::dusk : Theme::dew;
    start.eye = arguments.view == "eye";
    start.room = arguments.view == "room";
    start.detail = arguments.detail;
    start.text = arguments.text;
    start.less_motion = arguments.still;
    start.greens = known_greens(defaults.green_folders);
    start.load = [folders = defaults.green_folders](const std::string& name) {
        return std::make_shared<const Green>(load_green(name, folders));
    };
    const auto seen = hints_file();
    std::error_code ignored;
    const bool first = unsaid && arguments.screenshot.empty() && !seen.empty() &&
                       !std::filesystem::exists(seen, ignored);
    start.first_start = arguments.hints || first;
    set_size(start, arguments.size);
    return start;
}

}  // namespace

void add_window_command(CLI::App& app, Session& session) {
    auto* command = app.add_subcommand("window", "Open the window, on a putt or a green");
    const auto arguments = std::make_shared<WindowArguments>();
    session.add_common_options(*command);
    add_putt_options(*command, arguments->putt);
    command->add_option("--view", arguments->view, "plan, eye or room")
        ->check(CLI::IsMember({"plan", "eye", "room"}));
    command->add_option("--theme", arguments->theme, "dew (light) or dusk (dark)")
        ->check(CLI::IsMember({"dew", "dusk"}));
    command->add_option("--text", arguments->text, "Size of type: 1, 1.25 or 1.5")
        ->check(CLI::Range(1.0, 1.5));
    command->add_flag("--detail", arguments->detail, "Coach detail open");
    command->add_option("--size", arguments->size, "Window size in pixels, like 1280x800");
    command->add_flag("--still", arguments->still,
                      "Less motion: nothing eases, nothing rolls by itself");
    command->add_flag("--hints", arguments->hints, "Show the first hints again");
    command->add_option("--screenshot", arguments->screenshot,
                        "Write the first picture to a PNG file and end");
    command->add_option("--trace", arguments->trace, "Write what happens as JSON lines");
    command->footer(footer);
    command->callback([arguments, &session] {
        session.run = [arguments, &session] {
            WindowOptions options;
            options.start = start_of(*arguments, session);
            options.screenshot = arguments->screenshot;
            options.trace = arguments->trace;
            options.hints_done = remember_hints;
            options.remember_spread = [path = session.player_path()](const Spread& spread) {
                return remember_spread(path, spread);
            };
            return run_window(std::move(options));
        };
    });
}

}  // namespace dewtrail
