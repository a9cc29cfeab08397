// What a slip or a foreign hand could make wrong without a word is refused or said.
#include "program_fixture.h"

#include "library/database.h"

#include <sys/stat.h>

#include <thread>

namespace cospot {
namespace {

class SilentFaultsTest : public ProgramTest {
protected:
    SilentFaultsTest() {
        learn_into(path("library.db"));
        cospot({"--library", other_, "init"});
        learn_into(other_);
    }

    void learn_into(const std::string &library) const {
        const Outcome learned = cospot(
            {"--library", library, "learn", "--systems",
             file("s.csv", "system,technique,stationary_phase,mobile_phase\n"
                           "silica,tlc,silica gel,hexane:ethyl acetate 3:1\n"),
             file("v.csv", "compound,smiles,system,quantity,value,run\n"
                           "ethanol,CCO,silica,Rf,0.30,p1\nbenzene,c1ccccc1,silica,Rf,0.80,p1\n"
                           "toluene,Cc1ccccc1,silica,Rf,0.82,p1\n")});
        EXPECT_EQ(learned.code, kDone) << learned.err;
    }

    void change(const std::string &library, const std::string &sql) const {
        library::Database(library, library::Access::write).execute(sql);
    }

    Outcome identify(const std::string &name, const std::string &content,
                     const std::vector<std::string> &options = {"--system", "silica"}) const {
        std::vector<std::string> arguments{"identify", file(name, content)};
        arguments.insert(arguments.end(), options.begin(), options.end());
        return cospot(arguments);
    }

    static void expect_refused(const Outcome &outcome, const std::string &place,
                               const std::string &found) {
        EXPECT_EQ(outcome.code, kBadInput) << outcome.out;
        EXPECT_NE(outcome.err.find(place), std::string::npos) << outcome.err;
        EXPECT_NE(outcome.err.find(found), std::string::npos) << outcome.err;
    }

    const std::string other_ = (folder_ / "other.db").string();
};

TEST_F(SilentFaultsTest, AMisspeltColumnIsRefusedAndAnUnknownOneNamed) {
    const std::string rows = "1,x,1,20,70,sample\n";
    expect_refused(identify("a.csv", "lane,label,spot,distance_mm,front_mm,rol\n" + rows),
                   "a.csv:1", "\"role\"");
    const Outcome named = identify("b.csv", "lane,label,spot,distance_mm,front_mm,colour\n" + rows);
    EXPECT_EQ(named.code, kDone) << named.err;
    EXPECT_NE(named.out.find("column \"colour\" is not used"), std::string::npos) << named.out;
    expect_refused(
        cospot({"learn", "--systems", file("c.csv", "system,technique,program\nramp,gc,50 C\n")}),
        "c.csv:1", "\"programme\"");
}

TEST_F(SilentFaultsTest, ASecondSpotInTheLaneOfAStandardIsNeverLearnedAsTheStandard) {
    const std::string plate = file("two.csv", "lane;label;distance (cm);front (cm);role\n"
                                              "a;toluene;5,6;7,0;\n"
                                              "co;ethanol;2,1;;\n"
                                              "co;;0,8;;\n");
    const std::vector<std::string> how{"--system", "silica", "--standards", "ethanol,toluene"};
    const auto with = [&](const std::string &verb, const std::vector<std::string> &more) {
        std::vector<std::string> arguments{verb, plate};
        arguments.insert(arguments.end(), how.begin(), how.end());
        arguments.insert(arguments.end(), more.begin(), more.end());
        return cospot(arguments);
    };
    for (const char *verb : {"learn", "identify"}) {
        expect_refused(with(verb, {}), "two.csv:4, column label",
                       "a second spot of standard \"ethanol\" in its lane (the first: line 3)");
    }
    EXPECT_EQ(cospot({"--json", "show", "ethanol"}).lines().at(0)["values"], 1);
    const Outcome partial = with("learn", {"--partial"});
    EXPECT_EQ(partial.code, kNeedsAttention) << partial.err;
    EXPECT_HOLDS(partial.err, "two.csv: lane co is left out");
    EXPECT_EQ(cospot({"--json", "show", "ethanol"}).lines().at(0)["values"], 1);
    EXPECT_EQ(cospot({"--json", "show", "toluene"}).lines().at(0)["values"], 2);
}

TEST_F(SilentFaultsTest, ContradictionsOfOnePlateAndOneFeatureAreRefused) {
    const std::string head = "lane,label,spot,distance_mm,front_mm\n";
    expect_refused(identify("a.csv", head + "1,x,1,20,70\n1,x,2,30,72\n"),
                   "a.csv:3, column front_mm", "70 mm as in line 2");
    expect_refused(identify("b.csv", head + "1,x,1,20,70\n1,y,2,30,70\n"), "b.csv:3, column label",
                   "one sample");
    expect_refused(identify("c.csv",
                            "sample,feature,system,quantity,value\n"
                            "x,1,silica,Rf,0.1\nx,1,silica,Rf,0.9\n",
                            {}),
                   "c.csv:3, column value", "0.10 of line 2");
}

TEST_F(SilentFaultsTest, RulesThatSayAThingTwiceAreRefusedWithTheLine) {
    const auto purity = [&](const std::string &name, const std::string &rules) {
        return cospot(
            {"purity", file("p.csv", "lane,label,spot,distance_mm,front_mm\n1,x,1,20,70\n"),
             "--system", "silica", "--declared", "ethanol", "--rules", file(name, rules)});
    };
    expect_refused(
        purity("a.json", "{\"name\": \"x\", \"any_other\": \"0.1\",\n\"any_other\": \"99\"}"),
        "a.json:2", "\"any_other\" again");
    expect_refused(purity("b.json", "{\"name\": \"x\", \"specified\": [\n"
                                    "{\"compound\": \"a\", \"percent\": \"1\"},\n"
                                    "{\"compound\": \"A\", \"percent\": \"2\"}]}"),
                   "b.json:3", "each compound once");
}

TEST_F(SilentFaultsTest, ImpossibleDatesUncertaintiesAndIndicesAreNotLearned) {
    const std::string head = "compound,smiles,system,quantity,value,uncertainty,date\n";
    for (const char *row :
         {"ethanol,CCO,silica,Rf,0.3,0.01,2199-01-01\n", "ethanol,CCO,silica,Rf,0.3,0.01,0000\n",
          "ethanol,CCO,silica,Rf,0.3,50,2024-01-01\n",
          "ethanol,CCO,silica,RI,99999,1,2024-01-01\n"}) {
        expect_refused(cospot({"learn", file("a.csv", head + row)}), "a.csv:2", "expected");
    }
}

TEST_F(SilentFaultsTest, LearnReadsANamedPipe) {
    const std::string pipe = path("pipe");
    ASSERT_EQ(mkfifo(pipe.c_str(), 0600), 0);
    std::thread writer([&] {
        std::ofstream(pipe)
            << "compound,smiles,system,quantity,value\nhexane,CCCCCC,silica,Rf,0.9\n";
    });
    const Outcome learned = cospot({"--json", "learn", pipe});
    writer.join();
    ASSERT_EQ(learned.code, kDone) << learned.err;
    EXPECT_EQ(learned.lines().at(0).at("values_added"), 1);
}

TEST_F(SilentFaultsTest, AMergeTakesNoImpossibleValueAndNoStructureOfAnotherKey) {
    change(other_, "UPDATE measurement SET value = 5 WHERE id = 1");
    const Outcome merged = cospot({"--json", "merge", other_});
    EXPECT_EQ(merged.code, kNeedsAttention);
    EXPECT_EQ(merged.lines().at(0).at("values_refused"), 1);
    change(other_, "UPDATE measurement SET value = 0.3 WHERE id = 1");
    const Outcome learned = cospot(
        {"--library", other_, "learn",
         file("more.csv", "compound,smiles,system,quantity,value\nhexane,CCCCCC,silica,Rf,0.9\n")});
    ASSERT_EQ(learned.code, kDone) << learned.err;
    change(other_, "UPDATE compound SET smiles = 'CCCCCN' WHERE name = 'hexane'");
    expect_refused(cospot({"merge", other_}), "compound hexane", "CCCCCN");
}

TEST_F(SilentFaultsTest, AnImpossibleStoredProofIsReportedAsDamage) {
    change(
        path("library.db"),
        "INSERT INTO proved_question (technique, question, systems, questions, "
        "measured_exponent, transferred_exponent, unlisted_offset, measured_limit, "
        "transferred_limit, unlisted_limit, calibration_error, change_id) "
        "SELECT 'tlc', 'run', 1, 100, 1000.0, 1.0, 0.0, 0.9, 0.9, 0.9, 0.01, max(id) FROM change");
    expect_refused(identify("a.csv", "lane,label,spot,distance_mm,front_mm\n1,x,1,20,70\n"),
                   "library.db", "damaged");
}

TEST_F(SilentFaultsTest, AnUnknownNameInAFileIsGivenWithItsLine) {
    expect_refused(
        cospot({"advise", "--compounds", file("names.txt", "compound\nethanol\nnobody\n")}),
        "names.txt:3", "nobody");
}

} // namespace
} // namespace cospot
