#pragma once

#include <cstdlib>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "tests/greens/temporary_folder.hpp"
#include "viewer/terminal/session.hpp"

namespace dewtrail {

/// The program as a person runs it, with a home of its own in which nothing is remembered.
class CommandLine {
  public:
    struct Result {
        Exit exit;
        std::string out, err;

        Json json() const { return Json::parse(out); }
    };

    CommandLine() {
        setenv("XDG_CONFIG_HOME", home_.path().c_str(), 1);
        setenv("XDG_DATA_HOME", home_.path().c_str(), 1);
    }
    CommandLine(const CommandLine&) = delete;
    CommandLine& operator=(const CommandLine&) = delete;
    ~CommandLine() {
        unsetenv("XDG_CONFIG_HOME");
        unsetenv("XDG_DATA_HOME");
    }

    /// `typed`: what the person answers.
    Result run(const std::vector<std::string>& arguments, const std::string& typed = "") const {
        std::ostringstream out, err;
        std::istringstream in(typed);
        const Exit exit = run_dewtrail(arguments, out, err, {}, {}, in);
        return {exit, out.str(), err.str()};
    }

    const TemporaryFolder& home() const { return home_; }
    std::string path(const std::string& name) const { return (home_.path() / name).string(); }

  private:
    TemporaryFolder home_;
};

}  // namespace dewtrail
