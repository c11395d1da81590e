#include "viewer/terminal/pocket_command.hpp"

#include <fmt/format.h>

#include <map>
#include <nlohmann/json.hpp>

#include "greens/input_error.hpp"
#include "greens/text_file.hpp"
#include "greens/toml_section.hpp"
#include "viewer/comparison/demonstrations.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/practice/drill/putt_set.hpp"
#include "viewer/putt/kept_putt.hpp"
#include "viewer/terminal/page_server.hpp"
#include "viewer/terminal/putt_options.hpp"

namespace dewtrail {
namespace fs = std::filesystem;
namespace {

struct PocketArguments {
    PuttRequest putt;
    std::string out, page, set, show, address = "127.0.0.1";
    int port = 8417;  ///< always the same: a browser keeps what is practised by address and port
    bool force = false, serve = false;
};

/// What the page opens on, as files of a folder of its own (viewer/web/page.cpp reads them).
using Lesson = std::map<std::string, std::string>;

constexpr std::uintmax_t most_page_bytes = 64u << 20, most_file_bytes = 32u << 20;
constexpr std::string_view place_of_lesson = "id=\"lesson\">";
constexpr const char* footer =
    "One file, for any browser, a phone's too: the whole program, with nothing to install, and\n"
    "nothing that it sends anywhere. It opens on this putt, green, set or demonstration. What a\n"
    "pupil saves there as a table comes back by 'dewtrail practise --import answers.csv'.\n"
    "'--serve --address 192.168.1.20' (yours) lets a phone on your network open it.\n\n"
    "Examples:\n"
    "  dewtrail pocket 12ft --slope 2% --clock 3 --out lesson.html\n"
    "  dewtrail pocket --green meadow --hole flag --ball left --out meadow.html\n"
    "  dewtrail pocket --show uphill --out uphill.html";

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

/// The green's own file and the tables it was fitted to. The shipped greens are in the page.
void add_green(Lesson& lesson, const fs::path& file) {
    if (file.parent_path() == green_folders().back()) return;
    const std::string text = read_text_file(file, most_file_bytes);
    lesson["greens/" + file.filename().string()] = text;
    const TomlSection surface =
        TomlSection::parse(file.string(), "the green", text).section("surface");
    for (const char* key : {"levels", "heights"})
        if (surface.has(key))
            lesson["greens/" + surface.text(key)] =
                read_text_file(file.parent_path() / surface.text(key), most_file_bytes);
}

void add_putt(Lesson& lesson, const PuttRequest& request, Session& session) {
    const Setup setup = set_up(request, defaults_of(session)).setup;
    if (setup.green) add_green(lesson, setup.green->file);
    lesson["putt.toml"] = kept_text(setup);
}

void add_set(Lesson& lesson, const std::string& file) {
    Greenkeeper greens(green_folders());
    for (const DealtPutt& putt : load_putt_set(file))
        if (!putt.green.empty()) add_green(lesson, greens.green(putt.green).file);
    lesson["set.toml"] = read_text_file(file, most_file_bytes);
}

Lesson lesson_of(const PocketArguments& arguments, Session& session) {
    Lesson lesson;
    if (!arguments.putt.names_no_putt()) add_putt(lesson, arguments.putt, session);
    if (!arguments.set.empty()) add_set(lesson, arguments.set);
    if (!arguments.show.empty()) {
        check_demonstration(arguments.show);
        lesson["show"] = arguments.show;
    }
    return lesson;
}

/// As the page's script reads it. A '<' would end the place where it stands.
std::string lesson_text(const Lesson& lesson) {
    std::string text = nlohmann::json(lesson).dump();
    for (std::size_t at = 0; (at = text.find('<', at)) != text.npos;)
        text.replace(at, 1, "\\u003C");
    return text;
}

/// The page with its lesson in its place.
std::string filled_page(const PocketArguments& arguments, Session& session) {
    std::string page = page_text(arguments);
    const std::size_t place = page.find(place_of_lesson);
    if (place == page.npos)
        throw InputError(fmt::format("{} is no page of this program", arguments.page),
                         "Build it with './viewer/run pocket'.");
    const std::size_t from = place + place_of_lesson.size();
    page.replace(from, page.find('<', from) - from, lesson_text(lesson_of(arguments, session)));
    return page;
}

/// Until Ctrl C.
void serve(const PocketArguments& arguments, const std::string& page, Session& session) {
    PageServer server(page, arguments.address, arguments.port);
    session.out() << fmt::format("{} has the page as long as this goes on: Ctrl C ends it.\n",
                                 server.url());
    const auto own = network_addresses();
    if (!server.only_here())
        for (const std::string& line : qr_code(server.url())) session.out() << line << '\n';
    else if (!own.empty())
        session.out() << fmt::format(
            "Only this machine can open it. For a phone on the same network: --address {}\n",
            fmt::join(own, " or "));
    session.out() << std::flush;
    server.run();
}

Exit run_pocket(const PocketArguments& arguments, Session& session) {
    if (arguments.out.empty() && !arguments.serve)
        throw InputError("the page has nowhere to go",
                         "Name a file, --out lesson.html, or --serve it.");
    if (!arguments.out.empty()) check_may_write(arguments.out, arguments.force);
    const std::string page = filled_page(arguments, session);
    if (!arguments.out.empty()) {
        save_whole_file(arguments.out, page);
        session.out() << fmt::format("{} opens in any browser.\n", printable(arguments.out));
    }
    if (arguments.serve) serve(arguments, page, session);
    return Exit::done;
}

}  // namespace

void add_pocket_command(const Command& app, Session& session) {
    const auto arguments = std::make_shared<PocketArguments>();
    const Command command = app.add_subcommand(
        "pocket", "One page for a browser or phone, opening on a putt, a set, a demonstration");
    add_putt_options(command, arguments->putt);
    command.add_option("--set", arguments->set, "Open on a fixed set of putts, a TOML file");
    command.add_option("--show", arguments->show,
                       "Open on a ready demonstration (see compare --show list)");
    command.add_option("--out", arguments->out, "The file to write");
    command.add_flag(
        "--serve", arguments->serve,
        "Offer it to browsers until Ctrl C; where others can reach it, with a QR code");
    command.add_option("--address", arguments->address,
                       "Of this machine, to be reached at (127.0.0.1: by itself alone)");
    command.add_option("--port", arguments->port, "0 to 65535 (8417; 0 is any free one)")
        .within(0, 65535);
    command.add_flag("--force", arguments->force, "Replace a file that is there");
    command.add_option("--page", arguments->page, "The page to begin with; the one that was built");
    session.add_common_options(command);
    command.footer(footer);
    command.callback([arguments, &session] {
        session.run = [arguments, &session] { return run_pocket(*arguments, session); };
    });
}

}  // namespace dewtrail
