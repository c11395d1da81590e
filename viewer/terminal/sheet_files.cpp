#include "viewer/terminal/sheet_files.hpp"

#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <ostream>

#include "greens/input_error.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/paper/page_name.hpp"
#include "viewer/terminal/green/green_command.hpp"
#include "viewer/text/english.hpp"

namespace dewtrail {
namespace {
namespace fs = std::filesystem;

enum class Kind { pdf, svg, png };

Kind kind_of(const fs::path& path) {
    const std::string ending = lower_case(path.extension().string());
    if (ending == ".pdf") return Kind::pdf;
    if (ending == ".svg") return Kind::svg;
    if (ending == ".png") return Kind::png;
    throw InputError(fmt::format("{} is no name of a page", path.string()),
                     "Let it end in .pdf, .svg or .png.");
}

/// ladder.svg, or ladder-1.svg, ladder-2.svg … where one file holds one page.
std::vector<fs::path> files_of(const fs::path& out, Kind kind, std::size_t pages) {
    if (kind == Kind::pdf || pages == 1) return {out};
    std::vector<fs::path> files;
    for (std::size_t i = 1; i <= pages; ++i) {
        fs::path file = out;
        file.replace_filename(
            fmt::format("{}-{}{}", out.stem().string(), i, out.extension().string()));
        files.push_back(file);
    }
    return files;
}

std::string content(const Sheet& sheet, Kind kind, std::size_t page) {
    if (kind == Kind::pdf) return sheet_pdf(sheet);
    return kind == Kind::svg ? sheet_svg(sheet, page) : sheet_png(sheet, page);
}

}  // namespace

void add_sheet_options(const Command& command, SheetArguments& arguments, const char* kind) {
    arguments.kind = kind;
    command.add_option(
        "--out", arguments.out,
        fmt::format("File to write: .pdf, .svg or .png ({}.pdf, with what is on it)", kind));
    command.add_option("--paper", arguments.paper, "Its size (a4)").one_of({"a4", "letter"});
    command.add_flag("--force", arguments.force, "Replace a file that is there");
    command.add_flag("--round", arguments.round,
                     "For use during a round, where the Rules allow it: green only");
}

Paper paper_of(const SheetArguments& arguments) {
    if (arguments.round)
        throw InputError("--round goes with a green only",
                         "A page with aims or lines is for practice: leave --round out.");
    return arguments.paper == "letter" ? Paper::letter : Paper::a4;
}

std::vector<fs::path> write_sheet(const SheetArguments& arguments, const Sheet& sheet) {
    const Kind kind = kind_of(arguments.out);
    const auto files = files_of(arguments.out, kind, sheet.pages.size());
    for (const fs::path& file : files) check_may_write(file, arguments.force);
    for (std::size_t i = 0; i < files.size(); ++i)
        save_whole_file(files[i], content(sheet, kind, i));
    return files;
}

Exit save_sheet(Session& session, SheetArguments arguments, const Sheet& sheet,
                const std::string& about) {
    if (arguments.out.empty())
        arguments.out = as_file_name(arguments.kind + (about.empty() ? "" : "-" + about)) + ".pdf";
    Json names = Json::array();
    for (const fs::path& file : write_sheet(arguments, sheet)) {
        names.push_back(file.string());
        if (!session.json()) session.out() << printable(file.string()) << '\n';
    }
    if (session.json()) session.print({{"files", names}, {"pages", sheet.pages.size()}});
    session.caution();
    return Exit::done;
}

}  // namespace dewtrail
