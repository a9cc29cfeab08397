#include "program_fixture.h"

#include "library/database.h"

#include <sqlite3.h>

#include <random>

namespace cospot {
namespace {

const char *const kSystems = "system,technique,stationary_phase,mobile_phase,scale,note\n"
                             "silica,tlc,silica gel,hexane:ethyl acetate 3:1,,\n"
                             "gc,gc,dimethylsilicone,helium,n-alkane,\n";

const char *const kValues = "compound,smiles,system,quantity,value,cas,run,date\n"
                            "vanillin,COc1cc(C=O)ccc1O,silica,Rf,0.30,121-33-5,p1,2024-01-05\n"
                            "vanillin,COc1cc(C=O)ccc1O,silica,Rf,0.32,121-33-5,p2,2024-02-05\n"
                            "naphthalene,c1ccc2ccccc2c1,gc,RI,1182,91-20-3,g1,2024-01-06\n";

class LearnTest : public ProgramTest {
protected:
    Outcome learn_demo() const {
        return cospot(
            {"learn", "--systems", file("systems.csv", kSystems), file("values.csv", kValues)});
    }

    /// Expects that learning these rows fails with `message` and leaves the library as it was.
    void expect_refused(const std::string &content, const std::string &message) const {
        const std::string before = library_content();
        const Outcome outcome = cospot({"learn", file("bad.csv", content)});
        EXPECT_EQ(outcome.code, kBadInput) << content;
        EXPECT_NE(outcome.err.find(message), std::string::npos) << outcome.err;
        EXPECT_EQ(library_content(), before);
    }
};

TEST_F(LearnTest, StoresCompoundsSystemsAndValues) {
    const Outcome outcome = learn_demo();
    EXPECT_EQ(outcome.code, kDone) << outcome.err;
    const auto compounds = cospot({"--json", "list"}).lines();
    ASSERT_EQ(compounds.size(), 2U);
    EXPECT_EQ(compounds[1]["compound"], "vanillin");
    // pubchem, read.
    EXPECT_EQ(compounds[1]["inchikey"], "MWOOGOJBHIARFG-UHFFFAOYSA-N");
    EXPECT_EQ(compounds[1]["formula"], "C8H8O3");
    EXPECT_EQ(compounds[1]["values"], 2);
    EXPECT_EQ(cospot({"--json", "list", "systems"}).lines().size(), 2U);
}

TEST_F(LearnTest, DescribesWhatItLearns) {
    learn_demo();
    const auto shown = cospot({"--json", "show", "vanillin"}).lines().at(0);
    // Polar surface of vanillin: 46.53, P. Ertl's contributions (CHO 17.07, OCH3 9.23, OH 20.23).
    EXPECT_NEAR(shown["tpsa"].get<double>(), 46.53, 0.01);
    EXPECT_EQ(shown["hydrogen_bond_donors"], 1);
    EXPECT_EQ(shown["groups"]["phenol"], 1);
    const std::string text = cospot({"show", "vanillin"}).out;
    EXPECT_NE(text.find("Polar surface      47 Å²"), std::string::npos) << text;
    EXPECT_NE(text.find("alkyl aryl ether"), std::string::npos) << text;
}

TEST_F(LearnTest, DescribesWhatAnOlderProgramLearned) {
    learn_demo();
    {
        library::Database database(folder_ / "library.db", library::Access::write);
        database.execute("DELETE FROM description; DELETE FROM compound_group");
    }
    EXPECT_FALSE(cospot({"--json", "show", "vanillin"}).lines().at(0).contains("tpsa"));
    cospot({"learn", file("values.csv", kValues)});
    EXPECT_TRUE(cospot({"--json", "show", "vanillin"}).lines().at(0).contains("tpsa"));
}

TEST_F(LearnTest, LearningAgainAddsNothing) {
    learn_demo();
    const std::string before = library_content();
    const Outcome again = cospot({"--json", "learn", file("values.csv", kValues)});
    EXPECT_EQ(again.code, kDone);
    EXPECT_EQ(again.lines().at(0)["values_added"], 0);
    EXPECT_EQ(again.lines().at(0)["values_known"], 3);
    EXPECT_EQ(library_content(), before);
}

TEST_F(LearnTest, SameStructureUnderAnotherNameIsOneCompound) {
    learn_demo();
    const Outcome outcome = cospot(
        {"learn", file("more.csv", "compound,smiles,system,quantity,value\n"
                                   "vanillic aldehyde,O=Cc1ccc(O)c(OC)c1,silica,Rf,0.31\n")});
    EXPECT_EQ(outcome.code, kDone);
    EXPECT_NE(outcome.err.find("same structure as vanillin"), std::string::npos);
    EXPECT_EQ(cospot({"--json", "list"}).lines().size(), 2U);
    EXPECT_EQ(cospot({"--json", "show", "vanillic aldehyde"}).lines().at(0)["compound"],
              "vanillin");
}

TEST_F(LearnTest, SameNameForAnotherStructureIsReportedAndKeptApart) {
    learn_demo();
    const Outcome outcome =
        cospot({"learn", file("more.csv", "compound,smiles,system,quantity,value\n"
                                          "vanillin,CCO,silica,Rf,0.31\n")});
    EXPECT_EQ(outcome.code, kDone);
    EXPECT_NE(outcome.err.find("stands for another structure too"), std::string::npos);
    EXPECT_EQ(cospot({"--json", "list"}).lines().size(), 3U);
}

TEST_F(LearnTest, UnknownSystemIsAnErrorUnlessAskedFor) {
    learn_demo();
    const std::string rows = "compound,smiles,system,quantity,value\nvanillin,,new,Rf,0.5\n";
    expect_refused(rows, "bad.csv:2, column system: found \"new\"");
    EXPECT_EQ(cospot({"learn", "--create-systems", file("new.csv", rows)}).code, kDone);
    EXPECT_EQ(cospot({"--json", "list", "systems"}).lines().size(), 3U);
}

TEST_F(LearnTest, BadInputNamesThePlaceAndStoresNothing) {
    learn_demo();
    const std::string head =
        "compound,smiles,system,quantity,value\nbenzene,c1ccccc1,silica,Rf,0.8\n";
    expect_refused("compound,smiles,quantity,value\n", "bad.csv:1, column system");
    expect_refused(head + "x,CCO,silica,Rf,abc\n", "bad.csv:3, column value: found \"abc\"");
    expect_refused(head + "x,CCO,silica,Rf,\"0,5\"\n", "decimal comma");
    expect_refused(head + "x,CCO,silica,Rf,1.4\n", "bad.csv:3, column value: found 1.4");
    expect_refused(head + "x,CCO,silica,k,-2\n", "column value: found -2");
    expect_refused(head + "x,CCO,silica,tR,-2\n", "column value: found -2");
    expect_refused(head + "x,CCO,silica,hRf,20\n", "column quantity: found \"hRf\"");
    expect_refused(head + "x,C1CC,silica,Rf,0.5\n", "bad.csv:3, column smiles");
    expect_refused(head + "x,C(C)(C)(C)(C)C,silica,Rf,0.5\n", "bad.csv:3, column smiles");
    expect_refused(head + ",CCO,silica,Rf,0.5\n", "bad.csv:3, column compound: found nothing");
    expect_refused(head + "unlisted,CCO,silica,Rf,0.5\n", "column compound");
    expect_refused("", "bad.csv:1: found an empty file");
    expect_refused(head + "x,CCO,silica,Rf\n", "bad.csv:3: found 4 fields");
    expect_refused("compound,smiles,system,quantity,value,cas\nx,CCO,silica,Rf,0.5,64-17-4\n",
                   "check digit is 5");
    expect_refused("compound,smiles,system,quantity,value,date\nx,CCO,silica,Rf,0.5,5/1/2024\n",
                   "column date");
    expect_refused("compound,smiles,system,quantity,value,uncertainty\nx,CCO,silica,Rf,0.5,0\n",
                   "column uncertainty");
}

TEST_F(LearnTest, TenMegabytesOfNoiseAreRefused) {
    learn_demo();
    std::mt19937 engine(1);
    std::string noise(10'000'000, ' ');
    for (char &c : noise) {
        c = static_cast<char>(engine() & 0xFFU);
    }
    expect_refused(noise, "bad.csv:1");
    expect_refused(std::string(10'000'000, 'a'), "more than 1 MiB");
}

TEST_F(LearnTest, ByteOrderMarkAndWindowsLineEndsAreFine) {
    learn_demo();
    const Outcome outcome =
        cospot({"learn", file("windows.csv", "\xEF\xBB\xBF"
                                             "compound;smiles;system;quantity;value\r\n"
                                             "benzene;c1ccccc1;silica;Rf;0.8\r\n")});
    EXPECT_EQ(outcome.code, kDone) << outcome.err;
    EXPECT_EQ(cospot({"--json", "list"}).lines().size(), 3U);
}

TEST_F(LearnTest, ReadsStandardInput) {
    learn_demo();
    EXPECT_EQ(cospot({"learn", "-"}, "compound,smiles,system,quantity,value\n"
                                     "benzene,c1ccccc1,silica,Rf,0.8\n")
                  .code,
              kDone);
    EXPECT_EQ(cospot({"--json", "list"}).lines().size(), 3U);
}

TEST_F(LearnTest, OtherConditionsUnderAKnownNameAreRefused) {
    learn_demo();
    const std::string before = library_content();
    const Outcome outcome = cospot({"learn", "--systems",
                                    file("other.csv", "system,technique,mobile_phase\n"
                                                      "silica,tlc,hexane:ethyl acetate 1:1\n")});
    EXPECT_EQ(outcome.code, kBadInput);
    EXPECT_NE(outcome.err.find("other conditions are another system"), std::string::npos);
    EXPECT_EQ(library_content(), before);
}

TEST_F(LearnTest, UnstatedConditionsAreFilledIn) {
    learn_demo();
    const Outcome outcome = cospot({"learn", "--systems",
                                    file("more.csv", "system,technique,programme,film_um\n"
                                                     "gc,gc,isothermal 120 C,0.25\n")});
    EXPECT_EQ(outcome.code, kDone) << outcome.err;
    const auto systems = cospot({"--json", "list", "systems"}).lines();
    EXPECT_EQ(systems.at(0)["programme"], "isothermal 120 C");
    EXPECT_EQ(systems.at(0)["film_um"], 0.25);
    EXPECT_EQ(systems.at(0)["scale"], "n-alkane");
}

TEST_F(LearnTest, FaultySystemsAreRefused) {
    const auto learn = [&](const std::string &content) {
        return cospot({"learn", "--systems", file("bad.csv", content)});
    };
    EXPECT_NE(learn("system,technique\nx,magic\n").err.find("column technique"), std::string::npos);
    EXPECT_NE(learn("system,technique,scale\nx,gc,miles\n").err.find("column scale"),
              std::string::npos);
    EXPECT_NE(learn("system,technique\nx,gc\nx,gc\n").err.find("each system once"),
              std::string::npos);
    EXPECT_NE(learn("system,technique,mobile_phase\nx,tlc,a:b 3:1:1\n").err.find("mobile_phase"),
              std::string::npos);
    EXPECT_TRUE(cospot({"--json", "list", "systems"}).lines().empty());
}

TEST_F(LearnTest, AskingForNothingIsAUsageError) {
    EXPECT_EQ(cospot({"learn"}).code, kBadInput);
    EXPECT_EQ(cospot({"learn", "none.csv"}).code, kBadInput);
    EXPECT_EQ(cospot({"learn", "--nonsense"}).code, kBadInput);
    EXPECT_EQ(cospot({"unknown-verb"}).code, kBadInput);
    EXPECT_EQ(cospot({}).code, kBadInput);
}

} // namespace
} // namespace cospot
