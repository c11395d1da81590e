#include "viewer/web/drawing.hpp"

#include <catch2/catch.hpp>

#include "viewer/web/raster.hpp"

using namespace dewtrail;

namespace {

constexpr Colour red{200, 0, 0, 255};
constexpr Rect page{0, 0, 100, 50};

Drawing drawn(const Picture& picture, double scale = 1) {
    Drawing drawing;
    drawing.draw(picture, page, scale);
    return drawing;
}

Picture rect(const Rect& box, Colour colour = red) {
    Picture picture;
    add_rect(picture, box, colour);
    return picture;
}

Raster raster_of(const Picture& picture, const Rect& clip, double scale) {
    const Drawing drawing = drawn(picture, scale);
    return rasterised(drawing.corners().data(), drawing.corners().size(), clip, scale);
}

}  // namespace

TEST_CASE("triangles in a row are one step, whatever shapes they are of") {
    Picture picture = rect({10, 10, 20, 20});
    add_disc(picture, {50, 20}, 5, red);
    picture.push_back(Line{{{0, 0}, {9, 9}}, 2, red});
    const Drawing one = drawn(picture);
    REQUIRE(one.words().size() == 2);
    CHECK(one.words()[1] == one.corners().size());

    // A text lies between what was painted before and after it; one without words is none.
    Text text;
    text.colour = red;
    picture.push_back(text);
    text.words = "3 ft";
    picture.push_back(text);
    append(picture, rect({0, 0, 5, 5}));
    const Drawing three = drawn(picture);
    CHECK(three.words().size() == 2 + 12 + 2);
    CHECK(three.words()[1] == one.corners().size());
    CHECK(three.words().back() == 6);
    CHECK(three.corners().size() == one.corners().size() + 6);
    CHECK(drawn({}).words().empty());
}

TEST_CASE("triangles become pixels of the device, none outside the clip") {
    const Raster whole = raster_of(rect({10, 10, 20, 5}), page, 1);
    CHECK(whole.x == 10);
    CHECK(whole.y == 10);
    CHECK(whole.w == 20);
    CHECK(whole.h == 5);
    const Raster fine = raster_of(rect({10, 10, 20, 5}), {12, 0, 3, 50}, 2);
    CHECK(fine.x == 24);
    CHECK(fine.y == 20);
    CHECK(fine.w == 6);
    CHECK(fine.h == 10);
    for (std::size_t i = 0; i < fine.pixels.size(); i += 4)
        REQUIRE((fine.pixels[i] == red.r && fine.pixels[i + 1] == 0 && fine.pixels[i + 3] == 255));
    CHECK(raster_of(rect({10, 10, 20, 5}), {40, 0, 9, 9}, 1).pixels.empty());
    CHECK(raster_of({}, page, 1).pixels.empty());
}

TEST_CASE("later triangles lie over earlier ones, as much as they are opaque") {
    Picture picture = rect({0, 0, 10, 10});
    append(picture, rect({0, 0, 10, 10}, {0, 0, 200, 51}));  // a fifth
    const Raster both = raster_of(picture, page, 1);
    CHECK(both.pixels[0] == 160);
    CHECK(both.pixels[2] == 40);
    CHECK(both.pixels[3] == 255);
    const Raster one = raster_of(rect({0, 0, 10, 10}, {0, 0, 200, 51}), page, 1);
    CHECK(one.pixels[2] == 200);  // not premultiplied
    CHECK(one.pixels[3] == 51);
}
