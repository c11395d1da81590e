#include "viewer/terminal/session.hpp"

#include <nlohmann/json.hpp>

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <iostream>
#include <ostream>

#include "greens/input_error.hpp"
#include "viewer/files/folders.hpp"
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
    command.add_option("--units", units_, "imperial or metric, for bare numbers and for output");
    command.add_option("--player", player_file_, "Player file to use instead of the usual one");
    command.add_option("--pupil", pupil_, "Whose putts: a pupil's player file and memory");
}

void Session::add_memory_option(const Command& command) {
    command.add_option("--data", data_, "Folder of what is remembered, instead of the usual one");
}

std::filesystem::path Session::memory_folder() const {
    if (!data_.empty() && !pupil_.empty())
        throw InputError("--data and --pupil name two memories", "Give one of them.");
    if (!data_.empty()) return data_;
    if (!pupil_.empty()) return pupils_here().folder(pupil_);
    if (const auto folder = data_folder()) return *folder;
    throw OutsideError("nothing can be remembered: neither XDG_DATA_HOME nor HOME is set");
}

Pupils pupils_here() {
    if (const auto folder = data_folder()) return Pupils(*folder);
    throw OutsideError("there is no place for pupils: neither XDG_DATA_HOME nor HOME is set");
}

std::optional<std::filesystem::path> Session::player_path() const {
    if (!player_file_.empty() && !pupil_.empty())
        throw InputError("--player and --pupil name two players", "Give one of them.");
    if (!pupil_.empty()) return pupils_here().player_file(pupil_);
    if (player_file_.empty()) return std::nullopt;
    return std::filesystem::path(player_file_);
}

const Player& Session::player() {
    if (player_) return *player_;
    const IfMissing if_missing = player_file_.empty() ? IfMissing::defaults : IfMissing::refuse;
    Player player = load_player(player_path(), if_missing);
    if (!units_.empty() && units_ != "imperial" && units_ != "metric")
        throw InputError(fmt::format("units '{}' are not known", units_),
                         "Say --units imperial or --units metric.");
    if (!units_.empty()) player.metric = units_ == "metric";
    player_ = player;
    return *player_;
}

void Session::caution() {
    if (cautioned_) return;
    cautioned_ = true;
    err_ << caution_text << '\n';
}

std::string json_text(const Json& json) {
    // A file's name need not be UTF-8; what is not becomes U+FFFD.
    return json.dump(2, ' ', false, Json::error_handler_t::replace);
}

void Session::print(const Json& json) const {
    const Unfolded whole(out_);
    out_ << json_text(json) << '\n';
}

Busy::Busy(const Session& session, const std::string& what) : what_(what) {
    if (&session.err() != &std::cerr || !isatty(STDERR_FILENO)) return;
    terminal_ = &session.err();
    // Only what stands on one line can be wiped away.
    columns_ = terminal_columns(STDERR_FILENO).value_or(80) - 1;
    if (columns_of(what_) > columns_) what_ = "Working …";
    *terminal_ << what_ << std::flush;
}

void Busy::at(double share) {
    if (!terminal_) return;
    constexpr std::size_t around = 10, widest = 30;  // " [", "] 100 %" and one to spare
    const std::size_t taken = columns_of(what_) + around;
    const std::size_t width = columns_ > taken ? std::min(columns_ - taken, widest) : 0;
    const auto done = static_cast<std::size_t>(std::lround(share * static_cast<double>(width)));
    *terminal_ << fmt::format("\r{} [{}{}] {:.0f} %", what_, std::string(done, '#'),
                              std::string(width - done, '.'), 100 * share)
               << std::flush;
}

Busy::~Busy() {
    if (terminal_) *terminal_ << "\r\033[K" << std::flush;
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
    out << padded(label, label_width);
    for (const char c : text) {
        out << c;
        if (c == '\n') out << std::string(label_width, ' ');
    }
    out << '\n';
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
        for (std::size_t i = 0; i < row.size(); ++i) line += padded(row[i], widths[i] + 2);
        line.erase(line.find_last_not_of(' ') + 1);
        out << line << '\n';
    }
}

}  // namespace dewtrail
