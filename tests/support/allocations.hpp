#pragma once

namespace dewtrail::oracle {

/// Calls of operator new by the whole program so far.
long allocations();

}  // namespace dewtrail::oracle
