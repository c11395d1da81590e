#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "viewer/practice/player.hpp"

namespace dewtrail {

/// How those putts are called that are no pupil's. No pupil has this name.
inline constexpr const char* own_putts = "my own putts";

/// What was practised without naming a pupil, in the usual places.
struct OwnFiles {
    std::filesystem::path memory_folder;
    std::optional<std::filesystem::path> player{}, last_putt{};
};

/// A coach's pupils. Each has a folder of their own with a player file and a memory in it, so that
/// no two of them mix. Whoever uses the program without naming a pupil is none of them.
///
/// Names: 1 to 40 characters without control characters and '/', not beginning with '.' or '-';
/// InputError otherwise.
class Pupils {
  public:
    /// In `data`, the folder of what is remembered.
    explicit Pupils(const std::filesystem::path& data) : folder_(data / "pupils") {}

    static constexpr const char *player_name = "player.toml", *last_putt_name = "putt.toml";

    std::vector<std::string> names() const;  ///< by the alphabet
    bool has(const std::string& name) const;
    /// InputError, with the nearest name, for one who is not there.
    std::filesystem::path folder(const std::string& name) const;
    std::filesystem::path player_file(const std::string& name) const;

    /// InputError where the name is taken; OutsideError.
    void add(const std::string& name, const Player& player) const;
    void rename(const std::string& from, const std::string& to) const;

    /// A new pupil, whose all this is from now on: player file (`otherwise` where there is none),
    /// memory, lessons, last putt. Whole, or not at all where it throws; if it is killed half way,
    /// nothing is lost and finish_adopting does the rest. Throws as `add` and Memory do.
    void adopt(const std::string& name, const OwnFiles& own, const Player& otherwise) const;
    void finish_adopting(const OwnFiles& own) const;

  private:
    std::filesystem::path place(const std::string& name) const;
    void check_free(const std::string& name) const;
    void carry_over(const std::string& name, const OwnFiles& own) const;

    std::filesystem::path folder_;
};

/// The pupils in the user's data folder; OutsideError where none is known. An adoption that was
/// killed half way is finished first, here and wherever something is asked of nobody's.
Pupils pupils_here();

/// Whether anything of nobody's is there, to be adopted.
bool has_own_putts();
/// A new pupil of this name has them. Throws as Pupils::adopt does.
void adopt_own_putts(const std::string& name, const Units& units);

/// A new pupil, who speaks these units; all else is to be found out. Throws as Pupils::add does.
void add_pupil(const std::string& name, const Units& units);

/// Where a pupil's things are, and in the usual places those of nobody: an empty name. Of the first
/// and the last none where no folder is known; InputError for a pupil who is not there,
/// OutsideError as pupils_here, and for a memory without a place.
std::optional<std::filesystem::path> player_file_of(const std::string& pupil);
std::filesystem::path memory_folder_of(const std::string& pupil);
std::optional<std::filesystem::path> last_putt_file_of(const std::string& pupil);

}  // namespace dewtrail
