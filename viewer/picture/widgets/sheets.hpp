#pragma once

#include <string_view>
#include <vector>

#include "viewer/picture/widgets/brush.hpp"

/// Sheets over the darkened window. Each takes all other targets away.
namespace dewtrail {

/// What a command does, its keys in words, and each of them.
struct HelpLine {
    std::string_view what, keys;
    std::vector<std::string_view> each;
};
/// Every key can be clicked: What::key, counted from the first line on.
void draw_help_sheet(const Canvas& canvas, const std::vector<HelpLine>& lines, const Vec2& pointer);

/// The words that the screen uses, explained; at its foot what can be done from there, and the way
/// on to the keys, What::page.
void draw_words_sheet(const Canvas& canvas, const std::vector<Word>& more);

struct ListSheet {
    const std::string &title, &none;  ///< `none`: what is said of an empty list
    const std::vector<std::string>& rows;
    What what;
};
/// One line to type in, What::new_name; the button that ends it, What::button, and the keys that
/// do. Where a keyboard comes up from below it keeps to the upper part.
void draw_line_sheet(const Canvas& canvas, const std::string& title, const std::string& button,
                     const std::string& keys);

void draw_list_sheet(const Canvas& canvas, const ListSheet& list, int chosen, const Vec2& pointer);

}  // namespace dewtrail
