#include <nlohmann/json.hpp>

#include <CLI/CLI.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "greens/input_error.hpp"
#include "viewer/terminal/folded.hpp"
#include "viewer/terminal/nearest.hpp"
#include "viewer/terminal/pocket_command.hpp"
#include "viewer/terminal/session.hpp"

namespace dewtrail {
namespace {

constexpr const char* program_footer =
    "Examples:\n"
    "  dewtrail read 12ft --slope 2% --clock 3 --stimp 10\n"
    "  dewtrail read --green meadow --hole flag --ball left\n"
    "\n"
    "Each command has its own --help.";

/// One line that says what is wrong, one that says what to do; as JSON on stdout if that was asked.
Exit complain(Exit exit, const std::string& problem, const std::string& remedy, bool json,
              std::ostream& out, std::ostream& err) {
    if (json) {
        const char* kind = exit == Exit::not_understood ? "not_understood" : "outside_failed";
        const Unfolded whole(out);
        out << json_text({{"error", {{"kind", kind}, {"reason", problem}, {"remedy", remedy}}}})
            << '\n';
        return exit;
    }
    err << problem << '\n';
    if (!remedy.empty()) err << remedy << '\n';
    return exit;
}

/// CLI11's message on one line.
std::string one_line(std::string text) {
    std::replace(text.begin(), text.end(), '\n', ' ');
    text.erase(text.find_last_not_of(' ') + 1);
    return text;
}

/// The command that was named, else the program itself.
CLI::App& named_command(CLI::App& app) {
    CLI::App* command = &app;
    while (!command->get_subcommands().empty()) command = command->get_subcommands().front();
    return *command;
}

std::vector<std::string> words_known_to(CLI::App& command) {
    std::vector<std::string> words;
    for (const CLI::Option* option : command.get_options())
        for (const std::string& name : option->get_lnames()) words.push_back("--" + name);
    for (const CLI::App* sub : command.get_subcommands([](CLI::App*) { return true; }))
        words.push_back(sub->get_name());
    return words;
}

struct Complaint {
    std::string problem, remedy;
};

/// What was not expected, in the order it was typed, and what was most likely meant.
Complaint of_extras(CLI::App& app, const std::vector<std::string>& typed) {
    std::vector<std::string> extras = app.remaining(true);
    const auto place = [&](const std::string& word) {
        return std::find(typed.begin(), typed.end(), word) - typed.begin();
    };
    std::stable_sort(extras.begin(), extras.end(),
                     [&](const auto& a, const auto& b) { return place(a) < place(b); });
    CLI::App& command = named_command(app);
    Complaint complaint{fmt::format("not expected: {}", fmt::join(extras, " ")),
                        "See dewtrail --help, or dewtrail COMMAND --help."};
    if (extras.empty()) return complaint;
    const std::string word = extras.front().substr(0, extras.front().find('='));
    if (const auto meant = nearest(word, words_known_to(command)))
        complaint.remedy = fmt::format(
            "Did you mean {}? {} --help tells all.", *meant,
            &command == &app ? std::string("dewtrail") : "dewtrail " + command.get_name());
    return complaint;
}

Exit run_command(Session& session, std::ostream& out, std::ostream& err) {
    try {
        return session.run();
    } catch (const InputError& e) {
        return complain(Exit::not_understood, e.what(), e.remedy(), session.json(), out, err);
    } catch (const OutsideError& e) {
        return complain(Exit::outside_failed, e.what(), "", session.json(), out, err);
    } catch (const std::bad_alloc&) {
        return complain(Exit::outside_failed, "not enough memory", "", session.json(), out, err);
    } catch (const std::exception& e) {
        return complain(Exit::not_understood, e.what(), "", session.json(), out, err);
    }
}

}  // namespace

Exit run_dewtrail(std::vector<std::string> arguments, std::ostream& out, std::ostream& err,
                  const std::function<void(const Command&, Session&)>& more,
                  const std::vector<std::string>& unasked, std::istream& in) {
    if (arguments.empty()) arguments = unasked;
    Session session(out, err, in);
    CLI::App app("Dewtrail: how far a putt breaks and how hard to hit it.", "dewtrail");
    app.footer(program_footer);
    app.set_version_flag("--version", "dewtrail " DEWTRAIL_VERSION);
    app.require_subcommand(0, 1);
    add_read_command(app, session);
    add_ring_command(app, session);
    add_roll_command(app, session);
    add_compare_command(app, session);
    add_odds_command(app, session);
    add_speed_command(app, session);
    add_green_command(app, session);
    add_player_command(app, session);
    add_sheet_command(app, session);
    add_practise_command(app, session);
    add_log_command(app, session);
    add_review_command(app, session);
    add_rehearse_command(app, session);
    add_pocket_command(app, session);
    if (more) more(app, session);
    add_completion_command(app, session);

    const bool json = std::find(arguments.begin(), arguments.end(), "--json") != arguments.end();
    const std::vector<std::string> typed = arguments;
    try {
        std::reverse(arguments.begin(), arguments.end());  // CLI11 takes them from the back
        app.parse(arguments);
    } catch (const CLI::Success& e) {  // --help, --version
        app.exit(e, out, err);
        return Exit::done;
    } catch (const CLI::ExtrasError&) {
        const Complaint complaint = of_extras(app, typed);
        return complain(Exit::not_understood, complaint.problem, complaint.remedy, json, out, err);
    } catch (const CLI::ParseError& e) {
        return complain(Exit::not_understood, one_line(e.what()),
                        "See dewtrail --help, or dewtrail COMMAND --help.", json, out, err);
    }
    if (!session.run) {
        out << app.help();
        return Exit::done;
    }
    const Exit exit = run_command(session, out, err);
    out.flush();
    if (exit == Exit::done && !out)
        return complain(Exit::outside_failed, "could not write the result", "", false, err, err);
    return exit;
}

}  // namespace dewtrail
