#include "viewer/modes/shell/mode.hpp"

#include "greens/input_error.hpp"

namespace dewtrail {

ModeWord mode_word(ModeName mode) {
    static constexpr std::pair<const char*, const char*> words[mode_count] = {
        {"Read", "Read"},   {"Compare", "Comp."}, {"Practise", "Pract."},
        {"Review", "Rev."}, {"Green", "Green"},   {"Measure", "Meas."}};
    const auto& [full, brief] = words[static_cast<int>(mode)];
    return {static_cast<int>(mode), full, brief};
}

const char* words_for(ModeName mode) {
    return mode_word(mode).full;
}

std::string told(const std::exception& error) {
    const auto* input = dynamic_cast<const InputError*>(&error);
    return input ? spoken(input->what()) + " " + spoken(input->remedy()) : error.what();
}

std::string spoken(std::string words) {
    if (words.empty()) return words;
    if (words[0] >= 'a' && words[0] <= 'z') words[0] = static_cast<char>(words[0] - 'a' + 'A');
    return words.back() == '?' || words.back() == '.' ? words : words + ".";
}

}  // namespace dewtrail
