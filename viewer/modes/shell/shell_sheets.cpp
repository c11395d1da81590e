#include <algorithm>
#include <cmath>

#include "viewer/modes/shell/shell.hpp"
#include "viewer/picture/widgets/sheets.hpp"

/// The sheets that lie over the darkened window: the keys, a list to choose from.
namespace dewtrail {

/// The words first; from there on to the keys.
void Shell::open_help() {
    if (appearance_.own_help) return wish({Wish::Kind::help});
    sheet_ = {};
    sheet_.kind = Sheet::Kind::words;
    act("help");
}

void Shell::open_keys() {
    sheet_.kind = Sheet::Kind::help;
    act("keys");
}

void Shell::open_list(const std::string& title, std::vector<std::string> rows,
                      const std::string& none, std::function<void(int)> chosen, What what) {
    sheet_ = {Sheet::Kind::list, title, none, std::move(rows), std::move(chosen), what, 0, {}};
}

void Shell::open_greens(std::vector<std::string> greens,
                        std::function<void(const std::string&)> chosen) {
    const auto by_index = [greens, chosen](int i) { chosen(greens[static_cast<std::size_t>(i)]); };
    open_list("Open a green", std::move(greens), "No green was found.", by_index, What::green_name);
}

void Shell::open_pages() {
    std::vector<std::string> rows;
    for (const auto& [words, page] : mode_->pages()) rows.push_back(words);
    open_list("Print a page", std::move(rows), "There is nothing to print yet.",
              [this](int index) { print(mode_->pages()[static_cast<std::size_t>(index)].second); });
    act("pages");
}

void Shell::print(const std::string& page) {
    Wish print{Wish::Kind::print, page};
    print.putt = mode_->putt_at_hand();
    print.compared = mode_->comparison_to_print();
    print.lesson = mode_->lesson_to_print();
    wish(std::move(print));
    act("print");
}

void Shell::open_pupils(std::vector<std::string> names, bool has_own) {
    std::vector<std::string> rows{"My own putts"};
    rows.insert(rows.end(), names.begin(), names.end());
    if (has_own) rows.push_back("Give my own putts a name …");
    rows.push_back("Add a pupil …");
    const int last = static_cast<int>(rows.size()) - 1;
    open_list("Whose putts?", std::move(rows), "", [this, names, last](int row) {
        if (row == last) return ask_for_a_pupil(Wish::Kind::add_pupil);
        if (row > static_cast<int>(names.size())) return ask_for_a_pupil(Wish::Kind::adopt_own);
        const std::string whom = row == 0 ? "" : names[static_cast<std::size_t>(row - 1)];
        if (whom != appearance_.pupil) wish({Wish::Kind::choose_pupil, whom});
    });
    const auto now = std::find(names.begin(), names.end(), appearance_.pupil);
    sheet_.row = now == names.end() ? 0 : static_cast<int>(now - names.begin()) + 1;
    act("pupils");
}

/// A sheet with one line to type in.
void Shell::ask_for_a_pupil(Wish::Kind then) {
    sheet_ = {};
    sheet_.kind = Sheet::Kind::naming;
    const bool adds = then == Wish::Kind::add_pupil;
    sheet_.title = adds ? "A new pupil" : "Whose putts were these?";
    sheet_.button = adds ? "Add" : "Name them";
    sheet_.none = adds ? "Enter adds them. Esc does not." : "Enter names them.";
    sheet_.line = Value{.name = "new-name",
                        .stop = FocusStop::on(What::new_name),
                        .text = "",
                        .type = [this, then](const std::string& name) {
                            wish({then, name});
                        }};
    sheet_.line->size = 25;
    sheet_.line->example = "Anna";
    begin_typing(sheet_.line->stop);
}

void Shell::close_sheet() {
    sheet_ = {};
    act("close-sheet");
}

void Shell::choose_row(int index) {
    const auto chosen = std::move(sheet_.chosen);
    sheet_ = {};
    chosen(index);
}

void Shell::press_in_sheet(KeyPress pressed) {
    if (sheet_.kind == Sheet::Kind::words && pressed.code != key::escape) return open_keys();
    if (pressed.code == key::escape || sheet_.kind == Sheet::Kind::help) return close_sheet();
    const int count = static_cast<int>(sheet_.rows.size());
    if (count == 0) return;
    if (pressed.code == key::down || pressed.code == key::tab)
        sheet_.row = (sheet_.row + 1) % count;
    if (pressed.code == key::up) sheet_.row = (sheet_.row + count - 1) % count;
    if (pressed.code == key::enter) choose_row(sheet_.row);
}

/// The keys of the help sheet do what they say: each has its number there.
void Shell::click_in_sheet() {
    if (hovered_ && hovered_->what == What::key) {
        const int number = hovered_->index;
        close_sheet();
        press_help(number);
    } else if (sheet_.kind == Sheet::Kind::words && hovered_ && hovered_->what == What::page) {
        open_keys();
    } else if (hovered_ && hovered_->what >= What::undo && hovered_->what <= What::save) {
        if (hovered_->what == What::open) close_sheet();  // for another; all others may be wanted
        run_at(*hovered_, false);                         // twice
    } else if (hovered_ && hovered_->what == sheet_.what && sheet_.kind == Sheet::Kind::list) {
        choose_row(hovered_->index);
    } else if (!hovered_ || hovered_->what != What::sheet) {
        close_sheet();
    }
}

void Shell::press_help(int number) {
    for (const ModeCommand& command : help_commands()) {
        const auto keys = named_keys(command.keys);
        const int count = static_cast<int>(keys.size());
        if (number < count) return press(keys[static_cast<std::size_t>(number)].key);
        number -= count;
    }
}

/// What has no other place than below the words, to be clicked there.
std::vector<Word> Shell::looks() const {
    std::vector<Word> words{{"undo", What::undo, 0},
                            {"redo", What::undo, 1},
                            {"dusk", What::dusk, 0, appearance_.theme == Theme::dusk},
                            {"larger type", What::text_size, 0, appearance_.text > 1},
                            {"smaller", What::text_size, 1},
                            {"swell", What::swell, 0, appearance_.swell},
                            {"full screen", What::full_screen},
                            {"copy", What::copy}};
    const Commands own = mode_->commands();
    for (const auto& [name, what] : {std::pair("open a green", What::open), {"save", What::save}})
        if (command_at(own, what)) words.push_back({name, what});
    return words;
}

Commands Shell::help_commands() {
    Commands all = mode_->commands();
    for (ModeCommand& command : own_commands()) all.push_back(std::move(command));
    std::erase_if(all, [](const ModeCommand& command) { return *command.help == '\0'; });
    return all;
}

void Shell::paint_sheet(const Canvas& canvas) {
    if (sheet_.kind == Sheet::Kind::naming && !entry_) sheet_ = {};  // typed, or given up
    if (sheet_.kind == Sheet::Kind::naming)
        return draw_line_sheet(canvas, sheet_.title, sheet_.button, sheet_.none);
    if (sheet_.kind == Sheet::Kind::list)
        return draw_list_sheet(canvas, {sheet_.title, sheet_.none, sheet_.rows, sheet_.what},
                               sheet_.row, pointer_);
    if (sheet_.kind == Sheet::Kind::words) return draw_words_sheet(canvas, looks());
    if (sheet_.kind != Sheet::Kind::help) return;
    std::vector<HelpLine> lines;
    for (const ModeCommand& command : help_commands()) {
        HelpLine line{command.help, command.keys, {}};
        for (const NamedKey& named : named_keys(command.keys)) line.each.push_back(named.words);
        lines.push_back(std::move(line));
    }
    draw_help_sheet(canvas, lines, pointer_);
}

}  // namespace dewtrail
