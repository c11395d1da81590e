#pragma once

#include <string_view>
#include <vector>

#include "greens/green_file.hpp"
#include "viewer/modes/read/read_mode.hpp"

/// The mode Read without a window, for tests.
namespace dewtrail {

/// Half an em for each letter: as good as any rule where no font is at hand.
inline double half_em(Face, double size, std::string_view words) {
    double letters = 0;
    for (const char c : words) letters += (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    return 0.5 * size * letters;
}

inline ReadStart quiet_start() {
    ReadStart start;
    start.less_motion = true;
    start.outlook = false;  // has tests of its own
    return start;
}

inline std::shared_ptr<const Green> shipped_green(const std::string& name) {
    return std::make_shared<const Green>(
        load_green(name, {std::filesystem::path(DEWTRAIL_SOURCE_DIR) / "greens"}));
}

/// A mode in its shell.
template <class M>
struct InShell {
    template <class Start>
    InShell(const Appearance& appearance, Start start)
        : made(Shell::with<M>(appearance, std::move(start))),
          shell(*made),
          mode(static_cast<M&>(made->mode())) {}

    std::unique_ptr<Shell> made;
    Shell& shell;
    M& mode;
};

/// Read, drawn once, so that everything has its place.
struct Drawn : InShell<ReadMode> {
    explicit Drawn(const ReadStart& start = quiet_start()) : InShell(start, start) {
        shell.frame(half_em);
    }
    void settle() { wait(1.5); }
    /// Passes time in frames of a sixtieth, and draws.
    Frame wait(double seconds) {
        constexpr double frame_s = 1.0 / 60;
        for (; seconds > 1e-9; seconds -= frame_s) shell.advance(std::min(seconds, frame_s));
        return shell.frame(half_em);
    }
    void drag(const Vec2& from, const Vec2& to, Held held = {}) {
        shell.pointer_pressed(from, Button::left, held);
        for (const double share : {0.25, 0.5, 1.0})
            shell.pointer_moved(from + share * (to - from), held);
        shell.pointer_released(to);
        shell.frame(half_em);
    }
};

/// All shapes of one kind in a picture.
template <class Kind>
std::vector<Kind> all_of(const Picture& picture) {
    std::vector<Kind> found;
    for (const Shape& shape : picture)
        if (const auto* kind = std::get_if<Kind>(&shape)) found.push_back(*kind);
    return found;
}

}  // namespace dewtrail
