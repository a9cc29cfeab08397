#include "program_fixture.h"
#include "spawned_program.h"

#include "../../library/unprivileged.h"

#include <thread>

namespace cospot {
namespace {

/// Invented values; the structure of anisole is that of phenol by mistake.
class RenameTest : public ProgramTest {
protected:
    RenameTest() {
        cospot({"learn", "--create-systems",
                file("v.csv", "compound,smiles,system,quantity,value,run,cas\n"
                              "anisol,c1ccc(O)cc1,silica,Rf,0.60,p1,100-66-3\n"
                              "anisol,c1ccc(O)cc1,silica,Rf,0.62,p2,\n"
                              "ethanol,CCO,silica,Rf,0.30,p1,\n"
                              "ethanol,CCO,silica,Rf,0.32,p2,\n"
                              "benzene,c1ccccc1,alumina,Rf,0.80,p1,\n")});
    }

    nlohmann::json compound(const std::string &name) const {
        const Outcome outcome = cospot({"--json", "show", name});
        EXPECT_EQ(outcome.code, kDone) << outcome.err;
        return outcome.lines().at(0);
    }

    std::string refused(std::vector<std::string> arguments) const {
        const std::string before = everything();
        const Outcome outcome = cospot(std::move(arguments));
        EXPECT_EQ(outcome.code, kBadInput) << outcome.out;
        EXPECT_EQ(everything(), before);
        return unwrapped(outcome.err);
    }

    std::string everything() const {
        return library_content() + cospot({"show", "silica", "--all"}).out;
    }
};

TEST_F(RenameTest, TheOldNameOfACompoundStillFindsIt) {
    const Outcome outcome = cospot({"--json", "rename", "anisol", "anisole"});
    EXPECT_EQ(outcome.code, kDone) << outcome.err;
    EXPECT_EQ(outcome.lines().at(0)["before"]["compound"], "anisol");
    EXPECT_EQ(outcome.lines().at(0)["now"]["compound"], "anisole");
    EXPECT_EQ(compound("anisole")["values"], 2);
    EXPECT_EQ(compound("anisol"), compound("anisole"));
    EXPECT_HOLDS(cospot({"show", "anisole"}).out, "anisol");
    EXPECT_EQ(cospot({"rename", "anisole", "anisol"}).code, kDone); // and back
    EXPECT_EQ(compound("anisole")["compound"], "anisol");
    EXPECT_EQ(cospot({"rename", "anisol", "Anisol"}).code, kDone);
    EXPECT_EQ(compound("anisol")["compound"], "Anisol");
}

TEST_F(RenameTest, TablesWithTheOldNameOfASystemStillWork) {
    ASSERT_EQ(cospot({"rename", "silica", "silica-HE41"}).code, kDone);
    EXPECT_EQ(cospot({"learn", file("w.csv", "compound,smiles,system,quantity,value,run\n"
                                             "ethanol,,Silica,Rf,0.31,p3\n")})
                  .code,
              kDone);
    EXPECT_EQ(cospot({"--json", "list", "systems"}).lines().size(), 2U);
    const auto json = cospot({"--json", "identify",
                              file("u.csv", "sample,feature,system,quantity,value\n"
                                            "a,A,silica,Rf,0.31\n")})
                          .lines()
                          .at(0);
    EXPECT_EQ(json["observations"][0]["system"], "silica-HE41");
    EXPECT_EQ(json["candidates"][0]["compound"], "ethanol");
    EXPECT_HOLDS(cospot({"show", "silica"}).out, "Formerly called");
    EXPECT_HOLDS(refused({"rename", "alumina", "SILICA"}), "system \"silica-HE41\"");
    EXPECT_EQ(cospot({"rename", "silica", "silica"}).code, kDone); // back
    EXPECT_HOLDS(unwrapped(cospot({"show", "silica"}).out), "Formerly called  silica-HE41");
}

TEST_F(RenameTest, ANameThatSomethingElseHasIsRefusedWithBoth) {
    const std::string compound = refused({"rename", "anisol", "Ethanol"});
    EXPECT_HOLDS(compound, "\"anisol\" (Oc1ccccc1, ISWSIDIOOBJBQZ-UHFFFAOYSA-N)");
    EXPECT_HOLDS(compound, "\"ethanol\" (CCO, LFQSCWFLJHTTHZ-UHFFFAOYSA-N)");
    EXPECT_HOLDS(refused({"rename", "anisol", "SILICA"}), "system \"silica\" (");
    EXPECT_HOLDS(refused({"rename", "silica", "alumina"}), "system \"alumina\" (");
    EXPECT_HOLDS(refused({"rename", "silica", "ethanol"}), "compound \"ethanol\" (CCO");
    EXPECT_HOLDS(refused({"rename", "ethanol", "100-66-3"}), "compound \"anisol\"");
}

TEST_F(RenameTest, WrongUseIsAnErrorAndChangesNothing) {
    EXPECT_HOLDS(refused({"rename"}), "no name");
    EXPECT_HOLDS(refused({"rename", "anisol"}), "no new name");
    EXPECT_HOLDS(refused({"rename", "anisol", " "}), "empty new name");
    EXPECT_HOLDS(refused({"rename", "anisl", "x"}), "did you mean \"anisol\"?");
    EXPECT_HOLDS(refused({"rename", "anisol", "anisol"}), "the name that it has");
    EXPECT_HOLDS(refused({"rename", "anisol", "ani\xE2\x80\x8Bsole"}), "cannot be seen");
    EXPECT_HOLDS(refused({"rename", "silica", "sil\x1bica"}), "cannot be seen");
    EXPECT_HOLDS(refused({"rename", "anisol", "unlisted"}), "the name of a compound");
    EXPECT_HOLDS(refused({"rename", "ethanol", "x", "--system"}), "ethanol");
    EXPECT_HOLDS(refused({"rename", "anisol", "--smiles", "COc1ccccc1"}), "without a reason");
    EXPECT_HOLDS(refused({"rename", "anisol", "--smiles", "C1CC(", "--reason", "x"}), "--smiles");
    EXPECT_HOLDS(refused({"rename", "silica", "--smiles", "C", "--reason", "x"}), "structure");
    EXPECT_HOLDS(refused({"rename", "anisol", "--smiles", "Oc1ccccc1", "--reason", "x"}),
                 "the structure that \"anisol\" has");
}

TEST_F(RenameTest, WhereANameIsBothTheUserSaysWhichIsMeant) {
    cospot({"learn", "--create-systems",
            file("w.csv", "compound,smiles,system,quantity,value\nsilica,O=[Si]=O,silica,Rf,0\n")});
    EXPECT_HOLDS(refused({"rename", "silica", "x"}), "both a system and the compound");
    EXPECT_EQ(cospot({"rename", "silica", "plates", "--system"}).code, kDone);
    EXPECT_EQ(compound("plates")["system"], "plates");
    EXPECT_HOLDS(library_content(), "\"compound\":\"silica\"");
}

TEST_F(RenameTest, AWrongStructureIsCorrectedAndTheValuesStay) {
    (void)cospot({"predict", "anisol", "--system", "silica"}); // keeps fits
    const Outcome outcome = cospot({"rename", "anisol", "anisole", "--smiles", "COc1ccccc1",
                                    "--reason", "the supplier's sheet showed phenol"});
    EXPECT_EQ(outcome.code, kDone) << outcome.err;
    expect_fits_screen(outcome.out);
    EXPECT_HOLDS(unwrapped(outcome.out), "registry number 100-66-3 stays");
    const auto json = compound("anisole");
    EXPECT_EQ(json["inchikey"], "RDOXTESZEPMUJZ-UHFFFAOYSA-N");
    EXPECT_EQ(json["formula"], "C7H8O");
    EXPECT_NEAR(json["average_mass"].get<double>(), 108.14, 0.01);
    EXPECT_EQ(json["values"], 2);
    EXPECT_EQ(json["hydrogen_bond_donors"], 0); // described anew
    EXPECT_HOLDS(cospot({"show", "anisole"}).out, "ISWSIDIOOBJBQZ-UHFFFAOYSA-N");
    const auto found = cospot({"--json", "identify",
                               file("u.csv", "sample,feature,system,quantity,value\n"
                                             "a,A,silica,Rf,0.61\n")})
                           .lines()
                           .at(0);
    EXPECT_EQ(found["candidates"][0]["inchikey"], "RDOXTESZEPMUJZ-UHFFFAOYSA-N");
}

TEST_F(RenameTest, ACorrectedLibraryAnswersAsOneThatNeverWasWrong) {
    cospot({"rename", "anisol", "--smiles", "COc1ccccc1", "--reason", "x"});
    const std::string other = path("other.db");
    std::string rows = content("v.csv");
    for (std::size_t at = 0; (at = rows.find("c1ccc(O)cc1")) != std::string::npos;) {
        rows.replace(at, 11, "COc1ccccc1");
    }
    cospot({"--library", other, "init"});
    cospot({"--library", other, "learn", "--create-systems", file("right.csv", rows)});
    const std::string table = file("u.csv", "sample,feature,system,quantity,value\n"
                                            "a,A,silica,Rf,0.61\n");
    EXPECT_EQ(cospot({"--json", "identify", table}).out,
              cospot({"--library", other, "--json", "identify", table}).out);
    EXPECT_EQ(cospot({"--json", "predict", "toluene", "CCCO"}).out,
              cospot({"--library", other, "--json", "predict", "toluene", "CCCO"}).out);
}

TEST_F(RenameTest, AStructureOfAnotherCompoundIsRefusedWithBoth) {
    const std::string said =
        refused({"rename", "anisol", "--smiles", "OCC", "--reason", "mixed up"});
    EXPECT_HOLDS(said, "\"anisol\" (Oc1ccccc1");
    EXPECT_HOLDS(said, "\"ethanol\" (CCO");
}

TEST_F(RenameTest, ACorrectedStructureDoesNotComeBackWithTheOldTable) {
    cospot({"rename", "anisol", "--smiles", "COc1ccccc1", "--reason", "the sheet showed phenol"});
    const std::string said = on_one_line(refused({"learn", path("v.csv")}));
    EXPECT_HOLDS(said, "v.csv:2, column smiles: found \"c1ccc(O)cc1\" for \"anisol\"");
    EXPECT_HOLDS(said, "corrected to \"COc1ccccc1\" at 2");
    EXPECT_HOLDS(said, "the sheet showed phenol");
    EXPECT_HOLDS(said, "--accept");
    // The other rows can be learned; under another name it is another compound.
    const Outcome partial = cospot({"learn", path("v.csv"), "--partial"});
    EXPECT_EQ(partial.code, kNeedsAttention) << partial.err;
    EXPECT_HOLDS(partial.err, "2 rows refused");
    EXPECT_EQ(cospot({"learn", file("p.csv", "compound,smiles\nphenol,c1ccc(O)cc1\n")}).code,
              kDone);
    EXPECT_EQ(compound("phenol")["inchikey"], "ISWSIDIOOBJBQZ-UHFFFAOYSA-N");
}

TEST_F(RenameTest, TheOldStructureComesBackWhereTheUserAcceptsIt) {
    cospot({"rename", "anisol", "--smiles", "COc1ccccc1", "--reason", "x"});
    const Outcome outcome = cospot({"learn", path("v.csv"), "--accept"});
    EXPECT_EQ(outcome.code, kDone) << outcome.err;
    EXPECT_HOLDS(outcome.err, "! anisol: this structure was corrected in the library");
}

TEST_F(RenameTest, ARetiredCompoundLeavesTheNameToTheOneInUse) {
    cospot({"rename", "anisol", "--smiles", "COc1ccccc1", "--reason", "x"});
    cospot({"learn", path("v.csv"), "--accept"});
    EXPECT_HOLDS(refused({"show", "anisol"}), "a name of 2 structures");
    const std::string wrong = "ISWSIDIOOBJBQZ-UHFFFAOYSA-N";
    ASSERT_EQ(cospot({"retire", "--compound", wrong, "--reason", "wrong drawing"}).code, kDone);
    EXPECT_EQ(compound("anisol")["smiles"], "COc1ccccc1");
    EXPECT_EQ(compound(wrong)["smiles"], "Oc1ccccc1"); // by its key it is found all the same
    EXPECT_EQ(cospot({"rename", "ethanol", "anisol"}).code, kBadInput);
    EXPECT_EQ(cospot({"retire", "--undo", "--compound", "anisol", "--reason", "back"}).code, kDone);
    EXPECT_HOLDS(refused({"show", "anisol"}), "a name of 2 structures");
}

TEST_F(RenameTest, OfTwoWithOneNameTheOldNameFindsTheOther) {
    cospot({"rename", "anisol", "--smiles", "COc1ccccc1", "--reason", "x"});
    cospot({"learn", path("v.csv"), "--accept"});
    const Outcome outcome = cospot({"rename", "ISWSIDIOOBJBQZ-UHFFFAOYSA-N", "phenol"});
    EXPECT_EQ(outcome.code, kDone) << outcome.err;
    EXPECT_HOLDS(on_one_line(outcome.out), "the old name finds \"anisol\" (COc1ccccc1");
    EXPECT_EQ(compound("anisol")["smiles"], "COc1ccccc1");
    EXPECT_EQ(compound("phenol")["smiles"], "Oc1ccccc1");
}

TEST_F(RenameTest, AMergeKnowsASystemByItsFormerNameAndReportsCorrectedStructures) {
    const std::string other = path("other.db");
    std::filesystem::copy_file(folder_ / "library.db", other);
    cospot({"--library", other, "rename", "silica", "plates"});
    cospot({"rename", "anisol", "--smiles", "COc1ccccc1", "--reason", "x"});
    const Outcome outcome = cospot({"--json", "merge", other});
    EXPECT_EQ(outcome.code, kNeedsAttention) << outcome.err;
    EXPECT_HOLDS(outcome.out, "corrected here");
    EXPECT_EQ(cospot({"--json", "list", "systems"}).lines().size(), 2U);
    EXPECT_HOLDS(cospot({"show", "plates"}).out, "Formerly called");
    EXPECT_EQ(compound("ethanol")["values"], 2);
}

TEST_F(RenameTest, TwoProcessesCannotTakeTheSameName) {
    SpawnedProgram first({"--library", path("library.db"), "rename", "anisol", "taken"},
                         folder_ / "first.err");
    SpawnedProgram second({"--library", path("library.db"), "rename", "ethanol", "taken"},
                          folder_ / "second.err");
    const int one = first.wait();
    const int two = second.wait();
    EXPECT_EQ(one + two, kDone + kBadInput) << first.messages() << second.messages();
    EXPECT_EQ(compound("taken")["compound"], "taken");
}

TEST_F(RenameTest, ALibraryThatCannotBeWrittenStaysAsItIs) {
    const library::ReadOnlyFolder read_only(folder_ / "");
    EXPECT_EQ(cospot({"rename", "anisol", "anisole"}).code, kBadInput);
    EXPECT_EQ(compound("anisol")["compound"], "anisol");
}

} // namespace
} // namespace cospot
