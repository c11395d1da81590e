#pragma once

#include <algorithm>
#include <array>
#include <initializer_list>
#include <string>
#include <vector>

#include "viewer/picture/picture.hpp"

namespace dewtrail {

enum class Side { above, below, right, left };

/// Some of the sides, in the order in which they are tried.
struct Sides {
    std::array<Side, 4> order{};
    std::size_t count = 0;

    Sides(std::initializer_list<Side> sides) : count(sides.size()) {
        std::copy(sides.begin(), sides.end(), order.begin());
    }
    auto begin() { return order.begin(); }
    auto end() { return order.begin() + count; }
    auto begin() const { return order.begin(); }
    auto end() const { return order.begin() + count; }
};

struct LabelLine {
    std::string words;
    Face face = Face::sans;
    double size = 16;
    Colour colour;
};

/// A label to be placed beside a mark.
struct Label {
    std::string id;
    std::vector<LabelLine> lines;
    Vec2 mark;          ///< centre of what it names
    double clear = 14;  ///< gap from there to the label's box
    Sides sides = {Side::above, Side::below, Side::right, Side::left};
    bool must = false;    ///< always shown: aim spot, start spot, apex
    bool leader = false;  ///< a hairline to the mark when it stands off
};

struct PlacedLabel {
    const Label* label = nullptr;
    Rect box;
    Side side = Side::above;
    double away = 0;  ///< gap in pixels; more than label->clear when it had to stand off
    std::vector<Text> texts;
};

/// Whether a hairline joins it to its mark.
bool has_leader(const PlacedLabel& placed);

/// Places labels in the order given; each takes the first of its sides that lies in the pane and
/// meets no obstacle and no label placed before, then the same farther off. One that must be shown
/// gives up all but its name, then takes the least bad place inside the pane; another one is left
/// out.
std::vector<PlacedLabel> place_labels(const std::vector<Label>& labels, std::vector<Rect> obstacles,
                                      const Rect& pane, const TextWidth& width);

/// The text with its box just beyond a place: its middle lies that way from it, clear of it by so
/// much. Its `at` is not looked at.
Text set_beside(Text text, const Vec2& place, const Vec2& way, double clear,
                const TextWidth& width);

/// Small boxes along a line, so that labels keep clear of it.
void add_obstacles(std::vector<Rect>& obstacles, const std::vector<Vec2>& line, double half_width);

}  // namespace dewtrail
