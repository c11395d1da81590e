#pragma once

namespace dewtrail::oracle {

/// Calls of operator new by the whole program so far; always 0 under the address sanitizer.
long allocations();

}  // namespace dewtrail::oracle
