#pragma once

#include <catch2/catch.hpp>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <tuple>
#include <variant>
#include <vector>

#include "greens/green_file.hpp"
#include "tests/viewer/picture/shapes.hpp"
#include "viewer/modes/read/read_mode.hpp"
#include "viewer/paper/picture_painter.hpp"

/// Modes of the window without a window: driven by keys and pointer, seen by what they draw.
namespace dewtrail {

/// The fonts in use, as cairo sets them; tests of the window put its own letters here.
inline TextWidth& fonts_in_use() {
    static TextWidth fonts = paper_width();
    return fonts;
}

/// How wide they are. Each text is measured once.
inline double type_width(Face face, double size, std::string_view words) {
    static std::map<std::tuple<Face, double, std::string>, double> known;
    const auto [place, fresh] = known.try_emplace({face, size, std::string(words)});
    if (fresh) place->second = fonts_in_use()(face, size, words);
    return place->second;
}

inline std::shared_ptr<const Green> shipped_green(const std::string& name) {
    return std::make_shared<const Green>(
        load_green(name, {std::filesystem::path(DEWTRAIL_SOURCE_DIR) / "greens"}));
}

/// All modes to choose from, and nothing eased.
inline Appearance quiet_look() {
    Appearance look;
    look.less_motion = true;
    look.modes = {ModeName::read,   ModeName::compare, ModeName::practise,
                  ModeName::review, ModeName::green,   ModeName::measure};
    return look;
}

/// Whether words can be read in a picture, also over several texts.
inline bool says(const Frame& frame, const std::string& words) {
    std::string all;
    for (const Text& text : all_of<Text>(frame.picture))
        if (text.colour.a > 0) all += text.words + " ";
    return all.find(words) != std::string::npos;
}

/// Opacity of a text, 0 to 255; none where it is not drawn.
inline std::optional<int> opacity_of(const Frame& frame, const std::string& words) {
    for (const Text& text : all_of<Text>(frame.picture))
        if (text.words == words) return text.colour.a;
    return std::nullopt;
}

/// A mode in its shell.
template <class AnyMode>
struct InShell {
    template <class Start>
    InShell(const Appearance& appearance, Start start)
        : made(Shell::with<AnyMode>(appearance, std::move(start))),
          shell(*made),
          mode(static_cast<AnyMode&>(made->mode())) {}

    std::unique_ptr<Shell> made;
    Shell& shell;
    AnyMode& mode;
};

/// A mode that has been drawn, so that everything has its place, and is drawn again after whatever
/// is done to it.
template <class AnyMode>
struct DrawnMode : InShell<AnyMode> {
    using InShell<AnyMode>::shell;

    template <class Start>
    DrawnMode(const Appearance& appearance, Start start)
        : InShell<AnyMode>(appearance, std::move(start)) {
        draw();
    }

    Frame draw() { return shell.frame(type_width); }
    bool says(const std::string& words) { return dewtrail::says(draw(), words); }

    void press(std::initializer_list<KeyPress> keys) {
        for (const KeyPress& key : keys) {
            shell.press(key);
            draw();
        }
    }
    void type(const std::string& text) {
        REQUIRE(shell.typing());
        shell.typed(text);
        draw();
    }
    /// Passes time in frames of a sixtieth.
    Frame wait(double seconds) {
        constexpr double frame_s = 1.0 / 60;
        for (; seconds > 1e-9; seconds -= frame_s) shell.advance(std::min(seconds, frame_s));
        return draw();
    }
    /// Takes hold and moves, but does not let go.
    void pull(const Vec2& from, const Vec2& to, Held held = {}) {
        shell.pointer_pressed(from, Button::left, held);
        for (const double share : {0.25, 0.5, 1.0})
            shell.pointer_moved(from + share * (to - from), held);
        draw();
    }
    void drag(const Vec2& from, const Vec2& to, Held held = {}) {
        pull(from, to, held);
        shell.pointer_released(to);
        draw();
    }
    void click(What what, int index = 0) {
        const auto target = find_target(shell.targets(), what, index);
        REQUIRE(target);
        shell.pointer_pressed(target->hit.centre(), Button::left, {});
        shell.pointer_released(target->hit.centre());
        draw();
    }

    /// The middle of what has this name.
    Vec2 place(const std::string& name) const {
        for (const auto& [known, at] : shell.places())
            if (known == name) return at;
        FAIL("no place " << name);
        return Vec2(0, 0);
    }
    /// What the mode tells tests under this name.
    template <class Value = double>
    Value told(const std::string& name) const {
        for (const auto& [known, value] : shell.state())
            if (known == name) return std::get<Value>(value);
        FAIL("nothing told of " << name);
        return {};
    }
};

inline ReadStart quiet_start() {
    ReadStart start;
    start.less_motion = true;
    start.outlook = false;  // has tests of its own
    return start;
}

/// The mode Read.
struct Drawn : DrawnMode<ReadMode> {
    explicit Drawn(const ReadStart& start = quiet_start()) : DrawnMode(start, start) {}
    void settle() { wait(1.5); }
};

}  // namespace dewtrail
