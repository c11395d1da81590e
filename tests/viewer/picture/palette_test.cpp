#include "viewer/picture/palette.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "support/contrast.hpp"

using namespace dewtrail;
using Catch::WithinAbs;

TEST_CASE("colours keep the contrast that the design promises") {
    for (const Theme theme : {Theme::dew, Theme::dusk}) {
        const Palette& c = palette(theme);
        for (const Colour ground : {c.grass_light, c.grass_dark, c.paper, c.paper2}) {
            for (const Colour text :
                 {c.ink, c.ink2, c.height_label, c.copper, c.wet_green, c.heather})
                CHECK(contrast(text, ground) >= 4.5);
        }
        for (const Colour grass : {c.grass_light, c.grass_dark}) {
            CHECK(contrast(c.contour, grass) >= 3);
            CHECK(contrast(theme == Theme::dew ? c.trail : c.trail_rim, grass) >= 3);
        }
        CHECK(contrast(c.on_button, c.wet_green) >= 4.5);
        CHECK(contrast(c.half_second, c.trail) >= 3);
    }
    REQUIRE_THAT(contrast(rgb(0xFFFFFF), rgb(0x000000)), WithinAbs(21, 1e-9));  // WCAG's extreme
}
