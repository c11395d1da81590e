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
