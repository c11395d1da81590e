#include "viewer/practice/pupils.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "greens/input_error.hpp"
#include "viewer/files/folders.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/practice/memory.hpp"
#include "viewer/putt/kept_putt.hpp"
#include "viewer/text/english.hpp"
#include "viewer/text/nearest.hpp"

namespace dewtrail {
namespace fs = std::filesystem;
namespace {

constexpr std::size_t longest_name = 40;

bool is_name(const std::string& name) {
    const auto is_plain = [](char c) { return static_cast<unsigned char>(c) >= ' ' && c != 127; };
    return !name.empty() && name.size() <= longest_name && name[0] != '.' && name[0] != '-' &&
           name.front() != ' ' && name.back() != ' ' && name.find('/') == name.npos &&
           std::all_of(name.begin(), name.end(), is_plain) && lower_case(name) != own_putts;
}

std::optional<OwnFiles> own_files() {
    const auto folder = data_folder();
    if (!folder) return std::nullopt;
    return OwnFiles{*folder, usual_player_path(), kept_putt_path()};
}

void finish_adopting() {
    if (const auto own = own_files()) Pupils(own->memory_folder).finish_adopting(*own);
}

}  // namespace

fs::path Pupils::place(const std::string& name) const {
    if (!is_name(name))
        throw InputError(fmt::format("'{}' cannot be a pupil's name", name),
                         "Names have 1 to 40 letters, and no / in them.");
    return folder_ / name;
}

std::vector<std::string> Pupils::names() const {
    std::vector<std::string> names;
    std::error_code none;
    for (const auto& entry : fs::directory_iterator(folder_, none))
        if (const std::string name = entry.path().filename(); is_name(name) && has(name))
            names.push_back(name);
    std::sort(names.begin(), names.end());
    return names;
}

bool Pupils::has(const std::string& name) const {
    std::error_code unknown;
    return fs::exists(place(name) / player_name, unknown);
}

fs::path Pupils::folder(const std::string& name) const {
    if (has(name)) return place(name);
    const auto all = names();
    auto meant = nearest(name, all);
    for (const std::string& other : all)
        if (!meant && lower_case(other).starts_with(lower_case(name))) meant = other;
    throw InputError(fmt::format("there is no pupil '{}'", name),
                     meant ? fmt::format("Did you mean {}? dewtrail pupil list tells all.", *meant)
                           : fmt::format("Add one: dewtrail pupil add '{}'", name));
}

fs::path Pupils::player_file(const std::string& name) const {
    return folder(name) / player_name;
}

void Pupils::check_free(const std::string& name) const {
    std::error_code unknown;
    if (fs::exists(place(name), unknown))
        throw InputError(fmt::format("there is a pupil '{}' already", name), "Take another name.");
}

void Pupils::add(const std::string& name, const Player& player) const {
    check_free(name);
    const fs::path file = place(name) / player_name;
    make_folder_of(file);
    save_player(file, player);
}

void Pupils::rename(const std::string& from, const std::string& to) const {
    const fs::path old = folder(from);
    check_free(to);
    std::error_code failed;
    fs::rename(old, place(to), failed);
    if (failed)
        throw OutsideError(fmt::format("{} could not be renamed: {}", from, failed.message()));
}

Pupils pupils_here() {
    finish_adopting();
    if (const auto folder = data_folder()) return Pupils(*folder);
    throw OutsideError("there is no place for pupils: neither XDG_DATA_HOME nor HOME is set");
}

bool has_own_putts() {
    finish_adopting();
    const auto own = own_files();
    std::error_code unknown;
    if (!own) return false;
    if (own->player && fs::exists(*own->player, unknown)) return true;
    if (!fs::exists(own->memory_folder / Memory::file_name, unknown)) return false;
    try {
        const Memory memory(own->memory_folder);
        const Measures measures = memory.measures();
        return !memory.answers().empty() || !memory.putts().empty() || !measures.balls.empty() ||
               !measures.strokes.empty();
    } catch (const std::runtime_error&) {
        return true;  // what is wrong with it is said to whoever wants it
    }
}

void adopt_own_putts(const std::string& name, const Units& units) {
    if (!has_own_putts())
        throw InputError("there are no putts of your own to name",
                         fmt::format("Add a pupil: dewtrail pupil add '{}'", name));
    Player otherwise;
    otherwise.metric = units.metric;
    pupils_here().adopt(name, *own_files(), otherwise);
}

void add_pupil(const std::string& name, const Units& units) {
    Player player;
    player.metric = units.metric;
    pupils_here().add(name, player);
}

std::optional<fs::path> player_file_of(const std::string& pupil) {
    if (!pupil.empty()) return pupils_here().player_file(pupil);
    finish_adopting();
    return usual_player_path();
}

fs::path memory_folder_of(const std::string& pupil) {
    if (!pupil.empty()) return pupils_here().folder(pupil);
    finish_adopting();
    if (const auto folder = data_folder()) return *folder;
    throw OutsideError("nothing can be remembered: neither XDG_DATA_HOME nor HOME is set");
}

/// A pupil's lies beside what they remember.
std::optional<fs::path> last_putt_file_of(const std::string& pupil) {
    if (!pupil.empty()) return memory_folder_of(pupil) / Pupils::last_putt_name;
    finish_adopting();
    return kept_putt_path();
}

}  // namespace dewtrail
