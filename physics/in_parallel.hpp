#pragma once

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace dewtrail {

/// Calls f(0) to f(count - 1), each once, on as many threads as the machine has cores, and waits.
/// In no order: f may only write what no other call reads, so that the number of threads cannot
/// change a result. What a call throws is thrown again here.
template <class F>
void in_parallel(int count, F f) {
    std::atomic<int> next = 0;
    std::exception_ptr thrown;
    std::mutex mutex;
    const auto work = [&] {
        try {
            for (int i = next++; i < count; i = next++) f(i);
        } catch (...) {
            next = count;
            const std::lock_guard lock(mutex);
            thrown = std::current_exception();
        }
    };
    const int cores = std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
    std::vector<std::jthread> helpers;
    for (int i = 1; i < std::min(cores, count); ++i) helpers.emplace_back(work);
    work();
    helpers.clear();
    if (thrown) std::rethrow_exception(thrown);
}

}  // namespace dewtrail
