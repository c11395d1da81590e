#include "viewer/practice/measure/gate_test.hpp"

namespace dewtrail {

GateTest::GateTest(const std::vector<GateStroke>& strokes, std::vector<GateSize> gates, bool drill)
    : gates_(std::move(gates)), drill_(drill) {
    for (const GateStroke& stroke : last_of(strokes)) known_.add(stroke.gate, stroke.passed);
    if (drill_)
        gate_ = gate_drill(known_.found(), gates_);
    else
        choose();
}

void GateTest::add(Passed passed) {
    known_.add(gate_, passed);
    if (!drill_) choose();
}

void GateTest::choose() {
    gate_ = known_.next(gates_, gate_);
}

}  // namespace dewtrail
