#include "viewer/picture/layout.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace dewtrail;
using Catch::WithinAbs;

TEST_CASE("the parts of the window fill it and do not overlap") {
    for (const double text : {1.0, 1.25, 1.5})
        for (const auto& [w, h] : {std::pair(1280, 800), std::pair(1024, 640),
                                   std::pair(1920, 1080), std::pair(1024, 900)}) {
            const Layout l = lay_out(w, h, text, true);
            const Rect parts[] = {l.top_bar, l.green, l.roll_strip, l.setup_strip, l.note};
            double area = 0;
            for (const Rect& a : parts) {
                area += a.w * a.h;
                for (const Rect& b : parts)
                    if (&a != &b) CHECK_FALSE(a.meets(b));
            }
            CHECK_THAT(area, WithinAbs(static_cast<double>(w) * h, 1e-6));
            CHECK(l.green.h > 200);
        }
}

TEST_CASE("upright in a hand the parts fill the screen, and a note that is away still begins") {
    for (const double text : {1.0, 1.25, 1.5})
        for (const auto& [w, h] :
             {std::pair(390, 844), std::pair(360, 640), std::pair(430, 932), std::pair(699, 1000)})
            for (const bool shown : {false, true}) {
                const Layout l = lay_out(w, h, text, shown);
                CHECK(l.portrait);
                const Rect parts[] = {l.top_bar, l.green,       l.roll_strip,
                                      l.note,    l.setup_strip, l.foot};
                double y = 0;
                for (const Rect& part : parts) {
                    CHECK_THAT(part.y, WithinAbs(y, 1e-6));
                    CHECK(part.h > 0);
                    CHECK(part.w == w);
                    y = part.bottom();
                }
                CHECK_THAT(y, WithinAbs(h, 1e-6));
                CHECK(l.foot.h >= 44);
                CHECK(l.top_bar.h >= 44);
            }
    const Layout away = lay_out(390, 844, 1, false), shown = lay_out(390, 844, 1, true);
    CHECK(away.note.h > 100);
    CHECK(away.green.h > 2 * away.note.h);
    CHECK(shown.note.h > 2 * away.note.h);
    CHECK_FALSE(lay_out(portrait_below, 1000, 1, true).portrait);
}
