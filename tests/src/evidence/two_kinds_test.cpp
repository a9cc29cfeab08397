// Systems of two techniques observed together: each kind goes together by itself.
#include "evidence/library_evidence.h"
#include "matcher/dependence.h"
#include "matcher/system_model.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <random>
#include <string>
#include <vector>

namespace cospot {
namespace {

/// Three systems of one kind; of sixty invented compounds the last twenty were measured on the
/// first one alone.
void add_kind(Technique technique, Quantity quantity, std::mt19937 &engine,
              std::vector<FittedSystem> &systems) {
    std::normal_distribution<double> normal;
    std::vector<double> polarity;
    for (int compound = 0; compound < 60; ++compound) {
        polarity.push_back(normal(engine));
    }
    for (int s = 0; s < 3; ++s) {
        std::vector<matcher::KnownValue> values;
        for (std::size_t compound = 0; compound < (s == 0 ? 60U : 40U); ++compound) {
            const double x = polarity[compound] + 0.3 * normal(engine);
            values.push_back(
                {compound + 1, 0, false,
                 quantity == Quantity::Rf ? 1.0 / (1.0 + std::exp(x)) : std::pow(10.0, 0.4 * x)});
        }
        FittedSystem system;
        system.modelled.system.id = static_cast<std::int64_t>(systems.size()) + 1;
        system.modelled.system.name = "s" + std::to_string(systems.size());
        system.modelled.system.technique = technique;
        system.modelled.quantity = quantity;
        system.model = matcher::fit_system(Technique::gc, quantity, values);
        systems.push_back(std::move(system));
    }
}

TEST(TwoKinds, BothGoTogetherByThemselves) {
    std::mt19937 engine(11);
    std::vector<FittedSystem> systems;
    add_kind(Technique::tlc, Quantity::Rf, engine, systems);
    add_kind(Technique::hplc, Quantity::k, engine, systems);
    const LibraryEvidence evidence = evidence_from(std::move(systems), {});
    const matcher::Dependence &dependence = evidence.knowledge.dependence;
    ASSERT_EQ(dependence.unlisted.size(), 2U);
    for (const auto &kind : dependence.unlisted) {
        ASSERT_EQ(kind.systems.size(), 3U);
        EXPECT_EQ(kind.systems.front() / 3, kind.systems.back() / 3) << "systems of two kinds";
        EXPECT_GT(kind.correlation(0, 1), 0.5);
    }
    // Compound 50 was transferred to two systems of each kind.
    const auto &errors = dependence.compounds.at(49);
    ASSERT_EQ(errors.size(), 2U);
    EXPECT_NE(errors[0].systems.front() / 3, errors[1].systems.front() / 3);

    // Readings that agree within each kind count less than four independent ones.
    const std::vector<matcher::RankedReading> ranks{{0, 0.9}, {1, 0.9}, {3, 0.1}, {4, 0.1}};
    const double of_first = matcher::log_dependence(dependence.unlisted[0], ranks);
    const double of_second = matcher::log_dependence(dependence.unlisted[1], ranks);
    EXPECT_GT(of_first, 0.1);
    EXPECT_GT(of_second, 0.1);
    EXPECT_DOUBLE_EQ(matcher::dependence_of_kinds(dependence.unlisted, ranks),
                     of_first + of_second);
}

} // namespace
} // namespace cospot
