#pragma once

#include <algorithm>
#include <nlohmann/json.hpp>
#include <regex>
#include <sstream>
#include <string>
#include <vector>

#include "tests/support/temporary_folder.hpp"
#include "tests/support/variable.hpp"
#include "viewer/terminal/session.hpp"

namespace dewtrail {

/// What the program said, and how it ended.
struct Said {
    Exit exit;
    std::string out, err;

    Json json() const { return Json::parse(out); }
};

/// The program as a person runs it, with a home of its own in which nothing is remembered.
class CommandLine {
  public:
    /// A command line without the program's name, as it is typed to a shell: what stands in quotes
    /// is one word. `answers`: what the person answers.
    Said run(const std::string& typed, const std::string& answers = "") const {
        return run(words_of(typed), answers);
    }
    Said run(const std::vector<std::string>& arguments, const std::string& answers = "") const {
        std::ostringstream out, err;
        std::istringstream in(answers);
        const Exit exit = run_dewtrail(arguments, out, err, {}, {}, in);
        return {exit, out.str(), err.str()};
    }

    const TemporaryFolder& home() const { return home_; }
    std::string path(const std::string& name) const { return (home_.path() / name).string(); }

  private:
    static std::vector<std::string> words_of(const std::string& typed) {
        std::vector<std::string> words;
        bool in_word = false;
        char quote = 0;
        for (const char c : typed) {
            if (c == ' ' && !quote) {
                in_word = false;
                continue;
            }
            if (!in_word) words.emplace_back();
            in_word = true;
            if (quote ? c == quote : c == '\'' || c == '"')
                quote = quote ? 0 : c;
            else
                words.back() += c;
        }
        return words;
    }

    TemporaryFolder home_;
    Variable config_{"XDG_CONFIG_HOME", home_.path().c_str()},
        data_{"XDG_DATA_HOME", home_.path().c_str()};
};

/// A single command in a home of its own.
inline Said dewtrail_says(const std::string& typed) {
    return CommandLine().run(typed);
}

/// A command about the putt that most tests are about.
inline std::string of_side_hill(const std::string& command, const std::string& more = "") {
    return command + " 12ft --slope 2% --clock 3 --stimp 10 " + more;
}

/// Whatever the columns of a table are filled up with.
inline std::string one_spaced(const std::string& text) {
    return std::regex_replace(text, std::regex("\\s+"), " ");
}

inline std::size_t lines_in(const std::string& text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

}  // namespace dewtrail
