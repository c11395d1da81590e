#pragma once

#include <SFML/Graphics/Font.hpp>
#include <array>
#include <map>
#include <string>
#include <string_view>
#include <utility>

#include "viewer/picture/picture.hpp"

namespace dewtrail {

/// The faces of the design, found by fontconfig by their names; what is not installed is replaced
/// by what fontconfig thinks nearest. Needs a display before the first glyph is asked for.
class Fonts {
  public:
    /// Throws OutsideError if not even a replacement can be read.
    Fonts();

    const sf::Font& face(Face face) const { return fonts_[static_cast<std::size_t>(face)]; }
    const std::string& file(Face face) const { return files_[static_cast<std::size_t>(face)]; }

    /// Width of a text, pixels. Sizes are rounded to whole pixels, as they are when drawn.
    double width(Face face, double size, std::string_view words) const;

  private:
    static constexpr std::size_t count = 5;
    std::array<sf::Font, count> fonts_;
    std::array<std::string, count> files_;

    /// How far each letter of ASCII carries on after another, as it was first asked: the font
    /// library looks both up, and sets the font's size, each time.
    static constexpr sf::Uint32 first_kept = ' ', kept = 95;
    using Steps = std::array<float, (kept + 1) * kept>;
    mutable std::map<std::pair<Face, unsigned>, Steps> steps_;
};

}  // namespace dewtrail
