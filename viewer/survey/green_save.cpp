#include "viewer/survey/green_save.hpp"

#include <fmt/format.h>

#include <cctype>

#include "greens/green_file.hpp"
#include "greens/green_writer.hpp"
#include "greens/input_error.hpp"
#include "viewer/files/whole_file.hpp"

namespace dewtrail {
namespace {

namespace fs = std::filesystem;

/// 'Back lawn' -> 'back-lawn'.
std::string file_name(const std::string& name) {
    std::string file;
    for (const char c : name) {
        const auto byte = static_cast<unsigned char>(c);
        if (std::isalnum(byte) || byte >= 0x80)
            file += static_cast<char>(byte < 0x80 ? std::tolower(byte) : byte);
        else if (!file.empty() && file.back() != '-')
            file += '-';
    }
    while (!file.empty() && file.back() == '-') file.pop_back();
    return file.empty() ? "green" : file;
}

}  // namespace

void write_green(const fs::path& file, const std::string& text) {
    WholeFile draft(file);
    draft.write(text);
    try {
        load_green(draft.path());
    } catch (const InputError& error) {
        throw InputError(fmt::format("{} was not written: {}", file.string(), error.problem()),
                         error.remedy());
    }
    draft.take_place();
}

SavedGreen save_draft(const fs::path& folder, const GreenDraft& draft, bool replace) {
    const std::string name = file_name(draft.name);
    const fs::path file = folder / (name + ".toml");
    std::error_code unknown;
    if (fs::exists(file, unknown) && !replace)
        return {fmt::format("There is a green {} already. Ctrl S once more replaces it; G gives "
                            "this one another name.",
                            name),
                false};
    const Survey survey = survey_of(draft);
    const std::string levels = survey.levels.empty() ? "" : name + "-levels.csv";
    const std::string heights = survey.heights.empty() ? "" : name + "-heights.csv";
    make_folder_of(file);
    if (!levels.empty()) save_whole_file(folder / levels, levels_text(survey.levels));
    if (!heights.empty()) save_whole_file(folder / heights, heights_text(survey.heights));
    write_green(file, green_text(content_of(draft, levels, heights)));
    return {"Saved: " + file.string(), true};
}

}  // namespace dewtrail
