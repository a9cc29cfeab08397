// Which candidates are tied, and which system tells two compounds apart; all values invented.
#include "identification/tie_breakers.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot {
namespace {

using Pair = std::pair<std::size_t, std::size_t>;

/// An identification with groups of so many candidates each, which share the group's probability.
Identification groups_of(const std::vector<std::pair<std::size_t, double>> &groups) {
    Identification result;
    for (const auto &[size, probability] : groups) {
        matcher::Group group;
        group.probability = probability;
        for (std::size_t i = 0; i < size; ++i) {
            const std::size_t position = result.candidates.size();
            group.members.push_back(position);
            ProposedCompound candidate;
            candidate.inchikey = std::string(14, static_cast<char>('A' + position)) + "-SA-N";
            candidate.probability = probability / static_cast<double>(size);
            result.candidates.push_back(candidate);
        }
        result.groups.push_back(group);
    }
    return result;
}

std::vector<Pair> pairs_of(const std::vector<Tie> &ties) {
    std::vector<Pair> pairs;
    for (const Tie &tie : ties) {
        pairs.emplace_back(tie.first, tie.second);
    }
    return pairs;
}

TEST(NearTies, AreGroupsWithinAFactorOfThree) {
    EXPECT_EQ(pairs_of(near_ties(groups_of({{1, 0.59}, {1, 0.21}}))), (std::vector{Pair(0, 1)}));
    EXPECT_TRUE(near_ties(groups_of({{1, 0.66}, {1, 0.21}})).empty());
}

TEST(NearTies, NeedBothAboveATenth) {
    EXPECT_TRUE(near_ties(groups_of({{1, 0.2}, {1, 0.09}})).empty());
    EXPECT_EQ(pairs_of(near_ties(groups_of({{1, 0.2}, {1, 0.11}}))), (std::vector{Pair(0, 1)}));
}

TEST(NearTies, TwoLikelyCandidatesOfAGroupTie) {
    EXPECT_EQ(pairs_of(near_ties(groups_of({{2, 0.9}}))), (std::vector{Pair(0, 1)}));
    EXPECT_TRUE(near_ties(groups_of({{2, 0.09}})).empty());
}

TEST(NearTies, AreThreeAtMostTheLikeliestFirst) {
    const auto ties = near_ties(groups_of({{3, 0.36}, {1, 0.32}, {1, 0.18}}));
    EXPECT_EQ(pairs_of(ties), (std::vector{Pair(0, 3), Pair(0, 4), Pair(3, 4)}));
}

TEST(NearTies, TellStereoisomers) {
    Identification result = groups_of({{2, 0.9}});
    EXPECT_FALSE(near_ties(result).front().stereoisomers);
    result.candidates[1].inchikey = result.candidates[0].inchikey.substr(0, 14) + "-RB-N";
    EXPECT_TRUE(near_ties(result).front().stereoisomers);
}

/// A system that holds compounds 1 and 2 with the same relative scatter in three runs.
MeasuredSystem system_with(const std::string &name, Quantity quantity, double first,
                           double second) {
    std::vector<matcher::KnownValue> known;
    for (const auto &[compound, value] : {std::pair<std::size_t, double>(1, first), {2, second}}) {
        for (int run = 0; run < 3; ++run) {
            known.push_back({compound, run, true, value * (1 + 0.01 * (run - 1))});
        }
    }
    return {name, Technique::tlc, quantity, matcher::fit_system(Technique::gc, quantity, known)};
}

using Id = library::CompoundId;

TEST(LargestSeparation, IsInCombinedSpreadsOnTheModelScale) {
    const MeasuredSystem near = system_with("near", Quantity::RI, 1000.0, 1001.0);
    const MeasuredSystem far = system_with("far", Quantity::k, 2.0, 4.0);
    const std::vector<const MeasuredSystem *> systems{&near, &far};
    const auto best = largest_separation(systems, Id{1}, Id{2});
    ASSERT_TRUE(best);
    EXPECT_EQ(best->system, "far");
    EXPECT_EQ(best->quantity, Quantity::k);
    EXPECT_NEAR(best->first, 2.0, 0.01);
    EXPECT_NEAR(best->second, 4.0, 0.01);
    const double a = far.model.candidates[0].scale;
    const double b = far.model.candidates[1].scale;
    EXPECT_NEAR(best->spreads, std::log10(2.0) / std::sqrt(a * a + b * b), 0.05);
    EXPECT_GT(best->spreads, kToldApart);
}

TEST(LargestSeparation, IsNoneWhereNoSystemHoldsBoth) {
    const MeasuredSystem one = system_with("one", Quantity::RI, 1000.0, 1100.0);
    const std::vector<const MeasuredSystem *> systems{&one};
    EXPECT_FALSE(largest_separation(systems, Id{1}, Id{3}));
    EXPECT_FALSE(largest_separation({}, Id{1}, Id{2}));
}

TEST(LargestSeparation, SpotsThatBothStayAtTheStartAreNotApart) {
    const MeasuredSystem start = system_with("start", Quantity::Rf, 0.0, 0.0);
    const MeasuredSystem one_moves = system_with("one moves", Quantity::Rf, 0.0, 0.5);
    const MeasuredSystem *systems[] = {&start};
    EXPECT_DOUBLE_EQ(largest_separation(systems, Id{1}, Id{2})->spreads, 0.0);
    systems[0] = &one_moves;
    EXPECT_GT(largest_separation(systems, Id{1}, Id{2})->spreads, kToldApart);
}

} // namespace
} // namespace cospot
