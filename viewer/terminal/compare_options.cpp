#include "viewer/terminal/compare_options.hpp"

#include <CLI/CLI.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <sstream>

#include "greens/input_error.hpp"
#include "viewer/terminal/putt_options.hpp"
#include "viewer/text/nearest.hpp"

namespace dewtrail {
namespace {

constexpr const char* remedy =
    "Say what is different: --with 'clock 4:30', --with 'stimp 12, past firm'.";

/// Blanks and commas between words; what stands in quotes is one word, as is '0,up 1%'.
std::vector<std::string> words_of(const std::string& text) {
    std::vector<std::string> words;
    std::string word;
    char quote = 0;
    const auto finish = [&] {
        if (!word.empty()) words.push_back(word);
        word.clear();
    };
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        const bool comma_between = c == ',' && (i + 1 == text.size() || text[i + 1] == ' ');
        if (quote && c == quote)
            quote = 0;
        else if (quote)
            word += c;
        else if ((c == '\'' || c == '"') && word.empty())  // in 12'6" it is a unit
            quote = c;
        else if (c == ' ' || comma_between)
            finish();
        else
            word += c;
    }
    finish();
    return words;
}

/// The option that a word names, if any. Once dashes were used, only words with dashes do; and in
/// an aim a ball is a measure: 'half a ball out right'.
const CLI::Option* option_named(const CLI::App& app, const std::string& word, bool dashes,
                                bool in_aim) {
    const bool dashed = word.rfind("--", 0) == 0;
    if ((dashes && !dashed) || (in_aim && word == "ball")) return nullptr;
    return app.get_option_no_throw(dashed ? word : "--" + word);
}

/// Each option with all words up to the next as its one value.
std::vector<std::string> as_arguments(const CLI::App& app, const std::vector<std::string>& words) {
    const bool dashes = std::any_of(words.begin(), words.end(),
                                    [](const auto& w) { return w.rfind("--", 0) == 0; });
    std::vector<std::string> arguments;
    bool begin = true, in_aim = false;
    for (const std::string& word : words) {
        if (const CLI::Option* option = option_named(app, word, dashes, in_aim)) {
            arguments.push_back("--" + option->get_lnames().front());
            begin = option->get_items_expected_max() > 0;
            in_aim = arguments.back() == "--aim";
        } else if (begin || arguments.empty()) {
            arguments.push_back(word);
            begin = false;
        } else {
            arguments.back() += " " + word;
        }
    }
    return arguments;
}

/// What names no option is a distance, which begins with a figure.
void check_first_word(const CLI::App& app, const std::string& text) {
    if (text.empty() || text.starts_with("--") ||
        !std::isalpha(static_cast<unsigned char>(text[0])))
        return;
    const std::string word = text.substr(0, text.find(' '));
    std::vector<std::string> names;
    for (const CLI::Option* option : app.get_options())
        for (const std::string& name : option->get_lnames()) names.push_back(name);
    const auto meant = nearest(word, names);
    throw InputError(fmt::format("--with '{}': '{}' is not known", text, word),
                     meant ? fmt::format("Did you mean {}? {}", *meant, remedy) : remedy);
}

}  // namespace

void add_compare_options(const Command& command, CompareArguments& arguments) {
    add_putt_options(command, arguments.first.putt);
    command
        .add_option("--aim", arguments.first.aim,
                    "Aim the first putt there and not as read: '1 cup right', apex, 72% of the "
                    "break")
        .group("Comparison");
    command
        .add_option(
            "--with", arguments.with,
            "Another putt, the same but for what is said: 'clock 4:30', 'stimp 12', '24ft', "
            "'aim apex'; up to three times")
        .one_value()
        .group("Comparison");
}

ComparedRequest parse_change(const std::string& text) {
    ComparedRequest change;
    CLI::App app;
    app.set_help_flag();
    add_putt_options(Command(app), change.putt);
    Command(app).add_option("--aim", change.aim, "");
    std::vector<std::string> arguments = as_arguments(app, words_of(text));
    if (arguments.empty()) throw InputError("--with '' says nothing", remedy);
    check_first_word(app, arguments.front());
    std::reverse(arguments.begin(), arguments.end());
    try {
        app.parse(arguments);
    } catch (const CLI::ParseError& e) {
        throw InputError(fmt::format("--with '{}': {}", text, e.what()), remedy);
    }
    return change;
}

std::vector<ComparedRequest> requests_of(const CompareArguments& arguments) {
    if (arguments.with.empty())
        throw InputError("there is nothing to compare the putt with", remedy);
    if (arguments.with.size() >= most_compared)
        throw InputError(fmt::format("{} putts are too many", arguments.with.size() + 1),
                         "Compare two, three or four.");
    std::vector<ComparedRequest> requests{arguments.first};
    for (const std::string& text : arguments.with)
        requests.push_back(changed(arguments.first, parse_change(text)));
    return requests;
}

}  // namespace dewtrail
