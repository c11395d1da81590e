#include "viewer/modes/shell/command.hpp"

#include <cctype>

namespace dewtrail {
namespace {

constexpr std::pair<std::string_view, int> named[] = {
    {"←", key::left},       {"→", key::right},
    {"↑", key::up},         {"↓", key::down},
    {"Space", key::space},  {"Enter", key::enter},
    {"Esc", key::escape},   {"Tab", key::tab},
    {"Home", key::home},    {"End", key::end},
    {"Delete", key::erase}, {"F1", key::f1},
    {"F11", key::f11},      {"−", '-'},
};

int code_of(std::string_view word) {
    for (const auto& [name, code] : named)
        if (word == name) return code;
    return std::tolower(static_cast<unsigned char>(word.front()));
}

bool possible(const ModeCommand& command) {
    return !command.may || command.may();
}

}  // namespace

std::vector<NamedKey> named_keys(std::string_view keys) {
    std::vector<NamedKey> all;
    bool ctrl = false, shift = false;
    for (std::size_t from = 0; (from = keys.find_first_not_of(' ', from)) != keys.npos;) {
        const std::size_t to = std::min(keys.find(' ', from), keys.size());
        const std::string_view word = keys.substr(from, to - from);
        from = to;
        if (word == "Ctrl") {
            ctrl = true;
        } else if (word == "Shift") {
            shift = true;
        } else {
            all.push_back({{code_of(word), ctrl, shift}, !shift, word});
            shift = false;
        }
    }
    return all;
}

std::pair<const ModeCommand*, Cue> command_of_key(const Commands& commands, KeyPress pressed) {
    for (const ModeCommand& command : commands) {
        int which = 0;
        for (const NamedKey& key : named_keys(command.keys)) {
            const bool same = key.key.code == pressed.code && key.key.ctrl == pressed.ctrl &&
                              (key.any_shift || pressed.shift);
            if (same && possible(command)) return {&command, {which, pressed.shift, false}};
            ++which;
        }
    }
    return {nullptr, {}};
}

const ModeCommand* command_at(const Commands& commands, What what) {
    for (const ModeCommand& command : commands)
        if (command.at == what && possible(command)) return &command;
    return nullptr;
}

}  // namespace dewtrail
