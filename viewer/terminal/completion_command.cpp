#include <CLI/CLI.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

#include "greens/green_file.hpp"
#include "greens/input_error.hpp"
#include "viewer/terminal/folded.hpp"
#include "viewer/terminal/session.hpp"

/// What a shell needs to complete the command line, made from the commands themselves.
namespace dewtrail {
namespace {

struct ShellWord {
    std::string word, what;
    bool takes_value = false;
    std::string values{};  ///< what may follow it, a blank between; as a shell's word
};

/// A command, or the program itself, with the words that may follow it.
struct Place {
    std::vector<std::string> path;  ///< below the program: {"green", "fit"}
    std::vector<ShellWord> options, commands;
    bool takes_green = false;  ///< as a word of its own

    std::string key() const { return fmt::format("{}", fmt::join(path, " ")); }
};

std::string first_line(const std::string& text) {
    return text.substr(0, text.find('\n'));
}

constexpr const char* ask_for_greens = "$(dewtrail completion greens 2> /dev/null)";

/// The greens at the time when they are asked for; else the words that command.cpp allows, which
/// stand in the help as 'TEXT:{plan,eye,room}'.
std::string values_of(const CLI::Option& option) {
    if (option.check_lname("green")) return ask_for_greens;
    const std::string type = option.get_type_name();
    const std::size_t from = type.find('{'), to = type.find('}');
    if (from == type.npos || to == type.npos) return "";
    std::string words = type.substr(from + 1, to - from - 1);
    std::replace(words.begin(), words.end(), ',', ' ');
    return words;
}

bool is_green(const CLI::App& app, const CLI::Option& option) {
    return option.get_lnames().empty() &&
           (option.get_name() == "green" || app.get_name() == "check");
}

void look_at(const CLI::App& app, const std::vector<std::string>& path, std::vector<Place>& all) {
    Place place{path, {}, {}};
    for (const CLI::Option* option : app.get_options()) {
        place.takes_green = place.takes_green || is_green(app, *option);
        for (const std::string& name : option->get_lnames())
            place.options.push_back({"--" + name, first_line(option->get_description()),
                                     option->get_expected_max() > 0, values_of(*option)});
    }
    const auto commands = app.get_subcommands([](const CLI::App*) { return true; });
    for (const CLI::App* command : commands)
        place.commands.push_back({command->get_name(), first_line(command->get_description())});
    all.push_back(place);
    for (const CLI::App* command : commands) {
        std::vector<std::string> below = path;
        below.push_back(command->get_name());
        look_at(*command, below, all);
    }
}

std::vector<Place> places_of(const CLI::App& app) {
    std::vector<Place> all;
    look_at(app, {}, all);
    return all;
}

std::string single_quoted(const std::string& text) {
    std::string out = "'";
    for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return out + "'";
}

/// Finds which command the words before the cursor name; the same lines in bash and zsh.
std::string path_lines(const std::vector<Place>& places, const char* words) {
    std::string known;
    for (const Place& place : places)
        if (!place.path.empty())
            known += (known.empty() ? "" : "|") + single_quoted(" " + place.key());
    return fmt::format(
        "    local path='' word\n"
        "    for word in {}; do\n"
        "        case \"$path $word\" in {}) path=\"$path $word\";; esac\n"
        "    done\n",
        words, known);
}

/// Finds what may follow the word before the cursor; the same lines in bash and zsh.
std::string value_lines(const std::vector<Place>& places, const char* word_before) {
    std::string cases;
    for (const Place& place : places) {
        const std::string key = place.path.empty() ? "" : " " + place.key();
        for (const ShellWord& w : place.options)
            if (!w.values.empty())
                cases += fmt::format("        {}) values=\"{}\";;\n",
                                     single_quoted(key + " " + w.word), w.values);
    }
    return fmt::format("    local values=''\n    case \"$path {}\" in\n{}    esac\n", word_before,
                       cases);
}

std::string for_bash(const std::vector<Place>& places) {
    std::string cases;
    for (const Place& place : places) {
        std::string words;
        for (const auto* list : {&place.commands, &place.options})
            for (const ShellWord& w : *list) words += (words.empty() ? "" : " ") + w.word;
        const std::string key = place.path.empty() ? "" : " " + place.key();
        cases += fmt::format("        {}) words={}{};;\n", single_quoted(key), single_quoted(words),
                             place.takes_green ? fmt::format("\" {}\"", ask_for_greens) : "");
    }
    return "# bash completion for dewtrail\n"
           "_dewtrail() {\n" +
           path_lines(places, "\"${COMP_WORDS[@]:1:COMP_CWORD-1}\"") +
           "    local words='' now=\"${COMP_WORDS[COMP_CWORD]}\"\n"
           "    case \"$path\" in\n" +
           cases + "    esac\n" + value_lines(places, "${COMP_WORDS[COMP_CWORD-1]}") +
           "    words=\"${values:-$words}\"\n"
           "    mapfile -t COMPREPLY < <(compgen -W \"$words\" -- \"$now\")\n"
           "    [ ${#COMPREPLY[@]} -gt 0 ] || compopt -o default 2> /dev/null\n"
           "}\n"
           "complete -F _dewtrail dewtrail\n";
}

std::string for_zsh(const std::vector<Place>& places) {
    std::string cases;
    for (const Place& place : places) {
        cases += fmt::format("        {}) words_here=(\n",
                             single_quoted(place.path.empty() ? "" : " " + place.key()));
        for (const auto* list : {&place.commands, &place.options})
            for (const ShellWord& w : *list) {
                std::string what = w.what;
                for (std::size_t at = 0; (at = what.find(':', at)) != what.npos; at += 2)
                    what.insert(at, "\\");
                cases += "            " + single_quoted(w.word + ":" + what) + "\n";
            }
        if (place.takes_green) cases += fmt::format("            ${{(f)\"{}\"}}\n", ask_for_greens);
        cases += "        );;\n";
    }
    return "#compdef dewtrail\n"
           "_dewtrail() {\n"
           "    local -a words_here\n" +
           path_lines(places, "\"${(@)words[2,CURRENT-1]}\"") +
           value_lines(places, "${words[CURRENT-1]}") +
           "    if [[ -n $values ]]; then compadd -- ${=values}; return; fi\n"
           "    case \"$path\" in\n" +
           cases +
           "    esac\n"
           "    _describe 'dewtrail' words_here || _files\n"
           "}\n"
           "_dewtrail \"$@\"\n";
}

std::string fish_values(const ShellWord& option) {
    if (option.values == ask_for_greens) return " -x -a '(dewtrail completion greens)'";
    if (!option.values.empty()) return fmt::format(" -x -a '{}'", option.values);
    return option.takes_value ? " -r" : "";
}

std::string for_fish(const std::vector<Place>& places) {
    std::string text = "# fish completion for dewtrail\n";
    for (const Place& place : places) {
        std::string when;
        for (const std::string& word : place.path)
            when += (when.empty() ? "" : "; and ") + ("__fish_seen_subcommand_from " + word);
        if (place.path.empty()) when = "__fish_use_subcommand";
        for (const ShellWord& w : place.commands) {
            // Below a command its own commands are offered until one of them is there.
            std::string siblings;
            for (const ShellWord& other : place.commands) siblings += " " + other.word;
            const std::string open =
                place.path.empty() ? when
                                   : when + "; and not __fish_seen_subcommand_from" + siblings;
            text += fmt::format("complete -c dewtrail -f -n {} -a {} -d {}\n", single_quoted(open),
                                w.word, single_quoted(w.what));
        }
        for (const ShellWord& w : place.options)
            text += fmt::format("complete -c dewtrail -n {} -l {}{} -d {}\n", single_quoted(when),
                                w.word.substr(2), fish_values(w), single_quoted(w.what));
        if (place.takes_green)
            text += fmt::format("complete -c dewtrail -n {} -a '(dewtrail completion greens)'\n",
                                single_quoted(when));
    }
    return text;
}

}  // namespace

void add_completion_command(const Command& app, Session& session) {
    auto shell = std::make_shared<std::string>();
    const Command command =
        app.add_subcommand("completion", "What bash, zsh or fish needs to complete");
    command.add_option("shell", *shell, "bash, zsh or fish; greens: the greens that are known")
        .required()
        .one_of({"bash", "zsh", "fish", "greens"});
    command.footer(
        "Examples:\n"
        "  source <(dewtrail completion bash)\n"
        "      For this bash; the same line in ~/.bashrc does it for every one.\n"
        "  dewtrail completion fish > dewtrail.fish\n"
        "      Put it into ~/.config/fish/completions.");
    command.callback([app, &session, shell] {
        session.run = [app, &session, shell] {
            const Unfolded whole(session.out());
            if (*shell == "greens") {
                for (const std::string& green : known_greens(green_folders()))
                    session.out() << printable(green) << '\n';
                return Exit::done;
            }
            const std::vector<Place> places = places_of(app.app());
            session.out() << (*shell == "bash"  ? for_bash(places)
                              : *shell == "zsh" ? for_zsh(places)
                                                : for_fish(places));
            return Exit::done;
        };
    });
}

}  // namespace dewtrail
