// distil: simulated distillation. Times, areas and the library are invented.
#include "program_fixture.h"

namespace cospot {
namespace {

using Json = nlohmann::json;

const std::string kLadder = "carbon,tR\n8,4\n9,5\n10,6\n11,7\n12,8\n14,10\n16,12\n";
const std::string kPeaks = "peak,tR,area\nsolvent,1,900\n1,4,10\n2,6.99,30\n3,9,20\n4,12,40\n";

class DistilTest : public ProgramTest {
protected:
    Outcome distil(const std::string &peaks, const std::string &ladder,
                   std::vector<std::string> further = {}) const {
        further.insert(further.begin(), {"--json", "distil", file("s.csv", peaks), "--ladder",
                                         file("l.csv", ladder)});
        return cospot(further);
    }

    std::string fault(const std::string &peaks, const std::string &ladder,
                      std::vector<std::string> further = {}) const {
        const Outcome outcome = distil(peaks, ladder, std::move(further));
        EXPECT_EQ(outcome.code, kBadInput) << outcome.out;
        EXPECT_EQ(outcome.out, "");
        return outcome.err;
    }

    void learn(const std::string &system, const std::string &phase,
               const std::vector<std::tuple<std::string, std::string, double>> &compounds) const {
        std::string values = "compound,smiles,system,quantity,value\n";
        for (const auto &[name, smiles, index] : compounds) {
            values += name + "," + smiles + "," + system + ",RI," + std::to_string(index) + "\n";
        }
        const Outcome learned = cospot(
            {"learn", "--systems",
             file("y.csv", "system,technique,stationary_phase,mobile_phase,scale,programme\n" +
                               system + ",gc," + phase +
                               ",helium,n-alkane,\"50 C, 10 C/min to 300 C\"\n" +
                               "iso,gc,dimethylsilicone,helium,n-alkane,isothermal\n"
                               "lc,hplc,C18,water:methanol 1:1,alkyl aryl ketone,\n"),
             file("v.csv", values)});
        ASSERT_EQ(learned.code, kDone) << learned.err;
    }
};

// astmd2887: boiling points of the alkanes confirmed in yaws; index 1099, 195.8 degrees,
// recomputed.
TEST_F(DistilTest, PutsPeaksOnTheScaleOfAlkanes) {
    const Outcome outcome = distil(kPeaks, kLadder, {"--solvent-until", "2"});
    ASSERT_EQ(outcome.code, kDone) << outcome.err;
    const Json sample = outcome.lines().at(0);
    EXPECT_EQ(sample["sample"], "s");
    const Json &peaks = sample["peaks"];
    EXPECT_TRUE(peaks[0]["solvent"]);
    EXPECT_TRUE(peaks[0]["per_cent"].is_null());
    EXPECT_EQ(peaks[1]["celsius"], 126.0);
    EXPECT_EQ(peaks[1]["per_cent"], 10.0);
    EXPECT_NEAR(peaks[2]["celsius"], 195.8, 0.1);
    EXPECT_EQ(peaks[3]["celsius"], (216.0 + 254.0) / 2.0);
    EXPECT_EQ(peaks[4]["celsius"], 287.0);
    // Cumulative area at the apexes is 5, 25, 50 and 80 %.
    EXPECT_EQ(sample["recovered"][1]["per_cent"], 5.0);
    EXPECT_NEAR(sample["recovered"][1]["celsius"], 126.0, 1e-9);
    EXPECT_NEAR(sample["recovered"][10]["celsius"], 235.0, 1e-9);
    EXPECT_NEAR(sample["recovered"][16]["celsius"], 287.0, 1e-9);
    EXPECT_FALSE(sample["uses_start_and_end"]);
}

TEST_F(DistilTest, UsesStartAndEndOfPeaks) {
    const Json sample =
        distil("peak,tR,area,start,end\n1,5.5,50,5,6\n2,10.5,50,10,12\n", kLadder).lines().at(0);
    EXPECT_TRUE(sample["uses_start_and_end"]);
    // Half of the area from 151 to 174 degrees, the other from 254 to 287.
    EXPECT_NEAR(sample["recovered"][5]["celsius"], 162.5, 1e-9);
    EXPECT_NEAR(sample["recovered"][10]["celsius"], 174.0, 1e-9);
    EXPECT_NEAR(sample["recovered"][15]["celsius"], 270.5, 1e-9);
}

TEST_F(DistilTest, SaysWhatLiesOutsideTheLadderAndGuessesNothing) {
    const Outcome outcome = distil("peak,tR,area\n1,2,10\n2,6,60\n3,8,10\n4,15,20\n", kLadder);
    EXPECT_EQ(outcome.code, kNeedsAttention);
    const Json sample = outcome.lines().at(0);
    EXPECT_EQ(sample["before_per_cent"], 10.0);
    EXPECT_EQ(sample["behind_per_cent"], 20.0);
    EXPECT_TRUE(sample["peaks"][0]["celsius"].is_null());
    EXPECT_EQ(sample["peaks"][3]["position"], "behind the ladder");
    EXPECT_EQ(sample["recovered"][1]["position"], "below the scale");
    EXPECT_TRUE(sample["recovered"][20]["celsius"].is_null());
    EXPECT_EQ(sample["recovered"][20]["position"], "above the scale");
    EXPECT_EQ(distil("peak,tR,area\n1,2,10\n", kLadder).lines().at(0)["recovered"], Json::array());
}

// astmd2887, from memory; yaws agrees up to C37.
TEST_F(DistilTest, SaysWhichBoilingPointsNoOtherTableConfirms) {
    const auto text = [&](const char *ladder) {
        return unwrapped(cospot({"distil", file("s.csv", "peak,tR,area\n1,5,10\n"), "--ladder",
                                 file("l.csv", ladder)})
                             .out);
    };
    EXPECT_EQ(text("carbon,tR\n36,4\n37,6\n").find("from memory"), std::string::npos);
    EXPECT_HOLDS(text("carbon,tR\n36,4\n38,6\n"),
                 "Ladder C36 to C38, 496 to 509 °C (ASTM D2887). From C38 on from memory: other "
                 "tables say 2 to 3 °C more.");
}

TEST_F(DistilTest, ComparesTheLibraryWithBoilingPointsFromStructure) {
    learn("np", "dimethylsilicone",
          {{"octane", "CCCCCCCC", 800},
           {"decane", "CCCCCCCCCC", 1000},
           {"dodecane", "CCCCCCCCCCCC", 1200},
           {"toluene", "Cc1ccccc1", 765},
           {"butylbenzene", "CCCCc1ccccc1", 1050},
           {"naphthalene", "c1ccc2ccccc2c1", 1180},
           {"wrong", "CCCCCC", 1400}});
    const Outcome outcome = cospot({"--json", "distil", "--system", "np"});
    ASSERT_EQ(outcome.code, kDone) << outcome.err;
    const Json order = outcome.lines().at(0);
    EXPECT_EQ(order["polar"], false);
    ASSERT_EQ(order["compounds"].size(), 7U);
    EXPECT_EQ(order["compounds"][0]["compound"], "toluene");
    EXPECT_EQ(order["compounds"][6]["compound"], "wrong");
    EXPECT_EQ(order["compounds"][6]["standing"], "late");
    EXPECT_EQ(order["compounds"][6]["place"], 7);
    EXPECT_EQ(order["compounds"][6]["expected_place"], 1);
    EXPECT_EQ(order["pairs"], 21);
    EXPECT_LE(order["ordered_pairs"], 15);
    for (std::size_t i = 0; i < 6; ++i) {
        EXPECT_EQ(order["compounds"][i]["standing"], "usual") << order["compounds"][i];
    }
    EXPECT_EQ(distil(kPeaks, kLadder, {"--system", "np", "--solvent-until", "2"}).lines().size(),
              2U);
    EXPECT_HOLDS(fault(kPeaks, kLadder, {"--system", "iso"}), "isothermal");
    EXPECT_HOLDS(cospot({"distil", "--system", "iso"}).err, "0 compounds to compare");
    EXPECT_HOLDS(cospot({"distil", "--system", "lc"}).err, "n-alkane scale");
    EXPECT_HOLDS(cospot({"distil", "--system", "none"}).err, "a system that the library holds");
}

// Indices on polyethylene glycol as anybody would find them: alcohols far behind hydrocarbons.
TEST_F(DistilTest, WarnsOnAPolarPhase) {
    learn("wax", "polyethylene glycol",
          {{"undecane", "CCCCCCCCCCC", 1100},
           {"dodecane", "CCCCCCCCCCCC", 1200},
           {"tridecane", "CCCCCCCCCCCCC", 1300},
           {"tetradecane", "CCCCCCCCCCCCCC", 1400},
           {"1-octanol", "CCCCCCCCO", 1553}});
    const Outcome outcome = cospot({"distil", "--system", "wax"});
    EXPECT_EQ(outcome.code, kNeedsAttention);
    EXPECT_HOLDS(outcome.out, "Polar phase: the order of boiling points fails");
    EXPECT_HOLDS(outcome.out, "hydrogen bonds");
    const Json order = cospot({"--json", "distil", "--system", "wax"}).lines().at(0);
    EXPECT_EQ(order["polar"], true);
    EXPECT_EQ(order["compounds"][4]["compound"], "1-octanol");
    EXPECT_EQ(order["compounds"][4]["standing"], "late");
}

TEST_F(DistilTest, BadInputIsNamed) {
    EXPECT_HOLDS(fault(kPeaks, "carbon,tR\n8,4\n"), "l.csv:2: found a ladder of 1 members");
    EXPECT_HOLDS(fault(kPeaks, "carbon,tR\n8,4\n9,3\n"), "l.csv:3, column tR");
    EXPECT_HOLDS(fault(kPeaks, "carbon,tR\n50,4\n51,5\n"), "C5 to C44");
    EXPECT_HOLDS(fault(kPeaks, "standard,tR\nmethyl octanoate,4\n"), "l.csv:2, column standard");
    EXPECT_HOLDS(fault("peak,tR,area\n1,5,\n", kLadder), "s.csv:2, column area");
    EXPECT_HOLDS(fault("peak,tR,area\n1,5,-1\n", kLadder), "s.csv:2, column area");
    EXPECT_HOLDS(fault("peak,tR,area\n1,5,0\n", kLadder), "no area");
    EXPECT_HOLDS(fault("peak,tR,area\n1,5,1e308\n2,6,1e308\n", kLadder), "as instruments give it");
    EXPECT_HOLDS(fault("peak,tR\n1,5\n", kLadder), "s.csv:2, column area");
    EXPECT_HOLDS(fault(kPeaks, kLadder, {"--solvent-until", "-1"}), "--solvent-until");
    EXPECT_HOLDS(fault(kPeaks, kLadder, {"--solvent-until", "99"}), "no area");
    EXPECT_HOLDS(cospot({"distil", file("s.csv", kPeaks)}).err, "--ladder");
    EXPECT_HOLDS(cospot({"distil"}).err, "neither FILE nor --system");
}

TEST_F(DistilTest, TheTextFitsTheScreenAndShowsNoControlCharacters) {
    learn("np", "dimethylsilicone",
          {{"octane", "CCCCCCCC", 800},
           {"a decane with quite a long name to it", "CCCCCCCCCC", 1000},
           {"dodecane", "CCCCCCCCCCCC", 1700}});
    const Outcome outcome = cospot(
        {"distil",
         file("a rather long name of a chromatogram that goes on.csv",
              "peak,tR,area\nan uncommonly long name of a peak,2,10\n2\x1b[31m,6,60\n4,15,20\n"),
         "--ladder", file("l.csv", "carbon,tR\n4,1\n6,4\n7,6\n12,10\n"), "--system", "np"});
    EXPECT_EQ(outcome.code, kNeedsAttention) << outcome.err;
    EXPECT_EQ(outcome.out.find('\x1b'), std::string::npos);
    EXPECT_HOLDS(outcome.out, "Area per cent is not mass per cent");
    EXPECT_HOLDS(outcome.out, "Caution: hydrogen");
    EXPECT_HOLDS(outcome.out, "C7 to C12");
    expect_fits_screen(outcome.out);
    EXPECT_EQ(outcome.out.find(" \n"), std::string::npos);
}

} // namespace
} // namespace cospot
