#pragma once

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "viewer/terminal/session.hpp"

/// What the program says to a command line.
namespace dewtrail {

using Strings = std::vector<std::string>;

struct Outcome {
    Exit exit;
    std::string out, err;
    Json json() const { return Json::parse(out); }
};

/// Runs the program on an empty player folder, so that nobody's own player file matters.
inline Outcome dewtrail_says(const Strings& arguments) {
    static const std::string empty = [] {
        const auto folder = std::filesystem::temp_directory_path() / "dewtrail-no-player";
        std::filesystem::create_directories(folder);
        return folder.string();
    }();
    setenv("XDG_CONFIG_HOME", empty.c_str(), 1);
    std::ostringstream out, err;
    const Exit exit = run_dewtrail(arguments, out, err);
    return {exit, out.str(), err.str()};
}

inline Strings read_of(Strings more) {
    Strings arguments{"read"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return arguments;
}

inline std::size_t lines_in(const std::string& text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

inline const Strings side_hill{"read", "12ft", "--slope", "2%", "--clock", "3", "--stimp", "10"};

}  // namespace dewtrail
