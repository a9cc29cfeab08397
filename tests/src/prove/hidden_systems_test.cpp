#include "prove/hidden_systems.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <set>
#include <string>
#include <vector>

namespace cospot {
namespace {

using library::ProofQuestion;

/// Invented compounds whose R_F on each silica system follows one property of theirs, more or less.
std::vector<SystemValues> related(std::size_t systems, std::int64_t compounds, double scatter) {
    std::mt19937 engine(7);
    std::normal_distribution<double> normal;
    std::vector<double> property;
    for (std::int64_t c = 0; c < compounds; ++c) {
        property.push_back(normal(engine));
    }
    std::vector<SystemValues> values;
    for (std::size_t s = 0; s < systems; ++s) {
        SystemValues one;
        one.modelled.system.id = library::SystemId(s + 1);
        one.modelled.system.name = fmt::format("silica {}", s);
        one.modelled.system.technique = Technique::tlc;
        const double slope = 0.6 + 0.1 * static_cast<double>(s % 4);
        for (std::int64_t c = 0; c < compounds; ++c) {
            const double log_k =
                slope * property[static_cast<std::size_t>(c)] + scatter * normal(engine);
            one.held.push_back({library::CompoundId{c + 1}, library::RunId{c + 1}, false,
                                1.0 / (1.0 + std::exp(log_k)), c + 1});
        }
        values.push_back(std::move(one));
    }
    return values;
}

std::size_t count_absent(const std::vector<JudgedQuestion> &questions) {
    return static_cast<std::size_t>(
        std::count_if(questions.begin(), questions.end(), [](const JudgedQuestion &one) {
            return one.judged.truth == matcher::kUnlisted;
        }));
}

std::set<std::size_t> numbers_of_systems(const std::vector<JudgedQuestion> &questions) {
    std::set<std::size_t> numbers;
    for (const JudgedQuestion &one : questions) {
        numbers.insert(one.systems);
    }
    return numbers;
}

TEST(HiddenSystems, MostCandidatesAreTransferredLikeTheTrueOne) {
    const auto values = related(4, 90, 0.1);
    const auto questions = judge_hidden_systems(values, 0);
    EXPECT_EQ(questions.size(), 60U); // two thirds of the compounds
    EXPECT_GT(count_absent(questions), 4U);
    EXPECT_LT(count_absent(questions), 25U);
    for (const JudgedQuestion &one : questions) {
        EXPECT_EQ(one.question, ProofQuestion::new_system);
        EXPECT_EQ(one.systems, 1U);
        const auto &candidates = one.judged.ranking.candidates;
        const auto transferred =
            std::count_if(candidates.begin(), candidates.end(), [](const auto &candidate) {
                return candidate.basis == matcher::Basis::transferred;
            });
        EXPECT_GT(2 * transferred, std::ssize(candidates));
        EXPECT_TRUE(one.judged.truth == matcher::kUnlisted ||
                    one.judged.basis == matcher::Basis::transferred);
    }
}

TEST(HiddenSystems, RoundsVaryTheSystemAndTheCompoundsLeftOut) {
    const auto values = related(4, 300, 0.1);
    EXPECT_EQ(hidden_rounds(values), kHiddenRounds);
    // All but 100 compounds, but 20, but 50: there are more than are asked for.
    std::set<double> unlisted;
    for (std::size_t round = 0; round < 3; ++round) {
        const auto questions = judge_hidden_systems(values, round);
        EXPECT_LE(questions.size(), 80U);
        EXPECT_GT(questions.size(), 60U);
        unlisted.insert(questions.front().judged.ranking.unlisted);
    }
    EXPECT_EQ(unlisted.size(), 3U);
}

TEST(HiddenSystems, ManySystemsAreHiddenSeveralAtATime) {
    const auto values = related(9, 60, 0.1);
    EXPECT_EQ(numbers_of_systems(judge_hidden_systems(values, 0)),
              (std::set<std::size_t>{1, 2, 3}));
    EXPECT_EQ(numbers_of_systems(judge_hidden_systems(related(6, 60, 0.1), 0)),
              (std::set<std::size_t>{1, 2}));
}

TEST(HiddenSystems, TheWorkDoesNotGrowWithTheLibrary) {
    const auto asked = [](std::int64_t compounds) {
        return judge_hidden_systems(related(4, compounds, 0.1), 0).size();
    };
    EXPECT_EQ(asked(900), asked(450));
    EXPECT_LE(hidden_rounds(related(30, 40, 0.1)), kHiddenRounds);
}

TEST(HiddenSystems, NoQuestionsWithoutUsableSystems) {
    EXPECT_TRUE(judge_hidden_systems(related(4, 90, 50.0), 0).empty());
    EXPECT_EQ(hidden_rounds(related(1, 90, 0.1)), 0U);
    EXPECT_EQ(hidden_rounds(related(4, 20, 0.1)), 0U);
    EXPECT_EQ(hidden_rounds({}), 0U);
}

TEST(HiddenSystems, OtherQuantitiesTellNothing) {
    auto values = related(2, 90, 0.1);
    values[1].modelled.quantity = Quantity::k;
    EXPECT_EQ(hidden_rounds(values), 0U);
}

TEST(HiddenSystems, AreDeterministic) {
    const auto values = related(4, 60, 0.1);
    const auto first = judge_hidden_systems(values, 1);
    const auto second = judge_hidden_systems(values, 1);
    ASSERT_EQ(first.size(), second.size());
    for (std::size_t i = 0; i < first.size(); ++i) {
        EXPECT_EQ(first[i].judged.truth, second[i].judged.truth);
        EXPECT_EQ(first[i].judged.ranking.unlisted, second[i].judged.ranking.unlisted);
    }
}

} // namespace
} // namespace cospot
