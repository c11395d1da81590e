#include "viewer/paper/page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace dewtrail {
namespace {

constexpr double caption_size = 12, title_size = 35, subtitle_size = 15, small_title_size = 19;

constexpr const char* caution =
    "For practice and teaching. During a round the Rules of Golf (Rule 4.3a and its "
    "interpretations; Model Local Rule G-11 where adopted) restrict slope-measuring devices, "
    "line-of-play advice and green-reading material. Check with the Committee. Left out: grain, "
    "spike marks, bumps, moisture; real balls scatter.";

}  // namespace

int fitting_scale(const Vec2& size_m, const Vec2& place, int least) {
    for (const int scale : scales)
        if (scale >= least && (size_m * units_per_m / scale).x() <= place.x() &&
            (size_m * units_per_m / scale).y() <= place.y())
            return scale;
    // Beyond the list: round numbers, for whole greens on small paper.
    int scale = std::max(*std::rbegin(scales), least);
    while ((size_m * units_per_m / scale).x() > place.x() ||
           (size_m * units_per_m / scale).y() > place.y())
        scale += 80;
    return scale;
}

Page::Page(Paper paper, const PageHead& head, const Units& units)
    : size_(size_of(paper)), look_(paper_look(units)) {
    body_ = {page_margin, page_margin, size_.x() - 2 * page_margin, size_.y() - 2 * page_margin};
    const bool small = paper == Paper::pocket;
    if (small)
        write_small_head(head);
    else
        write_head(head);
    write_foot(small);
}

double Page::width_of(const std::string& words, Face face, double size) const {
    return look_.width(face, size, words);
}

void Page::text(const Vec2& baseline, const std::string& words, Face face, double size,
                const Colour& colour, Align align) {
    picture_.push_back(Text{words, face, size, baseline, colour, align});
}

void Page::text_within(double width, const Vec2& baseline, const std::string& words, Face face,
                       double size, const Colour& colour) {
    picture_.push_back(fitted({words, face, size, baseline, colour}, width, look_));
}

double Page::paragraph(const Vec2& baseline, const std::string& words, Face face, double size,
                       const Colour& colour, double width) {
    double y = baseline.y();
    std::string line;
    const auto flush = [&] {
        text({baseline.x(), y}, line, face, size, colour);
        y += std::round(1.35 * size);
        line.clear();
    };
    std::size_t from = 0;
    while (from < words.size()) {
        const std::size_t space = std::min(words.find(' ', from), words.size());
        const std::string word = words.substr(from, space - from);
        const std::string tried = line.empty() ? word : line + " " + word;
        if (!line.empty() && width_of(tried, face, size) > width) {
            flush();
            line = word;
        } else {
            line = tried;
        }
        from = space + 1;
    }
    if (!line.empty()) flush();
    return y;
}

void Page::rule(double y, double width) {
    picture_.push_back(
        Line{{{page_margin, y}, {size_.x() - page_margin, y}}, width, look_.colours.ink});
}

void Page::hairline(double y, double x0, double x1) {
    picture_.push_back(Line{{{x0, y}, {x1, y}}, 0.7, look_.colours.ink2});
}

void Page::boxes(double right, double baseline, int count) {
    constexpr double side = 14, pitch = 19;
    for (int i = 0; i < count; ++i) {
        const double x = right - side - pitch * i, y = baseline - side + 2;
        picture_.push_back(Line{{{x, y}, {x + side, y}, {x + side, y + side}, {x, y + side}},
                                0.9,
                                look_.colours.ink,
                                true});
    }
}

void Page::write_head(const PageHead& head) {
    const Palette& c = look_.colours;
    const double left = body_.x, right = body_.right();
    double y = body_.y + 12;
    text({left, y}, "Dewtrail", Face::book_italic, 19, c.ink2);
    if (head.name_line) {
        text({right - 345, y}, "Name", Face::sans, 14, c.ink2);
        hairline(y + 2, right - 303, right - 175);
        text({right - 157, y}, "Date", Face::sans, 14, c.ink2);
        hairline(y + 2, right - 120, right);
    }
    y += 42;
    text_within(body_.w, {left, y}, head.title, Face::book, title_size, c.ink);
    y += 27;
    std::string drawn;
    if (head.scale > 0) drawn = fmt::format("drawn 1 : {}", head.scale);
    if (head.sideways > 1) drawn += fmt::format(", sideways ×{}", head.sideways);
    text({right, y}, drawn, Face::sans, 14, c.ink2, Align::right);
    const double room = body_.w - (drawn.empty() ? 0 : width_of(drawn, Face::sans, 14) + 18);
    const double below =
        paragraph({left, y}, head.subtitle, Face::sans, subtitle_size, c.ink2, room);
    y = below - std::round(1.35 * subtitle_size) + 13;
    rule(y);
    body_.h = body_.bottom() - y;
    body_.y = y;
}

void Page::write_small_head(const PageHead& head) {
    const Palette& c = look_.colours;
    double y = body_.y + 14;
    text_within(body_.w, {body_.x, y}, head.title, Face::book, small_title_size, c.ink);
    y += 17;
    text({body_.x, y}, head.subtitle, Face::sans, caption_size, c.ink2);
    y += 15;
    text({body_.x, y}, fmt::format("drawn 1 : {}", head.scale), Face::sans, caption_size, c.ink2);
    y += 8;
    rule(y, 0.8);
    body_.h = body_.bottom() - y;
    body_.y = y;
}

void Page::write_foot(bool small) {
    const std::string words =
        small
            ? "Check with the Committee whether it may be used (Rule 4.3a, Model Local Rule G-11)."
            : caution;
    // Written once to see how high it is, then where it belongs.
    const std::size_t before = picture_.size();
    const double height =
        paragraph({body_.x, 0}, words, Face::sans, caption_size, look_.colours.ink2, body_.w);
    picture_.resize(before, Disc{});
    const double top = body_.bottom() - height;
    paragraph({body_.x, top + 14}, words, Face::sans, caption_size, look_.colours.ink2, body_.w);
    rule(top - 2, 0.8);
    body_.h = top - 2 - body_.y;
}

}  // namespace dewtrail
