// advise: what to measure next. The library is invented.
#include "program_fixture.h"

#include <map>

namespace cospot {
namespace {

using Json = nlohmann::json;

/// Four compounds: two that one silica eluent cannot tell apart and another can, an aldehyde among
/// them, in three runs each.
class AdviseTest : public ProgramTest {
protected:
    AdviseTest() {
        const std::vector<std::tuple<std::string, std::string, double, double>> compounds{
            {"benzaldehyde", "O=Cc1ccccc1", 0.50, 0.30},
            {"methyl benzoate", "COC(=O)c1ccccc1", 0.50, 0.70},
            {"phenol", "Oc1ccccc1", 0.20, 0.20},
            {"anisole", "COc1ccccc1", 0.80, 0.85},
            {"acetophenone", "CC(=O)c1ccccc1", 0.35, 0.50}};
        std::string values = "compound,smiles,system,quantity,value,run\n";
        for (int run = 1; run <= 3; ++run) {
            for (const auto &[name, smiles, first, second] : compounds) {
                const double noise = 0.005 * (run - 2);
                values += name + "," + smiles + ",S1,Rf," + std::to_string(first + noise) + ",a" +
                          std::to_string(run) + "\n";
                values += name + "," + smiles + ",S2,Rf," + std::to_string(second - noise) + ",b" +
                          std::to_string(run) + "\n";
            }
        }
        const Outcome learned =
            cospot({"learn", "--systems",
                    file("systems.csv", "system,technique,stationary_phase,mobile_phase,scale\n"
                                        "S1,tlc,silica gel,hexane:ethyl acetate 4:1,\n"
                                        "S2,tlc,silica gel,toluene,\n"),
                    file("values.csv", values)});
        EXPECT_EQ(learned.code, kDone) << learned.err;
    }

    Outcome advise(const std::string &table, std::vector<std::string> further = {}) const {
        std::vector<std::string> arguments{"--json", "advise", file("u.csv", table)};
        arguments.insert(arguments.end(), further.begin(), further.end());
        return cospot(arguments);
    }
};

const std::string kOpen = "sample,feature,system,quantity,value\nf,1,S1,Rf,0.50\n";

std::map<std::string, Json> by_name(const Json &advice) {
    std::map<std::string, Json> result;
    for (const Json &one : advice["measurements"]) {
        result[one["measurement"]] = one;
    }
    return result;
}

TEST_F(AdviseTest, TheOtherEluentTellsAndTheSameStandardDoesNot) {
    const Outcome outcome = advise(kOpen, {"--top", "50"});
    ASSERT_EQ(outcome.code, kDone) << outcome.err;
    const Json advice = outcome.lines().at(0);
    EXPECT_EQ(advice["kind"], "feature");
    EXPECT_GT(advice["open_bits"], 0.9);
    auto measurements = by_name(advice);
    ASSERT_TRUE(measurements.contains("S2"));
    EXPECT_FALSE(measurements.contains("S1"));
    EXPECT_GT(measurements["S2"]["bits"], 0.8);
    EXPECT_LT(measurements["S2"]["leaves"], advice["remaining"]);
    const std::string reagent = "2,4-dinitrophenylhydrazine";
    ASSERT_TRUE(measurements.contains(reagent));
    EXPECT_GT(measurements[reagent]["bits"], 0.4);
    EXPECT_LT(measurements[reagent]["bits"], measurements["S2"]["bits"]);
    EXPECT_GT(measurements["molar mass"]["bits"], 0.8);
    for (const auto &[name, one] : measurements) {
        EXPECT_LE(one["bits"], advice["open_bits"]) << name;
    }
}

TEST_F(AdviseTest, WhatWasDoneIsNotAdvisedAgain) {
    const std::string table = "sample,feature,system,quantity,value,uv254,stain,stained\n"
                              "f,1,S1,Rf,0.50,yes,DNPH,no\n";
    auto measurements = by_name(advise(table, {"--top", "50"}).lines().at(0));
    EXPECT_FALSE(measurements.contains("2,4-dinitrophenylhydrazine"));
    EXPECT_FALSE(measurements.contains("lamp at 254 nm"));
}

TEST_F(AdviseTest, AStandardThatRanOnThePlateIsNotAdvisedAgain) {
    const std::string lanes = "2,x,35,70,sample\n";
    const auto measurements = [&](const std::string &rows) {
        return by_name(advise("lane,label,distance_mm,front_mm,role\n" + rows,
                              {"--top", "50", "--system", "S1"})
                           .lines()
                           .at(0));
    };
    EXPECT_TRUE(measurements(lanes).contains("beside benzaldehyde on S1"));
    auto beside = measurements("1,benzaldehyde,35,70,standard\n" + lanes);
    EXPECT_FALSE(beside.contains("beside benzaldehyde on S1"));
    EXPECT_TRUE(beside.contains("S2"));
}

TEST_F(AdviseTest, WhatOneMeasurementLeavesIsSaidInWords) {
    const std::string one = unwrapped(cospot({"advise", file("u.csv", kOpen)}).out);
    EXPECT_EQ(one.find("to leave"), std::string::npos) << one;
    EXPECT_HOLDS(one, "of the 2 candidates of the 95 % set");
    EXPECT_HOLDS(one, "0.6 of one candidate means that it stays in 6 of 10 cases");
}

TEST_F(AdviseTest, LanesWithFaultsMayBeLeftOut) {
    const std::string plate = "lane,label,distance_mm,front_mm\n1,x,35,70\n2,y,far,70\n";
    EXPECT_EQ(advise(plate, {"--system", "S1"}).code, kBadInput);
    const Outcome outcome = advise(plate, {"--system", "S1", "--partial"});
    EXPECT_EQ(outcome.code, kNeedsAttention) << outcome.err;
    EXPECT_HOLDS(outcome.err, "lane 2 is left out");
    EXPECT_EQ(outcome.lines().at(0)["sample"], "x");
}

TEST_F(AdviseTest, CompoundsMayStandInOneList) {
    const auto compounds = [&](const std::string &list) {
        return cospot({"--json", "advise", "--compounds", list}).lines().at(0)["compounds"].size();
    };
    EXPECT_EQ(compounds("benzaldehyde, methyl benzoate,phenol"), 3U);
    EXPECT_EQ(compounds("benzaldehyde;anisole"), 2U);
    EXPECT_HOLDS(cospot({"advise", "--compounds", "benzaldehyde,phenoll"}).err,
                 "did you mean \"phenol\"?");
}

TEST_F(AdviseTest, EffortDecidesTheOrder) {
    const auto first = [&](const std::string &efforts) {
        const Outcome outcome = advise(kOpen, {"--effort", file("e.csv", efforts)});
        EXPECT_EQ(outcome.code, kDone) << outcome.err;
        return outcome.lines().at(0)["measurements"][0]["measurement"].get<std::string>();
    };
    EXPECT_EQ(first("measurement,effort\nstain,20\nmass,50\n"), "S2");
    EXPECT_EQ(first("measurement,effort\nstain,20\nS2,90\nmass,0.1\n"), "molar mass");
}

TEST_F(AdviseTest, ASampleIsAdvisedAsAWhole) {
    const auto lines = advise(kOpen + "f,2,S1,Rf,0.36\n", {"--top", "50"}).lines();
    ASSERT_EQ(lines.size(), 3U);
    EXPECT_EQ(lines[2]["kind"], "sample");
    double sum = 0.0;
    for (std::size_t i = 0; i < 2; ++i) {
        auto own = by_name(lines[i]);
        sum += own.contains("S2") ? own["S2"]["bits"].get<double>() : 0.0;
    }
    EXPECT_GT(sum, 0.5);
    EXPECT_NEAR(by_name(lines[2])["S2"]["bits"], sum, 1e-9);
}

TEST_F(AdviseTest, TheFewestSystemsThatTellCompoundsApart) {
    const Outcome outcome = cospot({"--json", "advise", "--compounds", "benzaldehyde",
                                    "--compounds", file("more.txt", "methyl benzoate\nphenol\n")});
    ASSERT_EQ(outcome.code, kDone) << outcome.err;
    const Json advice = outcome.lines().at(0);
    EXPECT_EQ(advice["compounds"].size(), 3U);
    EXPECT_EQ(advice["sets"].size(), 1U);
    EXPECT_EQ(advice["sets"][0]["systems"], Json({"S2"}));
    EXPECT_NEAR(advice["sets"][0]["discriminating_power"], 1.0, 1e-12);
    EXPECT_NEAR(advice["alone"][1]["discriminating_power"], 2.0 / 3.0, 1e-9);
    EXPECT_TRUE(advice["inseparable"].empty());
    EXPECT_EQ(advice["never_together"], 0);
}

TEST_F(AdviseTest, TheTextBeginsWithAVerdictAndSumsUpSeveralFeatures) {
    const std::string one = cospot({"advise", file("u.csv", kOpen)}).out;
    EXPECT_TRUE(one.starts_with("Most for its effort: ")) << one;
    EXPECT_EQ(one.find("At a glance"), std::string::npos) << one;
    const std::string two =
        cospot({"advise", file("u.csv", kOpen + "f,2,S1,Rf,0.36\n"), "--top", "1"}).out;
    EXPECT_TRUE(two.starts_with("A further measurement would tell more about ")) << two;
    EXPECT_HOLDS(two, "of 2 features");
    EXPECT_HOLDS(two, "At a glance");
    EXPECT_HOLDS(cospot({"advise", "--compounds", "benzaldehyde", "--compounds", "phenol"}).out,
                 "S1 tells most apart: on average 1.0 of 2 compounds remain.");
}

TEST_F(AdviseTest, BadUseIsNamed) {
    EXPECT_EQ(cospot({"advise"}).code, kBadInput);
    EXPECT_EQ(cospot({"advise", "--all", "--compounds", "phenol"}).code, kBadInput);
    EXPECT_EQ(cospot({"advise", "--compounds", "phenol"}).code, kBadInput);
    const Outcome effort =
        advise(kOpen, {"--effort", file("e.csv", "measurement,effort\ntlc,0\n")});
    EXPECT_EQ(effort.code, kBadInput);
    EXPECT_NE(effort.err.find("e.csv:2, column effort"), std::string::npos) << effort.err;
}

TEST_F(AdviseTest, TheTextFitsTheScreen) {
    for (const Outcome &outcome : {cospot({"advise", file("u.csv", kOpen + "f,2,S1,Rf,0.36\n")}),
                                   cospot({"advise", "--all"})}) {
        EXPECT_EQ(outcome.code, kDone);
        EXPECT_NE(outcome.out.find("Retention alone is no proof"), std::string::npos);
        expect_fits_screen(outcome.out);
    }
}

} // namespace
} // namespace cospot
