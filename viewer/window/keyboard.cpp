#include "viewer/window/keyboard.hpp"

namespace dewtrail {
namespace {

int code_of(sf::Keyboard::Key k) {
    using K = sf::Keyboard;
    if (k >= K::A && k <= K::Z) return 'a' + (k - K::A);
    if (k >= K::Num0 && k <= K::Num9) return '0' + (k - K::Num0);
    if (k >= K::Numpad0 && k <= K::Numpad9) return '0' + (k - K::Numpad0);
    switch (k) {
        case K::LBracket:
            return '[';
        case K::RBracket:
            return ']';
        case K::Comma:
            return ',';
        case K::Period:
            return '.';
        case K::Slash:
            return '/';
        case K::Equal:
        case K::Add:
            return '+';
        case K::Hyphen:
        case K::Subtract:
            return '-';
        case K::Up:
            return key::up;
        case K::Down:
            return key::down;
        case K::Left:
            return key::left;
        case K::Right:
            return key::right;
        case K::Enter:
            return key::enter;
        case K::Escape:
            return key::escape;
        case K::Tab:
            return key::tab;
        case K::Space:
            return key::space;
        case K::Delete:
            return key::erase;
        case K::Backspace:
            return key::back;
        case K::Home:
            return key::home;
        case K::End:
            return key::end;
        case K::F1:
            return key::f1;
        case K::F11:
            return key::f11;
        default:
            return 0;
    }
}

}  // namespace

KeyPress key_press(const sf::Event::KeyEvent& event) {
    return {code_of(event.code), event.control, event.shift};
}

}  // namespace dewtrail
