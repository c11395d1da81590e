#include "viewer/terminal/pocket_command.hpp"

#include <fmt/format.h>

#include "greens/input_error.hpp"
#include "greens/text_file.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/putt/kept_putt.hpp"
#include "viewer/terminal/putt_options.hpp"

namespace dewtrail {
namespace fs = std::filesystem;
namespace {

struct PocketArguments {
    PuttRequest putt;
    std::string out, page;
    bool force = false;
};

constexpr std::uintmax_t most_page_bytes = 64u << 20;
constexpr std::string_view place_of_putt = "id=\"start-putt\">";
constexpr const char* footer =
    "One file, for any browser, a phone's too: the whole program, with nothing to install, and\n"
    "nothing that it sends anywhere.\n\n"
    "Example:\n"
    "  dewtrail pocket 12ft --slope 2% --clock 3 --out lesson.html";

/// Beside the program where it is installed, else where it was built.
fs::path built_page() {
    std::error_code unknown;
    const auto program = fs::read_symlink("/proc/self/exe", unknown);
    const auto installed = program.parent_path().parent_path() / "share/dewtrail/dewtrail.html";
    if (fs::exists(installed, unknown)) return installed;
    return DEWTRAIL_PAGE;
}

std::string page_text(const PocketArguments& arguments) {
    const fs::path page = arguments.page.empty() ? built_page() : fs::path(arguments.page);
    std::error_code unknown;
    if (!fs::is_regular_file(page, unknown))
        throw InputError("the page is not built yet", "Build it once with './viewer/run pocket'.");
    return read_text_file(page, most_page_bytes);
}

/// As the page reads it. It brings the greens that come with the program, and no others.
std::string putt_text(const PuttRequest& request, Session& session) {
    const Setup setup = set_up(request, defaults_of(session)).setup;
    if (setup.green && setup.green->file.parent_path() != green_folders().back())
        throw InputError("the page brings only the greens that come with the program",
                         "Give the slope where the putt is, or one of those greens.");
    std::string text = kept_text(setup);
    for (std::size_t at = 0; (at = text.find('<', at)) != text.npos;)
        text.replace(at, 1, "\\u003C");  // of a name: it would end the place where the putt stands
    return text;
}

Exit run_pocket(const PocketArguments& arguments, Session& session) {
    check_may_write(arguments.out, arguments.force);
    std::string page = page_text(arguments);
    const std::size_t place = page.find(place_of_putt);
    if (place == page.npos)
        throw InputError(fmt::format("{} is no page of this program", arguments.page),
                         "Build it with './viewer/run pocket'.");
    const std::string putt = putt_text(arguments.putt, session);
    const std::size_t from = place + place_of_putt.size();
    page.replace(from, page.find('<', from) - from, putt);
    save_whole_file(arguments.out, page);
    session.out() << fmt::format("{} opens on this putt, in any browser.\n", arguments.out);
    return Exit::done;
}

}  // namespace

void add_pocket_command(const Command& app, Session& session) {
    const auto arguments = std::make_shared<PocketArguments>();
    const Command command =
        app.add_subcommand("pocket", "One page for a browser or phone, opening on a putt");
    add_putt_options(command, arguments->putt);
    command.add_option("--out", arguments->out, "The file to write").required();
    command.add_flag("--force", arguments->force, "Replace a file that is there");
    command.add_option("--page", arguments->page, "The page to begin with; the one that was built");
    session.add_common_options(command);
    command.footer(footer);
    command.callback([arguments, &session] {
        session.run = [arguments, &session] { return run_pocket(*arguments, session); };
    });
}

}  // namespace dewtrail
