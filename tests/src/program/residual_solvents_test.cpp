// purity --residual-solvents. The system, its times and the samples are invented; limits: q3c in
// tests/SOURCES.md.
#include "program_fixture.h"

namespace cospot {
namespace {

using Json = nlohmann::json;
using Texts = std::vector<std::string>;

class ResidualSolventsTest : public ProgramTest {
protected:
    ResidualSolventsTest() {
        const std::vector<std::tuple<std::string, std::string, double>> solvents{
            {"methanol", "CO", 2.1},
            {"acetone", "CC(C)=O", 3.0},
            {"benzene", "c1ccccc1", 5.2},
            {"toluene", "Cc1ccccc1", 8.0},
            {"p-xylene", "Cc1ccc(C)cc1", 10.4},
            {"o-xylene", "Cc1ccccc1C", 11.5},
            {"water", "O", 1.4},
            {"1-butanol", "CCCCO", 6.9}};
        std::string values = "compound,smiles,system,quantity,value,run\n";
        for (int run = 1; run <= 3; ++run) {
            for (const auto &[name, smiles, time] : solvents) {
                values += name + "," + smiles + ",headspace,tR," +
                          std::to_string(time + 0.005 * (run - 2)) + ",r" + std::to_string(run) +
                          "\n";
            }
        }
        const Outcome learned =
            cospot({"learn", "--systems",
                    file("systems.csv", "system,technique,stationary_phase,mobile_phase\n"
                                        "headspace,gc,6 % cyanopropylphenyl,helium\n"),
                    file("values.csv", values)});
        EXPECT_EQ(learned.code, kDone) << learned.err;
    }

    Outcome solvents(const std::string &peaks, const Texts &further = {}, bool json = true) const {
        Texts call{"purity",     file("s.csv", peaks),  "--declared",
                   "compound 7", "--residual-solvents", "--system",
                   "headspace"};
        if (json) {
            call.insert(call.begin(), "--json");
        }
        call.insert(call.end(), further.begin(), further.end());
        return cospot(call);
    }

    static Json rule(const Json &sample, const std::string &name) {
        for (const Json &one : sample["rules"]) {
            if (one["rule"] == name) {
                return one;
            }
        }
        return nullptr;
    }
};

const std::string kPeaks = "peak,tR,ppm\n1,2.10,1200\n2,3.00,800\n3,8.00,950\n";

TEST_F(ResidualSolventsTest, AreHeldAgainstTheLimitsOfTheirClass) {
    const Outcome outcome = solvents(kPeaks);
    EXPECT_EQ(outcome.code, kNeedsAttention) << outcome.err;
    const Json sample = outcome.lines().at(0);
    EXPECT_EQ(sample["declared"], "compound 7"); // which the library need not hold
    const Json methanol = rule(sample, "methanol (class 2)");
    EXPECT_EQ(methanol["limit"], "3000 ppm");
    EXPECT_EQ(methanol["found"], "peak 1, 1200 ppm");
    EXPECT_EQ(methanol["verdict"], "open");
    EXPECT_EQ(methanol["reason"],
              "open until methanol is confirmed by a reference standard or an independent method");
    EXPECT_EQ(rule(sample, "acetone (class 3)")["limit"], "5000 ppm");
    EXPECT_EQ(rule(sample, "toluene (class 2)")["verdict"], "does not meet"); // 950 of 890
    EXPECT_EQ(sample["features"][0]["ppm"], 1200.0);
    EXPECT_EQ(sample["features"][0]["ppm_basis"], "given");
}

TEST_F(ResidualSolventsTest, AreMetOnceTheyAreConfirmed) {
    const Outcome outcome = solvents("peak,tR,ppm\n1,2.10,1200\n2,3.00,800\n",
                                     {"--confirmed", "methanol", "--confirmed", "acetone"});
    EXPECT_EQ(outcome.code, kDone) << outcome.out;
    EXPECT_EQ(rule(outcome.lines()[0], "methanol (class 2)")["verdict"], "meets");
}

TEST_F(ResidualSolventsTest, ClassOneIsToBeAvoidedWhateverItsAmount) {
    const Json little =
        solvents("peak,tR,ppm\n1,5.20,1.2\n", {"--confirmed", "benzene"}).lines()[0];
    EXPECT_EQ(rule(little, "benzene (class 1)")["limit"], "2 ppm");
    EXPECT_EQ(rule(little, "benzene (class 1)")["verdict"], "meets");
    EXPECT_HOLDS(rule(little, "benzene (class 1)")["reason"].dump(), "to be avoided");
    const Json much = solvents("peak,tR,ppm\n1,5.20,4\n").lines()[0];
    EXPECT_EQ(rule(much, "benzene (class 1)")["verdict"], "does not meet");
}

TEST_F(ResidualSolventsTest, IsomersOfOneSolventAddUp) {
    const Json sample = solvents("peak,tR,ppm\n1,10.40,1200\n2,11.50,1100\n").lines()[0];
    const Json xylenes = rule(sample, "xylenes (class 2)");
    EXPECT_EQ(xylenes["found"], "peak 1, 1200 ppm; peak 2, 1100 ppm");
    EXPECT_EQ(xylenes["verdict"], "does not meet"); // 2300 of 2170
}

TEST_F(ResidualSolventsTest, OfWhatTheGuidelineLacksNothingIsMet) {
    const Json sample = solvents("peak,tR,ppm\n1,1.40,300\n2,20.0,50\n").lines()[0];
    EXPECT_EQ(rule(sample, "water")["verdict"], "can't be told");
    EXPECT_HOLDS(rule(sample, "water")["reason"].dump(), "no limit in the guideline");
    EXPECT_EQ(rule(sample, "a solvent that is not identified")["found"], "peak 2, 50 ppm");
}

TEST_F(ResidualSolventsTest, APeakTakenForTheDeclaredCompoundMayBeASolvent) {
    const auto judged = [&](const Texts &further) {
        Texts call{"--json",     "purity",   file("d.csv", "peak,tR,ppm\n1,3.00,9000\n"),
                   "--declared", "acetone",  "--residual-solvents",
                   "--system",   "headspace"};
        call.insert(call.end(), further.begin(), further.end());
        return cospot(call);
    };
    const Outcome open = judged({});
    EXPECT_EQ(open.code, kNeedsAttention);
    EXPECT_EQ(rule(open.lines()[0], "peak of the declared compound")["verdict"], "open");
    EXPECT_EQ(judged({"--confirmed", "acetone"}).code, kDone);
}

TEST_F(ResidualSolventsTest, AreaPerCentIsNotPpm) {
    const Outcome refused = solvents("peak,tR,area\n1,2.10,1200\n");
    EXPECT_EQ(refused.code, kBadInput);
    EXPECT_HOLDS(refused.err, "area per cent is not ppm");
    EXPECT_HOLDS(unwrapped(refused.err), "a column ppm");
}

TEST_F(ResidualSolventsTest, AmountsFollowFromAKnownOneThroughResponseFactors) {
    ASSERT_EQ(cospot({"learn", file("f.csv", "compound,relative_to,system,response_factor\n"
                                             "methanol,1-butanol,headspace,0.5\n")})
                  .code,
              kDone);
    const Json sample = solvents("peak,tR,area,compound,ppm,role\n1,2.10,3000,,,\n2,3.00,900,,,\n"
                                 "3,6.90,2000,1-butanol,100,standard\n")
                            .lines()[0];
    ASSERT_EQ(sample["features"].size(), 2U); // the standard is none of the sample's
    EXPECT_NEAR(sample["features"][0]["ppm"], 100.0 * 1.5 / 0.5, 1e-9);
    EXPECT_EQ(sample["features"][0]["ppm_basis"], "response");
    EXPECT_EQ(rule(sample, "methanol (class 2)")["verdict"], "open");
    EXPECT_HOLDS(rule(sample, "acetone (class 3)")["reason"].dump(), "response factor");
    EXPECT_EQ(rule(sample, "acetone (class 3)")["verdict"], "can't be told");
}

TEST_F(ResidualSolventsTest, AnExpectedSolventWithoutAPeakIsBelowTheDetectionLimit) {
    const Texts sought{"--expected", "toluene", "--expected", "benzene"};
    const Json open = solvents(kPeaks, sought).lines()[0];
    EXPECT_EQ(rule(open, "benzene (class 1)")["verdict"], "can't be told");
    Texts limited = sought;
    limited.insert(limited.end(), {"--detection-limit-ppm", "1"});
    EXPECT_EQ(rule(solvents(kPeaks, limited).lines()[0], "benzene (class 1)")["verdict"], "meets");
    limited.back() = "5";
    EXPECT_EQ(rule(solvents(kPeaks, limited).lines()[0], "benzene (class 1)")["verdict"],
              "can't be told");
}

TEST_F(ResidualSolventsTest, LimitsInPerCentDoNotGoWithThem) {
    const Outcome rules = solvents(kPeaks, {"--rules", file("r.json", R"({"name": "x"})")});
    EXPECT_EQ(rules.code, kBadInput);
    EXPECT_HOLDS(rules.err, "--rules");
    EXPECT_EQ(cospot({"purity", path("s.csv"), "--declared", "toluene", "--system", "headspace",
                      "--detection-limit-ppm", "1"})
                  .code,
              kBadInput);
}

TEST_F(ResidualSolventsTest, TheTextFitsTheScreen) {
    const Outcome one = solvents(kPeaks, {"--detector", "fid", "--expected", "water"}, false);
    expect_fits_screen(one.out);
    EXPECT_HOLDS(one.out, "Limits: residual solvents, ICH Q3C(R8)");
    EXPECT_HOLDS(one.out, "ppm");
    EXPECT_HOLDS(unwrapped(one.out), "water: a flame ionisation detector hardly sees it");
    const Outcome two = solvents(kPeaks, {file("t.csv", kPeaks)}, false);
    expect_fits_screen(two.out);
    EXPECT_HOLDS(two.out, "2 of 2 samples not in order");
}

} // namespace
} // namespace cospot
