#include "tests/support/allocations.hpp"

#include <atomic>
#include <cstdlib>
#include <new>

#include "tests/support/sanitized.hpp"

namespace {
std::atomic<long> calls{0};
}

namespace dewtrail::oracle {
long allocations() {
    return calls.load(std::memory_order_relaxed);
}
}  // namespace dewtrail::oracle

// A sanitizer brings its own operators and wants them whole: there nothing is counted.
#if !DEWTRAIL_SANITIZED
void* operator new(std::size_t size) {
    calls.fetch_add(1, std::memory_order_relaxed);
    if (void* p = std::malloc(size)) return p;
    throw std::bad_alloc();
}

void operator delete(void* p) noexcept {
    std::free(p);
}
void operator delete(void* p, std::size_t) noexcept {
    std::free(p);
}
#endif
