#pragma once

#include <SFML/Graphics/RenderWindow.hpp>
#include <SFML/Window/Event.hpp>
#include <array>
#include <optional>
#include <string>

#include "viewer/modes/shell/mode.hpp"
#include "viewer/window/fonts.hpp"

namespace dewtrail {

/// Typing into a field: one line of Dear ImGui where the figure stands, with caret, selection and
/// clipboard. Our own small glue between SFML and ImGui; nothing else of ImGui is on the screen.
class EntryBox {
  public:
    EntryBox(sf::RenderWindow& window, const Fonts& fonts);
    ~EntryBox();
    EntryBox(const EntryBox&) = delete;
    EntryBox& operator=(const EntryBox&) = delete;

    /// Passes the event on; only while something is typed.
    void take(const sf::Event& event);

    /// Draws the box. The text once Enter was pressed; Esc is left to the mode.
    std::optional<std::string> show(const Typing& typing, const Palette& colours, double seconds);

    /// The next show() begins anew, everything selected.
    void forget();

    /// Before the window is made anew: what ImGui holds of it goes.
    void drop_texture();

  private:
    void take_key(const sf::Event::KeyEvent& key, bool down);
    void begin_frame(double seconds);
    void set_font(double size_px);
    void set_colours(const Palette& colours) const;

    sf::RenderWindow& window_;
    std::string font_file_;
    double font_px_ = 0;
    std::optional<int> field_;
    std::string text_;
    int frames_ = 0;
    int entry_ = 0;  ///< each entry is another item to ImGui, which keeps what was left unfinished
    // A press and its release may fall into one frame: both are latched until ImGui has seen them.
    std::array<bool, 3> mouse_held_{}, mouse_pressed_{};
    std::array<bool, 512> key_held_{}, key_pressed_{};
};

}  // namespace dewtrail
