#include "viewer/terminal/session.hpp"

#include <nlohmann/json.hpp>

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <iostream>
#include <ostream>
#include <utility>

#include "greens/input_error.hpp"
#include "viewer/files/folders.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/terminal/folded.hpp"

namespace dewtrail {
namespace {

constexpr const char* caution_text =
    "For practice and teaching. During a round the Rules of Golf (Rule 4.3a) restrict aids like "
    "this; "
    "check with the Committee.";

std::string padded(const std::string& text, std::size_t to) {
    return text + std::string(to > columns_of(text) ? to - columns_of(text) : 0, ' ');
}

}  // namespace

void Session::add_common_options(const Command& command) {
    command.add_flag("--json", json_, "Print the result (errors too) as JSON");
    command.add_option("--units", units_, "For bare numbers and for output")
        .one_of({"imperial", "metric"});
    command.add_option("--player", player_file_, "Player file to use instead of the usual one");
    command.add_option("--pupil", pupil_, "Whose putts: a pupil's player file and memory");
}

void Session::add_memory_option(const Command& command) {
    command.add_option("--data", data_, "Folder of what is remembered, instead of the usual one");
}

std::filesystem::path Session::memory_folder(Use use) const {
    if (!data_.empty() && !pupil_.empty())
        throw InputError("--data and --pupil name two memories", "Give one of them.");
    if (!data_.empty()) {
        const std::filesystem::path inside = std::filesystem::path(data_) / "memory.sqlite";
        const std::filesystem::path folder = inside.parent_path();
        check_is_folder(use == Use::looks ? folder : folder.parent_path());
        return folder;
    }
    return memory_folder_of(pupil_);
}

std::optional<std::filesystem::path> Session::player_path() const {
    if (!player_file_.empty() && !pupil_.empty())
        throw InputError("--player and --pupil name two players", "Give one of them.");
    if (!pupil_.empty()) return pupils_here().player_file(pupil_);
    if (!player_file_.empty()) return std::filesystem::path(player_file_);
    player_file_of("");  // which finishes what was begun with it
    return std::nullopt;
}

void Session::choose_pupil(const std::string& name) {
    if (!player_file_.empty() || !data_.empty())
        throw InputError("--player or --data has said whose putts these are",
                         "Open the window without them to choose a pupil.");
    const std::string before = std::exchange(pupil_, name);
    const std::optional<Player> known = std::exchange(player_, std::nullopt);
    try {
        player();
    } catch (...) {
        pupil_ = before;
        player_ = known;
        throw;
    }
}

const Player& Session::player() {
    if (player_) return *player_;
    const IfMissing if_missing = player_file_.empty() ? IfMissing::defaults : IfMissing::refuse;
    Player player = load_player(player_path(), if_missing);
    if (!units_.empty()) player.metric = units_ == "metric";
    player_ = player;
    return *player_;
}

void Session::caution() {
    if (cautioned_) return;
    cautioned_ = true;
    err_ << caution_text << '\n';
}

void Session::say_whose() {
    if (said_whose_ || !pupil_.empty() || !data_.empty() || !player_file_.empty() || !data_folder())
        return;
    said_whose_ = true;
    const std::vector<std::string> names = pupils_here().names();
    if (names.empty()) return;
    constexpr std::size_t most = 4;
    const auto some = static_cast<std::ptrdiff_t>(std::min(most, names.size()));
    err_ << printable(
                fmt::format("No pupil is named: these are your own putts. A pupil's: --pupil {}{}",
                            fmt::join(names.begin(), names.begin() + some, " | "),
                            names.size() > most ? " | …" : ""))
         << '\n';
}

std::string json_text(const Json& json) {
    // A file's name need not be UTF-8; what is not becomes U+FFFD.
    std::string text = json.dump(2, ' ', false, Json::error_handler_t::replace);
    // The library escapes C0 only; DEL and C1 (U+0080 to U+009F) are a terminal's too.
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        const bool c1 = byte == 0xc2 && static_cast<unsigned char>(text[i + 1]) < 0xa0;
        if (c1 || byte == 0x7f)
            text.replace(
                i, c1 ? 2 : 1,
                fmt::format("\\u{:04x}", static_cast<unsigned char>(text[c1 ? i + 1 : i])));
    }
    return text;
}

void Session::print(const Json& json) const {
    const Unfolded whole(out_);
    out_ << json_text(json) << '\n';
}

Json number(double value) {
    if (!std::isfinite(value)) return nullptr;
    return value + 0.0;  // -0 becomes 0
}

Json number(const std::optional<double>& value) {
    if (!value) return nullptr;
    return number(*value);
}

/// The greens that come with the program: beside it where it is installed, else with its source.
static std::filesystem::path shipped_greens() {
    std::error_code unknown;
    const auto program = std::filesystem::read_symlink("/proc/self/exe", unknown);
    const auto installed = program.parent_path().parent_path() / "share/dewtrail/greens";
    if (std::filesystem::is_directory(installed, unknown)) return installed;
    return DEWTRAIL_GREENS;
}

std::vector<std::filesystem::path> green_folders() {
    std::vector<std::filesystem::path> folders{"."};
    if (const auto data = data_folder()) folders.push_back(*data / "greens");
    folders.push_back(shipped_greens());
    return folders;
}

void print_row(std::ostream& out, const std::string& label, const std::string& text) {
    constexpr std::size_t label_width = 17;
    out << padded(label, std::max(label_width, columns_of(label) + 1));
    for (std::size_t at = 0; at <= text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        if (at > 0) out << std::string(label_width, ' ');
        out << printable(text.substr(at, end - at)) << '\n';
        at = end + 1;
    }
}

void print_table(std::ostream& out, const std::vector<std::vector<std::string>>& rows) {
    std::vector<std::size_t> widths;
    for (const auto& row : rows) {
        widths.resize(std::max(widths.size(), row.size()));
        for (std::size_t i = 0; i < row.size(); ++i)
            widths[i] = std::max(widths[i], columns_of(row[i]));
    }
    for (const auto& row : rows) {
        std::string line;
        for (std::size_t i = 0; i < row.size(); ++i)
            line += padded(printable(row[i]), widths[i] + 2);
        line.erase(line.find_last_not_of(' ') + 1);
        out << line << '\n';
    }
}

}  // namespace dewtrail
