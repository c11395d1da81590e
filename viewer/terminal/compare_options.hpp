#pragma once

#include <string>
#include <vector>

#include "viewer/comparison/compare_request.hpp"
#include "viewer/terminal/session.hpp"

namespace dewtrail {

/// Two to four putts as typed: the first in full, the others as what is different about them.
struct CompareArguments {
    ComparedRequest first;
    std::vector<std::string> with;
};

/// Adds the putt options, --aim and --with; `arguments` must outlive the parsing.
void add_compare_options(const Command& command, CompareArguments& arguments);

/// 'clock 4:30', '24ft', 'stimp 12 past firm', '--aim apex': the words of the options with or
/// without their dashes; a value runs on to the next of them, so '8in right' needs no quotes.
/// Throws InputError.
ComparedRequest parse_change(const std::string& text);

/// All putts. Throws InputError for fewer than two or more than four.
std::vector<ComparedRequest> requests_of(const CompareArguments& arguments);

}  // namespace dewtrail
