// predict, and identify --also: what is expected where nothing was measured.
#include "program_fixture.h"

#include <cmath>

namespace cospot {
namespace {

/// A library of n-alkanols, n-alkanals, n-alkyl acetates and n-alkyl benzenes on an invented GC
/// system whose index is 100 per carbon and a fixed step for the group, and on two eluents in which
/// R_F follows from the group; one compound is left out of each system in turn.
class PredictTest : public ProgramTest {
protected:
    PredictTest() {
        std::string values = "compound,smiles,system,quantity,value,run\n";
        const auto add = [&](const std::string &name, const std::string &smiles,
                             const std::string &system, const std::string &quantity, double value) {
            values += name + "," + smiles + "," + system + "," + quantity + "," +
                      std::to_string(value) + ",r1\n";
        };
        struct Family {
            std::string name, head, tail;
            double step, rf;
        };
        const std::vector<Family> families{{"alkanol", "", "O", 170.0, 0.25},
                                           {"alkanal", "", "=O", 110.0, 0.45},
                                           {"alkyl acetate", "CC(=O)O", "", 320.0, 0.60},
                                           {"alkylbenzene", "c1ccc(cc1)", "", 640.0, 0.85}};
        for (const Family &family : families) {
            for (int carbons = 2; carbons <= 11; ++carbons) {
                const std::string smiles =
                    family.head + std::string(static_cast<std::size_t>(carbons), 'C') + family.tail;
                const std::string name = family.name + " " + std::to_string(carbons);
                const double rf = family.rf + 0.005 * carbons;
                if (name != "alkanol 6") {
                    add(name, smiles, "gc", "RI", family.step + 100.0 * carbons);
                }
                add(name, smiles, "weak", "Rf", 0.8 * rf);
                add(name, smiles, "strong", "Rf", rf + 0.05);
                if (name != "alkyl acetate 5") {
                    add(name, smiles, "middle", "Rf", 0.9 * rf + 0.02);
                }
            }
        }
        const Outcome learned = cospot(
            {"learn", "--systems",
             file("systems.csv", "system,technique,stationary_phase,mobile_phase,scale,programme\n"
                                 "gc,gc,dimethylsilicone,helium,n-alkane,\"50 C, 5 C/min\"\n"
                                 "weak,tlc,silica gel,hexane:ethyl acetate 9:1,,\n"
                                 "middle,tlc,silica gel,hexane:ethyl acetate 6:1,,\n"
                                 "strong,tlc,silica gel,hexane:ethyl acetate 3:1,,\n"
                                 "thin,tlc,alumina,toluene,,\n"),
             file("values.csv", values),
             file("thin.csv",
                  "compound,smiles,system,quantity,value\nphenol,Oc1ccccc1,thin,Rf,0.2\n")});
        EXPECT_EQ(learned.code, kDone) << learned.err;
    }

    nlohmann::json retention(const std::string &target, const std::string &system) const {
        const Outcome outcome = cospot({"--json", "predict", target, "--system", system});
        EXPECT_EQ(outcome.code, kDone) << outcome.err;
        return outcome.lines().at(0).at("retention").at(0);
    }
};

TEST_F(PredictTest, WithoutRetentionTheStructureIsDescribedAndNoSystemIsLookedAt) {
    const Outcome described = cospot({"--json", "predict", "CCO", "--structure-only"});
    ASSERT_EQ(described.code, kDone) << described.err;
    const auto told = nlohmann::json::parse(described.out);
    EXPECT_EQ(told["formula"], "C2H6O"); // composition of ethanol, from memory
    EXPECT_TRUE(told["retention"].empty());
    const Outcome shown = cospot({"predict", "CCO", "--structure-only"});
    EXPECT_NE(shown.out.find("Retention was not asked for."), std::string::npos) << shown.out;
    const Outcome both = cospot({"predict", "CCO", "--structure-only", "--system", "gc"});
    EXPECT_EQ(both.code, kBadInput);
    EXPECT_NE(both.err.find("--structure-only with --system"), std::string::npos) << both.err;
}

TEST_F(PredictTest, DescribesAStructure) {
    const auto line = cospot({"--json", "predict", "CCCCCCO"}).lines().at(0);
    EXPECT_EQ(line["inchikey"], "ZSIAUFGUXNUGDI-UHFFFAOYSA-N"); // hexan-1-ol; pubchem, read
    EXPECT_EQ(line["formula"], "C6H14O");
    EXPECT_EQ(line["descriptors"]["hydrogen_bond_donors"], 1);
    // yaws, read: 1-hexanol boils at 430.55 K.
    EXPECT_NEAR(line["boiling_point"]["model"]["kelvin"], 430.0, 15.0);
    EXPECT_NEAR(line["boiling_point"]["joback"]["kelvin"], 430.0, 15.0);
}

TEST_F(PredictTest, AnUnmeasuredStructureIsPredictedWithAnInterval) {
    const auto expected = retention("CCCCCCO", "gc");
    EXPECT_EQ(expected["basis"], "predicted");
    EXPECT_NEAR(expected["expected"], 770.0, 60.0);
    EXPECT_LT(expected["low"], 770.0);
    EXPECT_GT(expected["high"], 770.0);
}

TEST_F(PredictTest, OwnValuesInOtherMixturesAreTransferred) {
    const auto expected = retention("alkyl acetate 5", "middle");
    EXPECT_EQ(expected["basis"], "transferred");
    EXPECT_NEAR(expected["expected"], 0.9 * 0.625 + 0.02, 0.02);
    EXPECT_LT(expected["high"].get<double>() - expected["low"].get<double>(), 0.2);
}

TEST_F(PredictTest, OwnValuesOnTheSystemAreMeasured) {
    const auto expected = retention("alkanal 4", "gc");
    EXPECT_EQ(expected["basis"], "measured");
    EXPECT_NEAR(expected["expected"], 510.0, 1e-6);
}

TEST_F(PredictTest, MuchLargerOrSmallerCompoundsAreRefused) {
    EXPECT_EQ(retention(std::string(40, 'C') + "O", "gc")["refused"],
              "much larger than the compounds measured (41 heavy atoms; they have 3 to 17)");
    EXPECT_EQ(retention("[Fe]", "gc")["refused"],
              "much smaller than the compounds measured (1 heavy atom; they have 3 to 17)");
    EXPECT_FALSE(retention("CCCCCCO", "gc").contains("refused"));
}

TEST_F(PredictTest, TooFewCompoundsAreRefused) {
    const auto refused = retention("CCCCCCO", "thin");
    EXPECT_FALSE(refused.contains("expected"));
    EXPECT_EQ(refused["refused"], "1 compound measured, 30 are needed");
    // Its size is not the reason: no size could be predicted there.
    EXPECT_EQ(retention(std::string(40, 'C') + "O", "thin")["refused"],
              "1 compound measured, 30 are needed");
}

TEST_F(PredictTest, WhereNoValueCanBeStatedTheOrderFollowsFromStructure) {
    // Alcohols are held longer than esters and arenes on a normal phase (snyder1968, order).
    const Outcome outcome =
        cospot({"predict", "CCCCCCO", "CCCCCc1ccccc1", "CCCCCOC(C)=O", "--system", "thin"});
    EXPECT_HOLDS(unwrapped(outcome.out),
                 "By structure alone (how strongly silica holds them), first to leave first: "
                 "CCCCCc1ccccc1, CCCCCOC(C)=O, CCCCCCO. An order, no values.");
    EXPECT_EQ(cospot({"predict", "CCCCCCO", "--system", "thin"}).out.find("By structure alone"),
              std::string::npos);
    EXPECT_EQ(cospot({"predict", "CCCCCCO", "CCCCCCC=O", "--system", "gc"})
                  .out.find("By structure alone"),
              std::string::npos); // values are stated there
}

TEST_F(PredictTest, SeveralCompoundsStandInOneTableBySystems) {
    const Outcome outcome = cospot({"predict", "alkanol 6", "alkanal 4", "CCCCCCCC(C)O"});
    expect_fits_screen(outcome.out);
    const std::string text = unwrapped(outcome.out);
    const std::size_t table = text.find("Compounds by systems");
    ASSERT_NE(table, std::string::npos) << outcome.out;
    EXPECT_LT(table, text.find("Expected order on"));
    EXPECT_HOLDS(text.substr(table), "Measured unless said otherwise; -: not predicted");
    EXPECT_HOLDS(text.substr(table), "alkanal 4");
    EXPECT_HOLDS(text.substr(table), "RI 510");
    EXPECT_EQ(cospot({"predict", "alkanol 6"}).out.find("Compounds by systems"), std::string::npos);
}

TEST_F(PredictTest, TellsTheOrderOfElutionAndWhy) {
    const Outcome outcome = cospot({"predict", "alkanol 3", "alkylbenzene 3", "--system", "weak"});
    const std::size_t alcohol = outcome.out.find("alkanol 3", outcome.out.find("Expected order"));
    const std::size_t arene =
        outcome.out.find("alkylbenzene 3", outcome.out.find("Expected order"));
    EXPECT_LT(arene, alcohol);
    EXPECT_NE(outcome.out.find("Normal phase"), std::string::npos);
    expect_fits_screen(outcome.out);
}

TEST_F(PredictTest, SaysOnceWhyNothingIsToldOfSeveralCompounds) {
    const Outcome outcome = cospot({"predict", "CCCCCCO", "CCCCCC=O", "--system", "thin"});
    EXPECT_HOLDS(outcome.out, "Retention of 2 compounds on thin: 2 not predicted.");
    EXPECT_HOLDS(outcome.out,
                 "- Rf not predicted for any of the 2 compounds: 1 compound measured,");
}

TEST_F(PredictTest, NamesGroupsInWords) {
    const Outcome outcome =
        cospot({"predict", "CCCc1cc[nH]c1", "CC[N+](=O)[O-]", "--system", "gc"});
    EXPECT_HOLDS(outcome.out, "pyrrole NH");
    EXPECT_HOLDS(outcome.out, "aliphatic nitro");
    EXPECT_EQ(outcome.out.find('_'), std::string::npos) << outcome.out;
}

TEST_F(PredictTest, AnSdFileIsReadAsItsStructures) {
    std::string record = "two carbons and sulfur\n  invented\n\n"
                         "  3  2  0  0  0  0  0  0  0  0999 V2000\n";
    for (int i = 0; i < 3; ++i) {
        record += fmt::format("    {}.0000    0.0000    0.0000 {}   0  0  0  0  0  0  0  0  0  0  0"
                              "  0\n",
                              i, i == 2 ? "S" : "C");
    }
    record += "  1  2  1  0\n  2  3  1  0\nM  END\n$$$$\n";
    const auto lines =
        cospot({"--json", "predict", "--structure-only", file("two.sdf", record + record)}).lines();
    ASSERT_EQ(lines.size(), 2U);
    const auto typed = cospot({"--json", "predict", "--structure-only", "CCS"}).lines().at(0);
    EXPECT_EQ(lines[0]["compound"], "two carbons and sulfur");
    EXPECT_EQ(lines[0]["inchikey"], typed["inchikey"]);
    EXPECT_EQ(lines[0]["smiles"], "CCS");
    record.replace(record.find("  2  3  1"), 9, "  2  9  1"); // an atom that is not there
    const Outcome faulty = cospot({"predict", "--structure-only", file("faulty.sdf", record)});
    EXPECT_EQ(faulty.code, kBadInput);
    EXPECT_HOLDS(faulty.err, "faulty.sdf:1");
}

TEST_F(PredictTest, FaultyTargetsAreUsageErrors) {
    EXPECT_EQ(cospot({"predict"}).code, kBadInput);
    EXPECT_EQ(cospot({"predict", "C(("}).code, kBadInput);
    EXPECT_EQ(cospot({"predict", "CCO", "--system", "none"}).code, kBadInput);
    EXPECT_EQ(cospot({"predict", file("empty.smi", "# nothing\n")}).code, kBadInput);
}

TEST_F(PredictTest, SuspectsAreCandidatesBesideMeasuredOnes) {
    const std::string unknown =
        file("u.csv", "sample,feature,system,quantity,value\nf,1,gc,RI,772\n");
    const std::string suspects = file("also.smi", "CCCCCCO hexan-1-ol\n");
    const auto without = cospot({"--json", "identify", unknown}).lines().at(0);
    const auto with = cospot({"--json", "identify", unknown, "--also", suspects}).lines().at(0);
    EXPECT_EQ(without["candidates"].dump().find("hexan-1-ol"), std::string::npos);
    double sum = with["unlisted"].get<double>() + with["other"].get<double>();
    bool found = false;
    for (const auto &candidate : with["candidates"]) {
        sum += candidate["probability"].get<double>();
        if (candidate["compound"] == "hexan-1-ol") {
            found = true;
            EXPECT_EQ(candidate["basis"], "predicted");
        }
    }
    EXPECT_TRUE(found) << with.dump();
    EXPECT_NEAR(sum, 1.0, 1e-9);
    EXPECT_LT(with["unlisted"], without["unlisted"]);
}

TEST_F(PredictTest, FurtherEvidenceDoesNotCountForStructuresThatTheLibraryDoesNotHold) {
    const auto feature =
        cospot({"--json", "identify",
                file("u.csv", "sample,feature,system,quantity,value,uv254,formula\n"
                              "f,1,gc,RI,1370,no,C12H26O\n"),
                "--also", file("also.smi", "CCCCCCCCCCCCO dodecan-1-ol\nCCCCCCO hexan-1-ol\n")})
            .lines()
            .at(0);
    const auto further = [&](const std::string &name) {
        for (const auto &candidate : feature["candidates"]) {
            if (candidate["compound"] == name) {
                return candidate["further"].get<double>();
            }
        }
        ADD_FAILURE() << name << " is no candidate";
        return 1e9;
    };
    EXPECT_EQ(further("dodecan-1-ol"), 0.0);
    EXPECT_LT(further("alkyl acetate 10"), -3.0); // another formula
    const std::string warnings = feature["warnings"].dump();
    EXPECT_NE(warnings.find("uv254 does not count for 1 of 41 compounds"), std::string::npos)
        << warnings;
    EXPECT_NE(warnings.find("formula does not count for 1 of 41 compounds"), std::string::npos)
        << warnings;
}

} // namespace
} // namespace cospot
