#pragma once

#include <filesystem>
#include <initializer_list>
#include <stdexcept>
#include <string>
#include <string_view>

namespace dewtrail {

/// Something outside failed: disk, folder, rights. The program ends with exit code 3.
struct OutsideError : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// Makes the folder of one of our own files, where it is missing. The folder of a file that
/// somebody named is theirs to make: it may be mistyped.
void make_folder_of(const std::filesystem::path& file);

/// InputError where it is not there; no name is this folder.
void check_is_folder(const std::filesystem::path& folder);

/// OutsideError for a path that is a folder or a device, InputError for one in a folder that is not
/// there; WholeFile says so too, but later.
void check_may_be_file(const std::filesystem::path& path);

/// InputError for a name that ends in none of these (".png"), in small letters or capitals.
void check_ending(const std::filesystem::path& path,
                  std::initializer_list<std::string_view> endings, const std::string& what);

/// Before any work: refuses what check_may_be_file does, and by InputError a file that is there
/// unless it may be replaced.
void check_may_write(const std::filesystem::path& path, bool replace);

/// A file on its way. It is written beside the wanted one under a name that nobody else uses
/// (".dewtrail-XXXXXX"), then takes its place: at any moment there is the whole old file or the
/// whole new one. Where it does not come so far, it goes; what a killed run left goes with the next
/// file in that folder.
///
/// A symbolic link stays one, the old file's rights stay. Refuses what check_may_be_file does.
/// OutsideError, with the path and the system's reason, from each step.
class WholeFile {
  public:
    explicit WholeFile(const std::filesystem::path& wanted);
    WholeFile(const WholeFile&) = delete;
    WholeFile& operator=(const WholeFile&) = delete;
    ~WholeFile();

    /// Where it is until it takes its place, for those who write it themselves.
    const std::filesystem::path& path() const { return beside_; }
    void write(std::string_view text);
    void take_place();

  private:
    [[noreturn]] void fail(const std::string& reason) const;
    void make_beside();

    std::filesystem::path named_, target_, beside_;
    int file_ = -1;
};

void save_whole_file(const std::filesystem::path& path, std::string_view text);

}  // namespace dewtrail
