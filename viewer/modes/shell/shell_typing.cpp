#include <algorithm>
#include <cmath>

#include "greens/input_error.hpp"
#include "viewer/modes/shell/shell.hpp"

/// Typing into a value, in the place where it stands.
namespace dewtrail {

std::optional<int> Shell::typed_index(What what) const {
    if (!entry_ || entry_->stop.what != what) return std::nullopt;
    return entry_->stop.index;
}

std::string Shell::typed_text() const {
    return entry_ ? entry_->edit.text() : "";
}

std::optional<Field> Shell::typed_field() const {
    const auto index = typed_index(What::field);
    return index ? std::optional(static_cast<Field>(*index)) : std::nullopt;
}

void Shell::begin_typing(const FocusStop& stop) {
    const auto value = value_at(stop);
    if (!value) return;
    entry_ = Entry{stop, value->text, LineEdit(value->text)};
    act("type");
}

void Shell::enter(std::string_view characters) {
    if (key_taken_ || drag_ || (!entry_ && sheet_open())) return;
    if (!entry_ && !characters.empty())
        if (const auto stop = struck_value(characters.front())) begin_typing(*stop);
    if (entry_) entry_->edit.insert(characters);
}

void Shell::paste(std::string_view text) {
    if (entry_) entry_->edit.insert(text);
}

void Shell::typed(const std::string& text) {
    if (!entry_) return;
    entry_->edit.select_all();
    entry_->edit.insert(text);
    finish_typing();
}

std::optional<Value> Shell::typed_value() const {
    return entry_ ? value_at(entry_->stop) : std::nullopt;
}

bool Shell::types(const Target& target) const {
    const What what = target.what == What::figure ? What::field : target.what;
    return target.what != What::field && value_at(FocusStop::on(what, target.index)).has_value();
}

void Shell::slide_typed(double share, bool done) {
    const auto value = typed_value();
    if (!value || !value->slide) return;
    if (!drag_) {
        Drag drag;
        drag.move = [slide = value->slide](const Vec2& px, Held) { slide(px.x(), false); };
        take_hold(std::move(drag), {0, 0}, {});
    }
    drag_->moved = true;
    drag_->drag.move({share, 0}, {});
    if (done) pointer_released(pointer_);
    begin_typing(entry_->stop);
}

void Shell::type_key(KeyPress pressed) {
    LineEdit& edit = entry_->edit;
    switch (pressed.code) {
        case key::escape:
            return entry_.reset();
        case key::enter:
            return void(finish_typing());
        case key::tab:
            return type_on(pressed.shift);
        case key::back:
        case key::erase:
            return edit.erase(pressed.code == key::back);
        case key::left:
        case key::right:
            return edit.step(pressed.code == key::left, pressed.shift);
        case key::home:
        case key::end:
            return edit.jump(pressed.code == key::home, pressed.shift);
        default:
            break;
    }
    if (!pressed.ctrl) return;
    const bool cut = pressed.code == 'x';
    if (std::string_view("avcx").find(static_cast<char>(pressed.code)) == std::string_view::npos)
        return command_while_typing(pressed);
    if (pressed.code == 'a') edit.select_all();
    if (pressed.code == 'v') wish({Wish::Kind::paste_text});
    if (cut || pressed.code == 'c') wish({Wish::Kind::copy_text, std::string(edit.selected())});
    if (cut) edit.insert("");
}

/// What is half typed waits while another mode is seen, and lets no other command be given: undo
/// takes it back as Esc does.
void Shell::command_while_typing(KeyPress pressed) {
    const Commands own = own_commands(), modes = mode_->commands();
    const ModeCommand* const command = command_of_key(own, pressed).first;
    if (sheet_open() || (!command && !command_of_key(modes, pressed).first)) return;
    const bool leads_away = command && command->at == What::mode;
    const std::string& text = entry_->edit.text();
    const bool half_typed = !text.empty() && text != entry_->before;
    if (half_typed && !leads_away) {
        if (command && command->at == What::undo) entry_.reset();
        return;
    }
    if (!leads_away) entry_.reset();
    key_taken_ = true;
    run_key(pressed);
}

/// Tab: on to the value after this one, or to where the mode has gone on by itself. What could not
/// be taken keeps the focus.
void Shell::type_on(bool back) {
    const FocusStop from = entry_->stop;
    const bool taken = finish_typing();
    if (entry_ && !back) return;
    entry_.reset();
    focus_ = from;
    if (taken) step_focus(back);
}

/// Empty or unreadable text leaves the value, and the latter says why and is false. The next Enter
/// does what the button says, where there is one.
bool Shell::finish_typing() {
    const Entry entry = std::move(*entry_);
    entry_.reset();
    const auto value = value_at(entry.stop);
    const std::string& text = entry.edit.text();
    if (!value || text.empty()) return true;
    try {
        if (text != entry.before) value->type(text);
        const Commands commands = mode_->commands();
        if (!entry_ && command_of_key(commands, {key::enter}).first) focus_.reset();
        return true;
    } catch (const std::exception& error) {
        complain(error);
        return false;
    }
}

/// Where the value stands; none while it is not on the screen.
std::optional<Rect> Shell::typing_place(const Value& value) const {
    const What what = value.stop.what == What::field ? What::figure : value.stop.what;
    const auto target = find_target(targets_, what, value.stop.index);
    if (!target) return std::nullopt;
    return value.where ? value.where(target->hit) : target->hit;
}

/// What has lost its place on the screen is typed no longer.
void Shell::paint_typing(const Canvas& canvas) {
    if (!entry_) return;
    const auto value = value_at(entry_->stop);
    const auto place = value ? typing_place(*value) : std::nullopt;
    if (!place) return entry_.reset();
    const Look& look = canvas.look;
    const LineEdit& edit = entry_->edit;
    const double size = look.type(value->size), middle = place->centre().y();
    const Rect box{place->x - look.u(3), middle - 0.75 * size, place->w + look.u(6), 1.5 * size};
    const auto x_of = [&](std::size_t bytes) {
        return look.width(Face::book, size, edit.text().substr(0, bytes));
    };
    const double beyond = std::max(0.0, x_of(edit.caret()) + look.u(8) - box.w);
    const double x = std::round(place->x - beyond);
    Picture& picture = canvas.picture;
    add_rounded_rect(picture, box, look.u(4), look.colours.paper);
    picture.push_back(Clip{box});
    const auto [from, to] = std::minmax({edit.caret(), edit.anchor()});
    add_rect(picture, {x + x_of(from), box.y, x_of(to) - x_of(from), box.h},
             faded(look.colours.copper, 0.35));
    const bool empty = edit.text().empty();
    picture.push_back(Text{empty ? value->example : edit.text(),
                           Face::book,
                           size,
                           {x, std::round(middle + 0.33 * size)},
                           empty ? look.colours.ink2 : look.colours.ink});
    add_rect(picture,
             {std::round(x + x_of(edit.caret())), box.y, std::max(1.0, look.u(1.4)), box.h},
             look.colours.ink);
    picture.push_back(Clip{});
}

}  // namespace dewtrail
