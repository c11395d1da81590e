#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "viewer/practice/player.hpp"

namespace dewtrail {

/// A coach's pupils. Each has a folder of their own with a player file and a memory in it, so that
/// no two of them mix. Whoever uses the program without naming a pupil is none of them.
///
/// Names: 1 to 40 characters without control characters and '/', not beginning with '.' or '-';
/// InputError otherwise.
class Pupils {
  public:
    /// In `data`, the folder of what is remembered.
    explicit Pupils(const std::filesystem::path& data) : folder_(data / "pupils") {}

    std::vector<std::string> names() const;  ///< by the alphabet
    bool has(const std::string& name) const;
    /// InputError, with the nearest name, for one who is not there.
    std::filesystem::path folder(const std::string& name) const;
    std::filesystem::path player_file(const std::string& name) const;

    /// InputError where the name is taken; OutsideError.
    void add(const std::string& name, const Player& player) const;
    void rename(const std::string& from, const std::string& to) const;

  private:
    std::filesystem::path place(const std::string& name) const;
    void check_free(const std::string& name) const;

    std::filesystem::path folder_;
};

/// The pupils in the user's data folder; OutsideError where none is known.
Pupils pupils_here();

/// A new pupil, who speaks these units; all else is to be found out. Throws as Pupils::add does.
void add_pupil(const std::string& name, const Units& units);

/// Where a pupil's things are, and in the usual places those of nobody: an empty name. Of the first
/// and the last none where no folder is known; InputError for a pupil who is not there,
/// OutsideError as pupils_here, and for a memory without a place.
std::optional<std::filesystem::path> player_file_of(const std::string& pupil);
std::filesystem::path memory_folder_of(const std::string& pupil);
std::optional<std::filesystem::path> last_putt_file_of(const std::string& pupil);

}  // namespace dewtrail
