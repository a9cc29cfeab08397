#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <thread>
#include <vector>

namespace cospot {

/// Calls `work(i)` for every i below `count`, in any order, on as many threads as there are cores.
/// `work` must not throw. Little work is done on the calling thread alone.
template <typename Work> void for_each_in_parallel(std::size_t count, const Work &work) {
    constexpr std::size_t worth_a_thread = 16;
    const std::size_t cores = std::max(1U, std::thread::hardware_concurrency());
    std::atomic<std::size_t> next{0};
    const auto run = [&] {
        for (std::size_t i = next++; i < count; i = next++) {
            work(i);
        }
    };
    std::vector<std::jthread> helpers;
    for (std::size_t i = 1; i < std::min(cores, count / worth_a_thread); ++i) {
        helpers.emplace_back(run);
    }
    run();
}

} // namespace cospot
