#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "viewer/files/memory_file.hpp"
#include "viewer/practice/drill/answer.hpp"
#include "viewer/practice/log/logged_putt.hpp"
#include "viewer/practice/measure/line_measure.hpp"
#include "viewer/practice/measure/pace_measure.hpp"

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

    std::vector<Answer> answers() const;    ///< oldest first
    std::vector<LoggedPutt> putts() const;  ///< oldest first
    std::vector<PaceBall> pace_balls() const;
    std::vector<GateStroke> gate_strokes() const;

    /// Adds what is not there yet, all or nothing; returns how many were added. Rows that are alike
    /// are counted: of three in the file and two in the memory one is added.
    int add(const std::vector<Answer>& answers);
    int add(const std::vector<LoggedPutt>& putts);
    int add(const std::vector<PaceBall>& balls);
    int add(const std::vector<GateStroke>& strokes);

    const std::filesystem::path& path() const { return file_.path(); }

  private:
    template <class Row>
    std::vector<Row> all() const;

    MemoryFile file_;
    mutable Tell tell_;
};

/// Answers as CSV, SI units, a header with the names of answer_fields. Reads back the same to the
/// last bit; InputError with file, line and column for anything else.
std::string write_answers_csv(const std::vector<Answer>& answers);
std::vector<Answer> read_answers_csv(const std::string& name, std::string_view text);

}  // namespace dewtrail
