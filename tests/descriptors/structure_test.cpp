#include "descriptors/structure.h"

#include "shared/error.h"

#include <gtest/gtest.h>

#include <string>
#include <thread>
#include <vector>

namespace cospot::descriptors {
namespace {

std::string refusal_of_smiles(const std::string &smiles) {
    try {
        static_cast<void>(read_smiles(smiles));
    } catch (const InputError &error) {
        EXPECT_EQ(to_string(error.where()), "");
        EXPECT_FALSE(error.expected().empty());
        return error.found();
    }
    ADD_FAILURE() << "not refused: " << smiles;
    return {};
}

void expect_refused_smiles(const std::string &smiles, const std::string &reason) {
    EXPECT_NE(refusal_of_smiles(smiles).find(reason), std::string::npos)
        << refusal_of_smiles(smiles);
}

struct KnownStructure {
    std::string name;
    std::string smiles;
    std::string formula;
    double average_mass;
    double monoisotopic_mass;
};

// atomicweights, recomputed.
TEST(Structure, HasTheFormulaAndMassesOfKnownCompounds) {
    const std::vector<KnownStructure> compounds{
        {"caffeine", "Cn1cnc2c1c(=O)n(C)c(=O)n2C", "C8H10N4O2", 194.19, 194.0804},
        {"water", "O", "H2O", 18.015, 18.0106},
        {"benzene", "c1ccccc1", "C6H6", 78.11, 78.0470},
        {"chloroform", "ClC(Cl)Cl", "CHCl3", 119.37, 117.9144},
        {"cholesterol", "CC(C)CCCC(C)C1CCC2C1(CCC3C2CC=C4C3(CCC(C4)O)C)C", "C27H46O", 386.66,
         386.3549},
        {"sodium benzoate", "[Na+].[O-]C(=O)c1ccccc1", "C7H5NaO2", 144.10, 144.0187},
        {"bromobenzene", "Brc1ccccc1", "C6H5Br", 157.01, 155.9575},
        {"heavy water", "[2H]O[2H]", "H2O", 20.03, 20.0231},
    };
    for (const KnownStructure &known : compounds) {
        const Structure structure = read_smiles(known.smiles);
        EXPECT_EQ(structure.formula, known.formula);
        EXPECT_NEAR(structure.average_mass, known.average_mass, 0.01) << known.name;
        EXPECT_NEAR(structure.monoisotopic_mass, known.monoisotopic_mass, 0.0001) << known.name;
    }
}

// hill1900, rule from memory.
TEST(Structure, WritesFormulasInHillOrder) {
    EXPECT_EQ(read_smiles("Cl").formula, "ClH"); // without carbon, hydrogen has no place of its own
    EXPECT_EQ(read_smiles("N").formula, "H3N");
    EXPECT_EQ(read_smiles("Br").formula, "BrH");
    EXPECT_EQ(read_smiles("OS(=O)(=O)O").formula, "H2O4S");
    EXPECT_EQ(read_smiles("ClC(Cl)(Cl)Cl").formula, "CCl4");
    EXPECT_EQ(read_smiles("CBr").formula, "CH3Br");
    EXPECT_EQ(read_smiles("C[N+](C)(C)C").formula, "C4H12N+");
    EXPECT_EQ(read_smiles("[Ca+2]").formula, "Ca+2");
}

// atomicweights, recomputed: ammonium and tetrabutylammonium without the electron that they lack.
TEST(Structure, CountsTheElectronsOfAnIon) {
    EXPECT_NEAR(read_smiles("[NH4+]").monoisotopic_mass, 18.03383, 0.0001);
    EXPECT_NEAR(read_smiles("[NH4+]").monoisotopic_mass,
                read_smiles("N").monoisotopic_mass + 1.007276, 0.00001); // mass of the proton
    EXPECT_NEAR(read_smiles("CCCC[N+](CCCC)(CCCC)CCCC").monoisotopic_mass, 242.28423, 0.0001);
}

TEST(Structure, IsTheSameHoweverItIsWritten) {
    const std::vector<std::vector<std::string>> groups{
        {"CCO", "OCC", "C(O)C", "[CH3][CH2][OH]", "[H]OC([H])([H])C", "[CH3:1]CO"},
        {"Oc1ccccc1", "C1=CC=CC=C1O", "c1cc(O)ccc1", "C%10=CC=CC=C%10O"},
        {"C[N+](=O)[O-]", "CN(=O)=O"},
        {"N[C@@H](C)C(=O)O", "C[C@H](N)C(=O)O", "OC(=O)[C@H](C)N", "[C@H](N)(C)C(=O)O"},
        {"C/C=C/CC", "CC/C=C/C", "C\\C=C\\CC", "C(/C)=C\\CC", "[H]/C(C)=C(/[H])CC"},
        {"[Na+].[Cl-]", "[Cl-].[Na+]"},
        {"CC(=O)Oc1ccccc1C(=O)O", "OC(=O)c1ccccc1OC(C)=O", "O=C(C)Oc1c(C(O)=O)cccc1"},
    };
    for (const auto &group : groups) {
        const Structure first = read_smiles(group.front());
        for (const std::string &smiles : group) {
            EXPECT_EQ(read_smiles(smiles).smiles, first.smiles) << smiles;
            EXPECT_EQ(read_smiles(smiles).inchikey, first.inchikey) << smiles;
        }
        EXPECT_EQ(read_smiles(first.smiles).smiles, first.smiles);
    }
}

TEST(Structure, WritesSmilesThatReadAsTheSameCompound) {
    for (const char *smiles :
         {"[C@H]1(C([C@@H](O)[C@H](O)[C@H]([C@H]1O)O)O)O", // an inositol with one centre open
          "O[C@H]1[C@H](O)[C@@H](O)[C@H](O)[C@H](O)[C@@H]1O", "C[C@H]1CC[C@@H](C)CC1",
          "CC(C)[C@@H]1CC[C@@H](C)C[C@H]1O", "CC/C=C/C[C@H](C)O"}) {
        const Structure structure = read_smiles(smiles);
        EXPECT_EQ(read_smiles(structure.smiles).inchikey, structure.inchikey) << smiles;
    }
}

TEST(Structure, ASaltHasTheParentOfItsFreeBaseOrAcid) {
    const std::string ephedrine = read_smiles("CN[C@@H](C)[C@H](O)c1ccccc1").inchikey;
    EXPECT_EQ(read_smiles("CN[C@@H](C)[C@H](O)c1ccccc1").parent_inchikey, ephedrine);
    EXPECT_EQ(read_smiles("CN[C@@H](C)[C@H](O)c1ccccc1.Cl").parent_inchikey, ephedrine);
    EXPECT_EQ(read_smiles("C[NH2+][C@@H](C)[C@H](O)c1ccccc1.[Cl-]").parent_inchikey, ephedrine);
    EXPECT_NE(read_smiles("CN[C@@H](C)[C@H](O)c1ccccc1.Cl").inchikey, ephedrine);

    const std::string benzoic_acid = read_smiles("OC(=O)c1ccccc1").inchikey;
    EXPECT_EQ(read_smiles("[Na+].[O-]C(=O)c1ccccc1").parent_inchikey, benzoic_acid);
    EXPECT_EQ(read_smiles("[Na]OC(=O)c1ccccc1").parent_inchikey, benzoic_acid);
    EXPECT_EQ(read_smiles("[O-]C(=O)c1ccccc1").parent_inchikey, benzoic_acid);
    EXPECT_EQ(read_smiles("[Ca+2].[O-]C(=O)c1ccccc1.[O-]C(=O)c1ccccc1").parent_inchikey,
              benzoic_acid);
}

TEST(Structure, HydratesAndZwitterionsHaveTheUnchargedParent) {
    EXPECT_EQ(read_smiles("Cn1cnc2c1c(=O)n(C)c(=O)n2C.O").parent_inchikey,
              read_smiles("Cn1cnc2c1c(=O)n(C)c(=O)n2C").inchikey);
    EXPECT_EQ(read_smiles("[NH3+]CC(=O)[O-]").parent_inchikey, read_smiles("NCC(=O)O").inchikey);
}

TEST(Structure, KeepsWhatNoHydrogenCanNeutralise) {
    EXPECT_EQ(read_smiles("C[N+](C)(C)C.[Cl-]").parent_inchikey,
              read_smiles("C[N+](C)(C)C").inchikey);
    const Structure nitrobenzene = read_smiles("c1ccccc1[N+](=O)[O-]");
    EXPECT_EQ(nitrobenzene.parent_inchikey, nitrobenzene.inchikey);
}

TEST(Structure, InorganicsAndComplexesAreTheirOwnParents) {
    const std::vector<std::string> own_parents{
        "[Na+].[Cl-]",
        "Cl",
        "c1ccccc1",
        "[Fe+2].c1cc[cH-]c1.c1cc[cH-]c1",                                   // ferrocene
        "[Mg+2].C1=CC2=CC3=CC=C([N-]3)C=C4C=CC(=N4)C=C5C=CC([N-]5)=CC1=N2", // a porphyrin
        "CC[Pb](CC)(CC)CC",                                                 // tetraethyllead
    };
    for (const std::string &smiles : own_parents) {
        const Structure structure = read_smiles(smiles);
        EXPECT_EQ(structure.parent_inchikey, structure.inchikey) << smiles;
    }
}

// Common practice, no source: which of these have stereoisomers is textbook knowledge.
TEST(Structure, TellsWhetherStereochemistryIsLeftOpen) {
    for (const char *open : {"CC(O)CC", "CC=CC", "CC1CCC(C)CC1", "CCS(C)=O", "C[C@H](O)C(O)C",
                             "CC=NO", "C1CCC2CCCCC2C1", "CC(O)CC.Cl"}) {
        EXPECT_TRUE(read_smiles(open).has_unassigned_stereo) << open;
    }
    for (const char *closed :
         {"CCO", "C[C@H](O)CC", "C/C=C/C", "CC=C", "C1=CCCCC1", "CS(C)=O", "CN=C(N)N",
          "C[C@H]1CC[C@@H](C)CC1", "CCN(C)C(C)C", "O=C1NS(=O)(=O)c2ccccc12", "CCOP(=S)(OCC)OCC"}) {
        EXPECT_FALSE(read_smiles(closed).has_unassigned_stereo) << closed;
    }
}

TEST(Structure, RefusesWhatIsNotOneBareSmiles) {
    expect_refused_smiles("", "nothing is there");
    expect_refused_smiles(" CC", "white space at character 1");
    expect_refused_smiles("CC ", "white space at character 3");
    expect_refused_smiles("CC any text", "white space at character 3");
    expect_refused_smiles("CC\tethane", "white space at character 3");
    expect_refused_smiles("CC\n", "white space at character 3");
    expect_refused_smiles("CC |t:0|", "white space at character 3");
    expect_refused_smiles("CC|t:0|", "an extension begins at character 3");
    expect_refused_smiles("CC\xC3\xA9", "no SMILES character at character 3");
    expect_refused_smiles(std::string("C\0C", 3), "no SMILES character at character 2");
}

TEST(Structure, RefusesOpenAtomsAndBonds) {
    expect_refused_smiles("C*C", "* at character 2 leaves the atom open");
    expect_refused_smiles("[*:1]C", "leaves the atom open");
    expect_refused_smiles("[#0]C", "an atom is left open");
    expect_refused_smiles("C~C", "a bond is left open");
}

TEST(Structure, RefusesSyntaxErrorsWithThePlace) {
    expect_refused_smiles("CC(", "the parenthesis at character 3 is never closed");
    expect_refused_smiles("CC)C", "the parenthesis at character 3 was never opened");
    expect_refused_smiles("C1CCC", "the ring bond 1 at character 2 is never closed");
    expect_refused_smiles("C%12CCC", "the ring bond 12 at character 2 is never closed");
    expect_refused_smiles("C[NH3+", "the bracket at character 2 is never closed");
    expect_refused_smiles("CC]", "the bracket at character 3 was never opened");
    expect_refused_smiles("CXC", "'X' at character 2 is no atom");
    expect_refused_smiles("C[Xx]C", "the order of atoms and bonds");
    expect_refused_smiles("C==C", "the order of atoms and bonds");
    expect_refused_smiles("CCO>>CC=O", "a reaction");
    expect_refused_smiles("benzene", "'e' at character 2 is no atom");
    expect_refused_smiles("50-00-0", "the ring bond 5 at character 1 is never closed");
}

TEST(Structure, RefusesImpossibleMolecules) {
    expect_refused_smiles("CC(C)(C)(C)C", "atom 2 (C) has more bonds than its valence allows");
    expect_refused_smiles("[H]C([H])([H])N(C)(C)C", "atom 5 (N) has more bonds");
    expect_refused_smiles("FCl(F)F", "atom 2 (Cl) has more bonds");
    expect_refused_smiles("Ccc", "atom 2 (C) is written as aromatic outside a ring");
    expect_refused_smiles("Cc1ccnc1", "no single and double bonds fit the aromatic ring");
    expect_refused_smiles("[C@TB1](F)(Cl)(Br)(I)C", "atom 1 (C) has more bonds");
}

TEST(Structure, RefusesWhatInchiCannotDescribe) {
    expect_refused_smiles("[Og]", "without InChI");
    expect_refused_smiles("[Re]$[Re]", "a bond that is not single, double, triple or aromatic");
}

TEST(Structure, RefusesTooLongTexts) {
    EXPECT_EQ(read_smiles(std::string(500, 'C')).formula, "C500H1002");
    expect_refused_smiles(std::string(501, 'C'), "501 heavy atoms");
    expect_refused_smiles(std::string(2001, 'C'), "2001 characters");
    expect_refused_smiles(std::string(1000, '('), "never closed");
}

TEST(Structure, QuotesTheTextShortenedAndEscaped) {
    EXPECT_EQ(refusal_of_smiles("CC\x1B[31m").rfind("\"CC\\x1B[31m\"", 0), 0U);
    const std::string long_text = refusal_of_smiles(std::string(300, 'C') + "*");
    EXPECT_EQ(long_text.rfind("\"" + std::string(60, 'C') + "...\"", 0), 0U) << long_text;
}

TEST(Structure, ReadingPrintsNothing) {
    testing::internal::CaptureStderr();
    testing::internal::CaptureStdout();
    for (const char *smiles : {"CC(", "C(C)(C)(C)(C)C", "c1ccnc1", "[Og]", "C~C", "CX"}) {
        static_cast<void>(refusal_of_smiles(smiles));
    }
    static_cast<void>(read_smiles("C[NH2+]C.[Cl-]"));
    EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
    EXPECT_EQ(testing::internal::GetCapturedStdout(), "");
}

TEST(Structure, RefusesNumbersThatNoAtomHas) {
    // Larger numbers are wrapped round by the reader below and would name another structure.
    for (const char *text : {"[10001CH4]", "[65549CH4]", "[C-130]", "[CH200]", "[Na+16]"}) {
        EXPECT_THROW((void)read_smiles(text), InputError) << text;
    }
    for (const char *text : {"[13CH4]", "[2H]C([2H])[2H]", "[Fe+3]", "[238U]", "[CH3:12]C"}) {
        EXPECT_NO_THROW((void)read_smiles(text)) << text;
    }
}

TEST(Structure, IsReadAlikeByTwoThreadsAtOnce) {
    const std::vector<std::string> texts{
        "Cn1cnc2c1c(=O)n(C)c(=O)n2C",
        "C[C@H](N)C(=O)O",
        "[Na+].[O-]C(=O)c1ccccc1",
        "C/C=C/C",
        "C1CCC2CCCCC2C1",
        "C[NH2+]C.[Cl-]",
    };
    std::vector<std::string> expected;
    expected.reserve(texts.size());
    for (const std::string &text : texts) {
        expected.push_back(read_smiles(text).parent_inchikey + read_smiles(text).smiles);
    }
    const auto differences = [&](int &count) {
        for (std::size_t turn = 0; turn < 600; ++turn) {
            const std::size_t which = turn % texts.size();
            const Structure structure = read_smiles(texts[which]);
            count += structure.parent_inchikey + structure.smiles != expected[which] ? 1 : 0;
            try {
                static_cast<void>(read_smiles("CC(C)(C)(C)C"));
                ++count;
            } catch (const InputError &) { // as it should be
            }
        }
    };
    int first = 0;
    int second = 0;
    std::thread other([&] { differences(second); });
    differences(first);
    other.join();
    EXPECT_EQ(first, 0);
    EXPECT_EQ(second, 0);
}

} // namespace
} // namespace cospot::descriptors
