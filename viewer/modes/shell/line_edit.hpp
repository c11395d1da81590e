#pragma once

#include <string>
#include <string_view>

namespace dewtrail {

/// One line of text being typed: caret and selection by whole characters of UTF-8.
class LineEdit {
  public:
    /// All of it selected, so that the first character replaces it.
    explicit LineEdit(std::string text = {}) : text_(std::move(text)), caret_(text_.size()) {}

    const std::string& text() const { return text_; }
    std::size_t caret() const { return caret_; }    ///< bytes before it
    std::size_t anchor() const { return anchor_; }  ///< the other end of the selection
    std::string_view selected() const;

    /// In place of what is selected.
    void insert(std::string_view characters);
    void erase(bool back);  ///< what is selected, or the character before (after) the caret
    void step(bool back, bool selecting);
    void jump(bool back, bool selecting);  ///< to the beginning or the end
    void select_all();

  private:
    void move_to(std::size_t place, bool selecting);
    std::size_t neighbour(bool back) const;

    std::string text_;
    std::size_t caret_ = 0, anchor_ = 0;
};

}  // namespace dewtrail
