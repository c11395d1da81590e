#include "viewer/files/window_state.hpp"

#include <fmt/format.h>

#include <string>

#include "greens/input_error.hpp"
#include "greens/text_file.hpp"
#include "greens/toml_section.hpp"
#include "viewer/files/folders.hpp"
#include "viewer/files/whole_file.hpp"

namespace dewtrail {
namespace {

constexpr std::uintmax_t most_bytes = 10'000;

}  // namespace

std::optional<std::filesystem::path> window_state_path() {
    const auto folder = state_folder();
    return folder ? std::optional(*folder / "window.toml") : std::nullopt;
}

WindowState load_window_state(const std::optional<std::filesystem::path>& path) {
    WindowState state;
    if (!path) return state;
    try {
        const TomlSection file =
            TomlSection::parse(path->string(), "the window", read_text_file(*path, most_bytes));
        state.hints_seen = file.optional_number("hints_seen", {0, 1}).value_or(0) == 1;
        state.scale = file.optional_number("scale", {least_window_scale, most_window_scale});
    } catch (const InputError&) {
    }
    return state;
}

void save_window_state(const std::optional<std::filesystem::path>& path, const WindowState& state) {
    if (!path) return;
    std::string text = fmt::format("hints_seen = {}\n", state.hints_seen ? 1 : 0);
    if (state.scale) text += fmt::format("scale = {}\n", *state.scale);
    try {
        save_whole_file(*path, text);
    } catch (const OutsideError&) {
    }
}

}  // namespace dewtrail
