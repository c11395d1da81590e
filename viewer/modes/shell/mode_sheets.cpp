#include <algorithm>
#include <cmath>

#include "viewer/modes/shell/mode.hpp"

/// The sheets that a mode lays over the window: its keys, a list to choose from.
namespace dewtrail {
namespace {

constexpr double title_u = 64, row_u = 42;

/// What press_common takes, in whatever mode.
const HelpLines common_help = {
    {"another mode", "1 to 5"}, {"print a page", "Ctrl P"}, {"a tick for the rhythm", "I"},
    {"dew, dusk", "D"},         {"feet, metres", "U"},      {"text size", "Ctrl +  −  0"},
    {"full screen", "F11"},     {"next stop", "Tab"},
};

/// The paper of a sheet with its title, `size_u` for what comes below that (type units). It takes
/// all other targets away.
Rect draw_sheet_paper(Picture& picture, Targets& targets, const char* title, const Vec2& size_u,
                      const Look& look) {
    const Layout& l = look.layout;
    const double w = std::min(l.width - look.u(40), look.type(size_u.x()));
    const double h =
        std::min(l.height - look.u(16), look.type(title_u) + look.type(size_u.y()) + look.u(24));
    const Rect sheet{std::round((l.width - w) / 2), std::round((l.height - h) / 2), w, h};
    add_rect(picture, {0, 0, l.width, l.height}, {20, 32, 28, 90});
    add_rounded_rect(picture, sheet, look.u(10), look.colours.paper);
    targets.clear();
    targets.push_back({What::sheet, 0, sheet});
    picture.push_back(Text{title,
                           Face::book,
                           look.type(34),
                           {std::round(sheet.x + look.u(32)), std::round(sheet.y + look.type(48))},
                           look.colours.ink});
    return sheet;
}

void draw_help(Picture& picture, Targets& targets, const HelpLines& lines, const Look& look) {
    const Palette& c = look.colours;
    const std::size_t per_column = (lines.size() + 1) / 2;
    const double row_h = look.type(34);
    const Rect sheet = draw_sheet_paper(picture, targets, "Keys",
                                        {860, static_cast<double>(per_column) * 34}, look);
    const double left = std::round(sheet.x + look.u(32)), gap = look.u(40);
    const double half = (sheet.w - look.u(64) - gap) / 2;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const double x = std::round(left + static_cast<double>(i / per_column) * (half + gap));
        const double y = std::round(sheet.y + look.type(title_u) +
                                    (static_cast<double>(i % per_column) + 0.65) * row_h);
        const auto& [what, keys] = lines[i];
        const double most = half - look.width(Face::sans_bold, look.type(16), keys) - look.u(10);
        const double full = look.width(Face::sans, look.type(17), what);
        picture.push_back(
            Text{what, Face::sans, look.type(17) * std::min(1.0, most / full), {x, y}, c.ink2});
        picture.push_back(Text{
            keys, Face::sans_bold, look.type(16), {std::round(x + half), y}, c.ink, Align::right});
    }
}

}  // namespace

void Mode::open_help() {
    sheet_ = {};
    sheet_.kind = OpenSheet::Kind::help;
    act("help");
}

void Mode::open_list(const std::string& title, std::vector<std::string> rows, What what,
                     const std::string& none) {
    sheet_ = {OpenSheet::Kind::list, title, none, std::move(rows), what, 0};
}

void Mode::open_pages() {
    std::vector<std::string> rows;
    for (const auto& [words, page] : pages()) rows.push_back(words);
    open_list("Print a page", std::move(rows), What::page, "There is nothing to print yet.");
    act("pages");
}

void Mode::close_sheet() {
    sheet_ = {};
    act("close-sheet");
}

void Mode::choose_row(int index) {
    const What what = sheet_.what;
    sheet_ = {};
    row_chosen(what, index);
}

void Mode::row_chosen(What what, int index) {
    if (what != What::page) return;
    Wish print{Wish::Kind::print};
    print.text = pages()[static_cast<std::size_t>(index)].second;
    print.putt = putt_at_hand();
    print.compared = comparison_to_print();
    wish(std::move(print));
    act("print");
}

bool Mode::press_in_sheet(KeyPress pressed) {
    if (!sheet_open() || pressed.ctrl) return false;
    if (pressed.code == key::escape) return close_sheet(), true;
    if (help_open()) return close_sheet(), true;
    const int count = static_cast<int>(sheet_.rows.size());
    if (count == 0) return true;
    if (pressed.code == key::down || pressed.code == key::tab)
        sheet_.row = (sheet_.row + 1) % count;
    if (pressed.code == key::up) sheet_.row = (sheet_.row + count - 1) % count;
    if (pressed.code == key::enter) choose_row(sheet_.row);
    return true;
}

bool Mode::click_in_sheet() {
    if (!sheet_open()) return false;
    if (hovered_ && hovered_->what == sheet_.what && sheet_.kind == OpenSheet::Kind::list)
        choose_row(hovered_->index);
    else if (!hovered_ || hovered_->what != What::sheet)
        close_sheet();
    return true;
}

void Mode::draw_sheet(Picture& picture, const Look& look) {
    if (help_open()) {
        HelpLines lines = help();
        lines.insert(lines.end(), common_help.begin(), common_help.end());
        return draw_help(picture, targets_, lines, look);
    }
    if (!sheet_open()) return;
    const double row_h = look.type(row_u);
    const auto count = static_cast<double>(std::max<std::size_t>(1, sheet_.rows.size()));
    const Rect sheet =
        draw_sheet_paper(picture, targets_, sheet_.title.c_str(), {420, count * row_u}, look);
    const double x = std::round(sheet.x + look.u(32)), top = sheet.y + look.type(title_u);
    if (sheet_.rows.empty())
        picture.push_back(Text{sheet_.none,
                               Face::sans,
                               look.type(17),
                               {x, std::round(top + look.type(24))},
                               look.colours.ink2});
    for (std::size_t i = 0; i < sheet_.rows.size(); ++i) {
        const Rect row{sheet.x + look.u(16), std::round(top + static_cast<double>(i) * row_h),
                       sheet.w - look.u(32), row_h};
        if (static_cast<int>(i) == sheet_.row || row.contains(pointer_))
            add_rounded_rect(picture, row, look.u(6), look.colours.paper2);
        picture.push_back(Text{sheet_.rows[i],
                               Face::book,
                               look.type(25),
                               {x, std::round(row.y + 0.65 * row_h)},
                               look.colours.ink});
        targets_.push_back({sheet_.what, static_cast<int>(i), row});
    }
}

}  // namespace dewtrail
