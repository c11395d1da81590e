#include "viewer/terminal/folded.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cctype>
#include <utility>

namespace dewtrail {
namespace {

constexpr int further_in = 2;
constexpr std::size_t longest_unit = 2;

bool ends_a_number(const std::string& word) {
    for (const std::string_view end : {"½", "¼", "¾", "⅓", "⅔"})
        if (word.ends_with(end)) return true;
    return !word.empty() && std::isdigit(static_cast<unsigned char>(word.back()));
}

}  // namespace

std::size_t columns_of(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    }));
}

std::optional<int> terminal_columns(int descriptor) {
    winsize size{};
    if (!isatty(descriptor) || ioctl(descriptor, TIOCGWINSZ, &size) != 0 || size.ws_col == 0)
        return std::nullopt;
    return size.ws_col;
}

Folded::Folded(std::ostream& stream, int columns)
    : stream_(stream), to_(stream.rdbuf(this)), columns_(columns) {}

Folded::~Folded() {
    sync();
    stream_.rdbuf(to_);
}

Unfolded::Unfolded(std::ostream& stream)
    : stream_(stream), folded_(dynamic_cast<Folded*>(stream.rdbuf())) {
    if (!folded_) return;
    folded_->sync();
    stream_.rdbuf(folded_->to_);
}

Unfolded::~Unfolded() {
    if (folded_) stream_.rdbuf(folded_);
}

Folded::int_type Folded::overflow(int_type c) {
    if (traits_type::eq_int_type(c, traits_type::eof())) return traits_type::not_eof(c);
    char letter = traits_type::to_char_type(c);
    const auto byte = static_cast<unsigned char>(letter);
    // C1 in its two bytes: U+009B begins a command of the terminal as ESC [ does.
    if (byte >= 0x80 && byte < 0xa0 && word_.ends_with('\xc2')) {
        word_.back() = '?';
        return c;
    }
    if ((byte < 0x20 && letter != '\n' && letter != '\r') || byte == 0x7f) letter = '?';
    if (letter != ' ' && letter != '\n' && letter != '\r') {
        word_ += letter;
        return c;
    }
    // A unit stays with its number.
    if (letter == ' ' && ends_a_number(word_) && word_.find(' ') == word_.npos) {
        word_ += letter;
        return c;
    }
    end_words();
    if (letter == ' ') {
        ++blanks_;
        return c;
    }
    // Blanks before the end of a line show nothing.
    column_ = blanks_ = 0;
    indent_ = -1;
    return to_->sputc(letter);
}

/// One word, or a number and what follows it.
void Folded::end_words() {
    std::string words = std::exchange(word_, {});
    const std::size_t blank = words.find(' ');
    const std::size_t unit = blank == words.npos ? 1 : columns_of(words.substr(blank + 1));
    if (unit >= 1 && unit <= longest_unit) return put(words);
    put(words.substr(0, blank));
    ++blanks_;
    put(words.substr(blank + 1));
}

void Folded::put(const std::string& word) {
    if (word.empty()) return;
    if (indent_ < 0) indent_ = blanks_;
    const int width = static_cast<int>(columns_of(word));
    const int inset = std::min(indent_ + further_in, columns_ / 2);
    if (blanks_ > 0 && column_ > inset && column_ + blanks_ + width > columns_) {
        to_->sputc('\n');
        column_ = 0;
        blanks_ = inset;
    }
    put_blanks();
    to_->sputn(word.data(), static_cast<std::streamsize>(word.size()));
    column_ += width;
}

void Folded::put_blanks() {
    for (; blanks_ > 0; --blanks_, ++column_) to_->sputc(' ');
}

int Folded::sync() {
    end_words();
    // A stream that is flushed after every piece asks no questions. On others a question ends in a
    // blank before the typed answer, and the answer ends the line.
    if (!(stream_.flags() & std::ios_base::unitbuf)) {
        put_blanks();
        column_ = 0;
    }
    return to_->pubsync();
}

}  // namespace dewtrail
