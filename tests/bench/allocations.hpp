#pragma once

namespace dewtrail::bench {

/// Calls of operator new by the whole program so far.
long allocations();

}  // namespace dewtrail::bench
