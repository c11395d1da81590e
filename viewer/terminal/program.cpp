#include <nlohmann/json.hpp>

#include <CLI/CLI.hpp>

#include <fmt/format.h>

#include <algorithm>
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
    add_pupil_command(app, session);
    add_lesson_command(app, session);
    add_sheet_command(app, session);
    add_practise_command(app, session);
    add_log_command(app, session);
    add_review_command(app, session);
    add_rehearse_command(app, session);
    add_measure_command(app, session);
    add_pocket_command(app, session);
    if (more) more(app, session);
    add_completion_command(app, session);

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
