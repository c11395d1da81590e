#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "viewer/files/memory_file.hpp"
#include "viewer/practice/drill/answer.hpp"
#include "viewer/practice/log/logged_putt.hpp"
#include "viewer/practice/measure/measured.hpp"

namespace dewtrail {

/// What was practised and what was really played. When `remember` returns, the entry is on the
/// disk; callers remember first and report afterwards. Errors as in memory_file.hpp.
///
/// A row that is not understood or out of range, as only another program can have put there, is
/// left out wherever rows are read; `tell` hears of it once.
class Memory {
  public:
    using Tell = std::function<void(const std::string&)>;

    /// "memory.sqlite" in `folder`.
    explicit Memory(const std::filesystem::path& folder, Tell tell = {});

    /// Returns its id.
    std::int64_t remember(const Answer& answer);
    std::int64_t remember(const LoggedPutt& putt);
    std::int64_t remember(const PaceBall& ball);
    std::int64_t remember(const GateStroke& stroke);

    /// It was mistyped: it is remembered no longer.
    void take_back(const PaceBall& ball);
    void take_back(const GateStroke& stroke);

    std::vector<Answer> answers() const;    ///< oldest first
    std::vector<LoggedPutt> putts() const;  ///< oldest first
    Measures measures() const;              ///< oldest first

    /// Adds what is not there yet, all or nothing; returns how many were added. Rows that are alike
    /// are counted: of three in the file and two in the memory one is added.
    int add(const std::vector<Answer>& answers);
    int add(const std::vector<LoggedPutt>& putts);
    int add(const Measures& measures);

    const std::filesystem::path& path() const { return file_.path(); }
    /// Into another folder, as MemoryFile::move_to does.
    void move_to(const std::filesystem::path& folder) { file_.move_to(folder / file_name); }

    static constexpr const char* file_name = "memory.sqlite";

  private:
    template <class Row>
    std::vector<Row> all() const;
    template <class Row>
    void forget(std::int64_t id);

    MemoryFile file_;
    mutable Tell tell_;
};

}  // namespace dewtrail
