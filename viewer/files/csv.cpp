#include "viewer/files/csv.hpp"

#include <algorithm>

#include "greens/input_error.hpp"

namespace dewtrail {
namespace {

constexpr std::string_view blanks = " \t\r";

std::string trimmed(std::string_view text) {
    const std::size_t first = std::min(text.find_first_not_of(blanks), text.size());
    text.remove_prefix(first);
    return std::string(text.substr(0, text.find_last_not_of(blanks) + 1));
}

class Reader {
  public:
    Reader(const std::string& name, std::string_view text) : name_(name), text_(text) {}

    std::vector<CsvRow> rows() {
        std::vector<CsvRow> rows;
        while (at_ < text_.size())
            if (!skip_line()) rows.push_back(row());
        return rows;
    }

  private:
    bool ended() const { return at_ >= text_.size() || text_[at_] == '\n'; }
    int column() const { return static_cast<int>(at_ - line_start_) + 1; }

    void next_line() {
        ++at_;
        ++line_;
        line_start_ = at_;
    }

    /// A blank line or a remark.
    bool skip_line() {
        const std::size_t end = std::min(text_.find('\n', at_), text_.size());
        const std::string content = trimmed(text_.substr(at_, end - at_));
        if (!content.empty() && content.front() != '#') return false;
        at_ = end;
        next_line();
        return true;
    }

    CsvRow row() {
        CsvRow row{line_, {}};
        do {
            row.cells.push_back(cell());
        } while (at_ < text_.size() && text_[at_++] == ',');
        ++line_;
        line_start_ = at_;
        return row;
    }

    /// Leaves `at_` on the comma or newline behind the cell.
    CsvCell cell() {
        while (!ended() && blanks.find(text_[at_]) != blanks.npos) ++at_;
        const int here = column();
        if (!ended() && text_[at_] == '"') return {quoted(), here};
        const std::size_t end = std::min(text_.find_first_of(",\n", at_), text_.size());
        const std::string_view text = text_.substr(at_, end - at_);
        at_ = end;
        return {trimmed(text), here};
    }

    std::string quoted() {
        const int line = line_, from = column();
        std::string text;
        for (++at_; at_ < text_.size(); ++at_) {
            if (text_[at_] == '"' && (at_ + 1 == text_.size() || text_[at_ + 1] != '"')) {
                ++at_;
                return behind_quote(std::move(text));
            }
            if (text_[at_] == '"') ++at_;
            text += text_[at_];
            if (text_[at_] == '\n') {
                ++line_;
                line_start_ = at_ + 1;
            }
        }
        throw InputError(name_, line, from, "a quote is opened and never closed",
                         "close it with another \"");
    }

    std::string behind_quote(std::string text) {
        while (!ended() && blanks.find(text_[at_]) != blanks.npos) ++at_;
        if (!ended() && text_[at_] != ',')
            throw InputError(name_, line_, column(), "text follows a closing quote",
                             "write a quote inside quotes twice");
        return text;
    }

    const std::string& name_;
    std::string_view text_;
    std::size_t at_ = 0, line_start_ = 0;
    int line_ = 1;
};

std::string csv_cell(const std::string& text) {
    const bool plain = text.find_first_of(",\"\n\r") == text.npos && trimmed(text) == text &&
                       (text.empty() || text.front() != '#');
    if (plain) return text;
    std::string quoted = "\"";
    for (const char c : text) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
    return quoted + '"';
}

}  // namespace

std::vector<CsvRow> parse_csv(const std::string& name, std::string_view text) {
    return Reader(name, text).rows();
}

std::string csv_line(const std::vector<std::string>& cells) {
    std::string line;
    for (const std::string& cell : cells)
        line += (&cell == cells.data() ? "" : ",") + csv_cell(cell);
    return line + '\n';
}

}  // namespace dewtrail
