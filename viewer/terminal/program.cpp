#include <nlohmann/json.hpp>

#include <CLI/CLI.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <ostream>

#include "greens/input_error.hpp"
#include "viewer/terminal/folded.hpp"
#include "viewer/terminal/session.hpp"
#include "viewer/text/nearest.hpp"

namespace dewtrail {
namespace {

constexpr const char* program_footer =
    "Examples:\n"
    "  dewtrail read 12ft --slope 2% --clock 3 --stimp 10\n"
    "  dewtrail read --green meadow --hole flag --ball left\n"
    "\n"
    "dewtrail help COMMAND tells all of a command, as does its --help.";

/// One line that says what is wrong, one that says what to do.
struct Complaint {
    std::string problem, remedy;
};

/// As JSON on stdout if that was asked.
Exit complain(Exit exit, const Complaint& complaint, bool json, std::ostream& out,
              std::ostream& err) {
    const auto& [problem, remedy] = complaint;
    if (json) {
        const char* kind = exit == Exit::not_understood ? "not_understood" : "outside_failed";
        const Unfolded whole(out);
        out << json_text({{"error", {{"kind", kind}, {"reason", problem}, {"remedy", remedy}}}})
            << '\n';
        return exit;
    }
    // What was typed may hold controls of the terminal.
    err << printable(problem) << '\n';
    if (!remedy.empty()) err << printable(remedy) << '\n';
    return exit;
}

/// The command that was named, else the program itself.
CLI::App& named_command(CLI::App& app) {
    CLI::App* command = &app;
    while (!command->get_subcommands().empty()) command = command->get_subcommands().front();
    return *command;
}

std::vector<std::string> parts_of(const CLI::App& command) {
    std::vector<std::string> names;
    for (const CLI::App* sub : command.get_subcommands([](const CLI::App*) { return true; }))
        names.push_back(sub->get_name());
    return names;
}

/// As it is typed: 'dewtrail green fit'.
std::string typed_name(const CLI::App& command) {
    if (!command.get_parent()) return command.get_name();
    return typed_name(*command.get_parent()) + ' ' + command.get_name();
}

std::vector<std::string> words_known_to(const CLI::App& command) {
    std::vector<std::string> words = parts_of(command);
    for (const CLI::Option* option : command.get_options())
        for (const std::string& name : option->get_lnames()) words.push_back("--" + name);
    return words;
}

/// What was not expected, in the order it was typed, and what was most likely meant.
Complaint of_extras(CLI::App& app, const std::vector<std::string>& typed) {
    std::vector<std::string> extras = app.remaining(true);
    const auto place = [&](const std::string& word) {
        return std::find(typed.begin(), typed.end(), word) - typed.begin();
    };
    std::stable_sort(extras.begin(), extras.end(),
                     [&](const auto& a, const auto& b) { return place(a) < place(b); });
    CLI::App& command = named_command(app);
    const std::string all = typed_name(command) + " --help tells all.";
    Complaint complaint{fmt::format("not expected: {}", fmt::join(extras, " ")), all};
    if (extras.empty()) return complaint;
    const std::string word = extras.front().substr(0, extras.front().find('='));
    if (const auto meant = nearest(word, words_known_to(command)))
        complaint.remedy = fmt::format("Did you mean {}? {}", *meant, all);
    return complaint;
}

/// The parser's complaint about a value or a word that is missing, said as the rest of the program
/// says it.
Complaint of_parse_error(CLI::App& app, const CLI::ParseError& error) {
    const CLI::App& command = named_command(app);
    const std::string said = error.what(), help = typed_name(command) + " --help tells all.";
    const auto parts = parts_of(command);
    if (error.get_exit_code() == static_cast<int>(CLI::ExitCodes::ConversionError)) {
        const std::size_t name = said.find(": ") + 2, value = said.find(" = ");
        return {fmt::format("{} '{}' is not a number", said.substr(name, value - name),
                            said.substr(value + 3)),
                help};
    }
    if (error.get_exit_code() == static_cast<int>(CLI::ExitCodes::RequiredError)) {
        if (!parts.empty())
            return {fmt::format("'{}' needs one more word", typed_name(command)),
                    fmt::format("Add one of {}. {}", fmt::join(parts, ", "), help)};
        return {fmt::format("{} is missing", said.substr(0, said.find(" is required"))), help};
    }
    const std::size_t name = said.find(": ");
    if (error.get_exit_code() == static_cast<int>(CLI::ExitCodes::ArgumentMismatch))
        return {fmt::format("{} has {} values", said.substr(0, name),
                            said.find("Most") == said.npos ? "too few" : "too many"),
                help};
    return {said.substr(0, name) + said.substr(std::min(name, said.size() - 1) + 1), help};
}

Exit run_command(Session& session, std::ostream& out, std::ostream& err) {
    try {
        return session.run();
    } catch (const InputError& e) {
        return complain(Exit::not_understood, {e.what(), e.remedy()}, session.json(), out, err);
    } catch (const OutsideError& e) {
        return complain(Exit::outside_failed, {e.what(), ""}, session.json(), out, err);
    } catch (const std::bad_alloc&) {
        return complain(Exit::outside_failed, {"not enough memory", ""}, session.json(), out, err);
    } catch (const std::exception& e) {
        return complain(Exit::not_understood, {e.what(), ""}, session.json(), out, err);
    }
}

using More = std::function<void(const Command&, Session&)>;

std::unique_ptr<CLI::App> made_app(const std::string& only, Session& session, const More& more) {
    auto app = std::make_unique<CLI::App>("Dewtrail: how far a putt breaks and how hard to hit it.",
                                          "dewtrail");
    app->footer(program_footer);
    app->set_version_flag("--version", "dewtrail " DEWTRAIL_VERSION);
    app->require_subcommand(0, 1);
    const Command program(*app, only);
    add_read_command(program, session);
    add_ring_command(program, session);
    add_roll_command(program, session);
    add_compare_command(program, session);
    add_odds_command(program, session);
    add_speed_command(program, session);
    add_green_command(program, session);
    add_player_command(program, session);
    add_pupil_command(program, session);
    add_lesson_command(program, session);
    add_sheet_command(program, session);
    add_practise_command(program, session);
    add_log_command(program, session);
    add_review_command(program, session);
    add_rehearse_command(program, session);
    add_measure_command(program, session);
    add_pocket_command(program, session);
    if (more) more(program, session);
    add_completion_command(program, session);
    return app;
}

/// With the options of the command that is named first; of all where none is, and for the command
/// that tells all of them.
std::unique_ptr<CLI::App> made_for(const std::vector<std::string>& arguments, Session& session,
                                   const More& more) {
    const std::string named = arguments.empty() ? "" : arguments.front();
    if (named.empty() || named == "completion") return made_app("", session, more);
    auto app = made_app(named, session, more);
    const std::vector<std::string> names = parts_of(*app);
    if (std::find(names.begin(), names.end(), named) == names.end())
        app = made_app("", session, more);
    return app;
}

}  // namespace

Exit run_dewtrail(std::vector<std::string> arguments, std::ostream& out, std::ostream& err,
                  const std::function<void(const Command&, Session&)>& more,
                  const std::vector<std::string>& unasked, std::istream& in) {
    if (arguments.empty()) arguments = unasked;
    // 'help green fit' is 'green fit --help'.
    if (!arguments.empty() && arguments.front() == "help") {
        arguments.erase(arguments.begin());
        arguments.push_back("--help");
    }
    Session session(out, err, in);
    const auto made = made_for(arguments, session, more);
    CLI::App& app = *made;
    const bool json = std::find(arguments.begin(), arguments.end(), "--json") != arguments.end();
    const std::vector<std::string> typed = arguments;
    try {
        std::reverse(arguments.begin(), arguments.end());  // CLI11 takes them from the back
        app.parse(arguments);
    } catch (const CLI::Success& e) {  // --help, --version
        if (app.remaining(true).empty()) {
            app.exit(e, out, err);
            return Exit::done;
        }
        return complain(Exit::not_understood, of_extras(app, typed), json, out, err);
    } catch (const CLI::ExtrasError&) {
        return complain(Exit::not_understood, of_extras(app, typed), json, out, err);
    } catch (const CLI::ParseError& e) {
        return complain(Exit::not_understood, of_parse_error(app, e), json, out, err);
    }
    if (!session.run) {
        out << app.help();
        return Exit::done;
    }
    const Exit exit = run_command(session, out, err);
    out.flush();
    if (exit == Exit::done && !out)
        return complain(Exit::outside_failed, {"could not write the result", ""}, false, err, err);
    return exit;
}

}  // namespace dewtrail
