#include <fmt/format.h>

#include <memory>

#include "greens/input_error.hpp"
#include "greens/text_file.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/practice/drill/putt_set.hpp"
#include "viewer/terminal/pocket/page_server.hpp"
#include "viewer/terminal/pocket/pocket_page.hpp"
#include "viewer/terminal/putt_options.hpp"

namespace dewtrail {
namespace {

struct PocketArguments {
    PuttRequest putt;
    std::string out, page, set, show, address = "127.0.0.1";
    int port = 8417;  ///< always the same: a browser keeps what is practised by address and port
    bool force = false, serve = false;
};

constexpr std::uintmax_t most_set_bytes = 32u << 20;
constexpr const char* footer =
    "One file, for any browser, a phone's too: the whole program, with nothing to install, and\n"
    "nothing that it sends anywhere. It opens on this putt, green, set or demonstration. What a\n"
    "pupil saves there as a table comes back by 'dewtrail practise --import answers.csv'.\n"
    "'--serve --address 192.168.1.20' (yours) lets a phone on your network open it.\n"
    "A lesson's putts for home: 'dewtrail lesson --pocket homework.html'.\n\n"
    "Examples:\n"
    "  dewtrail pocket 12ft --slope 2% --clock 3 --out lesson.html\n"
    "  dewtrail pocket --green meadow --hole flag --ball left --out meadow.html\n"
    "  dewtrail pocket --show uphill --out uphill.html";

/// The page with what it opens on.
std::string filled_page(const PocketArguments& arguments, Session& session) {
    PocketPage page(arguments.page);
    if (!arguments.putt.names_no_putt())
        page.open_on(set_up(arguments.putt, defaults_of(session)).setup);
    if (!arguments.set.empty())
        page.open_on(load_putt_set(arguments.set), read_text_file(arguments.set, most_set_bytes));
    if (!arguments.show.empty()) page.open_on(arguments.show);
    return page.text();
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
