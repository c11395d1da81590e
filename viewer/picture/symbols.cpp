#include "viewer/picture/symbols.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace dewtrail {
namespace {

Points diamond_points(const Vec2& at, double r) {
    return {at + Vec2(0, -r), at + Vec2(r, 0), at + Vec2(0, r), at + Vec2(-r, 0)};
}

Points triangle_points(const Vec2& at, const Vec2& away, double r) {
    const Vec2 side(-away.y(), away.x());
    return {at + r * away, at - 0.62 * r * away + 0.95 * r * side,
            at - 0.62 * r * away - 0.95 * r * side};
}

/// A line with round ends.
void thick(Picture& picture, const Vec2& a, const Vec2& b, double width, Colour colour) {
    picture.push_back(Line{{a, b}, width, colour});
    picture.push_back(Disc{a, width / 2, colour});
    picture.push_back(Disc{b, width / 2, colour});
}

/// Widths and colours, the widest first.
ShortList<std::pair<double, Colour>, 3> layers_of_trail(double width, const Look& look) {
    const Palette& c = look.colours;
    if (c.trail_rim.a > 0) return {{width + 2 * look.u(2), c.trail_rim}, {width, c.trail}};
    return {{width * 2, faded(c.trail_soft, 0.28)},
            {width * 14 / 9, faded(c.trail_soft, 0.55)},
            {width, c.trail}};
}

}  // namespace

void draw_diamond(Picture& picture, const Vec2& at, double half, const Look& look, Colour colour,
                  Colour ring) {
    const double r = look.u(half), stroke = look.u(3.4) * std::min(1.0, half / 9.5);
    const double dot = look.u(2.9) * std::min(1.0, half / 11);
    picture.push_back(Line{diamond_points(at, r), stroke + look.u(5), ring, true});
    picture.push_back(Line{diamond_points(at, r), stroke, colour, true});
    picture.push_back(Disc{at, dot + look.u(1.5), ring});
    picture.push_back(Disc{at, dot, colour});
}

double share_hidden(double from_hole_px, double hole_px, const Look& look) {
    constexpr double large_u = 16;
    if (hole_px > look.u(large_u)) return 0;
    return std::max(0.0, 1 - from_hole_px / (2 * hole_px));
}

double diamond_half_u(double from_hole_px, double hole_px, double usual_u, const Look& look) {
    constexpr double beside_u = 5.2;  // half a stroke, its ring and the hole's
    const double round_it = std::numbers::sqrt2 * (hole_px / look.u(1) + beside_u);
    return usual_u + share_hidden(from_hole_px, hole_px, look) * std::max(0.0, round_it - usual_u);
}

void draw_start_bar(Picture& picture, const Vec2& at, const Vec2& along, const Look& look,
                    Colour ring) {
    const Vec2 across = Vec2(-along.y(), along.x()) * look.u(12);
    thick(picture, at - across, at + across, look.u(6 + 5), ring);
    thick(picture, at - across, at + across, look.u(6), look.colours.copper);
}

void draw_apex(Picture& picture, const Vec2& at, const Vec2& away, double radius, const Look& look,
               Colour ring) {
    picture.push_back(Polygon{triangle_points(at, away, look.u(radius + 4.5)), ring});
    picture.push_back(Polygon{triangle_points(at, away, look.u(radius)), look.colours.wet_green});
}

void draw_ball(Picture& picture, const Vec2& at, double r, const Look& look, bool dashed,
               double darkness) {
    const double ring = std::max(look.u(1.8), 0.1 * r);
    const Colour dark = rgb(0x14201C);
    picture.push_back(Disc{at, r + (dashed ? 0 : ring / 2), dashed ? rgb(0xFFFFFF) : dark});
    if (!dashed) {
        picture.push_back(Disc{at, r - ring / 2, blend(rgb(0xFFFFFF), dark, darkness)});
        return;
    }
    auto round = circle_points(at, r + ring);
    round.push_back(round.front());
    add_dashes(picture, round, look.u(4), look.u(3), ring, look.colours.ink);
}

void draw_hole(Picture& picture, const Vec2& at, double r, const Look& look, double pulse) {
    picture.push_back(Disc{at, (r + look.u(3)) * pulse, look.colours.hole_ring});
    picture.push_back(Disc{at, r, look.colours.hole});
}

void draw_dashed_ring(Picture& picture, const Vec2& at, double r, const Look& look, Colour ring) {
    auto round = circle_points(at, r);
    round.push_back(round.front());
    picture.push_back(Line{round, look.u(5.5), faded(ring, 0.8)});
    add_dashes(picture, round, look.u(5), look.u(4), look.u(2.2), look.colours.copper);
}

void draw_drop(Picture& picture, const Vec2& at, const Vec2& up, double r, Colour colour) {
    picture.push_back(Disc{at, r, colour});
    const Vec2 side(-up.y(), up.x());
    picture.push_back(Polygon{{at + 1.75 * r * up, at + 0.86 * r * side + 0.5 * r * up,
                               at - 0.86 * r * side + 0.5 * r * up},
                              colour});
}

void draw_fall_line(Picture& picture, const Vec2& bar, const Vec2& drop, const Look& look) {
    const Vec2 up = (bar - drop).normalized();
    const Vec2 across = Vec2(-up.y(), up.x()) * look.u(7);
    picture.push_back(Line{{bar, drop}, look.u(1.6), look.colours.ink});
    picture.push_back(Line{{bar - across, bar + across}, look.u(1.8), look.colours.ink});
    draw_drop(picture, drop, up, look.u(6.5), look.colours.ink);
}

void draw_trail(Picture& picture, const std::vector<Vec2>& line, double width, const Look& look) {
    if (line.size() < 2) return;
    for (const auto& [w, colour] : layers_of_trail(width, look))
        picture.push_back(Line{line, w, colour});
}

void draw_fading_trail(Picture& picture, const std::vector<Vec2>& line, double width,
                       const Rect& pane, const Look& look) {
    if (line.size() < 2) return;
    std::vector<double> shares;
    for (const Vec2& p : line) shares.push_back(edge_share(pane, p, look.u(fading_u)));
    for (const auto& [w, colour] : layers_of_trail(width, look)) {
        std::vector<Vec2> left, right;
        for (std::size_t i = 0; i < line.size(); ++i) {
            const Vec2 along = (line[std::min(i + 1, line.size() - 1)] - line[i == 0 ? 0 : i - 1]);
            const Vec2 across = Vec2(-along.y(), along.x()).normalized() * w / 2;
            left.push_back(line[i] - across), right.push_back(line[i] + across);
        }
        add_ribbon(picture, left, right, shares, colour);
    }
}

void draw_glyph(Picture& picture, Glyph glyph, const Vec2& at, const Look& look) {
    const Palette& c = look.colours;
    switch (glyph) {
        case Glyph::aim:
            return draw_diamond(picture, at, 9.5, look, c.copper, faded(c.paper, 0));
        case Glyph::stand_in: {
            auto round = circle_points(at, look.u(8.5));
            round.push_back(round.front());
            return add_dashes(picture, round, look.u(4), look.u(2.7), look.u(1.8), c.copper);
        }
        case Glyph::apex:
            return draw_apex(picture, at + Vec2(0, look.u(2)), {0, -1}, 9.5, look, c.paper);
        case Glyph::finish:
            return draw_hole(picture, at, look.u(7.5), look);
        case Glyph::room:
        case Glyph::sure:
            picture.push_back(
                Line{{at + look.u(8) * Vec2(-1.1, 0.9), at + look.u(8) * Vec2(0, -0.9),
                      at + look.u(8) * Vec2(1.1, 0.9)},
                     look.u(1.8),
                     c.ink2});
            return;
        case Glyph::odds:
            for (const Vec2& off : {Vec2(0, -4.6), Vec2(-4.8, 4), Vec2(4.8, 4)})
                add_ring(picture, at + look.u(1) * off, look.u(3.1), look.u(1.7), c.heather);
            return;
        case Glyph::drop:
            return draw_drop(picture, at + Vec2(0, look.u(3)), {0, -1}, look.u(6.5), c.ink);
    }
}

void draw_map_text(Picture& picture, Text text, const Look& look, Colour surface) {
    text.outline = look.u(2.5);
    text.outline_colour = surface;
    picture.push_back(std::move(text));
}

}  // namespace dewtrail
