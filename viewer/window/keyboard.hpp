#pragma once

#include <SFML/Window/Event.hpp>

#include "viewer/picture/keys.hpp"

namespace dewtrail {

/// The key as the scene knows it; code 0 for one that means nothing here.
KeyPress key_press(const sf::Event::KeyEvent& event);

}  // namespace dewtrail
