#include "greens/input_error.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace dewtrail {
namespace {

/// Bytes of the letter that begins there, as UTF-8 has it; 0 where none does.
std::size_t letter_bytes(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char first = byte(0);
    const std::size_t bytes = first < 0x80   ? 1
                              : first < 0xc2 ? 0
                              : first < 0xe0 ? 2
                              : first < 0xf0 ? 3
                                             : 4;
    if (first > 0xf4 || bytes > text.size()) return 0;
    for (std::size_t i = 1; i < bytes; ++i)
        if ((byte(i) & 0xc0) != 0x80) return 0;
    return bytes;
}

/// C0, DEL, and C1 in its two bytes: U+009B begins a terminal's command as ESC [ does.
bool is_control(std::string_view letter) {
    const auto first = static_cast<unsigned char>(letter[0]);
    return first < 0x20 || first == 0x7f ||
           (first == 0xc2 && static_cast<unsigned char>(letter[1]) < 0xa0);
}

std::string with_place(const std::string& file, int line, int column, const std::string& problem) {
    if (file.empty()) return problem;
    if (line == 0) return fmt::format("{}: {}", file, problem);
    return fmt::format("{}:{}:{}: {}", file, line, column, problem);
}

}  // namespace

std::string printable(std::string_view text) {
    std::string shown;
    while (!text.empty()) {
        const std::size_t bytes = letter_bytes(text);
        if (bytes == 0)
            shown += "\uFFFD";
        else if (is_control(text.substr(0, bytes)))
            shown += ' ';
        else
            shown += text.substr(0, bytes);
        text.remove_prefix(std::max<std::size_t>(bytes, 1));
    }
    return shown;
}

InputError::InputError(std::string file, int line, int column, const std::string& problem,
                       const std::string& remedy)
    // What is quoted from a file may hold line breaks or controls of the terminal.
    : std::runtime_error(printable(with_place(file, line, column, problem))),
      file_(std::move(file)),
      line_(line),
      column_(column),
      problem_(printable(problem)),
      remedy_(printable(remedy)) {}

InputError::InputError(const std::string& problem, const std::string& remedy)
    : InputError("", 0, 0, problem, remedy) {}

}  // namespace dewtrail
