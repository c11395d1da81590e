#include "viewer/terminal/practise/table_file.hpp"

#include <nlohmann/json.hpp>

#include <ostream>

#include "greens/input_error.hpp"
#include "viewer/files/whole_file.hpp"

namespace dewtrail {

Exit export_table(const Session& session, const std::string& file, const std::string& text,
                  std::size_t rows, const char* what) {
    if (file == "-") {
        session.out() << text;
        return Exit::done;
    }
    save_whole_file(file, text);
    if (session.json())
        session.print({{"exported", rows}, {"file", file}});
    else
        session.out() << fmt::format("{} {} are in {}.\n", rows, what, printable(file));
    return Exit::done;
}

Exit tell_imported(const Session& session, int added, int known, const char* what) {
    if (session.json())
        session.print({{"added", added}, {"already_there", known}});
    else
        session.out() << fmt::format("{} {} added, {} were there already.\n", added, what, known);
    return Exit::done;
}

}  // namespace dewtrail
