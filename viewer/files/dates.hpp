#pragma once

#include <optional>
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

/// Days since 1970-01-01, and back; none where it is not a date.
std::optional<int> day_number(std::string_view date);
/// '29 Nov'; with the year instead of the day 'Nov 2026'.
std::string short_date(int day_number, bool with_year = false);

/// The day before.
std::string day_before(const std::string& date);

}  // namespace dewtrail
