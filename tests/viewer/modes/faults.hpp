#pragma once

#include <cmath>
#include <functional>

#include "viewer/modes/drawn_mode.hpp"

/// What is wrong with a picture: texts that meet, cover a mark, or leave their panel.
namespace dewtrail {

/// A text as it is seen: from the tops of capitals to just below the baseline, along its own
/// direction. What lies within a pixel of another does not touch it.
struct Seen {
    Text text;
    Vec2 from, along, up;
    double width, height;
};

inline Seen seen(const Text& text) {
    const double w = type_width(text.face, text.size, text.words);
    const Vec2 along(std::cos(text.turned_rad), std::sin(text.turned_rad)),
        up(along.y(), -along.x());
    const double back = text.align == Align::left ? 0 : text.align == Align::right ? w : w / 2;
    return {text, text.at - back * along, along, up, w, 0.72 * text.size};
}

inline std::vector<Vec2> corners(const Seen& s) {
    const Vec2 low = s.from - 0.12 * s.text.size * s.up, high = s.from + s.height * s.up;
    return {low + s.along, low + (s.width - 1) * s.along, high + (s.width - 1) * s.along,
            high + s.along};
}

/// Separating axes of two convex shapes.
inline bool meet(const std::vector<Vec2>& a, const std::vector<Vec2>& b) {
    for (const auto* shape : {&a, &b})
        for (std::size_t i = 0; i < shape->size(); ++i) {
            const Vec2 edge = (*shape)[(i + 1) % shape->size()] - (*shape)[i];
            const Vec2 axis(-edge.y(), edge.x());
            const auto span = [&](const std::vector<Vec2>& points) {
                double lo = HUGE_VAL, hi = -HUGE_VAL;
                for (const Vec2& p : points)
                    lo = std::min(lo, axis.dot(p)), hi = std::max(hi, axis.dot(p));
                return std::pair(lo, hi);
            };
            const auto [a0, a1] = span(a);
            const auto [b0, b1] = span(b);
            if (a1 <= b0 || b1 <= a0) return false;
        }
    return true;
}

inline std::vector<Vec2> diamond(const Vec2& at, double r) {
    return {at + Vec2(0, -r), at + Vec2(r, 0), at + Vec2(0, r), at + Vec2(-r, 0)};
}

inline bool is_within(const std::vector<Vec2>& points, const Rect& box) {
    return std::all_of(points.begin(), points.end(),
                       [&](const Vec2& p) { return box.grown(0.5).contains(p); });
}

/// All that is wrong with a frame, in words.
class Faults {
  public:
    Faults(const Layout& layout, const Frame& frame, const Marks* marks = nullptr)
        : layout_(layout) {
        for (const Text& text : all_of<Text>(frame.picture))
            if (!text.words.empty()) texts_.push_back(seen(text));
        between_texts();
        if (marks) on_marks(*marks);
        for (const Seen& text : texts_) in_its_panel(text);
    }
    std::vector<std::string> found;

  private:
    bool on_map(const Seen& s) const { return s.text.outline > 0; }

    void between_texts() {
        for (std::size_t i = 0; i < texts_.size(); ++i)
            for (std::size_t j = 0; j < i; ++j)
                if (meet(corners(texts_[i]), corners(texts_[j])))
                    found.push_back("'" + texts_[j].text.words + "' meets '" +
                                    texts_[i].text.words + "'");
    }

    void on_marks(const Marks& m) {
        const double u = layout_.scale;
        const auto check = [&](const char* name, const std::optional<Vec2>& at, double r) {
            if (!at || !layout_.green.contains(*at)) return;
            for (const Seen& s : texts_)
                if (on_map(s) && meet(corners(s), diamond(*at, r)))
                    found.push_back("'" + s.text.words + "' covers the " + name);
        };
        check("aim spot", m.aim, 11 * u);
        check("hole", m.hole, m.hole_px);
        check("ball", m.ball, m.ball_px);
        check("apex", m.apex, 9 * u);
        check("start spot", m.start_spot, 9 * u);
    }

    /// The note scrolls, so only sideways nothing may leave it.
    void in_its_panel(const Seen& s) {
        Rect panel{0, 0, layout_.width, layout_.height};
        for (const Rect& p : {layout_.top_bar, layout_.green, layout_.roll_strip,
                              layout_.setup_strip, layout_.rows_strip})
            if (p.contains(s.text.at - Vec2(0, 0.3 * s.text.size))) panel = p;
        if (const Rect& n = layout_.note; s.text.at.x() >= n.x && s.text.at.y() >= n.y)
            panel = {n.x, n.y, n.w, 1e9};
        if (!is_within(corners(s), panel))
            found.push_back("'" + s.text.words + "' leaves its panel");
    }

    const Layout& layout_;
    std::vector<Seen> texts_;
};

/// For Compare, which has a table where others have their note and their fields.
inline void without_note(Layout& layout) {
    layout.green = layout.setup_strip = layout.rows_strip = {};
    layout.note = {1e9, 1e9, 0, 0};
}

using Sizes = std::vector<std::pair<double, double>>;
inline const Sizes usual_sizes{{1280, 800}, {1024, 640}, {1920, 1080}};

/// Nothing is wrong with a mode's picture at any of these sizes, and at `texts` sizes of type.
/// `adapt` takes away the panels that the mode does not have.
template <class AnyMode>
void check_layout(DrawnMode<AnyMode>& drawn, const std::function<void(Layout&)>& adapt = {},
                  const Sizes& sizes = usual_sizes, int texts = 3) {
    for (const auto& [w, h] : sizes)
        for (int text = 0; text < texts; ++text) {
            drawn.shell.press({'0', true});
            for (int i = 0; i < text; ++i) drawn.shell.press({'+', true});
            drawn.shell.resize(w, h);
            const Frame frame = drawn.draw();
            Layout layout = drawn.shell.layout();
            if (adapt) adapt(layout);
            const Marks* marks = nullptr;
            if constexpr (requires { drawn.mode.marks(); }) marks = &drawn.mode.marks();
            INFO(w << "x" << h << ", type at " << 100 + 25 * text << " %");
            CHECK(Faults(layout, frame, marks).found == std::vector<std::string>{});
        }
}

}  // namespace dewtrail
