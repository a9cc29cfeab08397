#include "library/descriptions.h"

#include "library/merge.h"
#include "sample_library.h"

#include <gtest/gtest.h>

namespace cospot::library {
namespace {

const Description kInvented{.crippen_logp = 1.5,
                            .molar_refractivity = 30.25,
                            .polar_surface = 20.23,
                            .labute_surface = 50.5,
                            .hydrogen_bond_donors = 1,
                            .hydrogen_bond_acceptors = 2,
                            .rotatable_bonds = 3,
                            .rings = 4,
                            .aromatic_rings = 5,
                            .heavy_atoms = 6,
                            .formal_charge = -1,
                            .groups = {{"phenol", 2}, {"ketone", 1}}};

void describe(SampleLibrary &library, CompoundId compound) {
    Transaction transaction(library.database);
    add_description(library.database, compound, kInvented);
    transaction.commit();
}

void expect_invented(const std::optional<Description> &read) {
    ASSERT_TRUE(read);
    EXPECT_EQ(read->crippen_logp, kInvented.crippen_logp);
    EXPECT_EQ(read->molar_refractivity, kInvented.molar_refractivity);
    EXPECT_EQ(read->polar_surface, kInvented.polar_surface);
    EXPECT_EQ(read->labute_surface, kInvented.labute_surface);
    EXPECT_EQ(read->hydrogen_bond_donors, kInvented.hydrogen_bond_donors);
    EXPECT_EQ(read->hydrogen_bond_acceptors, kInvented.hydrogen_bond_acceptors);
    EXPECT_EQ(read->rotatable_bonds, kInvented.rotatable_bonds);
    EXPECT_EQ(read->rings, kInvented.rings);
    EXPECT_EQ(read->aromatic_rings, kInvented.aromatic_rings);
    EXPECT_EQ(read->heavy_atoms, kInvented.heavy_atoms);
    EXPECT_EQ(read->formal_charge, kInvented.formal_charge);
    EXPECT_EQ(read->groups, kInvented.groups);
}

TEST(Descriptions, AreReadAsStored) {
    SampleLibrary library;
    const auto alpha = library.compound('A', "alpha");
    const auto beta = library.compound('B', "beta");
    describe(library, alpha);
    expect_invented(description_of(library.database, alpha));
    EXPECT_FALSE(description_of(library.database, beta));
    const auto missing = undescribed(library.database);
    ASSERT_EQ(missing.size(), 1U);
    EXPECT_EQ(missing.front(), std::make_pair(beta, std::string("C")));
}

TEST(Descriptions, GoAlongIntoAMerge) {
    SampleLibrary here;
    SampleLibrary there;
    (void)here.compound('B', "beta");
    describe(there, there.compound('A', "alpha"));
    (void)merge_library(here.database, there.file, {});
    expect_invented(description_of(here.database, find_by_name(here.database, "alpha").front().id));
}

} // namespace
} // namespace cospot::library
