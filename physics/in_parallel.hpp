#pragma once

#include <tbb/parallel_for.h>

namespace dewtrail {

/// Calls f(0) to f(count - 1), each once, on as many threads as the machine has cores, and waits.
/// In no order: f may only write what no other call reads, so that the number of threads cannot
/// change a result. What a call throws is thrown again here.
template <class F>
void in_parallel(int count, F f) {
    tbb::parallel_for(0, count, f, tbb::simple_partitioner());
}

}  // namespace dewtrail
