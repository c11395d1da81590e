#pragma once

namespace dewtrail {

/// A key as pressed: lower-case letters, digits and punctuation by their character, others below.
struct KeyPress {
    int code = 0;
    bool ctrl = false, shift = false;
};

namespace key {
inline constexpr int up = 256, down = 257, left = 258, right = 259, enter = 260, escape = 261,
                     tab = 262, space = 263, home = 264, end = 265, f1 = 266, f11 = 267,
                     erase = 268, back = 269;
}

enum class Button { left, middle, right };

/// What goes with a pointer: the keys held, and whether it is a finger's, which hides what it is
/// on.
struct Held {
    bool ctrl = false, shift = false, finger = false;
};

}  // namespace dewtrail
