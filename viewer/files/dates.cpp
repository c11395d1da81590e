#include "viewer/files/dates.hpp"

#include <fmt/format.h>

#include <chrono>
#include <cstdio>
#include <ctime>

#include "greens/input_error.hpp"

namespace dewtrail {
namespace {

using std::chrono::sys_days;
using std::chrono::year_month_day;

std::string text_of(const year_month_day& day) {
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(day.year()),
                       static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()));
}

year_month_day day_of(std::string_view text) {
    int year = 0, used = 0;
    unsigned month = 0, day = 0;
    const std::string copy(text);
    const bool read = std::sscanf(copy.c_str(), "%4d-%2u-%2u%n", &year, &month, &day, &used) == 3;
    const year_month_day date{std::chrono::year(year), std::chrono::month(month),
                              std::chrono::day(day)};
    // The scan takes signs and blanks before a figure.
    const bool plain = text.find_first_not_of("0123456789-") == text.npos && text.size() == 10;
    if (!read || !plain || used != 10 || !date.ok())
        throw InputError(fmt::format("date '{}' is not a day", text), "write it like 2026-05-01");
    return date;
}

}  // namespace

std::string moment_now() {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    localtime_r(&now, &local);
    return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}", local.tm_year + 1900,
                       local.tm_mon + 1, local.tm_mday, local.tm_hour, local.tm_min, local.tm_sec);
}

std::string today() {
    return moment_now().substr(0, 10);
}

std::string parse_date(std::string_view text) {
    return text_of(day_of(text));
}

std::string week_of(const std::string& date) {
    const sys_days day(day_of(date));
    // The week belongs to the year of its Thursday.
    const int from_monday = static_cast<int>(std::chrono::weekday(day).iso_encoding()) - 1;
    const sys_days thursday = day + std::chrono::days(3 - from_monday);
    const auto year = year_month_day(thursday).year();
    const auto since = thursday - sys_days(year / std::chrono::January / 1);
    return fmt::format("{:04}-W{:02}", static_cast<int>(year), since.count() / 7 + 1);
}

std::optional<int> day_number(std::string_view date) {
    try {
        return static_cast<int>(sys_days(day_of(date)).time_since_epoch().count());
    } catch (const InputError&) {
        return std::nullopt;
    }
}

std::string short_date(int day_number, bool with_year) {
    constexpr const char* months[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                      "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    const year_month_day day{sys_days{std::chrono::days{day_number}}};
    const char* const month = months[static_cast<unsigned>(day.month()) - 1];
    if (with_year) return fmt::format("{} {}", month, static_cast<int>(day.year()));
    return fmt::format("{} {}", static_cast<unsigned>(day.day()), month);
}

std::string day_before(const std::string& date) {
    return text_of(year_month_day(sys_days(day_of(date)) - std::chrono::days(1)));
}

}  // namespace dewtrail
