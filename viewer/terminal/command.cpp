#include "viewer/terminal/command.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <algorithm>
#include <cstdint>
#include <utility>

#include "greens/number.hpp"

namespace dewtrail {
namespace {

std::string not_one_of(const std::string& text, const std::string& words) {
    return fmt::format("'{}' is not one of {}", text, words);
}

}  // namespace

Option Option::required() const {
    if (!option_) return *this;
    return Option(option_->required());
}

Option Option::group(const std::string& name) const {
    if (!option_) return *this;
    return Option(option_->group(name));
}

Option Option::one_of(const std::vector<std::string>& words) const {
    if (!option_) return *this;
    const auto complaint = [words](const std::string& text) -> std::string {
        if (std::find(words.begin(), words.end(), text) != words.end()) return "";
        return not_one_of(text, fmt::format("{}", fmt::join(words, ", ")));
    };
    return Option(
        option_->check(CLI::Validator(complaint, fmt::format("{{{}}}", fmt::join(words, ",")))));
}

Option Option::one_of_numbers(const std::vector<double>& numbers) const {
    if (!option_) return *this;
    const auto complaint = [numbers](const std::string& text) -> std::string {
        const auto number = plain_number(text);
        if (number && std::find(numbers.begin(), numbers.end(), *number) != numbers.end())
            return "";
        return not_one_of(text, fmt::format("{:g}", fmt::join(numbers, ", ")));
    };
    return Option(option_->check(
        CLI::Validator(complaint, fmt::format("{{{:g}}}", fmt::join(numbers, ",")))));
}

Option Option::within(double least, double most) const {
    if (!option_) return *this;
    const auto complaint = [least, most](const std::string& text) -> std::string {
        const auto number = plain_number(text);
        if (!number) return fmt::format("'{}' is not a number", text);
        if (*number >= least && *number <= most) return "";
        return fmt::format("{} is outside {:g} to {:g}", text, least, most);
    };
    return Option(option_->check(CLI::Validator(complaint, "")));
}

Option Option::expected(int least, int most) const {
    if (!option_) return *this;
    return Option(option_->expected(least, most));
}

Option Option::one_value() const {
    if (!option_) return *this;
    return Option(option_->allow_extra_args(false));
}

Option Option::take_all() const {
    if (!option_) return *this;
    return Option(option_->take_all());
}

std::optional<std::string> Option::last() const {
    if (!option_ || option_->count() == 0) return std::nullopt;
    return option_->results().back();
}

Command Command::add_subcommand(const std::string& name, const std::string& what) const {
    if (name_alone_) return *this;
    Command sub(*app_->add_subcommand(name, what));
    sub.name_alone_ = !only_.empty() && name != only_;
    return sub;
}

template <class Value>
Option Command::add_option(const std::string& name, Value& value, const std::string& what) const {
    return Option(name_alone_ ? nullptr : app_->add_option(name, value, what));
}

#define DEWTRAIL_TAKES(...)                                                          \
    template Option Command::add_option(const std::string& name, __VA_ARGS__& value, \
                                        const std::string& what) const;
DEWTRAIL_TAKES(std::string)
DEWTRAIL_TAKES(std::vector<std::string>)
DEWTRAIL_TAKES(int)
DEWTRAIL_TAKES(double)
DEWTRAIL_TAKES(std::optional<std::string>)
DEWTRAIL_TAKES(std::optional<double>)
DEWTRAIL_TAKES(std::optional<int>)
DEWTRAIL_TAKES(std::optional<std::uint64_t>)
DEWTRAIL_TAKES(std::vector<long>)
#undef DEWTRAIL_TAKES

Option Command::add_option_function(const std::string& name,
                                    const std::function<void(const std::string&)>& takes,
                                    const std::string& what) const {
    return Option(name_alone_ ? nullptr
                              : app_->add_option_function<std::string>(name, takes, what));
}

Option Command::add_flag(const std::string& name, bool& value, const std::string& what) const {
    return Option(name_alone_ ? nullptr : app_->add_flag(name, value, what));
}

Option Command::option(const std::string& name) const {
    return Option(name_alone_ ? nullptr : app_->get_option(name));
}

Command Command::footer(const std::string& text) const {
    if (!name_alone_) app_->footer(text);
    return *this;
}

Command Command::callback(std::function<void()> does) const {
    if (!name_alone_) app_->callback(std::move(does));
    return *this;
}

Command Command::require_subcommand(int count) const {
    app_->require_subcommand(count);
    return *this;
}

Command Command::allow_extras() const {
    app_->allow_extras();
    return *this;
}

bool Command::names_a_subcommand() const {
    return !app_->get_subcommands().empty();
}

}  // namespace dewtrail
