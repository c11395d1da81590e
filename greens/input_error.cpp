#include "greens/input_error.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace dewtrail {
namespace {

/// Names and values quoted from a file may hold line breaks or terminal controls.
std::string on_one_line(std::string text) {
    const auto is_control = [](char c) {
        return static_cast<unsigned char>(c) < 0x20 || static_cast<unsigned char>(c) == 0x7f;
    };
    std::replace_if(text.begin(), text.end(), is_control, ' ');
    return text;
}

std::string with_place(const std::string& file, int line, int column, const std::string& problem) {
    if (file.empty()) return problem;
    if (line == 0) return fmt::format("{}: {}", file, problem);
    return fmt::format("{}:{}:{}: {}", file, line, column, problem);
}

}  // namespace

InputError::InputError(std::string file, int line, int column, const std::string& problem,
                       std::string remedy)
    : std::runtime_error(on_one_line(with_place(file, line, column, problem))),
      file_(std::move(file)),
      line_(line),
      column_(column),
      problem_(on_one_line(problem)),
      remedy_(on_one_line(std::move(remedy))) {}

InputError::InputError(const std::string& problem, std::string remedy)
    : InputError("", 0, 0, problem, std::move(remedy)) {}

}  // namespace dewtrail
