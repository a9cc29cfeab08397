// How well systems tell compounds apart.
#include "advise/discrimination.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace cospot {
namespace {

Pairs apart_by(const std::vector<double> &values, double window) {
    const std::size_t n = values.size();
    Pairs pairs(n * (n - 1) / 2);
    for (std::size_t a = 0; a < n; ++a) {
        for (std::size_t b = a + 1; b < n; ++b) {
            pairs.set(pair_index(a, b, n), std::abs(values[a] - values[b]) > window);
        }
    }
    return pairs;
}

const std::vector<double> kTen{10, 12, 20, 35, 36, 40, 62, 64, 80, 95}; // hR_F, invented

TEST(Discrimination, PowerAndListLengthAsPublished) {
    // moffat1974 and schepers1983 (here with a window instead of a probability), definitions from
    // memory. Invented values, counted by hand: within 5 lie 10-12, 35-36, 35-40, 36-40 and 62-64,
    // five of 45 pairs.
    const Pairs within_five = apart_by(kTen, 5.0);
    EXPECT_EQ(within_five.size() - within_five.count(), 5U);
    EXPECT_NEAR(discriminating_power(10, 5), 0.8889, 1e-4);
    EXPECT_NEAR(mean_list_length(10, within_five), 2.0, 1e-12);
    const Pairs within_two = apart_by(kTen, 2.0);
    EXPECT_NEAR(discriminating_power(10, within_two.size() - within_two.count()), 0.9333, 1e-4);
    EXPECT_EQ(discriminating_power(1, 0), 1.0);
}

TEST(Discrimination, PairsHaveOnePlaceEach) {
    std::size_t expected = 0;
    for (std::size_t a = 0; a < 7; ++a) {
        for (std::size_t b = a + 1; b < 7; ++b) {
            EXPECT_EQ(pair_index(a, b, 7), expected++);
        }
    }
    EXPECT_EQ(expected, 21U);
}

Pairs bits(const std::string &text) { // the first pair first
    Pairs pairs(text.size());
    for (std::size_t i = 0; i < text.size(); ++i) {
        pairs.set(i, text[i] == '1');
    }
    return pairs;
}

TEST(Discrimination, TheSmallestSetBeatsTheGreedyOne) {
    // The first system tells most apart, yet the second and third together tell all.
    const Discrimination trap{4, {bits("111100"), bits("111000"), bits("000111")}};
    const SystemChoice exact = choose_systems(trap);
    EXPECT_TRUE(exact.is_exact);
    ASSERT_EQ(exact.sets.size(), 2U);
    EXPECT_EQ(exact.sets[0].systems, std::vector<std::size_t>({0}));
    EXPECT_EQ(exact.sets[1].told_apart.count(), 6U);
    const Discrimination hard{4, {bits("110110"), bits("111000"), bits("000111")}};
    EXPECT_EQ(choose_systems(hard).sets.back().systems, std::vector<std::size_t>({1, 2}));
    const SystemChoice greedy = choose_systems(hard, 2);
    EXPECT_FALSE(greedy.is_exact);
    EXPECT_EQ(greedy.sets.size(), 3U);
    EXPECT_EQ(greedy.at_least, 2U); // six pairs, four by the best system
}

TEST(Discrimination, GreedyStaysWithinItsBound) {
    std::mt19937 engine(4);
    for (int trial = 0; trial < 40; ++trial) {
        Discrimination random{8, {}};
        for (int s = 0; s < 9; ++s) {
            Pairs pairs(28);
            for (std::size_t p = 0; p < 28; ++p) {
                pairs.set(p, std::bernoulli_distribution(0.3)(engine));
            }
            random.told_apart.push_back(pairs);
        }
        const SystemChoice exact = choose_systems(random);
        const SystemChoice greedy = choose_systems(random, 0);
        ASSERT_EQ(exact.sets.back().told_apart.count(), greedy.sets.back().told_apart.count());
        const auto smallest = static_cast<double>(exact.sets.size());
        EXPECT_LE(smallest, static_cast<double>(greedy.sets.size()));
        EXPECT_LE(static_cast<double>(greedy.sets.size()), smallest * (1.0 + std::log(28.0)));
        EXPECT_LE(greedy.at_least, exact.sets.size());
    }
}

TEST(Discrimination, NothingToldApartGivesNoSet) {
    EXPECT_TRUE(choose_systems({3, {bits("000")}}).sets.empty());
    EXPECT_TRUE(choose_systems({3, {}}).sets.empty());
}

} // namespace
} // namespace cospot
