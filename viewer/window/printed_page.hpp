#pragma once

#include <filesystem>
#include <string>

#include "viewer/modes/shell/wish.hpp"
#include "viewer/terminal/session.hpp"

namespace dewtrail {

/// Prints the page that is wished for into the folder the program was started in, under a free name
/// made of what stands on it: read-12ft-2pct-at-3.00.pdf, progress-Anna.pdf; a lesson also as the
/// text file that it can be changed in.
struct PrintedPage {
    std::string words;           ///< where it is now, or why it could not be made
    std::filesystem::path file;  ///< empty where none was made
};
PrintedPage print_page(const Wish& wish, const Units& units, Session& session);

}  // namespace dewtrail
