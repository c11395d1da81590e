#include "greens/toml_section.hpp"

#include <fmt/format.h>

#include <optional>

#include <algorithm>
#include <cmath>

#include "greens/input_error.hpp"

// toml++ 3.3 takes some malformed files ("x = [}", "[[[") for its own mistakes: it asserts, and
// with NDEBUG it assumes and carries on undefined. Here, and only here, it is compiled with
// assertions that throw, so that such a file is reported like any other.
#undef NDEBUG
#undef TOML_HEADER_ONLY
#undef TOML_SHARED_LIB
#define TOML_HEADER_ONLY 1
#define TOML_ASSERT(expression) \
    (static_cast<bool>(expression) ? static_cast<void>(0) : dewtrail::give_up())

namespace dewtrail {
struct ParserGaveUp {};
[[noreturn]] static void give_up() {
    throw ParserGaveUp();
}
}  // namespace dewtrail

#include <toml++/toml.h>

namespace dewtrail {

struct TomlTable {
    std::string file, title;
    std::shared_ptr<const toml::table> root;  // keeps `here` alive
    const toml::table* here;

    [[noreturn]] void fail(const toml::source_region& at, const std::string& problem,
                           const std::string& remedy) const {
        throw InputError(file, static_cast<int>(at.begin.line), static_cast<int>(at.begin.column),
                         problem, remedy);
    }

    const toml::node& need(std::string_view key) const {
        const toml::node* const node = here->get(key);
        if (node == nullptr)
            fail(here->source(), fmt::format("{} has no '{}'", title, key),
                 fmt::format("add '{}'", key));
        return *node;
    }

    double number(const toml::node& node, const std::string& what, Range range) const {
        const auto value = node.is_number() ? node.value<double>() : std::nullopt;
        if (!value || !std::isfinite(*value))
            fail(node.source(), what + " is not a number", "write a plain number, without a unit");
        if (*value < range.least || *value > range.most)
            fail(node.source(),
                 fmt::format("{} {} is outside {} to {}", what, *value, range.least, range.most),
                 "check the value and its unit");
        return *value;
    }

    Vec2 point(const toml::node& node, const std::string& what, double reach_m) const {
        const toml::array* const pair = node.as_array();
        if (pair == nullptr || pair->size() != 2)
            fail(node.source(), what + " is not a point", "write [x, y] in metres");
        return {number((*pair)[0], what + " x", {-reach_m, reach_m}),
                number((*pair)[1], what + " y", {-reach_m, reach_m})};
    }
};

namespace {

constexpr const char* syntax_remedy = "correct the TOML syntax there";

bool parser_gives_up(std::string_view text) {
    try {
        static_cast<void>(toml::parse(text));
    } catch (const toml::parse_error&) {
    } catch (const ParserGaveUp&) {
        return true;
    }
    return false;
}

/// An error at a byte of the text.
InputError error_at(const std::string& file, std::string_view text, std::size_t at,
                    const std::string& problem, const std::string& remedy) {
    const std::string_view before = text.substr(0, at);
    const auto line = std::count(before.begin(), before.end(), '\n') + 1;
    const std::size_t column = at - (before.rfind('\n') + 1) + 1;
    return {file, static_cast<int>(line), static_cast<int>(column), problem, remedy};
}

/// Where the parser gave up: it does not say, but the shortest beginning of the file on which it
/// does ends there.
InputError gave_up(const std::string& file, std::string_view text) {
    std::size_t fine = 0, broken = text.size();
    while (broken - fine > 1) {
        const std::size_t middle = fine + (broken - fine) / 2;
        (parser_gives_up(text.substr(0, middle)) ? broken : fine) = middle;
    }
    return error_at(file, text, fine, "this is not TOML from here on", syntax_remedy);
}

/// How long a run of quotes begins here: 1 or 3.
std::size_t quotes_at(std::string_view text, std::size_t at) {
    const char quote = text[at];
    const bool three = at + 2 < text.size() && text[at + 1] == quote && text[at + 2] == quote;
    return three ? 3 : 1;
}

/// The end of the string that begins here, or the text's.
std::size_t end_of_string(std::string_view text, std::size_t at) {
    const char quote = text[at];
    const std::size_t quotes = quotes_at(text, at);
    for (at += quotes; at < text.size(); ++at) {
        if (quote == '"' && text[at] == '\\')
            ++at;
        else if (text[at] == quote && (quotes == 1 || quotes_at(text, at) == 3))
            return at + quotes;
        else if (quotes == 1 && text[at] == '\n')
            return at;
    }
    return text.size();
}

/// The first character beyond ASCII that TOML 1.0 does not allow where it stands, outside strings
/// and comments, or in a string of three double quotes, where it might follow an escaped line end.
/// The parser does not survive some of them (its search for white space there is undefined).
std::optional<std::size_t> stray_character(std::string_view text) {
    const auto beyond = [](char c) { return static_cast<unsigned char>(c) >= 0x80; };
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    std::size_t at = text.substr(0, 3) == byte_order_mark ? 3 : 0;
    while (at < text.size()) {
        const char c = text[at];
        if (beyond(c)) return at;
        if (c == '#') {
            at = std::min(text.find('\n', at), text.size());
        } else if (c == '"' || c == '\'') {
            const std::size_t end = end_of_string(text, at);
            if (c == '"' && quotes_at(text, at) == 3)
                for (; at < end; ++at)
                    if (beyond(text[at])) return at;
            at = end;
        } else {
            ++at;
        }
    }
    return std::nullopt;
}

std::shared_ptr<const toml::table> parsed(const std::string& file, std::string_view text) {
    if (const auto at = stray_character(text))
        throw error_at(file, text, *at, "a character beyond ASCII stands outside quotes",
                       "put a name that has one in quotes, and other text behind a #");
    try {
        return std::make_shared<const toml::table>(toml::parse(text, file));
    } catch (const toml::parse_error& error) {
        const toml::source_position at = error.source().begin;
        throw InputError(file, static_cast<int>(at.line), static_cast<int>(at.column),
                         std::string(error.description()), syntax_remedy);
    } catch (const ParserGaveUp&) {
        throw gave_up(file, text);
    }
}

}  // namespace

TomlSection TomlSection::parse(const std::string& file, const std::string& title,
                               std::string_view text) {
    const auto root = parsed(file, text);
    return TomlSection(std::make_shared<const TomlTable>(TomlTable{file, title, root, root.get()}));
}

void TomlSection::allow_only(std::initializer_list<std::string_view> keys) const {
    for (const auto& [key, node] : *table_->here) {
        if (std::find(keys.begin(), keys.end(), key.str()) != keys.end()) continue;
        table_->fail(key.source(), fmt::format("unknown key '{}' in {}", key.str(), table_->title),
                     fmt::format("known here: {}", fmt::join(keys, ", ")));
    }
}

bool TomlSection::has(std::string_view key) const {
    return table_->here->contains(key);
}

TomlSection TomlSection::section(std::string_view key) const {
    const toml::table* const inner = table_->need(key).as_table();
    if (inner == nullptr)
        fail(key, fmt::format("'{}' is not a table", key), fmt::format("write [{}]", key));
    return TomlSection(std::make_shared<const TomlTable>(
        TomlTable{table_->file, fmt::format("[{}]", key), table_->root, inner}));
}

std::vector<TomlSection> TomlSection::sections(std::string_view key, std::size_t most) const {
    const toml::array* const list = table_->need(key).as_array();
    if (list == nullptr || list->empty() || list->size() > most)
        fail(key, fmt::format("'{}' is not a list of 1 to {} tables", key, most),
             fmt::format("write [[{}]] above each", key));
    std::vector<TomlSection> sections;
    for (const toml::node& node : *list) {
        const toml::table* const inner = node.as_table();
        if (inner == nullptr)
            fail(key, fmt::format("'{}' holds something that is not a table", key),
                 fmt::format("write [[{}]] above each", key));
        sections.push_back(TomlSection(std::make_shared<const TomlTable>(
            TomlTable{table_->file, fmt::format("[[{}]]", key), table_->root, inner})));
    }
    return sections;
}

Vec2 TomlSection::point(std::string_view key, double reach_m) const {
    return table_->point(table_->need(key), std::string(key), reach_m);
}

std::string TomlSection::text(std::string_view key) const {
    const auto value = table_->need(key).value_exact<std::string>();
    if (!value || value->empty())
        fail(key, fmt::format("{} is not a text", key), "put it in double quotes");
    return *value;
}

double TomlSection::number(std::string_view key, Range range) const {
    return table_->number(table_->need(key), std::string(key), range);
}

std::optional<double> TomlSection::optional_number(std::string_view key, Range range) const {
    if (!has(key)) return std::nullopt;
    return number(key, range);
}

std::vector<Vec2> TomlSection::points(std::string_view key, std::size_t most,
                                      double reach_m) const {
    const toml::array* const list = table_->need(key).as_array();
    if (list == nullptr)
        fail(key, fmt::format("{} is not a list of points", key), "write [[x, y], [x, y], ...]");
    if (list->size() > most)
        fail(key, fmt::format("{} has {} corners, the limit is {}", key, list->size(), most),
             "leave out corners that add no shape");
    std::vector<Vec2> points;
    for (const toml::node& node : *list)
        points.push_back(
            table_->point(node, fmt::format("{} corner {}", key, points.size() + 1), reach_m));
    return points;
}

std::map<std::string, Vec2> TomlSection::named_points(double reach_m) const {
    std::map<std::string, Vec2> points;
    for (const auto& [key, node] : *table_->here)
        points.emplace(key.str(), table_->point(node, fmt::format("'{}'", key.str()), reach_m));
    return points;
}

void TomlSection::fail(std::string_view key, const std::string& problem,
                       const std::string& remedy) const {
    const toml::node* const node = table_->here->get(key);
    table_->fail(node != nullptr ? node->source() : table_->here->source(), problem, remedy);
}

}  // namespace dewtrail
