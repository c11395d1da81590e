#include "viewer/modes/shell/putt_editor.hpp"

#include <algorithm>

namespace dewtrail {

Value PuttEditor::value(Field field, const std::shared_ptr<const Setup>& setup) const {
    Value v;
    v.name = field_name(field);
    v.stop = FocusStop::on(What::field, static_cast<int>(field));
    v.text = typed_value(*setup, field, shell_.units());
    v.size = putt_.size;
    v.type = [this, field](const std::string& text) {
        Setup typed = putt_.now();
        type_field(typed, field, text, shell_.units());
        putt_.change([&](Setup& s) { s = typed; }, std::string("typed-") + field_name(field));
    };
    v.step = [this, field](double steps, bool fine) { step(field, steps, fine, "step"); };
    v.slide = [this, field, setup](double share, bool fine) {
        const FieldState f = field_state(*setup, field, shell_.units());
        const double to =
            snapped(f.value + share * (f.most - f.least), fine ? f.fine_step : f.step);
        const double held = std::clamp(to, std::min(f.least, f.value), std::max(f.most, f.value));
        putt_.change(
            [&](Setup& s) {
                s = *setup;
                set_field(s, field, held);
            },
            std::string("drag-") + field_name(field));
    };
    return v;
}

/// Those that can be changed just now.
void PuttEditor::add_values(std::vector<Value>& values) const {
    const auto setup = std::make_shared<const Setup>(putt_.now());
    const auto add = [&](const std::vector<Field>& fields) {
        for (const Field field : fields)
            if (field_state(*setup, field, shell_.units()).enabled)
                values.push_back(value(field, setup));
    };
    add(strip_fields(setup->face));
    if (setup->face == SlopeFace::three_rows) add(row_fields());
    if (putt_.spread) add(spread_fields());
}

void PuttEditor::step(Field field, double steps, bool fine, const std::string& name) const {
    Setup stepped = putt_.now();
    if (step_field(stepped, field, steps, fine, shell_.units()))
        putt_.change([&](Setup& s) { s = stepped; }, name);
}

void PuttEditor::focus(Field field) const {
    if (putt_.ready) putt_.ready();
    shell_.set_focus(FocusStop::on(What::field, static_cast<int>(field)));
}

void PuttEditor::add_commands(Commands& commands) const {
    const auto stepper = [this](Field field, const char* name) {
        return [this, field, name](const Cue& cue) {
            step(field, cue.which == 0 ? -1 : 1, cue.shift, name);
        };
    };
    commands.add("clock", "[  ]", "ball round the hole", stepper(Field::ball_at, "clock"));
    commands.add("distance", ",  .", "distance", stepper(Field::distance, "distance"));
    commands.add("focus", "S  T  F", "slope, stimp, finish, then ↑ ↓", [this](const Cue& cue) {
        const bool along = putt_.now().face == SlopeFace::along_across;
        const Field fields[] = {along ? Field::up : Field::slope, Field::stimp, Field::finish};
        focus(fields[cue.which]);
    });
    commands.add("face", "V", "the slope in all, along and across, at three spots", [this] {
        const int next = (static_cast<int>(putt_.now().face) + 1) % 3;
        putt_.change([&](Setup& s) { set_face(s, static_cast<SlopeFace>(next)); }, "face");
    });
    commands
        .add("face", "", "",
             [this](const Cue& cue) {
                 putt_.change([&](Setup& s) { set_face(s, static_cast<SlopeFace>(cue.which)); },
                              "face");
             })
        .at = What::face;
}

}  // namespace dewtrail
