#pragma once

#include <string>
#include <string_view>

/// Days as people write them. Local time.
namespace dewtrail {

std::string today();       ///< 2026-05-01
std::string moment_now();  ///< 2026-05-01T18:30:00

/// Checks and returns a date written 2026-05-01; InputError for anything else, and for a day that
/// the calendar does not have.
std::string parse_date(std::string_view text);

/// The week a day belongs to (ISO 8601): 2026-W18.
std::string week_of(const std::string& date);

/// The day before.
std::string day_before(const std::string& date);

}  // namespace dewtrail
