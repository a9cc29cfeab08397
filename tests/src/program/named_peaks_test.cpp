// What a name in the column compound means: a statement of the user, in purity of the sample's own
// peak. The system, its indices and the samples are invented; limits: q3c in tests/SOURCES.md.
#include "program_fixture.h"

namespace cospot {
namespace {

using Json = nlohmann::json;
using Texts = std::vector<std::string>;

class NamedPeaks : public ProgramTest {
protected:
    NamedPeaks() {
        const std::vector<std::tuple<std::string, std::string, double>> solvents{
            {"dichloromethane", "ClCCl", 613.5}, {"ethyl acetate", "CCOC(C)=O", 686.2},
            {"toluene", "Cc1ccccc1", 829.2},     {"benzene", "c1ccccc1", 720.0},
            {"cyclohexane", "C1CCCCC1", 705.0},  {"1-butanol", "CCCCO", 780.0}};
        std::string values = "compound,smiles,system,quantity,value,run\n";
        for (int run = 1; run <= 3; ++run) {
            for (const auto &[name, smiles, index] : solvents) {
                values += name + "," + smiles + ",db,RI," +
                          std::to_string(index + 0.4 * (run - 2)) + ",r" + std::to_string(run) +
                          "\n";
            }
        }
        const Outcome learned =
            cospot({"learn", "--systems",
                    file("systems.csv",
                         "system,technique,stationary_phase,mobile_phase,scale,programme\n"
                         "db,gc,6 % cyanopropylphenyl,helium,n-alkane,\"40 C, 10 C/min\"\n"),
                    file("values.csv", values),
                    file("names.csv", "compound,smiles,synonyms\ndichloromethane,ClCCl,DCM\n")});
        EXPECT_EQ(learned.code, kDone) << learned.err;
        ladder_ = file("ladder.csv", "carbon,tR\n5,3.121\n6,4.853\n7,7.310\n8,10.122\n9,12.950\n");
    }

    Outcome run(const std::string &verb, const std::string &peaks, const Texts &further = {},
                bool json = true) const {
        Texts call{verb, file("s.csv", peaks), "--system", "db", "--ladder", ladder_};
        if (json) {
            call.insert(call.begin(), "--json");
        }
        call.insert(call.end(), further.begin(), further.end());
        return cospot(call);
    }

    Outcome solvents(const std::string &peaks, const Texts &further = {}, bool json = true) const {
        Texts all{"--declared", "x", "--residual-solvents"};
        all.insert(all.end(), further.begin(), further.end());
        return run("purity", peaks, all, json);
    }

    static Json rule(const Json &sample, const std::string &name) {
        for (const Json &one : sample["rules"]) {
            if (one["rule"] == name) {
                return one;
            }
        }
        return nullptr;
    }

    std::string ladder_;
};

const Texts kSoughtSolvents{"--expected",    "dichloromethane",       "--confirmed",
                            "ethyl acetate", "--detection-limit-ppm", "20"};

TEST_F(NamedPeaks, AreJudgedAgainstTheirLimitsAndNotTakenForStandards) {
    const Outcome outcome = solvents("peak,tR,area,compound,ppm\n1,5.187,1112,DCM,5310\n"
                                     "2,6.97,100,,400\n",
                                     kSoughtSolvents);
    EXPECT_EQ(outcome.code, kNeedsAttention) << outcome.out;
    const Json sample = outcome.lines().at(0);
    ASSERT_EQ(sample["features"].size(), 2U);
    const Json judged = rule(sample, "dichloromethane (class 2)");
    EXPECT_EQ(judged["verdict"], "does not meet"); // 5310 of 600
    EXPECT_EQ(judged["found"], "peak 1, 5310 ppm");
    EXPECT_EQ(judged["reason"], "named dichloromethane in the table; not confirmed");
    EXPECT_EQ(sample["features"][0]["identity"]["name"], "dichloromethane");
    EXPECT_EQ(sample["features"][0]["identity"]["named"], true);
    EXPECT_EQ(sample["features"][0]["identity"]["confirmed"], false);
}

TEST_F(NamedPeaks, ANameWithinItsLimitStaysOpenUntilItIsConfirmed) {
    const std::string peaks = "peak,tR,compound,ppm\n1,5.187,DCM,300\n";
    const Json open = rule(solvents(peaks).lines().at(0), "dichloromethane (class 2)");
    EXPECT_EQ(open["verdict"], "open");
    EXPECT_HOLDS(open["reason"].dump(), "named in the table; not confirmed: open until");
    const Outcome met = solvents(peaks, {"--confirmed", "dichloromethane"});
    EXPECT_EQ(met.code, kDone) << met.out;
    EXPECT_EQ(met.lines().at(0)["features"][0]["identity"]["confirmed"], true);
}

TEST_F(NamedPeaks, RetentionThatContradictsTheNameIsFlagged) {
    const std::string little = "peak,tR,compound,ppm\n1,5.187,toluene,300\n";
    const Outcome outcome = solvents(little);
    EXPECT_EQ(outcome.code, kNeedsAttention);
    const Json sample = outcome.lines().at(0);
    EXPECT_EQ(rule(sample, "toluene (class 2)")["verdict"], "can't be told");
    EXPECT_EQ(sample["features"][0]["identity"]["contradicted"], true);
    EXPECT_HOLDS(sample["features"][0]["warnings"].dump(),
                 "the table names it toluene, but its retention speaks against that: likeliest is "
                 "dichloromethane");
    // Too much of what the user says it is, is too much.
    const Json much = solvents("peak,tR,compound,ppm\n1,5.187,toluene,3000\n").lines().at(0);
    EXPECT_EQ(rule(much, "toluene (class 2)")["verdict"], "does not meet");
    EXPECT_HOLDS(rule(much, "toluene (class 2)")["reason"].dump(), "speaks against it");
}

TEST_F(NamedPeaks, ASolventThatTheLibraryLacksIsFoundByItsName) {
    const Json sample =
        solvents("peak,tR,compound,ppm\n1,3.6,Methanol,4000\n2,9.0,mystery,3\n").lines().at(0);
    EXPECT_EQ(rule(sample, "methanol (class 2)")["verdict"], "does not meet"); // 3000
    EXPECT_HOLDS(rule(sample, "mystery")["reason"].dump(),
                 "no structure of that name in the library");
}

TEST_F(NamedPeaks, ARunWithNamesOnlyDoesNotVanish) {
    const Outcome outcome = solvents("run,peak,tR,area,compound,ppm\nA,1,6.97,100,,400\n"
                                     "B,1,5.187,1112,dichloromethane,5310\n",
                                     kSoughtSolvents);
    EXPECT_EQ(outcome.code, kNeedsAttention);
    const auto lines = outcome.lines();
    ASSERT_EQ(lines.size(), 3U); // and the trend
    EXPECT_EQ(lines[1]["sample"], "B");
    EXPECT_EQ(rule(lines[1], "dichloromethane (class 2)")["verdict"], "does not meet");
}

TEST_F(NamedPeaks, ARunOfStandardsWithoutAmountsIsLeftOutAndNamed) {
    const std::string peaks = "run,peak,tR,compound,ppm\nS,1,10.948,toluene,\nA,1,6.97,,400\n";
    const Outcome outcome = solvents(peaks, kSoughtSolvents, false);
    EXPECT_EQ(outcome.code, kNeedsAttention) << outcome.out;
    EXPECT_HOLDS(unwrapped(outcome.out), "S is left out, not judged: all its peaks are named");
    EXPECT_HOLDS(outcome.out, "A, declared x: in order");
    const Outcome stated = solvents("run,peak,tR,compound,ppm,role\nS,1,10.948,toluene,,standard\n"
                                    "A,1,6.97,,400,\n",
                                    kSoughtSolvents, false);
    EXPECT_EQ(stated.code, kDone) << stated.out;
    EXPECT_HOLDS(unwrapped(stated.out).substr(0, 300),
                 "1 named peak was taken as a standard of its run, not judged: toluene (S).");
}

TEST_F(NamedPeaks, AStandardGivesAmountsToItsOwnRunOnly) {
    ASSERT_EQ(cospot({"learn", file("f.csv", "compound,relative_to,system,response_factor\n"
                                             "ethyl acetate,1-butanol,db,0.5\n")})
                  .code,
              kDone);
    const auto lines = solvents("run,peak,tR,area,compound,ppm,role\n"
                                "A,1,6.97,100,,,\nA,2,9.56,100,1-butanol,100,standard\n"
                                "B,1,6.97,100,,,\nB,2,9.56,400,1-butanol,100,standard\n")
                           .lines();
    EXPECT_NEAR(lines.at(0)["features"][0]["ppm"], 200.0, 1e-9);
    EXPECT_NEAR(lines.at(1)["features"][0]["ppm"], 50.0, 1e-9);
}

TEST_F(NamedPeaks, ImpuritiesGoByTheirNamesToo) {
    const std::string rules = file("rules.json", R"({"name": "house limits",
        "identification": [{"percent": "0.10"}],
        "specified": [{"compound": "toluene", "percent": "0.5"}], "any_other": "0.10"})");
    const Json sample = run("purity",
                            "peak,tR,area,compound\n1,6.97,99000,Ethyl Acetate\n"
                            "2,10.948,300,toluene\n3,5.187,300,toluene\n",
                            {"--declared", "ethyl acetate", "--rules", rules})
                            .lines()
                            .at(0);
    EXPECT_EQ(sample["main"], "1");
    EXPECT_EQ(rule(sample, "ethyl acetate is there")["verdict"], "open");
    EXPECT_HOLDS(rule(sample, "ethyl acetate is there")["reason"].dump(), "named in the table");
    std::string verdicts;
    for (const Json &one : sample["rules"]) {
        if (one["rule"] == "limit of toluene") {
            verdicts +=
                one["found"].get<std::string>() + " " + one["verdict"].get<std::string>() + "; ";
        }
    }
    EXPECT_HOLDS(verdicts, "peak 2, 0.30 % open");
    EXPECT_HOLDS(verdicts, "peak 3, 0.30 % can't be told"); // runs as dichloromethane
}

TEST_F(NamedPeaks, InALongTableANameTakesNoAreaAway) {
    const Json sample =
        cospot({"--json", "purity",
                file("long.csv", "sample,feature,system,quantity,value,area,compound,role\n"
                                 "a,1,db,RI,686.2,600,,\na,2,db,RI,829.2,400,toluene,\n"
                                 "a,3,db,RI,780,50,1-butanol,standard\n"),
                "--declared", "ethyl acetate"})
            .lines()
            .at(0);
    ASSERT_EQ(sample["features"].size(), 2U);
    EXPECT_NEAR(sample["impurities_per_cent"], 40.0, 1e-9);
    EXPECT_EQ(sample["features"][1]["identity"]["named"], true);
}

TEST_F(NamedPeaks, APeakBeforeTheLadderIsJudgedWithoutACrash) {
    const Outcome alone = solvents("peak,tR,area,ppm\n1,2.114,1.2,30\n", {}, false);
    EXPECT_EQ(alone.code, kNeedsAttention) << alone.err;
    EXPECT_HOLDS(unwrapped(alone.out), "its retention could not be compared");
    const Outcome named = solvents("peak,tR,compound,ppm\n1,2.114,toluene,900\n");
    EXPECT_EQ(rule(named.lines().at(0), "toluene (class 2)")["verdict"], "does not meet");
    const Outcome declared =
        run("purity", "peak,tR,area\n1,2.114,1.2\n", {"--declared", "toluene"});
    EXPECT_EQ(declared.code, kBadInput);
    EXPECT_HOLDS(unwrapped(declared.err), "before C5, the first member of the ladder");
    for (const char *verb : {"identify", "advise"}) {
        EXPECT_EQ(run(verb, "peak,tR,area\n1,2.114,1.2\n").code, kNeedsAttention) << verb;
    }
}

TEST_F(NamedPeaks, WhatIsCalledUnknownStaysAPeakOfTheSample) {
    const std::string peaks = "peak,tR,area,compound,ppm\n1,5.187,9,unknown,30\n2,6.97,9,?,400\n"
                              "3,10.948,9,toluene,10\n";
    EXPECT_EQ(run("identify", peaks).lines().size(), 2U);
    const Json sample = solvents(peaks).lines().at(0);
    EXPECT_EQ(sample["features"].size(), 3U);
    EXPECT_EQ(sample["features"][0]["identity"]["named"], false);
    const Outcome learned = run("learn", peaks, {"--dry-run"}, false);
    EXPECT_EQ(learned.code, kDone) << learned.err;
    EXPECT_HOLDS(learned.out, "Values         1 ");
    EXPECT_EQ(cospot({"--json", "identify",
                      file("long.csv", "sample,feature,system,quantity,value,compound\n"
                                       "a,1,db,RI,613,n.i.\na,2,db,RI,829,toluene\n")})
                  .lines()
                  .size(),
              1U);
}

TEST_F(NamedPeaks, StandardsAreCountedBeforeTheAnswer) {
    const std::string peaks = "run,peak,tR,compound\nS1,1,5.184,DCM\nS2,1,10.948,toluene\n"
                              "A,1,6.97,\n";
    const Outcome text = run("identify", peaks, {}, false);
    const std::string words =
        "2 named peaks were taken as standards of their runs, not judged: DCM "
        "(S1), toluene (S2).";
    EXPECT_LT(unwrapped(text.out).find(words), unwrapped(text.out).find("Prob."));
    EXPECT_HOLDS(unwrapped(run("identify", peaks).err), words);
    EXPECT_EQ(run("identify", "peak,tR\n1,6.97\n", {}, false).out.find("named peak"),
              std::string::npos);
}

TEST_F(NamedPeaks, RunsWithoutAStandardAreLeftOutOfWhatIsLearned) {
    const Outcome learned = run("learn", "run,peak,tR,compound\nS,1,10.948,toluene\nB,1,5.187,\n",
                                {"--date", "2026-02-01"}, false);
    EXPECT_EQ(learned.code, kDone) << learned.err;
    EXPECT_HOLDS(unwrapped(learned.err), "1 run without a standard left out: B");
    const Outcome none = run("learn", "run,peak,tR,compound\nB,1,5.187,unk\n");
    EXPECT_EQ(none.code, kBadInput);
    EXPECT_HOLDS(unwrapped(none.err), "--map compound=HEADER");
    const Outcome outside = run("learn", "peak,tR,compound\n1,2.1,toluene\n");
    EXPECT_EQ(outside.code, kBadInput);
    EXPECT_HOLDS(unwrapped(outside.err), "before C5, the first member of the ladder");
}

TEST_F(NamedPeaks, WhereEveryRunIsFaultyThatIsSaid) {
    const std::string peaks = "run,peak,tR,compound\nS,1,x,toluene\nB,1,y,\n";
    for (const char *verb : {"identify", "learn"}) {
        const Outcome outcome = run(verb, peaks, {"--partial"});
        EXPECT_EQ(outcome.code, kBadInput) << verb;
        EXPECT_HOLDS(unwrapped(outcome.err), "faulty rows in every run, so that nothing is left");
        EXPECT_HOLDS(outcome.err, "\"x\"");
        EXPECT_EQ(outcome.err.find("standards only"), std::string::npos) << outcome.err;
    }
}

TEST_F(NamedPeaks, AmountsBelowALimitAreHeldAgainstIt) {
    const std::string peaks = "peak,tR,area,ppm\n1,10.948,< LOQ,< 20\n2,8.1,,< 20\n3,6.97,5,400\n";
    const Json sample = solvents(peaks).lines().at(0);
    EXPECT_EQ(rule(sample, "toluene (class 2)")["found"], "peak 1, below 20 ppm");
    EXPECT_EQ(rule(sample, "toluene (class 2)")["verdict"], "open");
    EXPECT_HOLDS(sample["notes"].dump(), "read as no amount, too little to be measured");
    const Json benzene =
        rule(solvents("peak,tR,ppm\n1,7.87,< 20\n").lines().at(0), "benzene (class 1)");
    EXPECT_EQ(benzene["verdict"], "can't be told"); // 2 ppm
    EXPECT_HOLDS(benzene["reason"].dump(), "lower than what the amount is stated to be below");
}

TEST_F(NamedPeaks, ASheetSaysWhereItIsFromThoughItsFirstPeakHasNoIndex) {
    const Outcome outcome = solvents("run,date,peak,tR,ppm\nA,2026-02-01,1,2.114,1\nA,,2,6.97,400\n"
                                     "B,2026-02-02,1,6.97,400\n",
                                     {"--report", path("sheets.html"), "--sheets"});
    EXPECT_EQ(outcome.code, kNeedsAttention) << outcome.err;
    EXPECT_HOLDS(content("sheets.html"), "On db, run 2026-02-01; read from");
    EXPECT_HOLDS(content("sheets.html"), "On db, run 2026-02-02; read from");
}

} // namespace
} // namespace cospot
