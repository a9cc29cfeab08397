// Systems of two techniques observed together: each kind goes together by itself.
#include "evidence/library_evidence.h"
#include "model/matcher/dependence.h"
#include "model/matcher/system_model.h"

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
        system.modelled.system.id = library::SystemId(systems.size() + 1);
        system.modelled.system.name = "s" + std::to_string(systems.size());
        system.modelled.system.technique = technique;
        system.modelled.quantity = quantity;
        system.model = matcher::fit_system(Technique::gc, quantity, values);
        systems.push_back(std::move(system));
    }
}

TEST(TwoKinds, EachTechniqueHasItsOwnCorrelations) {
    std::mt19937 engine(11);
    std::vector<FittedSystem> systems;
    add_kind(Technique::tlc, Quantity::Rf, engine, systems);
    add_kind(Technique::hplc, Quantity::k, engine, systems);
    const LibraryEvidence evidence = evidence_from(systems, {}, all_compounds(systems, {}));
    const matcher::Dependence &dependence = evidence.knowledge.dependence;
    ASSERT_EQ(dependence.unlisted.size(), 2U);
    for (const auto &kind : dependence.unlisted) {
        ASSERT_EQ(kind.systems.size(), 3U);
        EXPECT_EQ(kind.systems.front() / 3, kind.systems.back() / 3) << "systems of two kinds";
        EXPECT_GT(kind.covariance(0, 1),
                  0.5 * std::sqrt(kind.covariance(0, 0) * kind.covariance(1, 1)));
    }
    // Compound 50 was transferred to two systems of each kind.
    const auto &errors = dependence.compounds.at(49);
    ASSERT_EQ(errors.size(), 2U);
    EXPECT_NE(errors[0].systems.front() / 3, errors[1].systems.front() / 3);

    // Readings that agree within each kind count less than four independent ones.
    for (const auto &kind : dependence.unlisted) {
        std::vector<matcher::PlacedReading> alike;
        for (std::size_t s = 0; s < kind.systems.size(); ++s) {
            const auto row = static_cast<Eigen::Index>(s);
            alike.push_back(
                {kind.systems[s], kind.mean[row] + std::sqrt(kind.covariance(row, row))});
        }
        EXPECT_GT(matcher::log_together(kind, alike), 0.1);
    }
}

} // namespace
} // namespace cospot
