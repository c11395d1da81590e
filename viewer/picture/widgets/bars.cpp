#include "viewer/picture/widgets/bars.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr double margin_u = 40, least_hit_u = 36;
constexpr double time_line_from_u = 112;                        // from the left
constexpr double time_line_to_u = 40, time_line_words_u = 224;  // from the right

/// A word to click: bold with an underline when active.
class Words {
  public:
    Words(Picture& picture, Targets& targets, const Attention& attention, const Look& look,
          double baseline)
        : picture_(picture),
          targets_(targets),
          attention_(attention),
          look_(look),
          baseline_(baseline) {}

    /// Returns the width of the word.
    double add(const std::string& word, double x, Align align, bool active, Target target) {
        const Palette& c = look_.colours;
        const Face face = active ? Face::sans_bold : Face::sans;
        const bool hot = attention_.on(attention_.hovered, target.what, target.index);
        Text text{
            word, face, look_.type(18), {std::round(x), baseline_}, active || hot ? c.ink : c.ink2,
            align};
        const Rect box = rect_of(text, look_.width);
        picture_.push_back(text);
        if (active) underline(box, c.wet_green, 11);
        if (attention_.on(attention_.focused, target.what, target.index))
            underline(box, c.copper, active ? 16 : 11);
        const double grow = std::max(look_.u(8), (look_.type(least_hit_u) - box.h) / 2);
        target.hit = {box.x - look_.u(8), box.y - grow, box.w + look_.u(16), box.h + 2 * grow};
        targets_.push_back(target);
        return box.w;
    }

  private:
    void underline(const Rect& box, Colour colour, double below_u) {
        add_rounded_rect(picture_,
                         {box.x, baseline_ + look_.u(below_u) - look_.u(2), box.w, look_.u(4)},
                         look_.u(2), colour);
    }

    Picture& picture_;
    Targets& targets_;
    const Attention& attention_;
    const Look& look_;
    double baseline_;
};

double round_px(double v) {
    return std::round(v);
}

/// Above the note, where that leaves room for them. Returns where they begin.
double draw_views(Words& words, const TopBarState& state, double right, const Look& look) {
    const double gap = look.u(26);
    double need = 0;
    for (const std::string& view : state.views)
        need += look.width(Face::sans_bold, look.type(18), view) + gap;
    const Layout& l = look.layout;
    const bool beside_note = l.note_shown && !l.note_below;
    const double from =
        std::min(beside_note ? l.note.x + look.u(margin_u) : right - need, right - need);
    double x = from;
    for (std::size_t i = 0; i < state.views.size(); ++i) {
        const int index = static_cast<int>(i);
        x += words.add(state.views[i], x, Align::left, state.view == index,
                       {What::view, index, {}}) +
             gap;
    }
    return from;
}

/// The modes; set closer and then shortened where they do not fit. Returns where they end.
double draw_modes(Words& words, const TopBarState& state, double from, double to,
                  const Look& look) {
    constexpr const char* full[] = {"Read", "Compare", "Practise", "Review", "Green"};
    constexpr const char* brief[] = {"Read", "Comp.", "Pract.", "Rev.", "Green"};
    const auto end_of = [&](const char* const* names, double gap) {
        double x = from - gap;
        for (const int mode : state.modes)
            x += gap + look.width(Face::sans_bold, look.type(18), names[mode]);
        return x;
    };
    double gap = look.u(34);
    if (end_of(full, gap) > to) gap = look.u(18);
    const char* const* names = end_of(full, gap) > to ? brief : full;
    double x = from;
    for (const int mode : state.modes)
        x += words.add(names[mode], x, Align::left, mode == state.mode, {What::mode, mode, {}}) +
             gap;
    return x - gap;
}

}  // namespace

void draw_top_bar(Picture& picture, Targets& targets, const TopBarState& state,
                  const Attention& attention, const Look& look) {
    const Palette& c = look.colours;
    const Rect& bar = look.layout.top_bar;
    add_rect(picture, bar, c.paper);
    add_rect(picture,
             {0, bar.bottom() - std::max(1.0, round_px(look.u(2))), bar.w,
              std::max(1.0, round_px(look.u(2)))},
             c.rule);
    const double baseline = round_px(bar.y + 0.5 * bar.h + look.type(8));
    const double name_x = look.layout.whole(margin_u);
    Text name{"Dewtrail", Face::book_italic, look.type(26), {name_x, baseline + 1}, c.ink};
    const double name_w = look.width(name.face, name.size, name.words);
    picture.push_back(name);
    Words words(picture, targets, attention, look, baseline);
    const double right = bar.right() - look.u(margin_u);
    double x = right;
    x -= words.add("?", x, Align::right, state.help, {What::help, 0, {}}) + look.u(24);
    x -= words.add(look.units.metric ? "m" : "ft", x, Align::right, false, {What::units, 0, {}}) +
         look.u(24);
    x -= words.add("Sheet", x, Align::right, false, {What::print, 0, {}}) + look.u(26);
    if (!state.views.empty()) x = draw_views(words, state, x, look);
    const double mode_x = std::max(look.u(180), name_x + name_w + look.u(24));
    const double end = draw_modes(words, state, mode_x, x - look.u(24), look);
    const Text green{state.name,
                     Face::book_italic,
                     look.type(22),
                     {round_px(end + look.u(30)), baseline},
                     c.ink2};
    if (!state.name.empty() && rect_of(green, look.width).right() < x) picture.push_back(green);
}

Rect time_line_of(const Layout& layout) {
    const Rect& strip = layout.roll_strip;
    const double from = strip.x + layout.u(time_line_from_u);
    const double to = strip.right() - layout.u(time_line_to_u) - layout.type(time_line_words_u);
    return {from, std::round(strip.y + strip.h / 2), to - from, 0};
}

double time_at(const Layout& layout, const Playback& playback, double x) {
    const Rect line = time_line_of(layout);
    return std::clamp((x - line.x) / line.w, 0.0, 1.0) * playback.end_s;
}

namespace {

double x_of_time(const Look& look, const Playback& playback, double time_s) {
    const Rect line = time_line_of(look.layout);
    return playback.end_s > 0 ? line.x + line.w * time_s / playback.end_s : line.x;
}

void draw_play_button(Picture& picture, Targets& targets, bool running, const Attention& attention,
                      const Look& look) {
    const Palette& c = look.colours;
    const Rect& strip = look.layout.roll_strip;
    const Vec2 at(strip.x + look.u(58), strip.y + strip.h / 2);
    const bool hot = attention.on(attention.hovered, What::play, 0);
    picture.push_back(Disc{at, look.u(19), hot ? lightened(c.wet_green, 0.08) : c.wet_green});
    if (running) {
        for (const double x : {-4.5, 4.5})
            add_rect(picture, {at.x() + look.u(x - 2), at.y() - look.u(8), look.u(4), look.u(16)},
                     c.on_button);
    } else {
        picture.push_back(Polygon{{at + look.u(1) * Vec2(-5, -9), at + look.u(1) * Vec2(10, 0),
                                   at + look.u(1) * Vec2(-5, 9)},
                                  c.on_button});
    }
    if (attention.on(attention.focused, What::play, 0))
        add_ring(picture, at, look.u(23), look.u(2), c.copper);
    targets.push_back(
        {What::play, 0, {at.x() - look.u(22), at.y() - look.u(22), look.u(44), look.u(44)}});
}

/// Every so many seconds there is room for a figure.
int seconds_between_figures(double px_per_s, double least_px) {
    for (const int every : {1, 2, 5, 10, 20})
        if (every * px_per_s >= least_px) return every;
    return 60;
}

void draw_ticks(Picture& picture, const Playback& playback, double y, const Look& look) {
    const Palette& c = look.colours;
    const double step = playback.end_s > 8 ? 1 : 0.5;
    const double end_x = x_of_time(look, playback, playback.end_s);
    const double baseline = round_px(y + look.u(7) + look.type(15));
    const std::string end = format_time(playback.end_s);
    const double end_w = look.width(Face::sans, look.type(15), end);
    const int every = seconds_between_figures(
        (end_x - x_of_time(look, playback, 0)) / std::max(playback.end_s, 0.1), look.type(32));
    for (double t = 0; t < playback.end_s - 1e-6; t += step) {
        const double x = round_px(x_of_time(look, playback, t));
        const bool whole = std::abs(t - std::round(t)) < 1e-6;
        picture.push_back(Line{{{x, y - look.u(whole ? 8 : 5)}, {x, y}}, look.u(1.3), c.ink2});
        if (!whole || std::lround(t) % every != 0 || x > end_x - end_w / 2 - look.type(14))
            continue;
        const std::string words = t == 0 ? "0 s" : fmt::format("{:.0f}", t);
        picture.push_back(
            Text{words, Face::sans, look.type(15), {x, baseline}, c.ink2, Align::centre});
    }
    picture.push_back(
        Text{end, Face::sans, look.type(15), {round_px(end_x), baseline}, c.ink, Align::centre});
}

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

}  // namespace

void draw_roll_strip(Picture& picture, Targets& targets, const Playback& playback,
                     const Trail& trail, const Attention& attention, const Look& look) {
    const Palette& c = look.colours;
    const Rect& strip = look.layout.roll_strip;
    add_rect(picture, strip, c.paper2);
    add_rect(picture, {strip.x, strip.y, strip.w, 1}, c.rule);
    draw_play_button(picture, targets, playback.running, attention, look);
    if (trail.empty()) return;
    const double y = round_px(strip.y + strip.h / 2);
    const double from = x_of_time(look, playback, 0),
                 to = x_of_time(look, playback, playback.end_s);
    const double now = x_of_time(look, playback, playback.time_s);
    picture.push_back(Line{{{from, y}, {to, y}}, look.u(1.3), c.ink2});
    if (look.numbers) draw_ticks(picture, playback, y, look);
    picture.push_back(Line{{{from, y}, {now, y}}, look.u(4.5), c.wet_green});
    const bool focused = attention.on(attention.focused, What::time_line, 0);
    picture.push_back(Disc{{now, y}, look.u(9), focused ? c.copper : rgb(0x14201C)});
    picture.push_back(Disc{{now, y}, look.u(focused ? 6 : 7.2), rgb(0xFFFFFF)});
    targets.push_back(
        {What::time_line, 0, Rect{from, y - look.u(18), to - from, look.u(36)}.grown(look.u(10))});
    const double baseline = y + round_px(look.type(5.5));
    picture.push_back(Text{state_words(playback, trail, look.numbers),
                           Face::sans,
                           look.type(17),
                           {round_px(to + look.u(24)), baseline},
                           c.ink2});
    const double right = round_px(strip.right() - look.u(32));
    const bool hot = attention.on(attention.hovered, What::slow, 0) || playback.slowed > 0;
    Text speed{playback.words(),  Face::sans,           look.type(17),
               {right, baseline}, hot ? c.ink : c.ink2, Align::right};
    const Rect box = rect_of(speed, look.width);
    picture.push_back(speed);
    if (attention.on(attention.focused, What::slow, 0))
        add_rect(picture, {box.x, baseline + look.u(6), box.w, look.u(3)}, c.copper);
    targets.push_back({What::slow, 0, box.grown(look.u(9))});
}

}  // namespace dewtrail
