#include "shared/parallel.h"

#include <gtest/gtest.h>

#include <stdexcept>
#include <vector>

namespace cospot {
namespace {

TEST(Parallel, CallsEveryIndexOnce) {
    for (const std::size_t count : {0U, 1U, 15U, 1000U}) {
        std::vector<int> calls(count);
        for_each_in_parallel(
            count, [&](std::size_t i) { ++calls[i]; }, 1);
        EXPECT_EQ(calls, std::vector<int>(count, 1));
    }
}

TEST(Parallel, AnExceptionReachesTheCallerAndStopsTheWork) {
    std::atomic<int> calls{0};
    const auto work = [&](std::size_t) {
        ++calls;
        throw std::runtime_error("no paper left");
    };
    EXPECT_THROW(for_each_in_parallel(1000, work, 1), std::runtime_error);
    EXPECT_LT(calls, 100);
}

} // namespace
} // namespace cospot
