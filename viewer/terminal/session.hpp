#pragma once

#include <filesystem>
#include <functional>
#include <iostream>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "greens/units.hpp"
#include "viewer/practice/player.hpp"
#include "viewer/practice/pupils.hpp"
#include "viewer/terminal/command.hpp"

namespace dewtrail {

/// How a command ended; the process's exit code.
enum class Exit {
    done = 0,            ///< also a table with some rows unanswered
    no_answer = 1,       ///< the question has no answer, said why
    not_understood = 2,  ///< bad option, value or file
    outside_failed = 3,  ///< disk, display
};

using Json = nlohmann::ordered_json;

/// What all commands share: the options that every command takes, the player, and where to write.
class Session {
  public:
    Session(std::ostream& out, std::ostream& err, std::istream& in = std::cin)
        : out_(out), err_(err), in_(in) {}

    /// Adds --json, --units, --player and --pupil to a command.
    void add_common_options(const Command& command);

    /// Adds --data, for commands that remember.
    void add_memory_option(const Command& command);

    bool json() const { return json_; }
    std::ostream& out() const { return out_; }
    std::ostream& err() const { return err_; }
    std::istream& in() const { return in_; }

    /// Loaded at first use; --units overrides the file's.
    const Player& player();
    std::optional<std::filesystem::path> player_path() const;
    /// Whom --pupil names; nobody: empty.
    const std::string& pupil() const { return pupil_; }
    /// From now on it is this pupil's player file and memory; nobody's: empty. InputError for one
    /// who is not there, a player file that cannot be used, or where --player or --data has said
    /// whose they are; then all is as it was.
    void choose_pupil(const std::string& name);
    Units units() { return player().units(); }
    /// The player file has changed: it is read again when it is asked for.
    void forget_player() { player_.reset(); }

    /// The folder of what is remembered: --data, the pupil's, else the user's data folder. Throws
    /// OutsideError where none is known, InputError for two of them at once, an unknown pupil, a
    /// --data that only a folder above it could hold; and, of those who only look, for one that is
    /// not there.
    enum class Use { adds, looks };
    std::filesystem::path memory_folder(Use use = Use::adds) const;

    /// For practice and teaching: said once, on stderr.
    void caution();

    /// Where there are pupils and none is named, whose putts these are: said once, on stderr.
    void say_whose();

    void print(const Json& json) const;

    /// What main runs after parsing; set by the command that was named.
    std::function<Exit()> run;

  private:
    std::ostream& out_;
    std::ostream& err_;
    std::istream& in_;
    bool json_ = false;
    std::string units_;
    std::string player_file_;
    std::string data_;
    std::string pupil_;
    std::optional<Player> player_;
    bool cautioned_ = false, said_whose_ = false;
};

/// As it is printed, always UTF-8.
std::string json_text(const Json& json);

/// A finite number, or null. JSON of ours never holds NaN or -0.
Json number(double value);
Json number(const std::optional<double>& value);

/// Folders that are searched for a green: this one, the user's data folder, the shipped greens.
std::vector<std::filesystem::path> green_folders();

/// "label     text", continued lines aligned, for results that lead with words.
void print_row(std::ostream& out, const std::string& label, const std::string& text);

/// Columns padded to their widest cell; UTF-8 aware.
void print_table(std::ostream& out, const std::vector<std::vector<std::string>>& rows);

// Each adds one command to the program.
void add_read_command(const Command& app, Session& session);
void add_ring_command(const Command& app, Session& session);
void add_roll_command(const Command& app, Session& session);
void add_compare_command(const Command& app, Session& session);
void add_odds_command(const Command& app, Session& session);
void add_speed_command(const Command& app, Session& session);
void add_sheet_command(const Command& app, Session& session);
void add_green_command(const Command& app, Session& session);
void add_player_command(const Command& app, Session& session);
void add_practise_command(const Command& app, Session& session);
void add_log_command(const Command& app, Session& session);
void add_review_command(const Command& app, Session& session);
void add_rehearse_command(const Command& app, Session& session);
void add_measure_command(const Command& app, Session& session);
void add_pupil_command(const Command& app, Session& session);
void add_lesson_command(const Command& app, Session& session);
void add_pocket_command(const Command& app, Session& session);
void add_completion_command(const Command& app, Session& session);

/// The whole command line. `arguments` without the program's name; without any, `unasked` stands in
/// (help, if that is empty too). `more` adds commands that this library does not know: the
/// window's. `in`: where answers are typed. Never throws.
Exit run_dewtrail(std::vector<std::string> arguments, std::ostream& out, std::ostream& err,
                  const std::function<void(const Command&, Session&)>& more = {},
                  const std::vector<std::string>& unasked = {}, std::istream& in = std::cin);

}  // namespace dewtrail
