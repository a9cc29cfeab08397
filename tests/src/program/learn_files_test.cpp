// The other kinds of file that learn reads, and its modes.
#include "program_fixture.h"

#include <algorithm>

namespace cospot {
namespace {

class LearnFilesTest : public ProgramTest {
protected:
    LearnFilesTest() {
        const Outcome learned = cospot(
            {"learn", "--systems",
             file("systems.csv", "system,technique,mobile_phase,scale,programme\n"
                                 "silica,tlc,hexane:ethyl acetate 3:1,,\n"
                                 "ramp,gc,helium,n-alkane,\"50 C, 5 C/min\"\n"),
             file("compounds.csv", "compound,smiles,cas\nvanillin,COc1cc(C=O)ccc1O,121-33-5\n"
                                   "linalool,CC(C)=CCCC(C)(O)C=C,78-70-6\n")});
        EXPECT_EQ(learned.code, kDone) << learned.err;
    }

    std::vector<nlohmann::json> values_of(const std::string &compound,
                                          std::vector<std::string> options = {}) const {
        options.insert(options.begin(), {"--json", "show", compound});
        auto lines = cospot(std::move(options)).lines();
        lines.erase(lines.begin());
        return lines;
    }
    nlohmann::json learn(std::vector<std::string> arguments, int code = kDone) const {
        arguments.insert(arguments.begin(), {"--json", "learn"});
        const Outcome outcome = cospot(std::move(arguments));
        EXPECT_EQ(outcome.code, code) << outcome.err;
        return outcome.lines().at(0);
    }
};

TEST_F(LearnFilesTest, PlateOfStandardsIsOneCommand) {
    const auto summary =
        learn({"--system", "silica", "--run", "P7", "--date", "2026-02-03", "--operator", "group A",
               file("plate.csv", "lane,label,spot,distance_mm,front_mm,role\n"
                                 "1,vanillin,1,16,80,standard\n"
                                 "2,linalool,1,32,80,standard\n"
                                 "3,unknown,1,50,80,sample\n")});
    EXPECT_EQ(summary["values_added"], 2);
    const auto values = values_of("vanillin");
    ASSERT_EQ(values.size(), 1U);
    EXPECT_DOUBLE_EQ(values[0]["value"], 0.2);
    EXPECT_EQ(values[0]["run"], "P7");
    EXPECT_EQ(values[0]["operator"], "group A");
    EXPECT_GT(values[0]["uncertainty"], 0.005);
}

TEST_F(LearnFilesTest, ChromatogramWithLadderIsOneCommand) {
    const auto summary =
        learn({"--system", "ramp", "--ladder",
               file("ladder.csv", "carbon,tR\n10,8\n11,10\n12,12\n"), "--date", "2026-02-03",
               file("run7.csv", "peak,tR,compound\n1,9.94,linalool\n2,11.5,\n3,20,vanillin\n")});
    EXPECT_EQ(summary["values_added"], 1);
    EXPECT_NE(summary["remarks"].dump().find("vanillin is not learned"), std::string::npos);
    const auto values = values_of("linalool");
    ASSERT_EQ(values.size(), 1U);
    EXPECT_NEAR(values[0]["value"], 1097.0, 1e-6);
    EXPECT_EQ(values[0]["run"], "run7");
    library::Database database =
        library::open_library(folder_ / "library.db", library::Access::read);
    library::Statement ladder = database.prepare(
        "SELECT count(*) FROM ladder_member JOIN run ON run.id = run_id WHERE run.name = 'run7'");
    ASSERT_TRUE(ladder.step());
    EXPECT_EQ(ladder.integer(0), 3);
}

TEST_F(LearnFilesTest, RawRunWithoutKnownStandardsIsRefused) {
    EXPECT_EQ(cospot({"learn", "--system", "silica",
                      file("plate.csv", "lane,label,spot,distance_mm,front_mm,role\n"
                                        "1,flask,1,16,80,sample\n")})
                  .code,
              kBadInput);
    EXPECT_EQ(cospot({"learn", "--system", "silica",
                      file("plate2.csv", "lane,label,spot,distance_mm,front_mm,role\n"
                                         "1,nobody,1,16,80,standard\n")})
                  .code,
              kBadInput);
}

TEST_F(LearnFilesTest, SmilesListAndNamesMapped) {
    EXPECT_EQ(learn({file("list.smi",
                          "# a comment\nCCO ethanol\n\nCC(C)=O\tacetone\n")})["compounds_added"],
              2);
    EXPECT_EQ(cospot({"learn", file("bad.smi", "CCO\n")}).code, kBadInput);
    const auto summary =
        learn({"--map", "compound=Name", "--map", "smiles=Structure", "--map", "value=R_F",
               file("other.csv", "Name;Structure;system;quantity;R_F;colour\n"
                                 "anisole;COc1ccccc1;silica;Rf;0.7;none\n")});
    EXPECT_EQ(summary["values_added"], 1);
    EXPECT_NE(summary["remarks"].dump().find("colour"), std::string::npos);
    EXPECT_EQ(cospot({"learn", "--map", "nonsense", file("x.csv", "a\n")}).code, kBadInput);
}

TEST_F(LearnFilesTest, DryRunStoresNothing) {
    const std::string before = library_content();
    const auto summary = learn({"--dry-run", file("more.smi", "CCO ethanol\n")});
    EXPECT_EQ(summary["compounds_added"], 1);
    EXPECT_EQ(summary["dry_run"], true);
    EXPECT_EQ(library_content(), before);
}

TEST_F(LearnFilesTest, PartialKeepsGoodRowsAndWritesTheOthers) {
    const std::string rows = file("rows.csv", "compound,smiles,system,quantity,value\n"
                                              "vanillin,,silica,Rf,0.2\n"
                                              "ghost,C(,silica,Rf,0.3\n"
                                              "vanillin,,nowhere,Rf,0.2\n"
                                              "vanillin,,silica,Rf,abc\n"
                                              "vanillin,,silica,Rf\n"
                                              "linalool,,silica,Rf,0.5\n");
    const auto summary = learn({"--partial", rows}, kNeedsAttention);
    EXPECT_EQ(summary["values_added"], 2);
    EXPECT_EQ(summary["rows_refused"], 4);
    std::ifstream in(rows + ".refused.csv");
    std::vector<std::string> lines;
    for (std::string line; std::getline(in, line);) {
        lines.push_back(line);
    }
    ASSERT_EQ(lines.size(), 5U);
    EXPECT_EQ(lines[0], "compound,smiles,system,quantity,value,refused");
    EXPECT_NE(lines[1].find("rows.csv:3, column smiles"), std::string::npos) << lines[1];
    EXPECT_NE(lines[4].find("rows.csv:6"), std::string::npos) << lines[4];
    // The refused rows of an earlier call are not lost.
    EXPECT_EQ(cospot({"learn", "--partial", rows}).code, kBadInput);
}

TEST_F(LearnFilesTest, CorrectionSupersedesAndKeepsTheOldValue) {
    const std::string head = "compound,smiles,system,quantity,value,run\n";
    learn({file("first.csv", head + "vanillin,,silica,Rf,0.82,p1\n")});
    const auto summary =
        learn({"--correct", file("second.csv", head + "vanillin,,silica,Rf,0.28,p1\n")});
    EXPECT_EQ(summary["values_corrected"], 1);
    ASSERT_EQ(values_of("vanillin").size(), 1U);
    EXPECT_DOUBLE_EQ(values_of("vanillin")[0]["value"], 0.28);
    const auto all = values_of("vanillin", {"--all"});
    ASSERT_EQ(all.size(), 2U);
    EXPECT_EQ(std::count_if(all.begin(), all.end(),
                            [](const auto &value) { return value["state"] == "superseded"; }),
              1);
    EXPECT_EQ(cospot({"learn", "--correct",
                      file("third.csv", head + "vanillin,,silica,Rf,0.3,other run\n")})
                  .code,
              kBadInput);
}

TEST_F(LearnFilesTest, WhatIsUnchangedIsNotCorrected) {
    const std::string head = "compound,smiles,system,quantity,value,run,uncertainty,source,note\n";
    const std::string first = "vanillin,,silica,Rf,0.82,p1,0.01,bench,lane 2\n"
                              "vanillin,,silica,Rf,0.27,p2,,,\n";
    const std::string two = "vanillin,,silica,Rf,0.29,p3,,,\nvanillin,,silica,Rf,0.31,p3,,,\n";
    learn({file("first.csv", head + first + two)});
    const auto values = values_of("vanillin", {"--all"});
    for (int i = 0; i < 2; ++i) {
        const Outcome again = cospot({"learn", "--correct", path("first.csv")});
        EXPECT_EQ(again.code, kDone) << again.err;
        EXPECT_HOLDS(again.out, "Values         0              4\n");
        EXPECT_EQ(again.out.find("Corrected"), std::string::npos);
        EXPECT_EQ(values_of("vanillin", {"--all"}), values);
    }
    // A value is corrected where it says anything else.
    for (const char *row : {"0.81,p1,0.01,bench,lane 2\n", "0.81,p1,0.02,bench,lane 2\n",
                            "0.81,p1,0.02,,lane 2\n", "0.81,p1,,,lane 3\n"}) {
        const std::string mended = file("mended.csv", head + "vanillin,,silica,Rf," + row);
        EXPECT_EQ(learn({"--correct", mended})["values_corrected"], 1) << row;
    }
    // Of two values of a run no second row may stand for the same one.
    const std::string twice = file("twice.csv", head + "vanillin,,silica,Rf,0.29,p3,,,\n"
                                                       "vanillin,,silica,Rf,0.29,p3,,,\n");
    const Outcome refused = cospot({"learn", "--correct", twice});
    EXPECT_EQ(refused.code, kBadInput);
    EXPECT_HOLDS(refused.err, "twice.csv:3, column value: found 2 values of vanillin in run p3");
}

TEST_F(LearnFilesTest, ATableWithoutRowsIsLearnedWithARemark) {
    for (const char *header : {"compound,smiles,system,quantity,value\n", "compound,smiles\n",
                               "compound,relative_to,system,response_factor\n"}) {
        const Outcome outcome = cospot({"learn", file("empty.csv", header)});
        EXPECT_EQ(outcome.code, kDone) << outcome.err;
        EXPECT_HOLDS(outcome.out, "Values         0 ");
        EXPECT_HOLDS(outcome.err, "empty.csv: no rows, so nothing was learned from it");
    }
    const Outcome systems = cospot({"learn", "--systems", file("s.csv", "system,technique\n")});
    EXPECT_EQ(systems.code, kDone) << systems.err;
    EXPECT_HOLDS(systems.err, "s.csv: no rows");
}

TEST_F(LearnFilesTest, SameFileTwiceInOneCommandIsStoredOnce) {
    const std::string rows =
        file("rows.csv", "compound,smiles,system,quantity,value\nvanillin,,silica,Rf,0.2\n"
                         "vanillin,,silica,Rf,0.2\n");
    const auto summary = learn({rows, rows});
    EXPECT_EQ(summary["values_added"], 2);
    EXPECT_EQ(summary["values_known"], 2);
    EXPECT_NE(summary["remarks"].dump().find("neither run nor date"), std::string::npos);
}

TEST_F(LearnFilesTest, QuantityMustFitTheTechnique) {
    const auto refused = [&](const std::string &row) {
        const Outcome outcome = cospot(
            {"learn", file("bad.csv", "compound,smiles,system,quantity,value\n" + row + "\n")});
        EXPECT_EQ(outcome.code, kBadInput);
        EXPECT_NE(outcome.err.find("column quantity"), std::string::npos) << outcome.err;
    };
    refused("vanillin,,silica,RI,1200");
    refused("vanillin,,ramp,Rf,0.3");
}

TEST_F(LearnFilesTest, RelativesAreReportedAndKeptApart) {
    const auto summary =
        learn({file("kin.smi", "C[C@H](N)C(=O)O L-alanine\n"
                               "C[C@@H](N)C(=O)O D-alanine\n"
                               "CC(N)C(=O)O alanine\n"
                               "CNC[C@H](O)c1ccccc1 halostachine\n"
                               "CNC[C@H](O)c1ccccc1.Cl halostachine hydrochloride\n"
                               "CC(=O)CC(C)=O acetylacetone\n"
                               "CC(O)=CC(C)=O acetylacetone enol\n")});
    const std::string remarks = summary["remarks"].dump();
    EXPECT_NE(remarks.find("D-alanine and L-alanine: stereoisomers"), std::string::npos) << remarks;
    EXPECT_NE(remarks.find("one of them with stereo left open"), std::string::npos) << remarks;
    EXPECT_NE(remarks.find("halostachine hydrochloride and halostachine: salt and free form"),
              std::string::npos)
        << remarks;
    EXPECT_NE(remarks.find("tautomers"), std::string::npos) << remarks;
}

} // namespace
} // namespace cospot
