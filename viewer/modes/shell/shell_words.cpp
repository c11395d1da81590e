#include <algorithm>
#include <cmath>

#include "viewer/modes/shell/shell.hpp"
#include "viewer/picture/widgets/word_pictures.hpp"

/// Words that explain themselves: where the pointer rests on one, or clicks it.
namespace dewtrail {
namespace {

constexpr double rests_s = 0.5;
constexpr double wide_u = 300, pad_u = 12, drawing_u = 88;

}  // namespace

/// Where words stand that can be explained, in the picture as it was painted.
void Shell::find_words(const Picture& picture, const Look& look) {
    words_.clear();
    for (const Shape& shape : picture)
        if (const auto* text = std::get_if<Text>(&shape); text && text->turned_rad == 0)
            if (const Explained* word = explained(text->words))
                words_.emplace_back(word, rect_of(*text, look.width));
    for (const Target& target : targets_)
        if (target.what == What::face) words_.emplace_back(explained(three_dots), target.hit);
    // One that has gone, or stands elsewhere now, is told no longer.
    if (told_word_ && std::find(words_.begin(), words_.end(), *told_word_) == words_.end())
        told_word_.reset();
}

const Shell::WordPlace* Shell::word_at(const Vec2& px) const {
    if (sheet_open() || entry_) return nullptr;
    const auto found = std::find_if(words_.begin(), words_.end(), [&](const WordPlace& place) {
        return place.second.contains(px);
    });
    return found == words_.end() ? nullptr : &*found;
}

/// True where one has just been found.
bool Shell::rest_on_word(double seconds) {
    if (drag_ || told_word_ || !word_at(pointer_)) return false;
    rested_s_ += seconds;
    if (rested_s_ < rests_s) return true;
    told_word_ = *word_at(pointer_);
    return true;
}

void Shell::leave_word() {
    rested_s_ = 0;
    if (told_word_ && !told_word_->second.contains(pointer_)) told_word_.reset();
}

/// Below its word, or above it; beside the note, whose rows say more of it: what it speaks of is
/// not covered. With a small drawing, where there is one of it.
void Shell::paint_word(const Canvas& canvas) const {
    if (!told_word_ || sheet_open() || drag_) return;
    const Look& look = canvas.look;
    const Rect& word = told_word_->second;
    const double size = look.type(19), pad = look.u(pad_u), line = 1.3 * size;
    const auto drawn = [&](const Vec2& corner) {
        const double side = look.type(drawing_u);
        return word_picture(told_word_->first->word, {corner.x(), corner.y(), side, side}, look);
    };
    const double drawing = drawn({0, 0}).empty() ? 0 : look.type(drawing_u) + pad;
    const auto lines =
        wrapped(told_word_->first->sentence, Face::book, size,
                std::min(look.type(wide_u), look.layout.width - drawing - 4 * pad), look.width);
    double w = 0;
    for (const std::string& words : lines) w = std::max(w, look.width(Face::book, size, words));
    Rect box{word.x - pad, word.bottom() + look.u(8), drawing + w + 2 * pad,
             std::max(static_cast<double>(lines.size()) * line, drawing) + 1.4 * pad};
    box.x = std::round(std::clamp(box.x, look.u(8), look.layout.width - box.w - look.u(8)));
    if (box.bottom() > look.layout.height - look.u(8)) box.y = word.y - box.h - look.u(8);
    if (const Rect& note = look.layout.note;
        !look.layout.note_below && note.contains(word.centre())) {
        box.x = std::round(note.x - box.w - look.u(8));
        box.y = std::round(std::min(word.y - pad, look.layout.height - box.h - look.u(8)));
    }
    add_edged_paper(canvas, box, 7);
    append(canvas.picture, drawn(Vec2(box.x, box.y) + Vec2(pad, pad)));
    double y = box.y + 0.5 * pad;
    for (const std::string& words : lines)
        canvas.picture.push_back(Text{words,
                                      Face::book,
                                      size,
                                      {std::round(box.x + pad + drawing), std::round(y += line)},
                                      look.colours.ink});
}

}  // namespace dewtrail
