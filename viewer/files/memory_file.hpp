#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <span>

namespace SQLite {
class Database;
}

namespace dewtrail {

/// SQL that brings a memory file from one version to the next; step i from version i to i + 1.
using SchemaSteps = std::span<const char* const>;

/// The file alone, with what SQLite keeps beside it, as far as it is there. What is at `to` already
/// stays. OutsideError.
void move_memory_file(const std::filesystem::path& from, const std::filesystem::path& to);

/// One SQLite file with a version in it. Its changes are all or nothing and on the disk when they
/// are done (write-ahead log, synced at every commit), so a program killed at any moment leaves
/// what it had finished.
///
/// A file that cannot be written, or whose folder cannot, can still be read.
///
/// Errors, each one line: InputError for a file of a newer version, one that is damaged or one
/// that is no memory of ours - such a file is never written to; OutsideError for a full disk, a
/// change where nothing can be written, a file that another program holds.
class MemoryFile {
  public:
    /// Opens the file, or makes it and its folders. One of an older version is brought up to date
    /// after a copy of it was put beside it ("NAME.version-1", never over an older copy).
    MemoryFile(const std::filesystem::path& path, SchemaSteps steps);
    ~MemoryFile();
    MemoryFile(MemoryFile&&) noexcept;

    /// Runs `work` in one transaction; it is on the disk when this returns. If `work` throws,
    /// nothing has changed.
    void change(const std::function<void(SQLite::Database&)>& work);

    void look(const std::function<void(SQLite::Database&)>& work) const;

    /// To another path on the same file system, whole or, if it throws, not at all. Whoever has it
    /// open goes on with it there; this object is of no more use. OutsideError where that cannot
    /// be, or somebody is writing just now.
    void move_to(const std::filesystem::path& path);

    const std::filesystem::path& path() const { return path_; }

  private:
    std::filesystem::path path_;
    std::unique_ptr<SQLite::Database> database_;
};

}  // namespace dewtrail
