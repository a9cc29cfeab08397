#include "audit/identity_conflicts.h"

#include <gtest/gtest.h>

namespace cospot {
namespace {

using Id = library::CompoundId;

// pubchem, read: InChIKeys of L-, D- and stereo-free alanine, of benzoic acid and sodium benzoate.
const char *const kL = "QNAYBMKLOCPYGJ-REOHCLBHSA-N";
const char *const kD = "QNAYBMKLOCPYGJ-UWTATZPHSA-N";
const char *const kOpen = "QNAYBMKLOCPYGJ-UHFFFAOYSA-N";
const char *const kAcid = "WPYMKLBDIGXBTP-UHFFFAOYSA-N";
const char *const kSalt = "WXMKPNITSTVMEF-UHFFFAOYSA-M";

TEST(IdentityConflicts, DifferentStructuresUnderTheirOwnNamesAreFine) {
    EXPECT_TRUE(identity_findings({{Id{1}, kL, kL, {"L-alanine"}, "56-41-7", false},
                                   {Id{2}, kD, kD, {"D-alanine"}, "338-69-2", false},
                                   {Id{3}, kAcid, kAcid, {"benzoic acid"}, "", false},
                                   {Id{4}, kSalt, kAcid, {"sodium benzoate"}, "", false}})
                    .empty());
}

TEST(IdentityConflicts, OneNameForSeveralStructuresSaysHowTheyDiffer) {
    const auto stereo = identity_findings(
        {{Id{1}, kL, kL, {"x", "Alanine"}, "", false}, {Id{2}, kD, kD, {"alanine"}, "", false}});
    ASSERT_EQ(stereo.size(), 1U);
    EXPECT_EQ(stereo[0].subject, "Alanine");
    EXPECT_NE(stereo[0].text.find("stereo"), std::string::npos);
    EXPECT_EQ(stereo[0].structures, (std::vector{Id{1}, Id{2}}));

    const auto salt = identity_findings({{Id{1}, kAcid, kAcid, {"benzoate"}, "", false},
                                         {Id{2}, kSalt, kAcid, {"benzoate"}, "", false}});
    ASSERT_EQ(salt.size(), 1U);
    EXPECT_NE(salt[0].text.find("salt"), std::string::npos);

    const auto other = identity_findings(
        {{Id{1}, kAcid, kAcid, {"acid"}, "", false}, {Id{2}, kL, kL, {"acid"}, "", false}});
    ASSERT_EQ(other.size(), 1U);
    EXPECT_NE(other[0].text.find("skeleton"), std::string::npos);
}

TEST(IdentityConflicts, OneRegistryNumberForSeveralStructures) {
    const auto findings = identity_findings(
        {{Id{1}, kAcid, kAcid, {"a"}, "65-85-0", false}, {Id{2}, kL, kL, {"b"}, "65-85-0", false}});
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_EQ(findings[0].subject, "65-85-0");
}

TEST(IdentityConflicts, UndefinedStereochemistryBesideDefinedIsAFinding) {
    const auto findings = identity_findings({{Id{1}, kL, kL, {"L-alanine"}, "", false},
                                             {Id{2}, kOpen, kOpen, {"some alanine"}, "", true}});
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_EQ(findings[0].subject, "some alanine");
}

TEST(IdentityConflicts, TheSameStructuresAreFoundOnce) {
    EXPECT_EQ(identity_findings({{Id{1}, kL, kL, {"alanine", "ala"}, "56-41-7", false},
                                 {Id{2}, kOpen, kOpen, {"alanine", "ala"}, "56-41-7", true}})
                  .size(),
              1U);
}

} // namespace
} // namespace cospot
