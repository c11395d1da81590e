#include "viewer/picture/widgets/bars.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/picture/portrait.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr double longest_name_u = 130;  // a longer one is written smaller
constexpr double time_line_from_u = 112, time_line_words_u = 224;  // from the left and right

double round_px(double v) {
    return std::round(v);
}

/// Words of the top bar.
class BarPen : private Brush {
  public:
    BarPen(const Canvas& canvas, const TopBarState& state)
        : Brush(canvas), state_(state), bar_(look_.layout.top_bar) {}

    void paint() {
        add_rect(picture_, bar_, c_.paper);
        const double line = std::max(1.0, round_px(u(2)));
        add_rect(picture_, {0, bar_.bottom() - line, bar_.w, line}, c_.rule);
        const double name_w = whose();
        double x = bar_.right() - look_.layout.margin();
        x -= add("?", What::help, 0, state_.help, x, Align::right) + u(24);
        if (look_.layout.portrait) {
            if (!state_.views.empty()) views(x);
            reach(0, bar_);
            return foot();
        }
        if (!is_small(look_.layout)) {  // there they are under the ?
            x -= add(look_.units.metric ? "m" : "ft", What::units, 0, false, x, Align::right) +
                 u(24);
            x -= add("Sheet", What::print, 0, false, x, Align::right) + u(26);
        }
        if (!state_.views.empty()) x = views(x);
        const double end = modes(std::max(u(180), name_w + u(24)), x - u(24)) + u(30);
        if (round_px(end) + width(state_.name, Face::book_italic, 22) + u(12) < x &&
            !state_.name.empty())
            write(state_.name, Face::book_italic, 22, end, baseline_, c_.ink2);
    }

  private:
    /// The program's name or the pupil's, with the sign that there is more below it. Returns where
    /// it ends.
    double whose() {
        const std::string words = state_.pupil.empty() ? "Dewtrail" : state_.pupil;
        const double x = std::round(look_.layout.margin());
        const double size = fitting(words, Face::book_italic, 26, u(longest_name_u));
        const double w = width(words, Face::book_italic, size);
        write(words, Face::book_italic, size, x, baseline_ + 1, c_.ink);
        const Vec2 sign(round_px(x + w + u(12)), round_px(baseline_ - type(5)));
        picture_.push_back(Polygon{
            {sign + u(1) * Vec2(-5, -3), sign + u(1) * Vec2(5, -3), sign + u(1) * Vec2(0, 4)},
            hot(What::pupil) ? c_.ink : c_.ink2});
        const double end = sign.x() + u(6);
        focus_bar(What::pupil, 0, {x, baseline_ + u(9), end - x, 0});
        target(What::pupil, 0, {x - u(6), baseline_ - type(24), end - x + u(12), type(36)});
        return end;
    }

    /// The modes along the foot, each with a finger's width and its share of the rest.
    void foot() {
        const Rect& foot = look_.layout.foot;
        add_rect(picture_, foot, c_.paper2);
        add_rect(picture_, {0, foot.y, foot.w, 1}, c_.rule);
        double words_w = 0;
        for (const ModeWord& mode : state_.modes) words_w += width(mode.full, Face::sans_bold, 18);
        const double rest = foot.w - least_finger_px * static_cast<double>(state_.modes.size());
        double x = 0;
        for (const ModeWord& mode : state_.modes) {
            const double wide =
                least_finger_px + rest * width(mode.full, Face::sans_bold, 18) / words_w;
            const double size = fitting(mode.full, Face::sans_bold, 18, wide - u(4));
            word({mode.full, What::mode, mode.mode, mode.mode == state_.mode, size, Align::centre,
                  false, 9},
                 round_px(x + wide / 2), foot.y + 0.5 * foot.h + type(5));
            targets_.back().hit = {x, foot.y, wide, foot.h};
            x += wide;
        }
    }

    /// Words of a bar, from this target on, are touched over its height, and half way to the next.
    void reach(std::size_t from, const Rect& bar) {
        for (std::size_t i = from; i < targets_.size(); ++i) {
            Rect& hit = targets_[i].hit;
            if (!bar.contains(hit.centre())) continue;
            const double wider = std::max(0.0, least_finger_px - hit.w) / 2;
            hit = {hit.x - wider, bar.y, hit.w + 2 * wider, bar.h};
        }
    }

    static constexpr double least_finger_px = 44;

    double add(const std::string& words, What what, int index, bool on, double x, Align align) {
        return word({words, what, index, on, 18, align, false, 9}, round_px(x), baseline_).w;
    }

    /// Above the note, where that leaves room for them. Returns where they begin.
    double views(double right) {
        const double gap = u(26);
        double need = 0;
        for (const std::string& view : state_.views) need += width(view, Face::sans_bold, 18) + gap;
        const Layout& l = look_.layout;
        const bool beside_note = l.note_shown && !l.note_below;
        const double from =
            std::min(beside_note ? l.note.x + l.margin() : right - need, right - need);
        double x = from;
        for (std::size_t i = 0; i < state_.views.size(); ++i) {
            const int index = static_cast<int>(i);
            x +=
                add(state_.views[i], What::view, index, state_.view == index, x, Align::left) + gap;
        }
        return from;
    }

    /// Closer, then shorter, and in the end smaller, where they do not fit. Returns where they end.
    double modes(double from, double to) {
        using Words = const char* ModeWord::*;
        const auto words_w = [&](Words words) {
            double sum = 0;
            for (const ModeWord& mode : state_.modes)
                sum += width(mode.*words, Face::sans_bold, 18);
            return sum;
        };
        const double gaps = static_cast<double>(state_.modes.size()) - 1;
        Words words = &ModeWord::full;
        double gap = u(34), size = 18;
        if (from + words_w(words) + gaps * gap > to) gap = u(18);
        if (from + words_w(words) + gaps * gap > to) words = &ModeWord::brief;
        if (from + words_w(words) + gaps * gap > to) {
            gap = u(10);
            size *= std::min(1.0, (to - from - gaps * gap) / words_w(words));
        }
        double x = from;
        for (const ModeWord& mode : state_.modes)
            x += word({mode.*words, What::mode, mode.mode, mode.mode == state_.mode, size,
                       Align::left, false, 9},
                      round_px(x), baseline_)
                     .w +
                 gap;
        return x - gap;
    }

    const TopBarState& state_;
    const Rect& bar_;
    const double baseline_ = round_px(bar_.y + 0.5 * bar_.h + type(8));
};

}  // namespace

void draw_top_bar(const Canvas& canvas, const TopBarState& state) {
    BarPen(canvas, state).paint();
}

Rect time_line_of(const Layout& layout) {
    const Rect& strip = layout.roll_strip;
    const double from = strip.x + layout.u(time_line_from_u);
    const double words = layout.portrait ? 0 : layout.type(time_line_words_u);
    const double to = strip.right() - layout.margin() - words;
    return {from, std::round(strip.y + strip.h / 2), to - from, 0};
}

double time_at(const Layout& layout, const Playback& playback, double x) {
    const Rect line = time_line_of(layout);
    return std::clamp((x - line.x) / line.w, 0.0, 1.0) * playback.end_s;
}

namespace {

std::string state_words(const Playback& playback, const Trail& trail, bool numbers) {
    if (!playback.complete()) return numbers ? format_time(playback.time_s) : "";
    if (trail.holed()) return "in the hole";
    switch (trail.end()) {
        case RollEnd::at_rest:
            return "at rest";
        case RollEnd::left_the_green:
            return "off the green";
        default:
            return "still rolling";
    }
}

/// Every so many seconds there is room for a figure.
int seconds_between_figures(double px_per_s, double least_px) {
    for (const int every : {1, 2, 5, 10, 20})
        if (every * px_per_s >= least_px) return every;
    return 60;
}

class RollPen : private Brush {
  public:
    RollPen(const Canvas& canvas, const Playback& playback)
        : Brush(canvas),
          playback_(playback),
          strip_(look_.layout.roll_strip),
          line_(time_line_of(look_.layout)),
          y_(round_px(strip_.y + strip_.h / 2)) {}

    void paint(const Trail& trail) {
        add_rect(picture_, strip_, c_.paper2);
        add_rect(picture_, {strip_.x, strip_.y, strip_.w, 1}, c_.rule);
        play_button();
        if (trail.empty()) return;
        const double from = x_of(0), to = x_of(playback_.end_s), now = x_of(playback_.time_s);
        picture_.push_back(Line{{{from, y_}, {to, y_}}, u(1.3), c_.ink2});
        if (look_.numbers) ticks();
        picture_.push_back(Line{{{from, y_}, {now, y_}}, u(4.5), c_.wet_green});
        const bool on = focused(What::time_line);
        picture_.push_back(Disc{{now, y_}, u(9), on ? c_.copper : rgb(0x14201C)});
        picture_.push_back(Disc{{now, y_}, u(on ? 6 : 7.2), rgb(0xFFFFFF)});
        target(What::time_line, 0, Rect{from, y_ - u(18), to - from, u(36)}.grown(u(10)));
        if (look_.layout.portrait) return;
        const double baseline = y_ + round_px(type(5.5));
        write(state_words(playback_, trail, look_.numbers), Face::sans, 17, to + u(24), baseline,
              c_.ink2);
        speed(round_px(strip_.right() - u(32)), baseline);
    }

  private:
    double x_of(double time_s) const {
        return playback_.end_s > 0 ? line_.x + line_.w * time_s / playback_.end_s : line_.x;
    }

    void play_button() {
        const Vec2 at(strip_.x + u(58), strip_.y + strip_.h / 2);
        picture_.push_back(
            Disc{at, u(19), hot(What::play) ? lightened(c_.wet_green, 0.08) : c_.wet_green});
        if (playback_.running) {
            for (const double x : {-4.5, 4.5})
                add_rect(picture_, {at.x() + u(x - 2), at.y() - u(8), u(4), u(16)}, c_.on_button);
        } else {
            picture_.push_back(Polygon{
                {at + u(1) * Vec2(-5, -9), at + u(1) * Vec2(10, 0), at + u(1) * Vec2(-5, 9)},
                c_.on_button});
        }
        if (focused(What::play)) add_ring(picture_, at, u(23), u(2), c_.copper);
        target(What::play, 0, Rect{at.x(), at.y(), 0, 0}.grown(u(22)));
    }

    void ticks() {
        const double step = playback_.end_s > 8 ? 1 : 0.5, end_x = x_of(playback_.end_s);
        const double baseline = y_ + u(7) + type(15);
        const std::string end = format_time(playback_.end_s);
        const double clear = end_x - width(end, Face::sans, 15) / 2 - type(14);
        const int every =
            seconds_between_figures((end_x - x_of(0)) / std::max(playback_.end_s, 0.1), type(32));
        for (double t = 0; t < playback_.end_s - 1e-6; t += step) {
            const double x = round_px(x_of(t));
            const bool whole = std::abs(t - std::round(t)) < 1e-6;
            picture_.push_back(Line{{{x, y_ - u(whole ? 8 : 5)}, {x, y_}}, u(1.3), c_.ink2});
            if (!whole || std::lround(t) % every != 0 || x > clear) continue;
            write(t == 0 ? "0 s" : fmt::format("{:.0f}", t), Face::sans, 15, x, baseline, c_.ink2,
                  Align::centre);
        }
        write(end, Face::sans, 15, end_x, baseline, c_.ink, Align::centre);
    }

    void speed(double right, double baseline) {
        const std::string words = playback_.words();
        const bool lit = hot(What::slow) || playback_.slowed > 0;
        write(words, Face::sans, 17, right, baseline, lit ? c_.ink : c_.ink2, Align::right);
        const double w = width(words, Face::sans, 17);
        const Rect box{right - w, baseline - type(14), w, type(18)};
        focus_bar(What::slow, 0, {box.x, baseline + u(6), w, 0});
        target(What::slow, 0, box.grown(u(9)));
    }

    const Playback& playback_;
    const Rect& strip_;
    Rect line_;
    double y_;
};

}  // namespace

void draw_roll_strip(const Canvas& canvas, const Playback& playback, const Trail& trail) {
    RollPen(canvas, playback).paint(trail);
}

}  // namespace dewtrail
