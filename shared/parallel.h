#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace cospot {

/// Calls `work(i)` for every i below `count`, in any order, on as many threads as there are cores,
/// but on one thread for each `worth_a_thread` calls at most. What `work` throws first is thrown
/// here; calls that have not begun by then are left out.
template <typename Work>
void for_each_in_parallel(std::size_t count, const Work &work, std::size_t worth_a_thread = 16) {
    const std::size_t cores = std::max(1U, std::thread::hardware_concurrency());
    std::atomic<std::size_t> next{0};
    std::exception_ptr thrown;
    std::mutex throwing;
    const auto run = [&] {
        try {
            for (std::size_t i = next++; i < count; i = next++) {
                work(i);
            }
        } catch (...) {
            const std::lock_guard lock(throwing);
            thrown = thrown ? thrown : std::current_exception();
            next = count;
        }
    };
    {
        std::vector<std::jthread> helpers;
        for (std::size_t i = 1; i < std::min(cores, count / worth_a_thread); ++i) {
            helpers.emplace_back(run);
        }
        run();
    }
    if (thrown) {
        std::rethrow_exception(thrown);
    }
}

} // namespace cospot
