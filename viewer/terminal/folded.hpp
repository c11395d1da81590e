#pragma once

#include <optional>
#include <ostream>
#include <streambuf>
#include <string>
#include <string_view>

namespace dewtrail {

/// Columns of a UTF-8 text: its code points, which is right for everything that we print.
std::size_t columns_of(std::string_view text);

/// How many columns the terminal behind a file descriptor has; none if it is no terminal, or does
/// not say.
std::optional<int> terminal_columns(int descriptor);

/// While it lives, what is written to a stream is folded between words to so many columns, the rest
/// of a line a little further in. A number keeps its unit; a word longer than a line stays whole.
/// Line feeds and carriage returns go through as they are; every other control character, C1 too,
/// becomes a '?': what is printed may come from a file.
class Folded final : public std::streambuf {
  public:
    Folded(std::ostream& stream, int columns);
    ~Folded() override;
    Folded(const Folded&) = delete;
    Folded& operator=(const Folded&) = delete;

  protected:
    int_type overflow(int_type c) override;
    int sync() override;

  private:
    friend class Unfolded;
    void end_words();
    void put(const std::string& word);
    void put_blanks();

    std::ostream& stream_;
    std::streambuf* to_;
    int columns_;
    int column_ = 0;   ///< characters on this line
    int blanks_ = 0;   ///< held back until a word follows
    int indent_ = -1;  ///< of this line; -1 before its first word
    std::string word_;
};

/// While it lives, a folded stream is not folded: for JSON, tables for machines and scripts, which
/// an extra line feed would break. Any other stream is left alone. Print what is free of controls
/// only.
class Unfolded {
  public:
    explicit Unfolded(std::ostream& stream);
    ~Unfolded();
    Unfolded(const Unfolded&) = delete;
    Unfolded& operator=(const Unfolded&) = delete;

  private:
    std::ostream& stream_;
    Folded* folded_;  ///< null: was not folded
};

}  // namespace dewtrail
