#pragma once

#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace CLI {
class App;
class Option;
}  // namespace CLI

namespace dewtrail {

/// An option or flag of a command, to say more of it. Without one there is nothing to be said.
class Option {
  public:
    explicit Option(CLI::Option* option) : option_(option) {}

    Option required() const;
    Option group(const std::string& name) const;
    Option one_of(const std::vector<std::string>& words) const;
    Option one_of_numbers(const std::vector<double>& numbers) const;
    Option within(double least, double most) const;
    /// How many values follow it.
    Option expected(int least, int most) const;
    /// The words after its value are not its own.
    Option one_value() const;
    /// Given more than once, all count.
    Option take_all() const;

    /// What it was given last; none if it was not.
    std::optional<std::string> last() const;

  private:
    CLI::Option* option_;
};

/// A command of the program: what CLI11 knows of it, without its header, which takes five seconds
/// of a compiler in each file that sees it. Cheap to copy; what it points at belongs to the
/// program.
class Command {
  public:
    /// `only`: the one whose options are wanted, if not all are. Of the others there is the name:
    /// the parser takes longer over the options of all commands than over anything else.
    explicit Command(CLI::App& app, std::string only = "") : app_(&app), only_(std::move(only)) {}

    Command add_subcommand(const std::string& name, const std::string& what) const;
    /// `Value`: one of those that command.cpp names.
    template <class Value>
    Option add_option(const std::string& name, Value& value, const std::string& what) const;
    Option add_option_function(const std::string& name,
                               const std::function<void(const std::string&)>& takes,
                               const std::string& what) const;
    Option add_flag(const std::string& name, bool& value, const std::string& what) const;
    Option option(const std::string& name) const;

    /// What --help ends with.
    Command footer(const std::string& text) const;
    Command callback(std::function<void()> does) const;
    Command require_subcommand(int count) const;
    Command allow_extras() const;
    bool names_a_subcommand() const;

    CLI::App& app() const { return *app_; }

  private:
    CLI::App* app_;
    std::string only_{};
    bool name_alone_ = false;
};

}  // namespace dewtrail
