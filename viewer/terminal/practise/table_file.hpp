#pragma once

#include <fmt/format.h>

#include <string>

#include "greens/text_file.hpp"
#include "viewer/terminal/busy.hpp"
#include "viewer/terminal/session.hpp"

/// What is remembered as a table in a file, out and in; the same words for all of it.
namespace dewtrail {

/// So many rows into the file, whole or not at all; printed where it is '-'. `what`: 'answers'.
Exit export_table(const Session& session, const std::string& file, const std::string& text,
                  std::size_t rows, const char* what);

Exit tell_imported(const Session& session, int added, int known, const char* what);

/// `read` makes rows of the file's text, `add` takes them in and returns how many were new.
template <class Read, class Add>
Exit import_table(const Session& session, const std::string& file, const char* what, Read read,
                  Add add) {
    constexpr std::uintmax_t most_bytes = 50'000'000;
    const auto rows = while_busy(session, "Reading the table …",
                                 [&] { return read(read_text_file(file, most_bytes)); });
    const int added =
        while_busy(session, fmt::format("Adding the {} …", what), [&] { return add(rows); });
    return tell_imported(session, added, static_cast<int>(rows.size()) - added, what);
}

}  // namespace dewtrail
