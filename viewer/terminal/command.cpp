#include "viewer/terminal/command.hpp"

#include <CLI/CLI.hpp>
#include <cstdint>
#include <utility>

namespace dewtrail {

Option Option::required() const {
    return Option(option_->required());
}

Option Option::group(const std::string& name) const {
    return Option(option_->group(name));
}

Option Option::one_of(const std::vector<std::string>& words) const {
    return Option(option_->check(CLI::IsMember(words)));
}

Option Option::one_of_numbers(const std::vector<double>& numbers) const {
    return Option(option_->check(CLI::IsMember(numbers)));
}

Option Option::within(double least, double most) const {
    return Option(option_->check(CLI::Range(least, most)));
}

Option Option::expected(int least, int most) const {
    return Option(option_->expected(least, most));
}

Option Option::one_value() const {
    return Option(option_->allow_extra_args(false));
}

Option Option::take_all() const {
    return Option(option_->take_all());
}

std::optional<std::string> Option::last() const {
    if (option_->count() == 0) return std::nullopt;
    return option_->results().back();
}

Command Command::add_subcommand(const std::string& name, const std::string& what) const {
    return *app_->add_subcommand(name, what);
}

template <class Value>
Option Command::add_option(const std::string& name, Value& value, const std::string& what) const {
    return Option(app_->add_option(name, value, what));
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
    return Option(app_->add_option_function<std::string>(name, takes, what));
}

Option Command::add_flag(const std::string& name, bool& value, const std::string& what) const {
    return Option(app_->add_flag(name, value, what));
}

Option Command::option(const std::string& name) const {
    return Option(app_->get_option(name));
}

Command Command::footer(const std::string& text) const {
    app_->footer(text);
    return *this;
}

Command Command::callback(std::function<void()> does) const {
    app_->callback(std::move(does));
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
