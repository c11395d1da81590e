#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "viewer/paper/sheet.hpp"
#include "viewer/terminal/session.hpp"

namespace dewtrail {

/// What every page takes beside what stands on it.
struct SheetArguments {
    std::string out, kind, paper = "a4";
    bool force = false, round = false;
};

/// Adds --out, --paper, --force and --round; without --out the file is called after its kind.
void add_sheet_options(const Command& command, SheetArguments& arguments, const char* kind);

/// For pages that tell an aim or a line: refuses --round. Throws InputError.
Paper paper_of(const SheetArguments& arguments);

/// Writes the pages; returns the names of the files. Where one file holds one page, several are
/// numbered; all names are checked before the first file is written. Throws InputError for a name
/// that is taken (unless forced) or has no known ending, OutsideError if a file cannot be written.
std::vector<std::filesystem::path> write_sheet(const SheetArguments& arguments, const Sheet& sheet);

/// The same, and says their names. `about`: what stands on it, for the name of a file that was not
/// given one.
Exit save_sheet(Session& session, SheetArguments arguments, const Sheet& sheet,
                const std::string& about = "");

}  // namespace dewtrail
