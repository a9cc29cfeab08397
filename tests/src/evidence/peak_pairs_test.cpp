#include "evidence/peak_pairs.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <random>
#include <utility>
#include <vector>

namespace cospot {
namespace {

/// Retention indices of constituents of essential oils on 5 % phenyl methylsilicone and on
/// polyethylene glycol: medians as Babushok, Linstrom and Zenkevich 2011 (J. Phys. Chem. Ref. Data
/// 40, 043101) give them, from memory. Only their order counts here.
constexpr std::array<std::pair<int, int>, 23> kOil{
    {{937, 1025},  {952, 1069},  {974, 1122},  {979, 1110},  {991, 1161},  {1005, 1168},
     {1026, 1270}, {1030, 1198}, {1032, 1211}, {1060, 1245}, {1088, 1282}, {1099, 1543},
     {1145, 1513}, {1173, 1637}, {1177, 1601}, {1189, 1694}, {1240, 1679}, {1255, 1839},
     {1270, 1725}, {1291, 2164}, {1299, 2210}, {1419, 1598}, {1454, 1663}}};

struct TwoRuns {
    std::vector<double> first;
    std::vector<double> second;
    std::vector<std::size_t> partner; ///< of the peaks on the first column
};

/// The oil with areas over two decades, on both columns to `scatter`; the second detector gives
/// three times the areas.
TwoRuns oil(unsigned seed, double scatter) {
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> decades(0.0, 2.0);
    std::normal_distribution<double> error(0.0, scatter);
    std::vector<std::size_t> by_second(kOil.size());
    std::iota(by_second.begin(), by_second.end(), 0U);
    std::sort(by_second.begin(), by_second.end(),
              [](auto a, auto b) { return kOil.at(a).second < kOil.at(b).second; });
    TwoRuns runs;
    runs.partner.resize(kOil.size());
    for (std::size_t i = 0; i < kOil.size(); ++i) {
        runs.first.push_back(std::pow(10.0, decades(random)));
    }
    for (std::size_t j = 0; j < by_second.size(); ++j) {
        runs.second.push_back(3 * runs.first[by_second[j]] * std::exp(error(random)));
        runs.partner[by_second[j]] = j;
    }
    return runs;
}

TEST(PeakPairs, AreAsOftenRightAsTheySay) {
    double said = 0.0;
    double right = 0.0;
    double all = 0.0;
    for (unsigned seed = 1; seed <= 100; ++seed) {
        const TwoRuns runs = oil(seed, 0.1);
        for (const PeakPair &pair : pair_peaks(runs.first, runs.second)) {
            said += pair.probability;
            right += runs.partner[pair.first] == pair.second ? 1 : 0;
            all += 1;
        }
    }
    EXPECT_GT(all, 100 * 8); // of 23 peaks
    EXPECT_GE(right / all, 0.95);
    EXPECT_NEAR(right / all, said / all, 0.05);
}

TEST(PeakPairs, LeavesEqualNeighboursAlone) {
    // The middle two cannot be told apart by area or order.
    const std::vector<double> first{100, 20, 20, 5};
    const std::vector<double> second{50, 10, 10, 2.5};
    const auto pairs = pair_peaks(first, second);
    for (const PeakPair &pair : pairs) {
        EXPECT_NE(pair.first, 1U);
        EXPECT_NE(pair.first, 2U);
    }
}

TEST(PeakPairs, LeavesAloneWhatHidesUnderAnotherPeak) {
    // On the second column the second and third peak are one.
    const std::vector<double> first{900, 40, 160, 3, 12};
    const std::vector<double> second{900, 200, 3, 12};
    for (const PeakPair &pair : pair_peaks(first, second)) {
        EXPECT_NE(pair.first, 1U);
    }
}

TEST(PeakPairs, OfNothingAreNone) {
    EXPECT_TRUE(pair_peaks({}, std::vector<double>{1.0}).empty());
}

} // namespace
} // namespace cospot
