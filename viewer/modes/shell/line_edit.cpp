#include "viewer/modes/shell/line_edit.hpp"

#include <algorithm>

namespace dewtrail {
namespace {

/// Not the first byte of a character.
bool continues(char c) {
    return (static_cast<unsigned char>(c) & 0xC0) == 0x80;
}

}  // namespace

std::string_view LineEdit::selected() const {
    const auto [from, to] = std::minmax({caret_, anchor_});
    return std::string_view(text_).substr(from, to - from);
}

void LineEdit::insert(std::string_view characters) {
    const auto [from, to] = std::minmax({caret_, anchor_});
    text_.replace(from, to - from, characters);
    move_to(from + characters.size(), false);
}

void LineEdit::erase(bool back) {
    if (caret_ == anchor_) step(back, true);
    insert("");
}

void LineEdit::step(bool back, bool selecting) {
    move_to(neighbour(back), selecting);
}

void LineEdit::jump(bool back, bool selecting) {
    move_to(back ? 0 : text_.size(), selecting);
}

void LineEdit::select_all() {
    anchor_ = 0;
    caret_ = text_.size();
}

void LineEdit::move_to(std::size_t place, bool selecting) {
    caret_ = place;
    if (!selecting) anchor_ = place;
}

std::size_t LineEdit::neighbour(bool back) const {
    std::size_t at = caret_;
    if (back) {
        while (at > 0 && continues(text_[--at]))
            ;
    } else if (at < text_.size()) {
        while (++at < text_.size() && continues(text_[at]))
            ;
    }
    return at;
}

}  // namespace dewtrail
