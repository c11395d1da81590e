#pragma once

#include <fmt/format.h>

#include <optional>
#include <ostream>
#include <string>

#include "greens/input_error.hpp"
#include "viewer/terminal/session.hpp"

namespace dewtrail {

/// Asks for typed answers, one a line; with --json the questions are not printed.
class Asking {
  public:
    explicit Asking(const Session& session);

    /// The next line, trimmed; none at the end of the input or for 'q'. Empty lines are asked
    /// again.
    std::optional<std::string> line(const std::string& question);

    /// Asks until `parse` accepts the answer; says why it refuses one, and what to do.
    template <class Parse>
    auto until(const std::string& question, Parse parse)
        -> std::optional<decltype(parse(std::string()))> {
        while (const auto text = line(question)) {
            try {
                return parse(*text);
            } catch (const InputError& error) {
                tell(fmt::format("{}\n{}", error.what(), error.remedy()));
            }
        }
        return std::nullopt;
    }

    void tell(const std::string& text);

  private:
    const Session& session_;
    bool echoes_;
};

}  // namespace dewtrail
