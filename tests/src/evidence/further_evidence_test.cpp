#include "evidence/further_evidence.h"

#include "quantities/stains.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace cospot {
namespace {

CompoundTraits with_groups(std::set<std::string> groups) {
    groups.insert("any");
    CompoundTraits traits;
    traits.groups = std::move(groups);
    return traits;
}

CompoundTraits with_formula(const std::string &formula, double monoisotopic, double average) {
    CompoundTraits traits;
    traits.monoisotopic_mass = monoisotopic;
    traits.average_mass = average;
    traits.elements = element_counts(formula);
    return traits;
}

FurtherEvidence seen_at_254(bool seen) {
    FurtherEvidence evidence;
    evidence.uv254 = seen;
    return evidence;
}

FurtherEvidence stained(const std::string &stain, bool is_stained) {
    FurtherEvidence evidence;
    evidence.stains.push_back({stain, is_stained});
    return evidence;
}

/// Masses: atomicweights, recomputed.
const std::vector<CompoundTraits> kFormulas{with_formula("C8H8O3", 152.0473, 152.15),  // vanillin
                                            with_formula("C10H16O", 152.1201, 152.23), // camphor
                                            with_formula("C10H8", 128.0626, 128.17), // naphthalene
                                            with_formula("C9H6O2", 146.0368, 146.14)}; // coumarin

TEST(FurtherEvidence, NoneGivesNoRatios) {
    const FurtherRatios ratios = further_ratios({}, kFormulas);
    EXPECT_TRUE(ratios.log_ratios.empty());
    EXPECT_TRUE(ratios.warnings.empty());
}

TEST(FurtherEvidence, AbsorptionWeighsMoreTheFewerCompoundsAbsorb) {
    // By hand: of three compounds one absorbs, so an unlisted one is seen with probability
    // (0.95 + 2 * 0.05 + 0.5) / 4.
    const std::vector<CompoundTraits> compounds{with_groups({"benzene_ring"}), with_groups({}),
                                                with_groups({"primary_alcohol"})};
    const double unlisted = (0.95 + 2 * 0.05 + 0.5) / 4;
    const auto seen = further_ratios(seen_at_254(true), compounds).log_ratios;
    EXPECT_NEAR(seen[0], std::log(0.95 / unlisted), 1e-12);
    EXPECT_NEAR(seen[1], std::log(0.05 / unlisted), 1e-12);
    const auto unseen = further_ratios(seen_at_254(false), compounds).log_ratios;
    EXPECT_NEAR(unseen[0], std::log(0.05 / (1 - unlisted)), 1e-12);
    EXPECT_NEAR(unseen[2], std::log(0.95 / (1 - unlisted)), 1e-12);
}

TEST(FurtherEvidence, WhatFitsNearlyEveryCompoundMovesLittle) {
    std::vector<CompoundTraits> compounds(50, with_groups({"benzene_ring", "primary_alcohol"}));
    EXPECT_LT(std::abs(further_ratios(seen_at_254(true), compounds).log_ratios[0]), 0.02);
    // A reagent that chars everything tells nobody apart.
    compounds.push_back(with_groups({"methyl"}));
    const auto charred = further_ratios(stained("sulfuric acid", true), compounds).log_ratios;
    EXPECT_NEAR(charred.front(), charred.back(), 1e-12);
    EXPECT_LT(std::abs(charred.front()), 0.02);
}

TEST(FurtherEvidence, RatiosOfUvAndStainMultiply) {
    const std::vector<CompoundTraits> compounds{with_groups({"benzene_ring", "phenol"}),
                                                with_groups({"primary_amine"}), with_groups({})};
    FurtherEvidence both = seen_at_254(true);
    both.stains = {{"ferric chloride", true}};
    const auto joint = further_ratios(both, compounds).log_ratios;
    const auto lamp = further_ratios(seen_at_254(true), compounds).log_ratios;
    const auto stain = further_ratios(stained("ferric chloride", true), compounds).log_ratios;
    EXPECT_NEAR(joint[0] - joint[1], lamp[0] - lamp[1] + stain[0] - stain[1], 1e-12);
    EXPECT_NEAR(joint[1], joint[2], 1e-12);
}

TEST(FurtherEvidence, StaysCalibratedWhereUvAndStainAreCorrelated) {
    // Phenols that absorb and alcohols that do not, each as likely to be unlisted as listed; what
    // is seen is drawn from the stated probabilities. The odds of the sought compound against an
    // unlisted one are even before; afterwards its mean stated probability must be the share of
    // cases in which it was the source.
    const std::set<std::string> phenol{"any", "benzene_ring", "phenol"};
    const std::set<std::string> alcohol{"any", "primary_alcohol"};
    std::vector<CompoundTraits> compounds(40, with_groups(phenol));
    compounds.resize(80, with_groups(alcohol));
    std::mt19937 engine(11);
    std::uniform_real_distribution<double> uniform;
    const std::vector<std::string> reagents{"ferric chloride", "iodine", "DNPH"};
    double stated = 0.0;
    double right = 0.0;
    for (int i = 0; i < 8000; ++i) {
        const bool is_first = i % 2 == 0; // else one of the population
        const bool is_phenol = is_first || i % 4 == 1;
        const std::set<std::string> &groups = is_phenol ? phenol : alcohol;
        FurtherEvidence evidence = seen_at_254(uniform(engine) < seen_probability(uv254(), groups));
        for (const std::string &reagent : reagents) {
            const Stain &stain = *find_stain(reagent);
            evidence.stains.push_back(
                {stain.name, uniform(engine) < seen_probability(stain, groups)});
        }
        const double odds = std::exp(further_ratios(evidence, compounds).log_ratios[0]);
        if (odds > 1.0) { // where the evidence speaks for the compound
            stated += odds / (1 + odds);
            right += is_first ? 1.0 : 0.0;
        }
    }
    EXPECT_GT(right, 1000.0);
    EXPECT_NEAR(stated / right, 1.0, 0.03);
}

TEST(FurtherEvidence, ADifferentFormulaLowersTheOddsToTheErrorRate) {
    FurtherEvidence evidence;
    evidence.formula = "C8H8O3";
    const auto ratios = further_ratios(evidence, kFormulas).log_ratios;
    // By hand: an unlisted compound has this formula with probability (1 + 0.5) / (4 + 1).
    EXPECT_NEAR(ratios[0], std::log(0.01 + 0.99 / 0.3), 1e-12);
    for (std::size_t i = 1; i < ratios.size(); ++i) {
        EXPECT_NEAR(ratios[i], std::log(kOtherTechniqueErrs), 1e-12);
    }
}

TEST(FurtherEvidence, AccurateMassSeparatesEqualNominalMasses) {
    FurtherEvidence nominal;
    nominal.molar_mass = 152.0;
    const auto coarse = further_ratios(nominal, kFormulas).log_ratios;
    EXPECT_NEAR(coarse[0], coarse[1], 0.05);
    EXPECT_GT(coarse[0], 0.0);
    EXPECT_NEAR(coarse[2], std::log(kOtherTechniqueErrs), 1e-6);
    FurtherEvidence accurate;
    accurate.molar_mass = 152.0475;
    accurate.molar_mass_uncertainty = 0.0008;
    const auto fine = further_ratios(accurate, kFormulas).log_ratios;
    EXPECT_GT(fine[0], coarse[0]);
    EXPECT_NEAR(fine[1], std::log(kOtherTechniqueErrs), 1e-6);
}

TEST(FurtherEvidence, AverageMassCountsOnlyWhereTheMassIsCoarse) {
    // atomicweights, recomputed: hexabromobenzene, monoisotopic 545.5 (all 79Br), average 551.5.
    const std::vector<CompoundTraits> compounds{with_formula("C6Br6", 545.51, 551.49),
                                                with_formula("C10H8", 128.06, 128.17)};
    FurtherEvidence evidence;
    evidence.molar_mass = 551.5;
    EXPECT_GT(further_ratios(evidence, compounds).log_ratios[0], 0.0);
    evidence.molar_mass_uncertainty = 0.1;
    EXPECT_LT(further_ratios(evidence, compounds).log_ratios[0], -4.0);
}

TEST(FurtherEvidence, MassBesideFormulaDoesNotCountTwice) {
    FurtherEvidence formula;
    formula.formula = "O3C8H8";
    FurtherEvidence both = formula;
    both.molar_mass = 152.05;
    const FurtherRatios ratios = further_ratios(both, kFormulas);
    EXPECT_EQ(ratios.log_ratios, further_ratios(formula, kFormulas).log_ratios);
    ASSERT_EQ(ratios.warnings.size(), 1U);
}

TEST(FurtherEvidence, UnknownTraitsDoNotCountAndAreReported) {
    std::vector<CompoundTraits> compounds{with_groups({"benzene_ring"}), with_groups({})};
    const auto before = further_ratios(seen_at_254(true), compounds).log_ratios;
    compounds.emplace_back();
    const FurtherRatios ratios = further_ratios(seen_at_254(true), compounds);
    EXPECT_EQ(ratios.log_ratios[0], before[0]);
    EXPECT_EQ(ratios.log_ratios[2], 0.0);
    ASSERT_EQ(ratios.warnings.size(), 1U);
    EXPECT_NE(ratios.warnings[0].find("uv254 does not count for 1 of 3 compounds"),
              std::string::npos);
}

TEST(ElementCounts, OrderAndRepeatsDoNotMatter) {
    EXPECT_EQ(element_counts("CH3COOH"), element_counts("C2H4O2"));
    EXPECT_EQ(element_counts("O3C8H8"), element_counts("C8H8O3"));
    EXPECT_EQ(element_counts("C5H14NO+"), element_counts("C5H14NO"));
    EXPECT_EQ(element_counts("Mg-2"), element_counts("Mg"));
    EXPECT_NE(element_counts("CO"), element_counts("Co"));
    for (const char *bad : {"", "c6h6", "C6H6)", "Xx2", "C0", "6C", "+", "C6 H6", "C99999999"}) {
        EXPECT_FALSE(element_counts(bad)) << bad;
    }
}

} // namespace
} // namespace cospot
