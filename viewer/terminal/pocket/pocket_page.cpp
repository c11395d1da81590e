#include "viewer/terminal/pocket/pocket_page.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "greens/input_error.hpp"
#include "greens/text_file.hpp"
#include "greens/toml_section.hpp"
#include "viewer/comparison/demonstrations.hpp"
#include "viewer/putt/kept_putt.hpp"
#include "viewer/terminal/session.hpp"

namespace dewtrail {
namespace fs = std::filesystem;
namespace {

constexpr std::uintmax_t most_page_bytes = 64u << 20, most_file_bytes = 32u << 20;
constexpr std::string_view place_of_lesson = "id=\"lesson\">";

/// Beside the program where it is installed, else where it was built.
fs::path built_page() {
    std::error_code unknown;
    const auto program = fs::read_symlink("/proc/self/exe", unknown);
    const auto installed = program.parent_path().parent_path() / "share/dewtrail/dewtrail.html";
    if (fs::exists(installed, unknown)) return installed;
    return DEWTRAIL_PAGE;
}

}  // namespace

PocketPage::PocketPage(const std::string& page) {
    const fs::path file = page.empty() ? built_page() : fs::path(page);
    std::error_code unknown;
    if (!fs::is_regular_file(file, unknown))
        throw InputError("the page is not built yet", "Build it once with './viewer/run pocket'.");
    page_ = read_text_file(file, most_page_bytes);
    place_ = page_.find(place_of_lesson);
    if (place_ == page_.npos)
        throw InputError(fmt::format("{} is no page of this program", file.string()),
                         "Build it with './viewer/run pocket'.");
    place_ += place_of_lesson.size();
}

bool PocketPage::is_built() {
    std::error_code unknown;
    return fs::is_regular_file(built_page(), unknown);
}

void PocketPage::add_green(const fs::path& file) {
    if (file.parent_path() == green_folders().back()) return;
    const std::string text = read_text_file(file, most_file_bytes);
    files_["greens/" + file.filename().string()] = text;
    const TomlSection surface =
        TomlSection::parse(file.string(), "the green", text).section("surface");
    for (const char* key : {"levels", "heights"})
        if (surface.has(key))
            files_["greens/" + surface.text(key)] =
                read_text_file(file.parent_path() / surface.text(key), most_file_bytes);
}

void PocketPage::open_on(const Setup& putt) {
    if (putt.green) add_green(putt.green->file);
    files_["putt.toml"] = kept_text(putt);
}

void PocketPage::open_on(const std::vector<DealtPutt>& putts, const std::string& text) {
    Greenkeeper greens(green_folders());
    for (const DealtPutt& putt : putts)
        if (!putt.green.empty()) add_green(greens.green(putt.green).file);
    files_["set.toml"] = text;
}

void PocketPage::open_on(const std::string& demonstration) {
    check_demonstration(demonstration);
    files_["show"] = demonstration;
}

/// A '<' would end the place where it stands.
std::string PocketPage::text() const {
    std::string lesson = nlohmann::json(files_).dump();
    for (std::size_t at = 0; (at = lesson.find('<', at)) != lesson.npos;)
        lesson.replace(at, 1, "\\u003C");
    std::string page = page_;
    return page.replace(place_, page.find('<', place_) - place_, lesson);
}

}  // namespace dewtrail
