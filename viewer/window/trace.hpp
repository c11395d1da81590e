#pragma once

#include <fstream>
#include <string>

#include "viewer/modes/shell/shell.hpp"

namespace dewtrail {

/// One JSON line for each thing that happened: its name, the putt and its start line with the keys
/// of `read --json`, how it is shown, where the handles are in the window, and what the frame cost.
/// For tests.
class Trace {
  public:
    /// Empty path: nothing is written. Throws OutsideError if the file cannot be.
    explicit Trace(const std::string& path);

    void write(const std::string& action, const Shell& shell, double frame_ms);

  private:
    std::ofstream file_;
};

}  // namespace dewtrail
