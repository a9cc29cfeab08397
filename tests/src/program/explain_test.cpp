// identify --explain, and the explanations in its JSON.
#include "program_fixture.h"

#include <cmath>

namespace cospot {
namespace {

/// A library in which coumarin and benzoin coincide on silica, are a little apart on one GC system
/// and far apart on C18; only vanillin and the enantiomers of carvone are held elsewhere. All
/// values invented for the test.
class ExplainTest : public ProgramTest {
protected:
    ExplainTest() {
        const std::string systems =
            file("systems.csv", "system,technique,stationary_phase,mobile_phase,scale,programme\n"
                                "silica,tlc,silica gel,hexane:ethyl acetate 3:1,,\n"
                                "polar,tlc,silica gel,hexane:ethyl acetate 1:1,,\n"
                                "C18-WA,hplc,C18,water:acetonitrile 60:40,,isocratic\n"
                                "old,hplc,C18,water:methanol 50:50,,isocratic\n"
                                "gc,gc,dimethylsilicone,helium,n-alkane,\"50 C, 5 C/min\"\n");
        add("vanillin,COc1cc(C=O)ccc1O", "silica", "Rf", 0.10, 0.01);
        add("coumarin,O=c1ccc2ccccc2o1", "silica", "Rf", 0.240, 0.01);
        add("benzoin,O=C(c1ccccc1)C(O)c1ccccc1", "silica", "Rf", 0.241, 0.01);
        add("(R)-carvone,CC1=CC[C@H](CC1=O)C(C)=C", "silica", "Rf", 0.45, 0.01);
        add("(S)-carvone,CC1=CC[C@@H](CC1=O)C(C)=C", "silica", "Rf", 0.45, 0.01);
        add("anisole,COc1ccccc1", "silica", "Rf", 0.70, 0.01);
        add("naphthalene,c1ccc2ccccc2c1", "silica", "Rf", 0.80, 0.01);
        add("coumarin,O=c1ccc2ccccc2o1", "C18-WA", "k", 2.1, 0.1);
        add("benzoin,O=C(c1ccccc1)C(O)c1ccccc1", "C18-WA", "k", 4.4, 0.2);
        add("coumarin,O=c1ccc2ccccc2o1", "old", "k", 1.0, 0.001);
        add("benzoin,O=C(c1ccccc1)C(O)c1ccccc1", "old", "k", 9.0, 0.001);
        add("coumarin,O=c1ccc2ccccc2o1", "gc", "RI", 1430.0, 3.0);
        add("benzoin,O=C(c1ccccc1)C(O)c1ccccc1", "gc", "RI", 1440.0, 3.0);
        add("(R)-carvone,CC1=CC[C@H](CC1=O)C(C)=C", "gc", "RI", 1243.0, 1.0);
        add("(S)-carvone,CC1=CC[C@@H](CC1=O)C(C)=C", "gc", "RI", 1243.2, 1.0);
        add("vanillin,COc1cc(C=O)ccc1O", "polar", "Rf", 0.5, 0.01);
        const Outcome learned =
            cospot({"learn", "--systems", systems, file("values.csv", values_)});
        EXPECT_EQ(learned.code, kDone) << learned.err;
        EXPECT_EQ(cospot({"retire", "--system", "old", "--reason", "column is gone"}).code, kDone);
    }

    void add(const std::string &compound, const std::string &system, const std::string &quantity,
             double value, double step) {
        for (int run = 0; run < 3; ++run) {
            values_ += compound + "," + system + "," + quantity + "," +
                       std::to_string(value + step * (run - 1)) + ",r" + std::to_string(run) + "\n";
        }
    }

    std::string table(const std::string &rows) const {
        return file("u.csv", "sample,feature,system,quantity,value,uncertainty\n" + rows);
    }

    nlohmann::json explained(const std::string &rows) const {
        const Outcome outcome = cospot({"--json", "identify", table(rows)});
        EXPECT_EQ(outcome.code, kDone) << outcome.err;
        return outcome.lines().at(0);
    }

    std::string values_ = "compound,smiles,system,quantity,value,run\n";
};

bool has(const nlohmann::json &sentences, const std::string &part) {
    return sentences.dump().find(part) != std::string::npos;
}

TEST_F(ExplainTest, NamesTheSystemThatTellsATieApart) {
    const auto feature = explained("f,1,silica,Rf,0.24,0.01\n");
    ASSERT_EQ(feature["next"].size(), 1U) << feature["next"];
    const std::string next = feature["next"][0];
    EXPECT_TRUE(has(next, "coumarin"));
    EXPECT_TRUE(has(next, "benzoin"));
    EXPECT_TRUE(has(next, "measure on C18-WA, where they lie ")) << next; // "old" is retired
    EXPECT_TRUE(has(next, "(k 2.10 and 4.40)") || has(next, "(k 4.40 and 2.10)")) << next;
}

TEST_F(ExplainTest, DoesNotAskForWhatWasMeasured) {
    const auto feature = explained("f,1,silica,Rf,0.24,0.01\nf,1,C18-WA,k,3.05,0.5\n");
    for (const std::string next : feature["next"]) {
        EXPECT_FALSE(has(next, "measure on C18-WA")) << next;
    }
}

TEST_F(ExplainTest, SaysWhereNoSystemTellsATieApart) {
    const auto feature = explained("f,1,silica,Rf,0.45,0.01\n");
    ASSERT_EQ(feature["next"].size(), 1U) << feature["next"];
    EXPECT_TRUE(has(feature["next"], "no system in the library tells them apart (at best "));
    EXPECT_TRUE(has(feature["next"], "stereoisomers, which achiral systems usually cannot"));
    const auto also = explained("f,1,silica,Rf,0.45,0.01\nf,1,gc,RI,1243.1,0.5\n");
    EXPECT_TRUE(has(also["next"], "(no other one holds both)")) << also["next"];
}

TEST_F(ExplainTest, SaysWhatRaisedAndLoweredACandidate) {
    const auto feature = explained("f,1,silica,Rf,0.10,0.01\nf,1,polar,Rf,0.50,0.01\n");
    const auto &vanillin = feature["candidates"][0];
    EXPECT_EQ(vanillin["compound"], "vanillin");
    EXPECT_TRUE(has(vanillin["because"], "Rf 0.10 on silica is"));
    EXPECT_TRUE(has(vanillin["because"], "measured in 3 independent runs"));
    EXPECT_TRUE(has(vanillin["because"], "times as likely as from an unlisted compound"));
    // The prior: 0.8 for seven compounds, 0.2 for unlisted.
    EXPECT_TRUE(has(vanillin["because"],
                    "before measuring: 1.8 times less likely than unlisted, as one of 7 compounds"))
        << vanillin["because"];
    const auto &other = feature["candidates"][1];
    EXPECT_TRUE(has(other["because"], "nothing is known of it on polar"));
    EXPECT_TRUE(has(other["because"], "times less likely than from an unlisted compound"));
}

TEST_F(ExplainTest, SaysWhichOtherFeatureMayBeTheCompound) {
    const auto lines = cospot({"--json", "identify",
                               table("f,spot 1,silica,Rf,0.80,0\n"
                                     "f,spot 2,silica,Rf,0.83,0\n")})
                           .lines();
    const auto &second = lines.at(1)["candidates"][0];
    EXPECT_EQ(second["compound"], "naphthalene");
    EXPECT_TRUE(has(second["because"], "only one feature and spot 1 may be it too (0."))
        << second["because"];
}

TEST_F(ExplainTest, TextFitsEightyColumnsAndComesOnlyWhenAskedFor) {
    const std::string unknown = table("f,1,silica,Rf,0.24,0.01\nf,2,silica,Rf,0.45,0.01\n"
                                      "f,2,gc,RI,1243.1,0.5\n");
    const Outcome outcome = cospot({"identify", unknown, "--explain"});
    EXPECT_NE(outcome.out.find("Why "), std::string::npos) << outcome.out;
    EXPECT_NE(outcome.out.find("What to measure next"), std::string::npos);
    expect_fits_screen(outcome.out);
    const Outcome plain = cospot({"identify", unknown});
    EXPECT_EQ(plain.out.find("Why "), std::string::npos);
    EXPECT_EQ(plain.out.find("What to measure next"), std::string::npos);
}

TEST_F(ExplainTest, EveryCandidateOfTheJsonHasItsReasons) {
    const auto lines = cospot({"--json", "identify",
                               table("f,1,silica,Rf,0.24,0.01\n"
                                     "f,2,silica,Rf,1.0,0.01\n")})
                           .lines();
    ASSERT_EQ(lines.size(), 2U);
    for (const auto &feature : lines) {
        EXPECT_TRUE(feature["next"].is_array());
        EXPECT_EQ(feature["candidates"].size(), 7U);
        for (const auto &candidate : feature["candidates"]) {
            EXPECT_GE(candidate["because"].size(), 2U) << candidate; // the reading and the prior
        }
    }
    EXPECT_TRUE(has(lines[1]["candidates"][0]["because"], "stands at the front and tells little"));
}

TEST_F(ExplainTest, AFeatureWithoutValueHasNothingToExplain) {
    // A peak before the ladder has no index.
    const auto lines =
        cospot({"--json", "identify", file("peaks.csv", "peak,tR,area\n1,1,5\n"), "--system", "gc",
                "--ladder", file("ladder.csv", "carbon,tR\n12,6\n13,8\n14,10\n15,12\n")})
            .lines();
    ASSERT_EQ(lines.size(), 1U);
    EXPECT_TRUE(lines[0]["candidates"].empty());
    EXPECT_TRUE(lines[0]["next"].empty());
}

} // namespace
} // namespace cospot
