#include "viewer/web/svg_pen.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "viewer/paper/putt_sheet.hpp"

using namespace dewtrail;

namespace {

std::size_t count(const std::string& text, const std::string& part) {
    std::size_t found = 0;
    for (std::size_t at = text.find(part); at != text.npos; at = text.find(part, at + 1)) ++found;
    return found;
}

template <class Kind>
std::size_t seen(const Picture& page) {
    return static_cast<std::size_t>(std::count_if(page.begin(), page.end(), [](const Shape& s) {
        const auto* shape = std::get_if<Kind>(&s);
        return shape && shape->colour.a > 0;
    }));
}

}  // namespace

TEST_CASE("A page as SVG has every shape of it, and is as large", "[web]") {
    Setup putt;
    const Sheet sheet = putt_sheet("read", putt, Units{}, 0.3);
    const Picture& page = sheet.pages.front();
    const std::string svg = svg_of(sheet, 0);
    REQUIRE(seen<Text>(page) > 20);
    CHECK(count(svg, "<text ") == seen<Text>(page));
    CHECK(count(svg, "<circle") == seen<Disc>(page));
    CHECK(count(svg, "<polyline") + count(svg, "<polygon") ==
          seen<Line>(page) + seen<Polygon>(page));
    CHECK(count(svg, "<svg") == count(svg, "</svg>"));
    CHECK(svg.find("width=\"793.70\" height=\"1122.52\"") != svg.npos);  // A4 at 96 to the inch
}

TEST_CASE("A name on a page cannot become part of the document", "[web]") {
    const Sheet sheet(Paper::a4, {{Text{"<script>&", Face::sans, 16, {10, 20}, rgb(0)}}});
    const std::string svg = svg_of(sheet, 0);
    CHECK(svg.find("&lt;script>&amp;</text>") != svg.npos);
    CHECK(svg.find("<script") == svg.npos);
}

TEST_CASE("A clip of a page holds what follows until the next", "[web]") {
    const Disc dot{{5, 5}, 2, rgb(0)};
    const Sheet sheet(Paper::a4, {{Clip{{0, 0, 10, 10}}, dot, Clip{{20, 0, 10, 10}}, Clip{}, dot}});
    const std::string svg = svg_of(sheet, 0);
    CHECK(count(svg, "<svg") == 3);
    CHECK(count(svg, "</svg>") == 3);
    CHECK(svg.rfind("<circle") > svg.rfind("</svg>", svg.size() - 10));
}
