#pragma once

#include <catch2/catch_all.hpp>
#include <string>
#include <utility>

/// Catch2 3 under the names of Catch2 2, which Debian 12 has and the tests are written for. On the
/// include path only where version 3 is found; when Debian 12 is let go, so is this file.
namespace Catch {

namespace Matchers {
// Version 3 means an element of a range by it; nearer than its template, for whatever is a string.
inline auto Contains(const char* part) {
    return ContainsSubstring(part);
}
inline auto Contains(std::string part) {
    return ContainsSubstring(std::move(part));
}
}  // namespace Matchers

using Matchers::Contains;
using Matchers::EndsWith;
using Matchers::StartsWith;
using Matchers::WithinAbs;
using Matchers::WithinRel;
using TestEventListenerBase = EventListenerBase;

}  // namespace Catch

using Catch::Approx;
