#pragma once

#include <filesystem>
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

}  // namespace dewtrail
