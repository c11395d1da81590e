#include "viewer/picture/labels.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <tuple>
#include <utility>

namespace dewtrail {
namespace {

constexpr double line_em = 1.22;
constexpr double nothing = 1e-6;   // square pixels
constexpr double names_apart = 8;  // one name over another is worse than over a line
constexpr double mistakable = 50;  // square pixels over a line that are as bad
constexpr double edge_px = 10;     // kept free along the pane's edge

struct Size {
    double w = 0, h = 0;
};

Size size_of(std::span<const LabelLine> lines, const TextWidth& width) {
    Size size;
    for (const LabelLine& line : lines) {
        size.w = std::max(size.w, width(line.face, line.size, line.words));
        size.h += line_em * line.size;
    }
    return size;
}

Rect rect_at(const Label& label, Side side, double away, const Size& s) {
    const Vec2& m = label.mark;
    switch (side) {
        case Side::above:
            return {m.x() - s.w / 2, m.y() - away - s.h, s.w, s.h};
        case Side::below:
            return {m.x() - s.w / 2, m.y() + away, s.w, s.h};
        case Side::right:
            return {m.x() + away, m.y() - s.h / 2, s.w, s.h};
        case Side::left:
            return {m.x() - away - s.w, m.y() - s.h / 2, s.w, s.h};
    }
    return {};
}

/// Slides the box along the mark into the pane, as long as it still stands beside the mark.
Rect slid_inside(Rect box, Side side, const Rect& pane) {
    const Rect in = pane.grown(-edge_px);
    if (side == Side::above || side == Side::below)
        box.x = std::max(in.x, std::min(box.x, in.right() - box.w));
    else
        box.y = std::max(in.y, std::min(box.y, in.bottom() - box.h));
    return box;
}

bool joined(const Label& label, double away) {
    return label.leader || away > 1.3 * label.clear;
}

/// How far along, in the order in which they are tried.
struct Slides {
    std::array<double, 7> steps;
    std::size_t count;

    Slides(std::initializer_list<double> some) : steps{}, count(some.size()) {
        std::copy(some.begin(), some.end(), steps.begin());
    }
    const double* begin() const { return steps.data(); }
    const double* end() const { return steps.data() + count; }
};

/// A label with a leader, or one that must show, may stand a little beside the straight way from
/// its mark; without a leader never so far that the mark is not beside it.
Slides slides(const Label& label, const Size& size, Side side, double away) {
    if (!label.leader && !label.must) return {0};
    const bool upright = side == Side::above || side == Side::below;
    if (!joined(label, away)) {
        const double step = 0.22 * (upright ? size.w : size.h);
        return {0, step, -step, 2 * step, -2 * step};
    }
    const double step = upright && label.must ? 0.35 * size.w : 0.7 * size.h;
    return {0, step, -step, 2 * step, -2 * step, 3 * step, -3 * step};
}

double overlap(const Rect& a, const Rect& b) {
    const double w = std::min(a.right(), b.right()) - std::max(a.x, b.x);
    const double h = std::min(a.bottom(), b.bottom()) - std::max(a.y, b.y);
    return w > 0 && h > 0 ? w * h : 0;
}

double badness(const Rect& box, const std::vector<Rect>& obstacles, const Rect& pane) {
    double bad = box.w * box.h - overlap(box, pane.grown(-edge_px + 1));
    bad *= 100;
    for (const Rect& o : obstacles) bad += overlap(box, o);
    return bad;
}

std::vector<Text> set_lines(std::span<const LabelLine> lines, const Rect& box, Side side) {
    std::vector<Text> texts;
    texts.reserve(lines.size());
    const Align align = side == Side::right  ? Align::left
                        : side == Side::left ? Align::right
                                             : Align::centre;
    const double x = align == Align::left    ? box.x
                     : align == Align::right ? box.right()
                                             : box.centre().x();
    double y = box.y;
    for (const LabelLine& line : lines) {
        const Vec2 at(std::round(x), std::round(y + 0.93 * line.size));
        texts.push_back({line.words, line.face, line.size, at, line.colour, align});
        y += line_em * line.size;
    }
    return texts;
}

}  // namespace

bool has_leader(const PlacedLabel& placed) {
    return joined(*placed.label, placed.away);
}

namespace {

double gap(const Rect& box, const Vec2& p) {
    return std::hypot(p.x() - std::clamp(p.x(), box.x, box.right()),
                      p.y() - std::clamp(p.y(), box.y, box.bottom()));
}

/// Whether a name without a hairline stands at least as near to something else that has a name.
bool is_mistakable(const Rect& box, const Label& label, const std::vector<Label>& labels) {
    const double own = gap(box, label.mark);
    return std::any_of(labels.begin(), labels.end(), [&](const Label& other) {
        return &other != &label && other.mark != label.mark && gap(box, other.mark) <= own;
    });
}

/// The best place for a label, and how bad that is: 0 where it meets nothing.
std::pair<PlacedLabel, double> best_place(const Label& label, const Size& size,
                                          const std::vector<Label>& labels,
                                          const std::vector<PlacedLabel>& others,
                                          const std::vector<Rect>& obstacles, const Rect& pane) {
    PlacedLabel best;
    double least = HUGE_VAL;
    for (const double far : {1.0, 1.35, 1.8, 2.4, 3.2, 4.5, 6.0, 9.0, 13.0}) {
        if (!label.must && far > (label.leader ? 4.5 : 1)) break;
        const double away = label.clear * far;
        for (const Side side : label.sides)
            for (const double slide : slides(label, size, side, away)) {
                Rect box = rect_at(label, side, away, size);
                (side == Side::left || side == Side::right ? box.y : box.x) += slide;
                box = slid_inside(box, side, pane);
                double bad = badness(box, obstacles, pane);
                for (const PlacedLabel& other : others)
                    bad += names_apart * overlap(box, other.box.grown(3));
                if (!joined(label, away) && is_mistakable(box, label, labels)) bad += mistakable;
                if (bad >= least - nothing) continue;
                least = bad;
                best = {&label, box, side, away, {}};
            }
        if (least <= nothing) break;
    }
    return {best, least};
}

}  // namespace

std::vector<PlacedLabel> place_labels(const std::vector<Label>& labels, std::vector<Rect> obstacles,
                                      const Rect& pane, const TextWidth& width) {
    std::vector<PlacedLabel> placed;
    placed.reserve(labels.size());
    for (const Label& label : labels) {
        std::span<const LabelLine> lines = label.lines;
        auto [best, bad] =
            best_place(label, size_of(lines, width), labels, placed, obstacles, pane);
        if (bad > nothing && !label.must) continue;
        if (bad > nothing && lines.size() > 1) {
            lines = lines.first(1);
            std::tie(best, bad) =
                best_place(label, size_of(lines, width), labels, placed, obstacles, pane);
        }
        best.texts = set_lines(lines, best.box, best.side);
        if (has_leader(best)) add_obstacles(obstacles, {label.mark, best.box.centre()}, 1);
        placed.push_back(std::move(best));
    }
    return placed;
}

Text set_beside(Text text, const Vec2& place, const Vec2& way, double clear,
                const TextWidth& width) {
    text.align = Align::centre;
    const Rect box = rect_of(text, width);
    const double reach = (std::abs(way.x()) * box.w + std::abs(way.y()) * box.h) / 2;
    const Vec2 at = text.at + place + (clear + reach) * way - box.centre();
    text.at = {std::round(at.x()), std::round(at.y())};
    return text;
}

void add_obstacles(std::vector<Rect>& obstacles, const std::vector<Vec2>& line, double half_width) {
    for (std::size_t i = 1; i < line.size(); ++i) {
        const Vec2 step = line[i] - line[i - 1];
        const int pieces = std::max(1, static_cast<int>(std::ceil(step.norm() / 12)));
        for (int k = 0; k <= pieces; ++k) {
            const Vec2 at = line[i - 1] + step * (static_cast<double>(k) / pieces);
            obstacles.push_back(
                {at.x() - half_width, at.y() - half_width, 2 * half_width, 2 * half_width});
        }
    }
}

}  // namespace dewtrail
