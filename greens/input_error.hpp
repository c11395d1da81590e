#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

namespace dewtrail {

/// A file or an option that cannot be used as it stands. The one error type for what a person
/// typed; caught once, at the top of the program (exit code 2).
///
/// what() is one line: "orchard.toml:14:9: hole 'back' lies outside the outline", the file as the
/// user named it, line and column counted from 1. No line (0): "orchard.toml: ..."; no file: the
/// problem alone. remedy() is one more line that says what to do.
class InputError : public std::runtime_error {
  public:
    InputError(std::string file, int line, int column, const std::string& problem,
               const std::string& remedy);

    /// An option or a value: no file.
    InputError(const std::string& problem, const std::string& remedy);

    const std::string& file() const { return file_; }
    int line() const { return line_; }      ///< 0: the error has no one line
    int column() const { return column_; }  ///< bytes from the line's start, from 1; 0 with line 0
    const std::string& problem() const { return problem_; }
    const std::string& remedy() const { return remedy_; }

  private:
    std::string file_;
    int line_ = 0, column_ = 0;
    std::string problem_, remedy_;
};

/// A name from a file, or what was typed, fit to be shown: control characters become spaces, bytes
/// that are no UTF-8 become U+FFFD.
std::string printable(std::string_view text);

}  // namespace dewtrail
