#include "descriptors/sdf_record.h"

#include "descriptors/structure.h"
#include "shared/error.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace cospot::descriptors {
namespace {

std::string mol_block_of(const std::string &record) {
    const std::string end = "M  END\n";
    return record.substr(0, record.find(end) + end.size());
}

TEST(SdfRecord, HasTitleDataItemsAndEndMark) {
    const std::string record = write_sdf_record(
        "CCO", "ethanol", {{"cas", "64-17-5"}, {"note", "first line\nsecond line"}, {"empty", ""}});
    EXPECT_EQ(record.rfind("ethanol\n", 0), 0U);
    EXPECT_NE(record.find(" V2000\n"), std::string::npos);
    const std::string expected =
        "M  END\n>  <cas>\n64-17-5\n\n>  <note>\nfirst line\nsecond line\n\n"
        ">  <empty>\n\n\n$$$$\n";
    EXPECT_EQ(record.substr(record.find("M  END")), expected);
}

TEST(SdfRecord, KeepsALongTitleAndOneInUtf8) {
    const std::string title = std::string(150, 'x') + " \xC3\xA9";
    EXPECT_EQ(write_sdf_record("C", title, {}).rfind(title + "\n", 0), 0U);
    EXPECT_EQ(write_sdf_record("C", "", {}).front(), '\n');
}

TEST(SdfRecord, IsDrawnInTwoDimensions) {
    const std::string record = write_sdf_record("c1ccccc1", "benzene", {});
    EXPECT_NE(record.find("2D\n"), std::string::npos);
    EXPECT_EQ(record.find("\n    0.0000    0.0000    0.0000 C "), std::string::npos);
}

TEST(SdfRecord, ReadsBackAsTheSameCompound) {
    const std::vector<std::string> compounds{
        "CCO",
        "C[C@H](N)C(=O)O",
        "C/C=C/C",
        "C/C=C\\C",
        "CC=CC",              // open
        "CC(O)CC",            // open
        "C1CCCCCC=CCCCCC1",   // open in a large ring
        "C1CCCCC/C=C/CCCCC1", // (E) in a large ring
        "C1CCCCC/C=C\\CCCCC1",
        "C1CCC/C=C/CC1",
        "C/C1=C\\CC/C(C)=C/CCCC1",
        "C[C@H]1CCCC(=O)CCC/C=C/c2cc(O)cc(O)c2C(=O)O1", // zearalenone
        "O=C1C=CCCCCCCCCO1",                            // open in a macrolide
        "[Na+].[O-]C(=O)c1ccccc1",
        "[13CH3]O",
        "[2H]C([2H])([2H])O",
        "C[N+](C)(C)C.[Cl-]",
        "CC(C)[C@@H]1CC[C@@H](C)C[C@H]1O",                             // menthol
        "C[C@]12CC[C@H]3[C@H]([C@@H]1CC[C@@H]2O)CCC4=CC(=O)CC[C@]34C", // testosterone
        "OC[C@H]1O[C@@H](O)[C@H](O)[C@@H](O)[C@@H]1O",                 // a glucopyranose
        "CC1(C)[C@@H]2CC[C@@]1(C)C(=O)C2",                             // camphor
        "CC=NO",
        "O[C@H]1[C@H](O)[C@@H](O)[C@H](O)[C@H](O)[C@@H]1O",
    };
    for (const std::string &smiles : compounds) {
        const Structure structure = read_smiles(smiles);
        const Structure again = read_mol_block(mol_block_of(write_sdf_record(smiles, "x", {})));
        EXPECT_EQ(again.inchikey, structure.inchikey) << smiles;
        EXPECT_EQ(again.parent_inchikey, structure.parent_inchikey) << smiles;
        EXPECT_EQ(again.has_unassigned_stereo, structure.has_unassigned_stereo) << smiles;
        EXPECT_EQ(again.smiles, structure.smiles) << smiles;
    }
}

void expect_refusal(const std::string &title, const SdfProperty &property,
                    const std::string &expected) {
    try {
        static_cast<void>(write_sdf_record("C", title, {property}));
        ADD_FAILURE() << "not refused: " << title << property.first << property.second;
    } catch (const InputError &error) {
        EXPECT_NE(error.expected().find(expected), std::string::npos) << error.what();
    }
}

TEST(SdfRecord, RefusesWhatWouldBreakTheFormat) {
    expect_refusal("two\nlines", {"a", "b"}, "SDF title");
    expect_refusal("$$$$", {"a", "b"}, "SDF title");
    expect_refusal("\x1B[31m", {"a", "b"}, "SDF title");
    expect_refusal("t", {"", "b"}, "name of an SDF data item");
    expect_refusal("t", {"a>", "b"}, "name of an SDF data item");
    expect_refusal("t", {"a\nb", "b"}, "name of an SDF data item");
    expect_refusal("t", {"a", "one\n\nthree"}, "text of an SDF data item");
    expect_refusal("t", {"a", "one\n"}, "text of an SDF data item");
    expect_refusal("t", {"a", "\none"}, "text of an SDF data item");
    expect_refusal("t", {"a", "one\n$$$$"}, "text of an SDF data item");
    expect_refusal("t", {"a", "> <b>"}, "text of an SDF data item");
    EXPECT_THROW(static_cast<void>(write_sdf_record("C*", "t", {})), InputError);
}

} // namespace
} // namespace cospot::descriptors
