// Batches of a laboratory for quality control: residual solvents by index, a list of confirmed
// names for many batches, the peak of the hold-up time. All values are invented; limits: q3c in
// tests/SOURCES.md.
#include "program_fixture.h"

#include <algorithm>

namespace cospot {
namespace {

using Json = nlohmann::json;
using Texts = std::vector<std::string>;

/// acetonitrile and dichloromethane lie two spreads apart, acetone and 2-propanol as well.
const std::string kIndices = "compound,smiles,system,quantity,value,run\n"
                             "acetone,CC(C)=O,dbx,RI,500,r1\n2-propanol,CC(C)O,dbx,RI,510,r1\n"
                             "acetonitrile,CC#N,dbx,RI,530,r1\n"
                             "dichloromethane,ClCCl,dbx,RI,541,r1\n"
                             "toluene,Cc1ccccc1,dbx,RI,780,r1\n"
                             "tetrahydrofuran,C1CCOC1,dbx,RI,650,r1\n";
const std::string kLadder = "carbon,tR\n4,2\n5,3\n6,5\n7,8\n8,11\n";

class QualityControlTest : public ProgramTest {
protected:
    QualityControlTest() {
        const Outcome learned = cospot(
            {"learn", "--systems",
             file("systems.csv", "system,technique,stationary_phase,mobile_phase,scale,programme\n"
                                 "dbx,gc,6 % cyanopropylphenyl,helium,n-alkane,10 C/min\n"),
             file("indices.csv", kIndices),
             file("names.csv", "compound,smiles,synonyms\nacetone,CC(C)=O,propanone\n")});
        EXPECT_EQ(learned.code, kDone) << learned.err;
        ladder_ = file("ladder.csv", kLadder);
    }

    [[nodiscard]] Outcome run(const std::string &verb, const std::string &peaks, Texts further,
                              bool json = true) const {
        Texts call{verb, file("batch.csv", peaks), "--system", "dbx", "--ladder", ladder_};
        if (json) {
            call.insert(call.begin(), "--json");
        }
        call.insert(call.end(), further.begin(), further.end());
        return cospot(call);
    }

    /// The residual solvents of a batch, with the names that are stated as confirmed.
    [[nodiscard]] Outcome solvents(const std::string &peaks, const Texts &confirmed,
                                   const Texts &further = {}) const {
        Texts all{"--declared", "x-17", "--residual-solvents"};
        for (const std::string &name : confirmed) {
            all.insert(all.end(), {"--confirmed", name});
        }
        all.insert(all.end(), further.begin(), further.end());
        return run("purity", peaks, all);
    }

    static Json rule(const Json &sample, const std::string &name) {
        for (const Json &one : sample["rules"]) {
            if (one["rule"] == name) {
                return one;
            }
        }
        return Json::object({{"verdict", "no such rule"}, {"reason", ""}, {"found", ""}});
    }

    std::string ladder_;
};

const std::string kAcetonitrile = "peak,tR,ppm\n1,3.60,500\n"; // of 410; of the other 600 were met

// -- Confirmed names -----------------------------------------------------------------------------

TEST_F(QualityControlTest, AConfirmedNameNeverTakesAPeakFromALikelierCompound) {
    for (const Texts &names : {Texts{"dichloromethane"}, Texts{"dichloromethane", "acetone"},
                               Texts{"acetone", "dichloromethane"}}) {
        const Outcome outcome = solvents(kAcetonitrile, names);
        EXPECT_EQ(outcome.code, kNeedsAttention) << outcome.out;
        const Json sample = outcome.lines().at(0);
        const Json &peak = sample["features"][0];
        EXPECT_EQ(peak["identity"]["name"], "acetonitrile");
        EXPECT_EQ(peak["identity"]["confirmed"], false);
        EXPECT_EQ(sample["confirmed"], Json::array());
        EXPECT_FALSE(sample["in_order"]);
        EXPECT_NE(rule(sample, "acetonitrile (class 2)")["verdict"], "meets");
        EXPECT_NE(rule(sample, "dichloromethane (class 2)")["verdict"], "meets");
        EXPECT_HOLDS(peak["warnings"].dump(), "dichloromethane is stated with --confirmed, but "
                                              "acetonitrile is likelier here, 0.");
    }
}

TEST_F(QualityControlTest, AListOfConfirmedNamesForManyBatchesConfirmsTheLikeliest) {
    const Outcome outcome =
        solvents(kAcetonitrile, {"dichloromethane", "toluene", "acetone", "acetonitrile"});
    const Json sample = outcome.lines().at(0);
    EXPECT_EQ(sample["confirmed"], Json({"acetonitrile"}));
    EXPECT_EQ(rule(sample, "acetonitrile (class 2)")["verdict"], "does not meet");
    EXPECT_EQ(sample["features"][0]["warnings"].dump().find("--confirmed"), std::string::npos);
}

TEST_F(QualityControlTest, NamesOfWhichNothingIsThereChangeNothing) {
    const std::string peaks = "peak,tR,ppm\n1,10.40,300\n";
    const Outcome alone = solvents(peaks, {"toluene"});
    const Outcome listed = solvents(peaks, {"acetone", "dichloromethane", "toluene"});
    EXPECT_EQ(alone.code, kDone) << alone.out;
    EXPECT_EQ(listed.code, kDone) << listed.out;
    EXPECT_EQ(listed.lines()[0]["rules"], alone.lines()[0]["rules"]);
    EXPECT_EQ(listed.lines()[0]["features"], alone.lines()[0]["features"]);
}

TEST_F(QualityControlTest, AConfirmedImpurityIsNotPinnedOnALikelierOneEither) {
    const std::string rules = file("r.json", R"({"name": "x", "any_other": "0.10",
        "specified": [{"compound": "dichloromethane", "percent": "0.5"}]})");
    const Outcome outcome =
        run("purity", "peak,tR,area\n1,3.60,300\n2,10.40,99700\n",
            {"--declared", "toluene", "--rules", rules, "--confirmed", "toluene", "--confirmed",
             "dichloromethane", "--expected", "acetonitrile"});
    EXPECT_EQ(outcome.code, kNeedsAttention) << outcome.out;
    const Json sample = outcome.lines().at(0);
    EXPECT_EQ(sample["confirmed"], Json({"toluene"}));
    EXPECT_EQ(rule(sample, "any other impurity")["verdict"], "does not meet");
    EXPECT_EQ(rule(sample, "limit of dichloromethane")["verdict"], "no such rule");
}

TEST_F(QualityControlTest, ANameOfTheTableIsConfirmedUnlessRetentionContradictsIt) {
    const Json near =
        solvents("peak,tR,ppm,compound\n1,3.60,500,dichloromethane\n", {"dichloromethane"})
            .lines()
            .at(0);
    EXPECT_EQ(near["features"][0]["identity"]["confirmed"], true);
    const Outcome far =
        solvents("peak,tR,ppm,compound\n1,10.40,500,dichloromethane\n", {"dichloromethane"});
    EXPECT_EQ(far.code, kNeedsAttention);
    EXPECT_EQ(far.lines().at(0)["features"][0]["identity"]["confirmed"], false);
    EXPECT_HOLDS(far.lines()[0]["features"][0]["warnings"].dump(), "is stated with --confirmed");
}

TEST_F(QualityControlTest, ADeclaredCompoundIsNotConfirmedWhereAnotherIsLikelier) {
    const Outcome outcome = run(
        "purity", kAcetonitrile,
        {"--declared", "dichloromethane", "--residual-solvents", "--confirmed", "dichloromethane"});
    EXPECT_EQ(outcome.code, kNeedsAttention) << outcome.out;
    EXPECT_NE(rule(outcome.lines()[0], "acetonitrile (class 2)")["verdict"], "no such rule");
}

TEST_F(QualityControlTest, AnExpectedSolventIsNotUnseenWhereAPeakMayBeIt) {
    const Texts sought{"--expected", "dichloromethane", "--detection-limit-ppm", "20"};
    const Json much = solvents("peak,tR,ppm\n1,3.60,700\n", {}, sought).lines().at(0);
    EXPECT_EQ(rule(much, "dichloromethane (class 2)")["verdict"], "can't be told");
    EXPECT_HOLDS(rule(much, "dichloromethane (class 2)")["reason"].dump(), "it may be peak 1");
    const Json none = solvents("peak,tR,ppm\n1,10.40,700\n", {}, sought).lines().at(0);
    EXPECT_EQ(rule(none, "dichloromethane (class 2)")["verdict"], "meets");
}

// -- Which one it is -----------------------------------------------------------------------------

const Texts kAllListed{"--prior-unlisted", "0.02"};

TEST_F(QualityControlTest, WhatMeetsItsLimitWhicheverSolventItIsIsMet) {
    const Outcome outcome = solvents("peak,tR,ppm\n1,3.08,92\n", {}, kAllListed);
    const Json sample = outcome.lines().at(0);
    EXPECT_EQ(outcome.code, kDone) << outcome.out;
    const Json &verdict = sample["rules"][0];
    EXPECT_EQ(verdict["verdict"], "meets");
    EXPECT_HOLDS(verdict["reason"].dump(), "met whichever it is: acetone (0.");
    EXPECT_HOLDS(verdict["reason"].dump(), "2-propanol (0.");
    EXPECT_HOLDS(verdict["reason"].dump(), "limit 5000 ppm");
    EXPECT_HOLDS(verdict["reason"].dump(), "a compound that the library lacks");
}

TEST_F(QualityControlTest, WhatDependsOnWhichSolventItIsStaysOpen) {
    const std::string between = "peak,tR,ppm\n1,3.72,500\n"; // 410 of one, 600 of the other
    const Outcome outcome = solvents(between, {}, kAllListed);
    EXPECT_EQ(outcome.code, kNeedsAttention);
    EXPECT_EQ(outcome.lines()[0]["rules"][0]["verdict"], "can't be told") << outcome.out;
    const Json little = solvents("peak,tR,ppm\n1,3.72,300\n", {}, kAllListed).lines().at(0);
    EXPECT_EQ(little["rules"][0]["verdict"], "meets");
    const Json much = solvents("peak,tR,ppm\n1,3.72,6000\n", {}, kAllListed).lines().at(0);
    EXPECT_EQ(much["rules"][0]["verdict"], "does not meet");
    EXPECT_HOLDS(much["rules"][0]["reason"].dump(), "too much whichever it is");
}

TEST_F(QualityControlTest, WhichSolventItIsStaysOpenWhereItMayBeNoneOfThem) {
    const Outcome outcome = solvents("peak,tR,ppm\n1,3.08,92\n", {}, {"--prior-unlisted", "0.9"});
    EXPECT_EQ(outcome.code, kNeedsAttention) << outcome.out;
    EXPECT_NE(outcome.lines()[0]["rules"][0]["verdict"], "meets");
}

TEST_F(QualityControlTest, OtherPeaksOfTheSameLimitCountWhicheverSolventItIs) {
    // 4000 ppm more of acetone, if the first peak is acetone, too.
    const Json sample =
        solvents("peak,tR,ppm\n1,3.08,2000\n2,3.00,4000\n", {}, kAllListed).lines().at(0);
    EXPECT_FALSE(sample["in_order"]);
}

// -- Amounts below a limit -----------------------------------------------------------------------

TEST_F(QualityControlTest, NotDetectedIsBelowTheDetectionLimitButNotQuantifiedIsNot) {
    const Texts limit{"--detection-limit-ppm", "20"};
    const auto toluene = [&](const std::string &amount, const Texts &further) {
        return rule(
            solvents("peak,tR,ppm\n1,10.40," + amount + "\n", {"toluene"}, further).lines().at(0),
            "toluene (class 2)");
    };
    EXPECT_EQ(toluene("n.d.", limit)["verdict"], "meets");
    EXPECT_EQ(toluene("n.d.", limit)["found"], "peak 1, below 20 ppm");
    EXPECT_EQ(toluene("n.d.", {})["verdict"], "can't be told");
    EXPECT_HOLDS(toluene("n.d.", {})["reason"].dump(), "--detection-limit-ppm");
    EXPECT_EQ(toluene("< LOQ", limit)["verdict"], "can't be told");
    EXPECT_EQ(toluene("< LOQ", limit)["found"], "peak 1, below its limit of quantitation");
    EXPECT_HOLDS(toluene("< LOQ", limit)["reason"].dump(), "write the limit of quantitation");
    EXPECT_EQ(toluene("< 20", {})["verdict"], "meets");
}

// -- The peak of the hold-up time ----------------------------------------------------------------

class HoldUpPeakTest : public ProgramTest {
protected:
    HoldUpPeakTest() {
        const Outcome learned =
            cospot({"learn", "--systems",
                    file("s.csv", "system,technique,stationary_phase,mobile_phase,reference\n"
                                  "rp,hplc,C18,water:acetonitrile 1:1,butyl benzoate\n"),
                    file("v.csv", "compound,smiles,system,quantity,value\n"
                                  "butyl benzoate,CCCCOC(=O)c1ccccc1,rp,RRT,1\n"
                                  "propyl benzoate,CCCOC(=O)c1ccccc1,rp,RRT,0.57\n")});
        EXPECT_EQ(learned.code, kDone) << learned.err;
    }

    [[nodiscard]] Outcome judged(const std::string &peaks, const Texts &further = {},
                                 bool json = true) const {
        Texts call{"purity", file("b.csv", peaks), "--declared", "butyl benzoate", "--system",
                   "rp",     "--dose-mg-per-day",  "500"};
        if (json) {
            call.insert(call.begin(), "--json");
        }
        call.insert(call.end(), further.begin(), further.end());
        return cospot(call);
    }
};

const std::string kNoFront = "tR,area,compound\n4.87,50,\n8.50,99950,butyl benzoate\n";
const Texts kConfirmedMain{"--confirmed", "butyl benzoate"};

TEST_F(HoldUpPeakTest, IsNoImpurityWhereTheTableCallsItSo) {
    const Json without = judged(kNoFront, kConfirmedMain).lines().at(0);
    for (const std::string name : {"solvent front", "void", "t0", "Injection peak"}) {
        const Outcome outcome = judged("tR,area,compound\n1.32,170000," + name +
                                           "\n4.87,50,\n8.50,99950,butyl benzoate\n",
                                       kConfirmedMain);
        ASSERT_EQ(outcome.code, kDone) << outcome.out << outcome.err;
        const Json sample = outcome.lines().at(0);
        EXPECT_EQ(sample["features"][0]["role"], "unretained");
        EXPECT_EQ(sample["rules"].size(), without["rules"].size());
        EXPECT_EQ(sample["features"][2]["per_cent"], without["features"][1]["per_cent"]);
        EXPECT_HOLDS(sample["notes"].dump(), "in the table: not retained, so it is no impurity");
    }
}

TEST_F(HoldUpPeakTest, IsTheOneAtAHoldUpTimeThatIsGiven) {
    const std::string peaks = "tR,area,compound\n1.33,500,\n4.87,50,\n8.50,99950,butyl benzoate\n";
    for (const std::string hold_up : {"1.32", "1.33", "1.34"}) { // one digit of rounding
        Texts further{"--hold-up", hold_up};
        further.insert(further.end(), kConfirmedMain.begin(), kConfirmedMain.end());
        const Outcome outcome = judged(peaks, further);
        EXPECT_EQ(outcome.code, kDone) << outcome.out << outcome.err;
        EXPECT_EQ(outcome.lines().at(0)["features"][0]["role"], "unretained") << hold_up;
    }
    const Json unknown = judged(peaks, kConfirmedMain).lines().at(0);
    EXPECT_EQ(unknown["features"][0]["role"], "impurity"); // nobody says that it is not retained
}

TEST_F(HoldUpPeakTest, IsNeverTheDeclaredOrReferencePeak) {
    const Json sample =
        judged("tR,area,compound\n1.32,900000,void\n4.87,50,\n8.50,99950,\n").lines().at(0);
    EXPECT_EQ(sample["main"], "3"); // the largest of what the column kept
}

TEST_F(HoldUpPeakTest, AReferencePeakRestsOnTheChoiceOfItNotOnAProbability) {
    const Outcome outcome = judged(kNoFront);
    const Json there = outcome.lines().at(0)["rules"][0];
    EXPECT_EQ(there["rule"], "butyl benzoate is there");
    EXPECT_EQ(there["found"], "peak 2, the reference peak");
    EXPECT_EQ(there["verdict"], "open");
    EXPECT_HOLDS(there["reason"].dump(), "the reference peak by your own choice");
    const std::string shown = judged(kNoFront, {}, false).out;
    EXPECT_EQ(shown.find("probability"), std::string::npos) << shown;
    EXPECT_HOLDS(shown, "the reference");
}

// -- What is read --------------------------------------------------------------------------------

const std::string kStandards = "Working standard 7;;;\nMethod 17;Instrument 2;;\n;;;\n"
                               "Solvent;Ret. time (min);Area (pA*s);Remark\n"
                               "acetone;3,00;120,5;\ntoluene;10,40;98,2;slight tailing\n"
                               ";;218,7;\n";

TEST_F(QualityControlTest, AChromatogramOfOtherWordsIsRefusedWithWhatToWrite) {
    const std::string sheet = file("standards.csv", kStandards);
    const auto learned = [&](const Texts &further) {
        Texts call{"learn", sheet, "--system", "dbx"};
        call.insert(call.end(), further.begin(), further.end());
        return cospot(call);
    };
    for (const Texts &further : {Texts{}, Texts{"--ladder", ladder_}}) {
        const Outcome refused = learned(further);
        EXPECT_EQ(refused.code, kBadInput);
        EXPECT_HOLDS(refused.err, "standards.csv:4");
        EXPECT_HOLDS(unwrapped(refused.err), "--map tR=\"Ret. time (min)\"");
        EXPECT_HOLDS(unwrapped(refused.err), "--map compound=\"Solvent\"");
        EXPECT_EQ(refused.err.find("compound,smiles (optional"), std::string::npos)
            << "as of a table of compounds: " << refused.err;
    }
    const Outcome half = learned({"--ladder", ladder_, "--map", "tR=Ret. time (min)"});
    EXPECT_EQ(half.code, kBadInput);
    EXPECT_HOLDS(unwrapped(half.err), "perhaps --map compound=\"Solvent\"");
    const Outcome whole = learned({"--ladder", ladder_, "--map", "tR=Ret. time (min)", "--map",
                                   "compound=Solvent", "--run", "w7"});
    EXPECT_EQ(whole.code, kDone) << whole.err;
    EXPECT_HOLDS(whole.err, "1 row of sums left out (line 7)");
}

TEST_F(QualityControlTest, FaultsOfTableAndLadderAreToldTogether) {
    const std::string ladder = file("bad.csv", "Ladder 3;;\nPeak;RT [min];Name\n1;3,0;Pentane\n");
    const Outcome refused = cospot({"identify", file("b.csv", "peak,tR\n1,3.00\n2,x\n3,y\n"),
                                    "--system", "dbx", "--ladder", ladder});
    EXPECT_EQ(refused.code, kBadInput);
    EXPECT_HOLDS(refused.err, "3 faults");
    EXPECT_HOLDS(refused.err, "b.csv:3");
    EXPECT_HOLDS(refused.err, "b.csv:4");
    EXPECT_HOLDS(unwrapped(refused.err), "bad.csv:2");
    EXPECT_HOLDS(unwrapped(refused.err), "--ladder-map standard=\"Name\"");
}

TEST_F(QualityControlTest, RowsOfSumsOfEachBatchAreLeftOut) {
    const Outcome outcome = run("identify",
                                "Export\nrun;date;vial;compound;tR;area\n"
                                "A-1;12.03.2024;11;;3,00;88,2\nA-1;;;Sum;;88,2\n"
                                "A-2;12.03.2024;12;;3,18;75,4\nA-2;;;Sum;;75,4\n"
                                "Remark: vial 12 capped again;;;;;\n",
                                {});
    ASSERT_EQ(outcome.code, kDone) << outcome.err;
    EXPECT_EQ(outcome.lines().size(), 2U);
}

TEST_F(QualityControlTest, TheProductNeedsNoStructureForItsResidualSolvents) {
    const Outcome outcome =
        run("purity", "peak,tR,ppm\n1,10.40,300\n",
            {"--declared", "Feldrin", "--residual-solvents", "--confirmed", "toluene"});
    EXPECT_EQ(outcome.code, kDone) << outcome.err << outcome.out;
}

TEST_F(QualityControlTest, OnlyStandardsWithinReachArePointedOut) {
    const std::string far = "run,tR,compound\nA,10.40,toluene\nA,3.00,\nB,3.18,\n";
    EXPECT_EQ(run("identify", far, {}, false).out.find("differs from toluene"), std::string::npos);
    const std::string near = "run,tR,compound\nA,3.60,acetonitrile\nA,3.82,\n";
    EXPECT_HOLDS(run("identify", near, {}, false).out, "differs from acetonitrile: 13.2 s after");
}

TEST_F(QualityControlTest, StandardsOfAPlateAreFoundUnderAllTheirNames) {
    ASSERT_EQ(cospot({"learn", "--systems",
                      file("p.csv", "system,technique,stationary_phase,mobile_phase\n"
                                    "silica,tlc,silica gel,hexane:ethyl acetate 3:1\n")})
                  .code,
              kDone);
    const std::string plate = file("plate.csv", "lane,label,distance_mm,front_mm\n"
                                                "1,Propanone,21,70\n2,toluene,49,\n3,x,30,\n");
    const Outcome learned =
        cospot({"learn", plate, "--system", "silica", "--standards", "acetone,toluene,ethanol"});
    EXPECT_EQ(learned.code, kDone) << learned.err;
    EXPECT_HOLDS(learned.err, "no lane is labelled \"ethanol\"");
    EXPECT_EQ(learned.err.find("no lane is labelled \"acetone\""), std::string::npos);
    EXPECT_HOLDS(cospot({"export", "values"}).out, "acetone,CC(C)=O,,silica,Rf,0.3,");
}

} // namespace
} // namespace cospot
