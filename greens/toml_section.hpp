#pragma once

#include <initializer_list>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "greens/number.hpp"
#include "physics/surface/surface.hpp"

namespace dewtrail {

struct TomlTable;

/// One table of a TOML file, read key by key. Whatever is missing, misspelt, of the wrong kind or
/// out of range becomes an InputError at its own line and column. Shares the parsed file, so it
/// may be kept and copied freely.
class TomlSection {
  public:
    /// The whole file from its text; `file` is its name in errors, `title` what a reader would call
    /// the top of it. What is not TOML becomes an InputError.
    static TomlSection parse(const std::string& file, const std::string& title,
                             std::string_view text);

    /// Refuses every key that is not among these.
    void allow_only(std::initializer_list<std::string_view> keys) const;

    bool has(std::string_view key) const;
    TomlSection section(std::string_view key) const;
    /// The tables of a [[key]], at least one, at most so many.
    std::vector<TomlSection> sections(std::string_view key, std::size_t most) const;
    std::string text(std::string_view key) const;
    double number(std::string_view key, Range range) const;
    std::optional<double> optional_number(std::string_view key, Range range) const;
    /// One [x, y], no coordinate beyond +-reach_m.
    Vec2 point(std::string_view key, double reach_m) const;
    /// A list of [x, y], at most so many, no coordinate beyond +-reach_m.
    std::vector<Vec2> points(std::string_view key, std::size_t most, double reach_m) const;
    /// Every key of the section, each an [x, y].
    std::map<std::string, Vec2> named_points(double reach_m) const;

    /// Throws the InputError, at the key's value if it is there, else at the section.
    [[noreturn]] void fail(std::string_view key, const std::string& problem,
                           const std::string& remedy) const;

  private:
    explicit TomlSection(std::shared_ptr<const TomlTable> table) : table_(std::move(table)) {}

    std::shared_ptr<const TomlTable> table_;
};

}  // namespace dewtrail
