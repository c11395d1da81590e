#pragma once

#include "viewer/practice/measure/measured.hpp"

namespace dewtrail {

/// The line test as it goes on: each stroke chooses the gate of the next, or, as a drill, the gate
/// stays the one a size smaller than the player's.
class GateTest {
  public:
    /// `strokes`: all that were struck before.
    GateTest(const std::vector<GateStroke>& strokes, std::vector<GateSize> gates, bool drill);

    const GateSize& gate() const { return gate_; }
    bool is_drill() const { return drill_; }
    void add(Passed passed);

  private:
    void choose();

    std::vector<GateSize> gates_;
    bool drill_;
    LinePosterior known_;
    GateSize gate_;
};

}  // namespace dewtrail
