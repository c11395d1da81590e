#include "viewer/files/window_state.hpp"

#include <fmt/format.h>

namespace dewtrail {

WindowState load_window_state(const std::optional<std::filesystem::path>& path, const Tell& tell) {
    const auto read = [](const TomlSection& file) -> std::optional<WindowState> {
        return WindowState{file.optional_number("scale", {least_window_scale, most_window_scale}),
                           file.optional_number("hints_seen", {0, 1}) == 1.0};
    };
    return kept_state(path, read, tell).value_or(WindowState{});
}

void save_window_state(const std::optional<std::filesystem::path>& path, const WindowState& state) {
    std::string text = fmt::format("hints_seen = {}\n", state.hints_seen ? 1 : 0);
    if (state.scale) text += fmt::format("scale = {}\n", *state.scale);
    keep_state(path, text);
}

void remember_hints(const std::optional<std::filesystem::path>& path) {
    WindowState state = load_window_state(path);
    state.hints_seen = true;
    save_window_state(path, state);
}

}  // namespace dewtrail
