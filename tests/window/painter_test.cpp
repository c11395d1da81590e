#include "viewer/window/painter.hpp"

#include <SFML/Graphics/RenderTexture.hpp>
#include <algorithm>
#include <catch2/catch.hpp>

#include "greens/green_file.hpp"
#include "viewer/modes/read/read_mode.hpp"

using namespace dewtrail;

namespace {

sf::Image painted(Painter& painter, const std::vector<Picture>& pictures) {
    sf::RenderTexture texture;
    REQUIRE(texture.create(1280, 800));
    texture.clear(sf::Color::White);
    for (const Picture& picture : pictures) painter.paint(texture, picture);
    texture.display();
    return texture.getTexture().copyToImage();
}

/// A picture of each shape, in the box that it is clipped by.
std::vector<Picture> one_by_one(const Picture& picture) {
    std::vector<Picture> pictures;
    Clip clip;
    for (const Shape& shape : picture)
        if (const auto* next = std::get_if<Clip>(&shape))
            clip = *next;
        else
            pictures.push_back({clip, shape});
    return pictures;
}

}  // namespace

TEST_CASE("a picture that is painted at once is that of its shapes one after the other") {
    const Fonts fonts;
    Painter painter(fonts);
    ReadStart start;
    start.outlook = false;
    start.width = 1280, start.height = 800;
    put_on_green(start.setup, std::make_shared<const Green>(
                                  load_green("meadow", {DEWTRAIL_SOURCE_DIR "/greens"})));
    const auto shell = Shell::with<ReadMode>(start, start);
    const Frame frame = shell->frame([&](Face face, double size, std::string_view words) {
        return fonts.width(face, size, words);
    });
    REQUIRE(frame.picture.size() > 200);
    const sf::Image at_once = painted(painter, {frame.picture});
    const sf::Image apart = painted(painter, one_by_one(frame.picture));
    const std::size_t bytes = std::size_t{4} * 1280 * 800;
    CHECK(std::equal(at_once.getPixelsPtr(), at_once.getPixelsPtr() + bytes, apart.getPixelsPtr()));
}
