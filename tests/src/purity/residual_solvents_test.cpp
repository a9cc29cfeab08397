// Limits of residual solvents: q3c in tests/SOURCES.md.
#include "purity/solvent_amounts.h"
#include "purity/solvent_limits.h"

#include <gtest/gtest.h>

#include <set>

namespace cospot::purity {
namespace {

const SolventLimit &limit_named(const std::string &name) {
    for (const SolventLimit &limit : solvent_limits()) {
        if (limit.name == name) {
            return limit;
        }
    }
    throw std::logic_error("no " + name);
}

TEST(SolventLimits, AreThoseOfTheGuideline) {
    EXPECT_EQ(solvent_limits().size(), 63U);
    EXPECT_EQ(limit_named("benzene").limit_ppm, 2.0);
    EXPECT_EQ(limit_named("benzene").solvent_class, 1);
    EXPECT_EQ(limit_named("1,1,1-trichloroethane").limit_ppm, 1500.0);
    EXPECT_EQ(limit_named("dichloromethane").limit_ppm, 600.0);
    EXPECT_EQ(limit_named("methanol").limit_ppm, 3000.0);
    EXPECT_EQ(limit_named("toluene").limit_ppm, 890.0);
    EXPECT_EQ(limit_named("methyl isobutyl ketone").solvent_class, 2); // since R6
    EXPECT_EQ(limit_named("triethylamine").solvent_class, 3);
    EXPECT_EQ(limit_named("2-methyltetrahydrofuran").solvent_class, 3);
}

TEST(SolventLimits, FollowFromThePermittedExposureAtTenGramsADay) {
    // Option 1 of the guideline: ppm = 1000 x PDE in mg / dose in g.
    for (const SolventLimit &limit : solvent_limits()) {
        if (limit.solvent_class == 2) {
            EXPECT_NEAR(limit.limit_ppm, limit.pde_mg_day.value() * 1000.0 / 10.0, 1e-9)
                << limit.name;
        } else if (limit.solvent_class == 3) {
            EXPECT_EQ(limit.limit_ppm, 5000.0) << limit.name; // also of triethylamine, 62.5 mg
            EXPECT_GE(limit.pde_mg_day.value(), 50.0) << limit.name;
        } else {
            EXPECT_FALSE(limit.pde_mg_day) << limit.name;
        }
    }
}

TEST(SolventLimits, AreFoundByStructure) {
    // Benzene read in pubchem, the others from memory (methanol: its two last letters before the
    // hyphen recomputed from the SHA-256 of its InChI).
    const auto name_of = [](const char *inchikey) {
        const SolventLimit *limit = solvent_limit(inchikey);
        return limit != nullptr ? limit->name : "none";
    };
    EXPECT_EQ(name_of("UHOVQNZJYSORNB-UHFFFAOYSA-N"), "benzene");
    EXPECT_EQ(name_of("YXFVVABEGXRONW-UHFFFAOYSA-N"), "toluene");
    EXPECT_EQ(name_of("OKKJLVBELUTLKV-UHFFFAOYSA-N"), "methanol");
    EXPECT_EQ(name_of("CSCPPACGZOOCGX-UHFFFAOYSA-N"), "acetone");
    EXPECT_EQ(limit_named("xylenes").inchikeys.size(), 3U);
    EXPECT_EQ(solvent_limit("XLYOFNOQVPJJNP-UHFFFAOYSA-N"), nullptr); // water
    std::set<std::string> keys;
    for (const SolventLimit &limit : solvent_limits()) {
        for (const std::string &key : limit.inchikeys) {
            EXPECT_EQ(key.size(), 27U) << limit.name;
            EXPECT_TRUE(keys.insert(key).second) << limit.name;
        }
    }
}

TEST(SolventLimits, ADoseAboveTenGramsLowersThem) {
    const SolventLimit &toluene = limit_named("toluene");
    EXPECT_EQ(to_text(limit_at(toluene, std::nullopt)), "890");
    EXPECT_EQ(to_text(limit_at(toluene, 500.0)), "890");
    EXPECT_EQ(to_text(limit_at(toluene, 20000.0)), "445"); // 8.9 mg in 20 g
    EXPECT_EQ(to_text(limit_at(limit_named("benzene"), 15000.0)), "1.33");
}

TEST(SolventAmounts, FollowFromAKnownAmountByResponse) {
    // 100 ppm with area 2000; area 3000 of what responds twice as much: 100 x 1.5 / 2 (by hand).
    EXPECT_DOUBLE_EQ(ppm_by_response(3000.0, 2000.0, 100.0, 2.0), 75.0);
    EXPECT_DOUBLE_EQ(ppm_by_response(0.0, 2000.0, 100.0, 2.0), 0.0);
}

} // namespace
} // namespace cospot::purity
