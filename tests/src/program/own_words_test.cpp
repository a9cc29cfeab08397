// Sheets whose cells hold the words of a laboratory, and standards with all that is known of them
// in one table. All values are invented.
#include "program_fixture.h"

namespace cospot {
namespace {

class OwnWords : public ProgramTest {
protected:
    OwnWords() {
        const Outcome learned = cospot(
            {"learn", "--systems",
             file("s.csv", "system,technique,stationary_phase,mobile_phase,reference\n"
                           "silica,tlc,silica gel,hexane:ethyl acetate 3:1,\n"
                           "c18,hplc,C18,water:methanol 1:1,\n"),
             file("c.csv", "compound,smiles\nvanillin,COc1cc(C=O)ccc1O\nanisole,COc1ccccc1\n")});
        EXPECT_EQ(learned.code, kDone) << learned.err;
    }
};

TEST_F(OwnWords, AStandardBringsItsStructureAlong) {
    const Outcome run =
        cospot({"learn", "--system", "c18",
                file("run.csv", "compound,smiles,cas,tR\ntoluene,Cc1ccccc1,108-88-3,4.2\n")});
    EXPECT_EQ(run.code, kDone) << run.err;
    EXPECT_HOLDS(cospot({"show", "108-88-3"}).out, "4.2");
    const Outcome plate = cospot({"learn", "--system", "silica",
                                  file("plate.csv", "lane,label,role,smiles,distance_mm,front_mm\n"
                                                    "1,phenol,standard,Oc1ccccc1,20,60\n")});
    EXPECT_EQ(plate.code, kDone) << plate.err;
    EXPECT_HOLDS(cospot({"show", "phenol"}).out, "Rf 0.33  plate");
    const Outcome wrong = cospot(
        {"learn", "--system", "c18", file("w.csv", "compound,cas,tR\ntoluene,108-88-4,4.2\n")});
    EXPECT_EQ(wrong.code, kBadInput);
    EXPECT_HOLDS(wrong.err, "w.csv:2, column cas");
}

TEST_F(OwnWords, AllStandardsWithoutAStructureAreNamed) {
    const Outcome run = cospot(
        {"learn", "--system", "c18", file("run.csv", "compound,tR\nxylene,4.2\ncumene,5.2\n")});
    EXPECT_EQ(run.code, kBadInput);
    EXPECT_HOLDS(run.err, "\"xylene\" without a structure");
    EXPECT_HOLDS(run.err, "\"cumene\" without a structure");
}

TEST_F(OwnWords, TheCallSaysTheSystemAndRunOfATableOfValues) {
    const std::string values = file("v.csv", "compound,Rf\nanisole,0.62\n");
    const Outcome without = cospot({"learn", values});
    EXPECT_EQ(without.code, kBadInput);
    EXPECT_HOLDS(without.err, "or --system NAME for all values of the table");
    const Outcome learned =
        cospot({"learn", "--system", "silica", "--date", "2026-03-02", "--run", "day 2", values});
    EXPECT_EQ(learned.code, kDone) << learned.err;
    EXPECT_HOLDS(cospot({"export", "values"}).out, "day 2,2026-03-02");
    const Outcome contrary = cospot(
        {"learn", "--system", "silica", file("w.csv", "compound,system,Rf\nanisole,c18,0.62\n")});
    EXPECT_EQ(contrary.code, kBadInput);
    EXPECT_HOLDS(contrary.err, "w.csv:2, column system: found \"c18\"");
    const Outcome elsewhere = cospot({"learn", "--correct", "--system", "silica", "--date",
                                      "2026-03-02", "--run", "day 3", values});
    EXPECT_EQ(elsewhere.code, kBadInput);
    EXPECT_HOLDS(elsewhere.err, "the library holds one in run day 2 of 2026-03-02");
}

TEST_F(OwnWords, AColumnNamedByAReagentSaysWhatItStained) {
    const auto plate = [&](const std::string &header, const std::string &cell) {
        return file("p.csv", "lane,label,role,distance_mm,front_mm," + header +
                                 "\n1,A,sample,20,60," + cell + "\n2,vanillin,standard,20,60,\n");
    };
    const Outcome named = cospot(
        {"identify", "--system", "silica", "--map", "stained=KMnO4", plate("KMnO4", "strong")});
    EXPECT_HOLDS(named.out, "stained by potassium permanganate");
    const Outcome open = cospot({"identify", "--system", "silica", plate("stained", "yes")});
    EXPECT_EQ(open.code, kBadInput);
    EXPECT_HOLDS(open.err, "--stain NAME says it for all rows");
    const Outcome said =
        cospot({"identify", "--system", "silica", "--stain", "ninhydrin", plate("stained", "yes")});
    EXPECT_HOLDS(said.out, "stained by ninhydrin");
}

TEST_F(OwnWords, FaultsThatDifferByTheirLinesAreToldOnce) {
    const Outcome refused =
        cospot({"identify", "--system", "silica",
                file("p.csv", "lane,label,distance_mm,front_mm,uv254\n1,A,20,60,stark\n"
                              "1,A,30,60,yes\n1,A,40,60,stark\n2,B,20,60,stark\n")});
    EXPECT_EQ(refused.code, kBadInput);
    EXPECT_HOLDS(refused.err, "cospot: 3 faults");
    EXPECT_HOLDS(refused.err, "--map yes=\"stark\" says that it means yes (and in lines 4, 5)");
}

TEST_F(OwnWords, AWordOfAnyCellCanBeExplained) {
    const Outcome outcome =
        cospot({"identify", "--system", "silica", "--map", "flask + vanillin=Co",
                file("p.csv", "lane,label,role,distance_mm,front_mm\n"
                              "1,flask,sample,20,60\n"
                              "2,vanillin,standard,20,60\n"
                              "3,Co,cospot,20,60\n")});
    EXPECT_NE(outcome.code, kBadInput) << outcome.err;
    EXPECT_HOLDS(outcome.out, "they run together");
}

TEST_F(OwnWords, AFractionMayHaveSeveralReadingsInACellAndIntensitiesInWords) {
    const auto tubes = [&](const std::string &fourth) {
        return file("f.csv", "fraction;Rf;intensity\n1;-;-\n2;0,70;weak\n3;0,70 / 0,40;+\n4;0,40;" +
                                 fourth + "\n");
    };
    const Outcome pooled = cospot({"pool", "--map", "strong=stark", tubes("stark")});
    EXPECT_NE(pooled.code, kBadInput) << pooled.err;
    EXPECT_HOLDS(pooled.out, "A and B together");
    const Outcome mixed = cospot({"pool", tubes("30")});
    EXPECT_EQ(mixed.code, kBadInput);
    EXPECT_HOLDS(mixed.err, "f.csv:5, column intensity: found \"30\"");
}

} // namespace
} // namespace cospot
