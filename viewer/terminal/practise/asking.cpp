#include "viewer/terminal/practise/asking.hpp"

#include <unistd.h>

#include <iostream>

#include "greens/input_error.hpp"
#include "greens/measure.hpp"

namespace dewtrail {

// The terminal echoes what a person types; what comes through a pipe is not on the screen.
Asking::Asking(const Session& session)
    : session_(session), echoes_(&session.in() != &std::cin || isatty(STDIN_FILENO) == 0) {}

std::optional<std::string> Asking::line(const std::string& question) {
    std::string text;
    do {
        if (!session_.json()) session_.out() << question << ' ' << std::flush;
        if (!std::getline(session_.in(), text)) {
            if (!session_.json()) session_.out() << '\n';
            return std::nullopt;
        }
        if (!session_.json() && echoes_) session_.out() << printable(text) << '\n';
        text = plain_text(text);
    } while (text.empty());
    if (text == "q" || text == "quit") return std::nullopt;
    return text;
}

void Asking::tell(const std::string& text) {
    (session_.json() ? session_.err() : session_.out()) << text << std::endl;
}

}  // namespace dewtrail
