#include "viewer/paper/ring_words.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "viewer/picture/symbols.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

constexpr double body_size = 14.5, figure_size = 16, heading_size = 22;

/// '13 to 17 in': the unit once where it is the same.
std::string range_words(double least_m, double most_m, const Units& units) {
    const std::string least = format_length(least_m, units), most = format_length(most_m, units);
    const auto a = least.find(' '), b = most.find(' ');
    const bool same = least.substr(a) == most.substr(b);
    return fmt::format("{} to {}", same ? least.substr(0, a) : least, most);
}

void write_corners(const RingWords& w) {
    Page& page = w.page;
    const Rect& body = page.body();
    const double top = body.y + 20, step = 18;
    const double left = body.x, right = body.right();
    page.text({left, top}, "Read it from the ball.", Face::sans, body_size,
              page.look().colours.ink);
    page.text({left, top + step}, "Right half: aim right.", Face::sans, body_size,
              page.look().colours.ink2);
    page.text({left, top + 2 * step}, "Left half: aim left.", Face::sans, body_size,
              page.look().colours.ink2);
    page.text({right, top},
              fmt::format("first line: aim; cups from the edge, {} from the centre",
                          w.units.metric ? "cm" : "inches"),
              Face::sans, body_size, page.look().colours.copper, Align::right);
    page.text({right, top + step}, "second line: play it as a straight", Face::sans, body_size,
              page.look().colours.ink, Align::right);
    page.text({right, top + 2 * step}, "level putt of that length", Face::sans, body_size,
              page.look().colours.ink, Align::right);
}

void write_spot(const RingWords& w, double bottom) {
    Page& page = w.page;
    const double right = page.body().right();
    const bool near = is_shared(*w.spot);
    const std::string range = fmt::format("fall line {}{} up", near ? "near here, " : "",
                                          range_words(w.spot->least_m, w.spot->most_m, w.units));
    const std::string lead =
        fmt::format("the start lines at {} {}cross the",
                    format_distance(w.rings.distances_m.back(), w.units), near ? "all " : "");
    const double width =
        std::max(page.width_of(lead, Face::sans, 13), page.width_of(range, Face::sans, 13));
    page.text({right, bottom - 6}, lead, Face::sans, 13, page.look().colours.copper, Align::right);
    page.text({right, bottom + 10}, range, Face::sans, 13, page.look().colours.copper,
              Align::right);
    if (!near) return;
    draw_diamond(page.picture(), {right - width - 22, bottom - 3}, 8, page.look(),
                 page.look().colours.copper, page.look().colours.paper);
}

void write_lower_corners(const RingWords& w) {
    Page& page = w.page;
    const double bottom = w.hole.y() + w.radius + 26, left = page.body().x;
    draw_fall_line(page.picture(), {left + 8, bottom - 72}, {left + 8, bottom - 8}, page.look());
    page.text({left + 24, bottom - 44}, "fall line", Face::sans, body_size,
              page.look().colours.ink);
    page.text({left + 24, bottom - 24}, slope_figure(w.rings.plan.setup, w.units), Face::book,
              figure_size, page.look().colours.ink);
    if (w.spot) write_spot(w, bottom);
}

void write_notes(Page& page, double y) {
    const Rect& body = page.body();
    if (y > body.bottom() - 16) return;
    page.text({body.x, y}, "Notes", Face::book, heading_size, page.look().colours.ink);
    for (double x = body.x + 70; y < body.bottom() - 16; y += 26, x = body.x)
        page.hairline(y + 3, x, body.right());
}

void write_tasks(const RingWords& w) {
    Page& page = w.page;
    const Rect& body = page.body();
    double y = w.hole.y() + w.radius + ring_margin + 4;
    page.rule(y);
    y += 27;
    page.text({body.x, y}, "To do", Face::book, heading_size, page.look().colours.ink);
    const std::string near = format_distance(w.rings.distances_m.front(), w.units);
    const std::string far = format_distance(w.rings.distances_m.back(), w.units);
    const std::string tasks[] = {
        fmt::format("Ball at 3 and at 9, {}. A mirror: same aim, other side.", near),
        fmt::format("Ball at 1 and at 5, {}. Nearly the same slope; see which breaks more.", far),
        "Guess in cups before you look. Mark how many you had right."};
    int number = 0;
    for (const std::string& task : tasks) {
        y += 24;
        page.text({body.x, y}, std::to_string(++number), Face::book, 15, page.look().colours.ink);
        page.text({body.x + 22, y}, task, Face::sans, 13.5, page.look().colours.ink);
        page.boxes(body.right(), y, 10);
    }
    write_notes(page, y + 30);
}

}  // namespace

bool is_shared(const SharedSpot& spot) {
    constexpr double near = 1.6;
    return spot.most_m < near * spot.least_m;
}

void write_ring_words(const RingWords& words) {
    write_corners(words);
    write_lower_corners(words);
    write_tasks(words);
}

}  // namespace dewtrail
