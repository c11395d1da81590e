#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <stdexcept>
#include <string>

#include "greens/input_error.hpp"
#include "greens/text_file.hpp"
#include "greens/toml_section.hpp"

/// The program's own small files, from one time to the next: all are kept as well as can be, and
/// none that is missing or damaged stops anything.
namespace dewtrail {

/// Hears what happened to a file.
using Tell = std::function<void(const std::string&)>;

/// `name` in $XDG_STATE_HOME/dewtrail, else $HOME/.local/state/dewtrail; none where neither is set
/// to a folder from the root.
std::optional<std::filesystem::path> state_path(const char* name);

/// Best effort: what cannot be saved is set up again.
void keep_state(const std::optional<std::filesystem::path>& path, const std::string& text);

/// Moves a damaged file to "NAME.damaged" beside it, never over an older one.
void set_aside(const std::filesystem::path& path, const std::string& why, const Tell& tell);

/// What `read` makes of the file, an optional; none where nothing was kept. A file that `read`
/// refuses, by InputError or std::invalid_argument, is set aside.
template <class Read>
auto kept_state(const std::optional<std::filesystem::path>& path, Read read, const Tell& tell)
    -> decltype(read(std::declval<const TomlSection&>())) {
    constexpr std::uintmax_t most_bytes = 4u << 20;
    std::error_code unknown;
    if (!path || !std::filesystem::exists(*path, unknown)) return std::nullopt;
    try {
        return read(
            TomlSection::parse(path->string(), "the file", read_text_file(*path, most_bytes)));
    } catch (const InputError& error) {
        set_aside(*path, error.problem(), tell);
    } catch (const std::invalid_argument& error) {
        set_aside(*path, error.what(), tell);
    }
    return std::nullopt;
}

}  // namespace dewtrail
