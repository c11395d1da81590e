#include "viewer/files/memory_file.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include <map>
#include <string>

#include "greens/text_file.hpp"
#include "viewer/files/whole_file.hpp"

namespace dewtrail {
namespace fs = std::filesystem;
namespace {

constexpr int application_id = 0x44455754;  // "DEWT"
constexpr int wait_ms = 5000;
constexpr int most_bytes_of_a_row = 1'000'000;

std::string outside_reason(const SQLite::Exception& error) {
    switch (error.getErrorCode() & 0xff) {
        case SQLITE_FULL:
            return "could not be written: the disk is full; nothing was changed";
        case SQLITE_READONLY:
        case SQLITE_PERM:
            return "could not be written: file or folder is read-only; nothing was changed";
        case SQLITE_CANTOPEN:
            return "could not be opened: check the folder and its rights";
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            return "is held by another program; close that and try again";
        default:
            return fmt::format("could not be used: {}", error.what());
    }
}

[[noreturn]] void tell(const fs::path& path, const SQLite::Exception& error) {
    const int code = error.getErrorCode() & 0xff;
    if (code == SQLITE_NOTADB || code == SQLITE_CORRUPT || code == SQLITE_TOOBIG)
        refuse_file(path, "is damaged; it is left as it is",
                    "move it away to start a new one, or put a copy or an export in its place");
    throw OutsideError(fmt::format("{} {}", path.string(), outside_reason(error)));
}

/// Turns what SQLite throws into one of our two kinds of error.
template <class Work>
auto guarded(const fs::path& path, Work work) {
    try {
        return work();
    } catch (const SQLite::Exception& error) {
        tell(path, error);
    }
}

int number_of(SQLite::Database& database, const char* pragma) {
    return database.execAndGet(pragma).getInt();
}

/// Closing a file that was only read must not write to it either.
void keep_untouched(SQLite::Database& database, bool untouched) {
    sqlite3_db_config(database.getHandle(), SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, untouched ? 1 : 0,
                      nullptr);
}

/// The file may come from somebody else: nothing it defines besides tables may run.
void distrust(SQLite::Database& database) {
    for (const int what : {SQLITE_DBCONFIG_ENABLE_TRIGGER, SQLITE_DBCONFIG_ENABLE_VIEW,
                           SQLITE_DBCONFIG_TRUSTED_SCHEMA})
        sqlite3_db_config(database.getHandle(), what, 0, nullptr);
    sqlite3_db_config(database.getHandle(), SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_limit(database.getHandle(), SQLITE_LIMIT_LENGTH, most_bytes_of_a_row);
}

int version_of(SQLite::Database& database) {
    return number_of(database, "PRAGMA user_version");
}

/// Each table's columns; generated ones are told apart.
std::map<std::string, std::string> tables_of(SQLite::Database& database) {
    SQLite::Statement columns(database,
                              "SELECT t.name, c.name || ' ' || c.hidden FROM sqlite_master t, "
                              "pragma_table_xinfo(t.name) c WHERE t.type = 'table' "
                              "ORDER BY t.name, c.cid");
    std::map<std::string, std::string> tables;
    while (columns.executeStep())
        tables[columns.getColumn(0).getString()] += columns.getColumn(1).getString() + '\n';
    return tables;
}

/// Whether it has the tables that the steps up to its version make.
bool has_tables(SQLite::Database& database, SchemaSteps steps) {
    SQLite::Database ours(":memory:", SQLite::OPEN_READWRITE);
    for (const char* step : steps) ours.exec(step);
    const auto there = tables_of(database);
    for (const auto& [table, columns] : tables_of(ours)) {
        const auto found = there.find(table);
        if (found == there.end() || found->second != columns) return false;
    }
    return true;
}

/// Throws unless the file is new, or a memory of ours that this program understands. Nothing is
/// written before.
void check_file(const fs::path& path, SQLite::Database& database, SchemaSteps steps) {
    const bool empty = number_of(database, "SELECT count(*) FROM sqlite_master") == 0;
    const int version = version_of(database), newest = static_cast<int>(steps.size());
    const int application = number_of(database, "PRAGMA application_id");
    if (empty && version == 0 && application == 0) return;
    const auto refuse_other = [&] {
        refuse_file(path, "is no memory of this program; it is left as it is",
                    "name another folder with --data");
    };
    if (application != application_id || version < 1) refuse_other();
    if (version > newest)
        refuse_file(path, fmt::format("is of version {}, newer than this program", version),
                    "use the newer program; the file is left as it is");
    const std::string sound = database.execAndGet("PRAGMA quick_check(1)").getString();
    if (sound != "ok") throw SQLite::Exception(sound, SQLITE_CORRUPT);
    if (!has_tables(database, steps.first(static_cast<std::size_t>(version)))) refuse_other();
}

void copy_beside(const fs::path& path, SQLite::Database& database, int version) {
    std::error_code unknown;
    std::string name = fmt::format("{}.version-{}", path.string(), version);
    for (int i = 2; fs::exists(name, unknown); ++i)
        name = fmt::format("{}.version-{}-{}", path.string(), version, i);
    SQLite::Statement copy(database, "VACUUM INTO ?");  // whole or, if it fails, not there
    copy.bind(1, name);
    copy.exec();
}

void bring_up_to_date(SQLite::Database& database, SchemaSteps steps) {
    SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
    // Another program may have been here first.
    for (std::size_t i = static_cast<std::size_t>(version_of(database)); i < steps.size(); ++i)
        database.exec(steps[i]);
    database.exec(fmt::format("PRAGMA application_id = {}", application_id));
    database.exec(fmt::format("PRAGMA user_version = {}", steps.size()));
    transaction.commit();
}

std::unique_ptr<SQLite::Database> open_to_change(const fs::path& path, SchemaSteps steps) {
    // Absolute, or a folder named 'file:…' would be taken for an address.
    auto database = std::make_unique<SQLite::Database>(
        fs::absolute(path).string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE, wait_ms);
    distrust(*database);
    keep_untouched(*database, true);
    check_file(path, *database, steps);
    keep_untouched(*database, false);
    database->exec("PRAGMA journal_mode = WAL");
    database->exec("PRAGMA synchronous = FULL");
    const int version = version_of(*database);
    if (version == static_cast<int>(steps.size())) return database;
    if (version > 0) copy_beside(path, *database, version);
    bring_up_to_date(*database, steps);
    return database;
}

/// The file's address for SQLite, which takes part of it for options.
std::string address_of(const fs::path& path, const std::string& options) {
    std::string address = "file:";
    for (const char c : fs::absolute(path).string())
        address += c == '%' || c == '?' || c == '#' ? fmt::format("%{:02X}", c) : std::string(1, c);
    return address + "?" + options;
}

/// A file that nobody here can write to. SQLite would need to write beside it even to read it,
/// unless it knows that the file will not change; then it ignores what lies beside the file.
std::unique_ptr<SQLite::Database> open_to_look(const fs::path& path, SchemaSteps steps) {
    std::error_code none;
    if (fs::file_size(path.string() + "-wal", none) > 0 && !none)
        throw OutsideError(fmt::format(
            "{} is read-only and not whole without {}-wal: copy both to a folder of yours",
            path.string(), path.filename().string()));
    auto database = std::make_unique<SQLite::Database>(address_of(path, "immutable=1"),
                                                       SQLite::OPEN_READONLY | SQLite::OPEN_URI);
    distrust(*database);
    check_file(path, *database, steps);
    if (version_of(*database) < static_cast<int>(steps.size()))
        throw OutsideError(
            fmt::format("{} is read-only and of an older version: copy it to a "
                        "folder of yours, where it is brought up to date",
                        path.string()));
    return database;
}

bool is_read_only(const fs::path& path, const SQLite::Exception& error) {
    const int code = error.getErrorCode() & 0xff;
    std::error_code unknown;
    return (code == SQLITE_READONLY || code == SQLITE_CANTOPEN) &&
           fs::is_regular_file(path, unknown);
}

}  // namespace

void move_memory_file(const fs::path& from, const fs::path& to) {
    for (const char* end : {"", "-wal", "-shm"}) {
        const fs::path old = from.string() + end, fresh = to.string() + end;
        std::error_code failed;
        if (!fs::exists(old, failed) || fs::exists(fresh, failed)) continue;
        fs::rename(old, fresh, failed);
        if (failed && *end == '\0')
            throw OutsideError(
                fmt::format("{} could not be moved: {}", from.string(), failed.message()));
    }
}

MemoryFile::MemoryFile(const fs::path& path, SchemaSteps steps) : path_(path) {
    make_folder_of(path_);
    check_may_be_file(path_);
    guarded(path_, [&] {
        try {
            database_ = open_to_change(path_, steps);
        } catch (const SQLite::Exception& error) {
            if (!is_read_only(path_, error)) throw;
            database_ = open_to_look(path_, steps);
        }
    });
}

MemoryFile::~MemoryFile() = default;
MemoryFile::MemoryFile(MemoryFile&&) noexcept = default;

void MemoryFile::change(const std::function<void(SQLite::Database&)>& work) {
    guarded(path_, [&] {
        SQLite::Transaction transaction(*database_, SQLite::TransactionBehavior::IMMEDIATE);
        work(*database_);
        transaction.commit();
    });
}

/// The log is empty first, and stays so until all has moved: killed in between, the file alone is
/// whole.
void MemoryFile::move_to(const fs::path& path) {
    guarded(path_, [&] {
        if (number_of(*database_, "PRAGMA wal_checkpoint(TRUNCATE)") != 0)
            throw SQLite::Exception("a checkpoint waits", SQLITE_BUSY);
        const SQLite::Transaction alone(*database_, SQLite::TransactionBehavior::IMMEDIATE);
        move_memory_file(path_, path);
    });
}

void MemoryFile::look(const std::function<void(SQLite::Database&)>& work) const {
    guarded(path_, [&] { work(*database_); });
}

}  // namespace dewtrail
