// identify on plates with standards beside the sample. All values invented for the test.
#include "program_fixture.h"

#include <regex>

namespace cospot {
namespace {

/// Five compounds on silica, one of them at the front, in three runs each.
class IdentifyStandardsTest : public ProgramTest {
protected:
    IdentifyStandardsTest() {
        const std::string systems =
            file("systems.csv", "system,technique,stationary_phase,mobile_phase\n"
                                "silica,tlc,silica gel,hexane:ethyl acetate 3:1\n");
        std::string values = "compound,smiles,system,quantity,value,run\n";
        const auto add = [&](const std::string &compound, double value, double step) {
            for (int run = 0; run < 3; ++run) {
                values += compound + ",silica,Rf," + std::to_string(value + step * (run - 1)) +
                          ",r" + std::to_string(run) + "\n";
            }
        };
        add("vanillin,COc1cc(C=O)ccc1O", 0.20, 0.01);
        add("coumarin,O=c1ccc2ccccc2o1", 0.24, 0.005);
        add("benzoin,O=C(c1ccccc1)C(O)c1ccccc1", 0.40, 0.01);
        add("naphthalene,c1ccc2ccccc2c1", 0.80, 0.01);
        add("squalene,CC(C)=CCCC(C)=CCCC(C)=CCCC=C(C)CCC=C(C)CCC=C(C)C", 1.0, 0.0);
        const Outcome learned = cospot({"learn", "--systems", systems, file("values.csv", values)});
        EXPECT_EQ(learned.code, kDone) << learned.err;
    }

    std::vector<nlohmann::json> identify(std::vector<std::string> arguments) const {
        arguments.insert(arguments.begin(), {"--json", "identify"});
        const Outcome outcome = cospot(std::move(arguments));
        EXPECT_EQ(outcome.code, kDone) << outcome.err;
        return outcome.lines();
    }
};

TEST_F(IdentifyStandardsTest, StandardsCorrectTheShiftOfThePlate) {
    // All R_M of this plate are smaller by 0.12 than in the library; the standards say so.
    const std::string plate = file("plate.csv", "lane,label,spot,distance_mm,front_mm,role\n"
                                                "1,vanillin,1,19.83,80,standard\n"
                                                "2,naphthalene,1,67.25,80,standard\n"
                                                "3,coumarin,1,23.52,80,standard\n"
                                                "4,flask,a,37.42,80,sample\n");
    const Outcome outcome = cospot({"--json", "identify", "--system", "silica", plate});
    EXPECT_HOLDS(unwrapped(outcome.err), "Rf above the library on silica");
    const auto moved = outcome.lines().at(0);
    const double read = 37.42 / 80.0;
    EXPECT_NEAR(moved["observations"][0]["value"], read, 1e-9);
    const auto &benzoin = moved["candidates"][0];
    EXPECT_EQ(benzoin["compound"], "benzoin");
    EXPECT_GT(benzoin["expected"], 0.44); // moved towards the plate
    EXPECT_LT(benzoin["expected"], read + 0.01);
    EXPECT_NEAR(benzoin["systems"][0]["in_library"], 0.40, 1e-3);
    const auto plain =
        cospot({"--json", "identify", "--system", "silica", "--no-correction", plate})
            .lines()
            .at(0);
    EXPECT_LT(plain["candidates"][0]["probability"], benzoin["probability"]);
    for (const auto &candidate : plain["candidates"]) {
        if (candidate["compound"] == "benzoin") {
            EXPECT_NEAR(candidate["expected"], 0.40, 1e-3);
        }
    }
}

TEST_F(IdentifyStandardsTest, AStandardBesideTheSampleIsComparedFirst) {
    // All ran farther than in the library; the sample runs like the standard on lane 2.
    const auto answer = identify({"--system", "silica",
                                  file("plate.csv", "lane,label,spot,distance_mm,front_mm,role\n"
                                                    "1,vanillin,1,20.0,80,standard\n"
                                                    "2,coumarin,1,23.2,80,standard\n"
                                                    "3,flask,a,23.0,80,sample\n")})[0];
    const auto &first = answer["candidates"][0];
    EXPECT_EQ(first["compound"], "coumarin");
    EXPECT_EQ(first["basis"], "same_run");
    EXPECT_EQ(first["systems"][0]["standard_value"], 0.29);
    const auto &nearest = answer["standards"][0];
    EXPECT_EQ(nearest["compound"], "coumarin");
    EXPECT_EQ(nearest["place"], "lane 2");
    EXPECT_NEAR(nearest["distance"], -0.2, 1e-9); // the sample is below
    EXPECT_EQ(nearest["unit"], "mm");
    EXPECT_EQ(nearest["verdict"], "runs with");
}

TEST_F(IdentifyStandardsTest, NothingRunsWithAStandardThatLiesFarOff) {
    // A system without values: only two compounds to choose from, and a spot 3.5 mm above one.
    const Outcome learned = cospot(
        {"learn", "--systems",
         file("new.csv", "system,technique,stationary_phase,mobile_phase\n"
                         "new,tlc,silica gel,hexane:ethyl acetate 4:1\n"),
         file("structures.csv", "compound,smiles\nguaiacol,COc1ccccc1O\nphenol,Oc1ccccc1\n")});
    ASSERT_EQ(learned.code, kDone) << learned.err;
    const auto answer =
        identify({"--system", "new",
                  file("far.csv", "lane,label,distance_mm,front_mm,role\n"
                                  "1,guaiacol,8.5,48,standard\n2,phenol,15.5,48,standard\n"
                                  "3,flask,12.0,48,sample\n3,flask,15.5,48,sample\n")});
    EXPECT_NE(answer[0]["standards"][0]["verdict"], "runs with");
    EXPECT_EQ(answer[1]["standards"][0]["compound"], "phenol");
    EXPECT_EQ(answer[1]["standards"][0]["verdict"], "runs with");
}

TEST_F(IdentifyStandardsTest, SaysWhichSpottedCompoundsAreSeenInAMixture) {
    const std::string plate = file("rc.csv", "plate,lane,label,distance_mm,front_mm,role,remark\n"
                                             "A,SM,benzoin,28,70,standard,\n"
                                             "A,P,naphthalene,56,70,standard,\n"
                                             "A,RM 1h,,28,70,,\n"
                                             "A,RM 1h,,56,70,,\n"
                                             "A,RM 3h,,56,70,,\n"
                                             "A,RM 5h,,-,70,,nothing left\n");
    const Outcome outcome = cospot({"identify", "--system", "silica", plate});
    EXPECT_LT(outcome.code, kBadInput) << outcome.err;
    const std::string out = std::regex_replace(on_one_line(outcome.out), std::regex(" +"), " ");
    EXPECT_HOLDS(out, "lane RM 1h: benzoin (spot 1) and naphthalene (spot 2) are seen.");
    EXPECT_HOLDS(out, "lane RM 3h: naphthalene (spot 1) is seen; benzoin is not seen (no spot of "
                      "this lane lies where it ran).");
    EXPECT_HOLDS(out, "Not seen does not mean that nothing is left");
    EXPECT_EQ(out.find("consumed"), std::string::npos);
    EXPECT_HOLDS(on_one_line(outcome.out + outcome.err), "lane RM 5h of plate A: \"nothing left\"");
}

TEST_F(IdentifyStandardsTest, AStandardNotInTheLibraryIsACandidate) {
    const auto answer = identify({"--system", "silica",
                                  file("plate.csv", "lane,label,spot,distance_mm,front_mm,role\n"
                                                    "1,product 5,1,48.0,80,standard\n"
                                                    "2,flask,a,48.2,80,sample\n")})[0];
    EXPECT_EQ(answer["candidates"][0]["compound"], "product 5");
    EXPECT_EQ(answer["candidates"][0]["basis"], "same_run");
    EXPECT_GT(answer["candidates"][0]["probability"], 0.7);
}

TEST_F(IdentifyStandardsTest, LabelsThatSeemExchangedNeedAttentionAndAreNotUsed) {
    const std::string plate = file("plate.csv", "lane,label,spot,distance_mm,front_mm,role\n"
                                                "1,benzoin,1,64.4,80,standard\n"
                                                "2,naphthalene,1,32.4,80,standard\n"
                                                "3,flask,a,33,80,sample\n");
    const Outcome outcome = cospot({"identify", "--system", "silica", plate});
    EXPECT_EQ(outcome.code, kNeedsAttention);
    const std::string notes = unwrapped(outcome.out);
    EXPECT_HOLDS(notes, "! the labels of two standards seem exchanged: benzoin (lane 1) and "
                        "naphthalene (lane 2)");
    EXPECT_HOLDS(notes, "(lane 1 runs as naphthalene; lane 2 runs as benzoin;");
    // The library decides: 33 mm is benzoin's place, though that lane's label says naphthalene.
    const auto answer = cospot({"--json", "identify", "--system", "silica", plate}).lines().at(0);
    EXPECT_EQ(answer["candidates"][0]["compound"], "benzoin");
    EXPECT_EQ(answer["candidates"][0]["basis"], "measured");
}

TEST_F(IdentifyStandardsTest, AStandardThatSeemsSomethingElseIsNotUsed) {
    const std::string plate = file("plate.csv", "lane,label,spot,distance_mm,front_mm,role\n"
                                                "1,vanillin,1,40,80,standard\n"
                                                "2,flask,a,32,80,sample\n");
    const Outcome outcome = cospot({"identify", "--system", "silica", plate});
    EXPECT_EQ(outcome.code, kNeedsAttention);
    EXPECT_HOLDS(unwrapped(outcome.out),
                 "! the label of a standard seems wrong: vanillin (lane 1) (lane 1 has Rf 0.50 "
                 "where 0.20 is expected;");
    const auto answer = cospot({"--json", "identify", "--system", "silica", plate}).lines().at(0);
    EXPECT_EQ(answer["candidates"][0]["compound"], "benzoin");
    EXPECT_NEAR(answer["candidates"][0]["expected"], 0.40, 0.001);
}

TEST_F(IdentifyStandardsTest, AStandardAFewSpreadsOffIsReportedAndUsed) {
    const Outcome off = cospot({"identify", "--system", "silica",
                                file("plate.csv", "lane,label,spot,distance_mm,front_mm,role\n"
                                                  "1,vanillin,1,20.8,80,standard\n"
                                                  "2,flask,a,32,80,sample\n")});
    EXPECT_EQ(off.code, kDone) << off.err;
    const std::string notes = unwrapped(off.out);
    EXPECT_HOLDS(notes, "standard vanillin (lane 1): Rf 0.26 in this run, 0.20 in the library");
    EXPECT_EQ(notes.find("the label of a standard"), std::string::npos) << notes;
    EXPECT_HOLDS(notes, "differs from vanillin");
}

TEST_F(IdentifyStandardsTest, ACoSpotChangesTheOddsOfItsStandard) {
    // Vanillin and coumarin lie too close to tell by their heights alone.
    const auto odds = [&](const std::string &cospot_rows) {
        const auto answer = identify(
            {"--system", "silica",
             file("plate.csv", "lane,label,spot,distance_mm,front_mm,role\n"
                               "1,flask,a,17.6,80,sample\n2,vanillin,1,16.4,80,standard\n" +
                                   cospot_rows)})[0];
        double vanillin = 0.0;
        for (const auto &candidate : answer["candidates"]) {
            vanillin = candidate["compound"] == "vanillin" ? candidate["probability"].get<double>()
                                                           : vanillin;
        }
        return vanillin / (1.0 - vanillin);
    };
    const double without = odds("");
    const double one = odds("3,flask + vanillin,a,17.0,80,cospot\n");
    const double two = odds("3,flask + vanillin,a,16.4,80,cospot\n"
                            "3,flask + vanillin,b,17.7,80,cospot\n");
    EXPECT_NEAR(one / without, 0.98 / 0.3, 0.01);
    EXPECT_NEAR(two / without, 0.02 / 0.7, 0.001);
}

} // namespace
} // namespace cospot
