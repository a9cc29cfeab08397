#include "program_fixture.h"

#include <cmath>

namespace cospot {
namespace {

/// A small library: three TLC compounds, one at the front, a pair of enantiomers and an isothermal
/// and a programmed GC system. All values invented for the test.
class IdentifyTest : public ProgramTest {
protected:
    IdentifyTest() {
        const std::string systems =
            file("systems.csv",
                 "system,technique,stationary_phase,mobile_phase,scale,programme\n"
                 "silica,tlc,silica gel,hexane:ethyl acetate 3:1,,\n"
                 "iso,gc,dimethylsilicone,helium,n-alkane,isothermal 100 C\n"
                 "ramp,gc,5 % phenyl silicone,helium,n-alkane,\"50 C, 5 C/min to 250 C\"\n"
                 "fame,gc,5 % phenyl silicone,helium,FAME,\"50 C, 5 C/min to 250 C\"\n"
                 "rp,hplc,C18,water:acetonitrile 60:40,alkyl aryl ketone,isocratic\n");
        std::string values = "compound,smiles,system,quantity,value,run\n";
        const auto add = [&](const std::string &compound, const std::string &system,
                             const std::string &quantity, double value, double step) {
            for (int run = 0; run < 3; ++run) {
                values += compound + "," + system + "," + quantity + "," +
                          std::to_string(value + step * (run - 1)) + ",r" + std::to_string(run) +
                          "\n";
            }
        };
        add("vanillin,COc1cc(C=O)ccc1O", "silica", "Rf", 0.20, 0.01);
        add("coumarin,O=c1ccc2ccccc2o1", "silica", "Rf", 0.24, 0.005);
        add("benzoin,O=C(c1ccccc1)C(O)c1ccccc1", "silica", "Rf", 0.40, 0.01);
        add("naphthalene,c1ccc2ccccc2c1", "silica", "Rf", 0.80, 0.01);
        add("squalene,CC(C)=CCCC(C)=CCCC(C)=CCCC=C(C)CCC=C(C)CCC=C(C)C", "silica", "Rf", 1.0, 0.0);
        for (const char *system : {"iso", "ramp"}) {
            add("(R)-carvone,CC1=CC[C@H](CC1=O)C(C)=C", system, "RI", 1243.0, 0.5);
            add("(S)-carvone,CC1=CC[C@@H](CC1=O)C(C)=C", system, "RI", 1243.4, 0.5);
            add("linalool,CC(C)=CCCC(C)(O)C=C", system, "RI", 1099.0, 0.5);
            add("naphthalene,c1ccc2ccccc2c1", system, "RI", 1182.0, 0.5);
            add("limonene,CC1=CCC(CC1)C(C)=C", system, "RI", 1030.0, 0.5);
        }
        add("thymol,Cc1ccc(C(C)C)c(O)c1", "rp", "RI", 1063.0, 1.0);
        const Outcome learned = cospot({"learn", "--systems", systems, file("values.csv", values)});
        EXPECT_EQ(learned.code, kDone) << learned.err;
    }

    std::vector<nlohmann::json> identify(std::vector<std::string> arguments) const {
        arguments.insert(arguments.begin(), {"--json", "identify"});
        const Outcome outcome = cospot(std::move(arguments));
        EXPECT_EQ(outcome.code, kDone) << outcome.err;
        return outcome.lines();
    }

    void expect_refused(std::vector<std::string> arguments, const std::string &message) const {
        arguments.insert(arguments.begin(), "identify");
        const Outcome outcome = cospot(std::move(arguments));
        EXPECT_EQ(outcome.code, kBadInput) << outcome.out;
        EXPECT_NE(outcome.err.find(message), std::string::npos) << outcome.err;
    }

    /// An isothermal ladder C8..C13 with hold-up time 1 min and adjusted times that double with
    /// each carbon, so that C8 comes at 2 min and the index of t is 800 + 100 log2(t - 1).
    std::string isothermal_ladder() const {
        return file("iso_ladder.csv", "carbon,tR\n8,2\n9,3\n10,5\n11,9\n12,17\n13,33\n");
    }
    /// A programmed ladder C9..C14, one member every two minutes from 6 min on.
    std::string programmed_ladder() const {
        return file("ramp_ladder.csv", "standard,tR\nnonane,6\ndecane,8\nundecane,10\n"
                                       "dodecane,12\ntridecane,14\ntetradecane,16\n");
    }
};

double sum_of(const nlohmann::json &feature) {
    double sum = feature["unlisted"].get<double>() + feature["other"].get<double>();
    for (const auto &candidate : feature["candidates"]) {
        sum += candidate["probability"].get<double>();
    }
    return sum;
}

TEST_F(IdentifyTest, LongTableRanksAndSumsToOne) {
    const auto features =
        identify({file("u.csv", "sample,feature,system,quantity,value,uncertainty\n"
                                "flask,1,silica,Rf,0.41,0.01\nflask,2,silica,Rf,0.60,0.01\n")});
    ASSERT_EQ(features.size(), 2U);
    EXPECT_EQ(features[0]["candidates"][0]["compound"], "benzoin");
    EXPECT_GT(features[0]["candidates"][0]["probability"], 0.8);
    EXPECT_EQ(features[0]["candidates"][0]["basis"], "measured");
    EXPECT_NEAR(features[0]["candidates"][0]["expected"], 0.40, 0.001);
    EXPECT_NEAR(features[0]["candidates"][0]["deviation"], 0.01, 0.001);
    EXPECT_EQ(features[0]["set"][0], "benzoin");
    EXPECT_GT(features[1]["unlisted"], 0.9);
    for (const auto &feature : features) {
        EXPECT_NEAR(sum_of(feature), 1.0, 1e-9);
    }
}

TEST_F(IdentifyTest, RestBeyondTopIsOther) {
    const auto features = identify({"--top", "1",
                                    file("u.csv", "sample,feature,system,quantity,value\n"
                                                  "flask,1,silica,Rf,0.3\n")});
    EXPECT_EQ(features[0]["candidates"].size(), 1U);
    EXPECT_GT(features[0]["other"], 0.0);
    EXPECT_NEAR(sum_of(features[0]), 1.0, 1e-9);
}

TEST_F(IdentifyTest, SpotAtTheFrontIsWeakEvidence) {
    const auto features = identify({file("u.csv", "sample,feature,system,quantity,value\n"
                                                  "flask,1,silica,Rf,1.0\n")});
    EXPECT_EQ(features[0]["candidates"][0]["compound"], "squalene");
    EXPECT_LT(features[0]["candidates"][0]["probability"], 0.95);
    EXPECT_NE(features[0]["warnings"].dump().find("weak evidence"), std::string::npos);
}

TEST_F(IdentifyTest, PlateGivesRfWithItsReadingError) {
    const auto features = identify({"--system", "silica",
                                    file("plate.csv", "lane,label,spot,distance_mm,front_mm,role\n"
                                                      "1,flask,a,32,80,sample\n")});
    const auto &observation = features[0]["observations"][0];
    EXPECT_EQ(features[0]["sample"], "flask");
    EXPECT_EQ(features[0]["feature"], "a");
    EXPECT_DOUBLE_EQ(observation["value"], 0.4);
    EXPECT_NEAR(observation["uncertainty"], 0.5 / 80 * std::sqrt(1 + 0.16), 1e-6);
}

TEST_F(IdentifyTest, NothingToCompareWithNeedsAttention) {
    const Outcome outcome =
        cospot({"identify", file("u.csv", "sample,feature,system,quantity,value\nf,1,rp,k,2.0\n")});
    EXPECT_EQ(outcome.code, kNeedsAttention);
    EXPECT_NE(outcome.out.find("nothing to compare with"), std::string::npos);
}

TEST_F(IdentifyTest, NothingToCompareWithStatesNoShares) {
    const auto answer =
        cospot({"--json", "identify",
                file("u.csv", "sample,feature,system,quantity,value\nf,1,rp,k,2.0\n")})
            .lines()
            .at(0);
    EXPECT_EQ(answer["unlisted"], 1.0);
    EXPECT_EQ(answer["other"], 0.0);
    EXPECT_TRUE(answer["candidates"].empty());
    EXPECT_TRUE(answer["set"].empty());
}

TEST_F(IdentifyTest, PriorOfUnlistedHasLimits) {
    const std::string table =
        file("u.csv", "sample,feature,system,quantity,value\nf,1,silica,Rf,0.4\n");
    for (const char *prior : {"0", "1e-310", "1", "0.9999999", "-1", "nan"}) {
        const Outcome outcome = cospot({"identify", table, "--prior-unlisted", prior});
        EXPECT_EQ(outcome.code, kBadInput) << prior;
        EXPECT_NE(outcome.err.find("a probability from 0.000001"), std::string::npos)
            << outcome.err;
    }
}

TEST_F(IdentifyTest, RepeatedReadingsOnOneSystemAreOneObservation) {
    std::string rows = "sample,feature,system,quantity,value,uncertainty\n";
    for (int i = 0; i < 20; ++i) {
        rows += "f,1,silica,Rf,0.42,0.01\n";
    }
    const auto once = identify({file("one.csv", "sample,feature,system,quantity,value\n"
                                                "f,1,silica,Rf,0.42\n")})[0];
    const auto repeated = identify({file("many.csv", rows)})[0];
    ASSERT_EQ(repeated["observations"].size(), 1U);
    EXPECT_NEAR(repeated["unlisted"], once["unlisted"], 0.02);
}

TEST_F(IdentifyTest, IsothermalChromatogramTakesTheLogarithmicIndex) {
    // t = 1 + 2^2.99 min lies at index 800 + 299 = 1099 with hold-up time 1 min.
    const auto features =
        identify({"--system", "iso", "--ladder", isothermal_ladder(),
                  file("peaks.csv", "peak,tR,area\n1," + std::to_string(1 + std::pow(2.0, 2.99)) +
                                        ",5\n2,5.0,7\n")});
    EXPECT_NEAR(features[0]["observations"][0]["value"], 1099.0, 0.01);
    EXPECT_EQ(features[0]["candidates"][0]["compound"], "linalool");
    EXPECT_EQ(features[0]["sample"], "peaks");
    EXPECT_NEAR(features[1]["observations"][0]["value"], 1000.0, 1e-6); // decane itself
}

TEST_F(IdentifyTest, ProgrammedChromatogramTakesTheLinearIndex) {
    const auto features = identify({"--system", "ramp", "--ladder", programmed_ladder(),
                                    file("peaks.csv", "peak,tR,area\n1,9.98,5\n")});
    EXPECT_NEAR(features[0]["observations"][0]["value"], 1099.0, 1e-6);
    EXPECT_EQ(features[0]["candidates"][0]["compound"], "linalool");
}

TEST_F(IdentifyTest, EnantiomersAreReportedAsOneGroup) {
    const auto features = identify({"--system", "ramp", "--ladder", programmed_ladder(),
                                    file("peaks.csv", "peak,tR\n1,12.862\n")});
    ASSERT_EQ(features[0]["groups"].size(), 1U);
    EXPECT_EQ(features[0]["groups"][0]["compounds"].size(), 2U);
    EXPECT_GT(features[0]["groups"][0]["probability"], 0.9);
}

TEST_F(IdentifyTest, PeaksOutsideTheLadderGetNoIndexUnlessAskedFor) {
    const std::string peaks = file("peaks.csv", "peak,tR\nearly,5.0\nlate,18.0\n");
    const Outcome outcome =
        cospot({"--json", "identify", "--system", "ramp", "--ladder", programmed_ladder(), peaks});
    EXPECT_EQ(outcome.code, kNeedsAttention);
    EXPECT_NE(outcome.err.find("no peak lies within the ladder"), std::string::npos) << outcome.err;
    const auto plain = outcome.lines();
    for (const auto &feature : plain) {
        EXPECT_TRUE(feature["observations"].empty());
        EXPECT_TRUE(feature["candidates"].empty());
        EXPECT_NE(feature["warnings"].dump().find("no index"), std::string::npos);
        EXPECT_NEAR(sum_of(feature), 1.0, 1e-9);
    }
    const auto asked =
        identify({"--extrapolate", "--system", "ramp", "--ladder", programmed_ladder(), peaks});
    EXPECT_NEAR(asked[0]["observations"][0]["value"], 850.0, 1e-6);
    EXPECT_EQ(asked[0]["observations"][0]["extrapolated"], true);
    EXPECT_NE(asked[0]["warnings"].dump().find("extrapolated"), std::string::npos);
}

TEST_F(IdentifyTest, FaultyLaddersAreRefusedWithTheReason) {
    const std::string peaks = file("peaks.csv", "peak,tR\n1,9.98\n");
    const auto refused = [&](const std::string &ladder, const std::string &message) {
        expect_refused({"--system", "ramp", "--ladder", file("ladder.csv", ladder), peaks},
                       message);
    };
    refused("carbon,tR\n9,6\n10,8\n11,7\n", "C11");
    refused("carbon,tR\n9,6\n10,8\n10,10\n", "C10");
    refused("carbon,tR\n9,6\n10,8\n12,12\n", "C11");
    refused("carbon,tR\n9,6\n", "ladder.csv");
    refused("carbon,tR\n9,six\n", "ladder.csv:2, column tR: found \"six\"");
    refused("standard,tR\nacetophenone,6\npropiophenone,8\n", "never mixed");
    refused("standard,tR\nmystery,6\n", "mystery");
    refused("tR\n6\n", "a header without carbon and standard");
}

TEST_F(IdentifyTest, GapsInTheLadderAreBridgedOnlyWhenAskedFor) {
    const std::string ladder = file("gap.csv", "carbon,tR\n9,6\n10,8\n12,12\n13,14\n");
    const auto features = identify({"--ladder-gaps", "--system", "ramp", "--ladder", ladder,
                                    file("peaks.csv", "peak,tR\n1,9.98\n")});
    EXPECT_NEAR(features[0]["observations"][0]["value"], 1099.0, 1e-6);
    EXPECT_NE(features[0]["warnings"].dump().find("gap"), std::string::npos);
}

TEST_F(IdentifyTest, AlkaneLadderOnAnEsterScaleIsRefused) {
    expect_refused({"--system", "fame", "--ladder", programmed_ladder(),
                    file("peaks.csv", "peak,tR\n1,9.98\n")},
                   "never mixed");
}

TEST_F(IdentifyTest, PeakBeforeTheGivenHoldUpTimeIsRefused) {
    expect_refused({"--system", "iso", "--hold-up", "1.0", "--ladder", isothermal_ladder(),
                    file("peaks.csv", "peak,tR\n1,9\n2,0.5\n")},
                   "peaks.csv:3, column tR: found 0.5 min");
}

TEST_F(IdentifyTest, LiquidChromatogramUsesTheKetoneScale) {
    // k of the ladder doubles with each carbon: index 800 + 100 log2(k) with hold-up time 1 min.
    const std::string ladder = file("rp.csv", "standard,tR\nacetophenone,2\npropiophenone,3\n"
                                              "butyrophenone,5\nvalerophenone,9\n");
    const double time = 1 + std::pow(2.0, 2.63);
    const auto features =
        identify({"--system", "rp", "--hold-up", "1", "--ladder", ladder,
                  file("peaks.csv", "peak,tR\n1," + std::to_string(time) + "\n")});
    EXPECT_NEAR(features[0]["observations"][0]["value"], 1063.0, 0.01);
    EXPECT_EQ(features[0]["candidates"][0]["compound"], "thymol");
}

TEST_F(IdentifyTest, BadInputNamesThePlace) {
    const std::string head = "lane,label,spot,distance_mm,front_mm,role\n";
    const auto plate = [&](const std::string &row, const std::string &message) {
        expect_refused({"--system", "silica", file("plate.csv", head + row)}, message);
    };
    plate("1,flask,a,90,80,sample\n", "plate.csv:2, column distance_mm: found 90 mm");
    plate("1,flask,a,-1,80,sample\n", "column distance_mm: found -1");
    plate("1,flask,a,\"32,5\",80,sample\n", "decimal comma");
    plate("1,flask,a,32,0,sample\n", "column front_mm");
    plate("1,flask,a,32,80,guess\n", "column role");
    plate("1,flask,a,32,80,sample\n1,flask,a,33,80,sample\n", "plate.csv:3, column spot");
    expect_refused({file("plate.csv", head + "1,flask,a,32,80,sample\n")}, "no --system");
    expect_refused({"--system", "none", file("plate.csv", head + "1,flask,a,32,80,sample\n")},
                   "\"none\"");
    expect_refused({"--system", "iso", file("plate.csv", head + "1,flask,a,32,80,sample\n")},
                   "a plate can be run on");
    expect_refused(
        {"--system", "iso", "--ladder", isothermal_ladder(), file("peaks.csv", "peak,tR\n1,-2\n")},
        "peaks.csv:2, column tR: found -2");
    expect_refused({"--system", "iso", file("peaks.csv", "peak,tR\n1,2\n")}, "no --ladder");
    expect_refused({file("u.csv", "sample,feature,system,quantity,value\nf,1,none,Rf,0.3\n")},
                   "u.csv:2, column system: found \"none\"");
    expect_refused({file("u.csv", "a,b\n1,2\n")}, "a header of no known kind");
    expect_refused({file("u.csv", "")}, "u.csv:1: found an empty file");
    expect_refused({"--prior-unlisted", "1.5",
                    file("u.csv", "sample,feature,system,quantity,value\n"
                                  "f,1,silica,Rf,0.3\n")},
                   "--prior-unlisted");
}

TEST_F(IdentifyTest, PriorWeightsFavourSuspects) {
    const std::string unknown =
        file("u.csv", "sample,feature,system,quantity,value\nf,1,silica,Rf,0.36\n");
    const std::string prior = file("prior.csv", "compound,weight\nbenzoin,50\n");
    const auto weighted = identify({"--prior", prior, unknown})[0];
    EXPECT_EQ(weighted["candidates"][0]["compound"], "benzoin");
    EXPECT_GT(weighted["candidates"][0]["probability"],
              identify({unknown})[0]["candidates"][0]["probability"]);
    expect_refused({"--prior", file("bad.csv", "compound,weight\nnobody,2\n"), unknown},
                   "bad.csv:2, column compound");
}

TEST_F(IdentifyTest, TextFitsEightyColumnsAndSaysThatRetentionIsNoProof) {
    const Outcome outcome = cospot({"identify", "--system", "ramp", "--ladder", programmed_ladder(),
                                    file("peaks.csv", "peak,tR\n1,12.862\n2,9.98\n3,5.0\n")});
    EXPECT_NE(outcome.out.find("Retention alone is no proof of identity"), std::string::npos);
    EXPECT_NE(outcome.out.find("cannot be told apart"), std::string::npos);
    EXPECT_EQ(outcome.out.find('\033'), std::string::npos);
    expect_fits_screen(outcome.out);
}

} // namespace
} // namespace cospot
