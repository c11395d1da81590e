#pragma once

#if defined(__SANITIZE_THREAD__)
#define DEWTRAIL_OWN_THREADS
#elif defined(__has_feature)
#if __has_feature(thread_sanitizer)
#define DEWTRAIL_OWN_THREADS
#endif
#endif

#ifdef DEWTRAIL_OWN_THREADS
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#elif !defined(DEWTRAIL_ONE_THREAD)
#include <tbb/parallel_for.h>
#endif

namespace dewtrail {

/// Calls f(0) to f(count - 1), each once, on as many threads as the machine has cores, and waits.
/// In no order: f may only write what no other call reads, so that the number of threads cannot
/// change a result. What a call throws is thrown again here. A host without threads, a page in a
/// browser, is built with DEWTRAIL_ONE_THREAD.
template <class F>
void in_parallel(int count, F f) {
#ifdef DEWTRAIL_OWN_THREADS
    // The thread sanitizer cannot see into oneTBB, which is not built with it: it would take every
    // hand-over for a race, and hiding those would hide ours.
    std::atomic<int> next = 0;
    std::exception_ptr thrown;
    std::mutex of_thrown;
    const auto work = [&] {
        try {
            for (int i = next++; i < count; i = next++) f(i);
        } catch (...) {
            const std::lock_guard lock(of_thrown);
            thrown = std::current_exception();
        }
    };
    std::thread other(work);
    work();
    other.join();
    if (thrown) std::rethrow_exception(thrown);
#elif defined(DEWTRAIL_ONE_THREAD)
    for (int i = 0; i < count; ++i) f(i);
#else
    tbb::parallel_for(0, count, f, tbb::simple_partitioner());
#endif
}

}  // namespace dewtrail
