// pool: which fractions of a column to combine.
#include "program_fixture.h"

#include <fmt/format.h>

#include <regex>

namespace cospot {
namespace {

using Json = nlohmann::json;
using Numbers = std::vector<int>;

/// An invented column with three components that overlap.
constexpr const char *kColumn = "fraction,Rf,intensity,mass_mg,volume_mL\n"
                                "1,,,,\n"
                                "2,0.62,40,6.1,15\n"
                                "3,0.61,240,31.0,15\n"
                                "4,0.62,90,13.2,15\n"
                                "4,0.41,20,,\n"
                                "5,0.40,160,22.5,15\n"
                                "6,0.41,260,36.9,15\n"
                                "7,0.40,120,17.4,15\n"
                                "8,0.41,9,1.8,15\n"
                                "8,0.22,12,,\n"
                                "9,0.21,30,4.0,15\n"
                                "10,,,,\n";

class PoolTest : public ProgramTest {
protected:
    Outcome pool(const std::string &content, std::vector<std::string> options = {}) const {
        options.insert(options.begin(), {"pool", file("fractions.csv", content)});
        return cospot(options);
    }

    std::vector<Json> json(const std::string &content,
                           std::vector<std::string> options = {}) const {
        options.insert(options.begin(), {"--json", "pool", file("fractions.csv", content)});
        const Outcome outcome = cospot(options);
        EXPECT_NE(outcome.code, kBadInput) << outcome.err;
        return outcome.lines();
    }

    /// The message about a faulty file.
    std::string fault(const std::string &content, std::vector<std::string> options = {}) const {
        const Outcome outcome = pool(content, std::move(options));
        EXPECT_EQ(outcome.code, kBadInput) << content << outcome.out;
        EXPECT_EQ(outcome.out, "");
        return outcome.err;
    }

    /// The text with one blank in place of any blanks and ends of lines.
    static std::string single_spaced(const std::string &text) {
        return std::regex_replace(text, std::regex("\\s+"), " ");
    }

    static std::vector<std::string> kinds_of(const Json &pools) {
        std::vector<std::string> kinds;
        for (const Json &warning : pools.at("warnings")) {
            kinds.push_back(warning.at("kind"));
        }
        return kinds;
    }
};

TEST_F(PoolTest, SaysWhatToCombineAndWhatToKeepApart) {
    const Outcome outcome = pool(kColumn, {"--target", "B", "--loaded-mg", "150"});
    EXPECT_EQ(outcome.code, kDone) << outcome.out << outcome.err;
    for (const char *expected :
         {"Combine 5-7 for the target B; re-run 4, 8 for the rest.",
          "Combine B 5-7 one spot seen 76.8 45", "Keep apart 4 A and B together: re-run, or",
          "Look again 1, 10 nothing seen", "89 % of the 150 mg loaded",
          "B, target 0.41 (0.40–0.41) 4-8 4, 8 95 %", "Dry silica"}) {
        EXPECT_NE(single_spaced(outcome.out).find(expected), std::string::npos)
            << expected << outcome.out;
    }
    EXPECT_EQ(outcome.out.find("Combine 5-7"), 0U) << outcome.out; // the verdict first
    expect_fits_screen(outcome.out);
}

TEST_F(PoolTest, SaysWhichEdgesOfABandAreWeak) {
    const std::string table = "fraction,Rf,intensity\n1,0.5,1\n2,0.5,90\n3,0.5,2\n3,0.3,8\n";
    const std::string out = single_spaced(pool(table).out);
    EXPECT_NE(out.find("A 0.50 (0.50–0.50) 1-3 3 98 % 1"), std::string::npos) << out;
    EXPECT_NE(out.find("less than 5 % of the strongest spot"), std::string::npos) << out;
    EXPECT_EQ(json(table)[0]["weak_edges"], (Numbers{1, 3})); // 3 is mixed, not for combining
}

TEST_F(PoolTest, NeverCallsASpotPure) {
    const std::string out = pool(kColumn).out;
    EXPECT_EQ(out.find(" pure"), std::string::npos) << out;
    EXPECT_NE(out.find("no proof of purity"), std::string::npos);
}

TEST_F(PoolTest, DrawsTheRunWithACellAFraction) {
    const std::string out = pool(kColumn).out;
    EXPECT_NE(out.find("A  Rf 0.62       ██ ██ ▒▒\n"), std::string::npos) << out;
    EXPECT_NE(out.find("B  Rf 0.41             ▒▒ ██ ██ ██ ▒▒\n"), std::string::npos) << out;
    EXPECT_NE(out.find("spots          -  1  1  2  1  1  1  2  1  -\n"), std::string::npos) << out;
}

TEST_F(PoolTest, ALongColumnIsDrawnInBlocksWithin80Columns) {
    std::string table = "fraction;Rf\n";
    for (int i = 1; i <= 130; ++i) {
        table += std::to_string(i) + ";" + (i < 70 ? "0.5" : "0.25") + "\n";
    }
    const Outcome outcome = pool(table);
    EXPECT_EQ(outcome.code, kDone) << outcome.out;
    expect_fits_screen(outcome.out);
    EXPECT_NE(outcome.out.find("130"), std::string::npos);
}

TEST_F(PoolTest, JsonTellsAllThatAPictureNeeds) {
    const auto lines = json(kColumn, {"--target", "0.41"});
    ASSERT_EQ(lines.size(), 4U);
    const Json &b = lines[1];
    EXPECT_EQ(b["record"], "component");
    EXPECT_EQ(b["component"], "B");
    EXPECT_EQ(b["one_spot"], (Numbers{5, 6, 7}));
    EXPECT_EQ(b["mixed"], (Numbers{4, 8}));
    EXPECT_EQ(b["weak_edges"], (Numbers{8}));
    EXPECT_TRUE(b["target"]);
    EXPECT_NEAR(b["rf"], 0.406, 1e-9);
    EXPECT_NEAR(b["recovery"]["one_spot"], 540.0 / 569.0, 1e-9);
    EXPECT_TRUE(b["recovery"]["by_volume"]);
    EXPECT_NEAR(b["one_spot_mass"]["total"], 76.8, 1e-9);
    const Json &last = lines[3];
    EXPECT_EQ(last["record"], "pools");
    EXPECT_EQ(last["source"], "plates");
    EXPECT_EQ(last["pools"].size(), 3U);
    EXPECT_EQ(last["mixed"][0]["components"], (std::vector<std::string>{"A", "B"}));
    EXPECT_EQ(last["no_spot"], (Numbers{1, 10}));
    EXPECT_TRUE(last["open_end"].empty());
    EXPECT_EQ(last["fractions"].size(), 10U);
    EXPECT_EQ(last["fractions"][3]["state"], "mixed");
    EXPECT_EQ(last["fractions"][3]["spots"][1]["component"], "B");
    EXPECT_EQ(last["fractions"][3]["spots"][1]["intensity"], 20.0);
    EXPECT_EQ(last["fractions"][3]["mass_mg"], 13.2);
    EXPECT_EQ(last["target"]["component"], "B");
    EXPECT_FALSE(last["needs_attention"]);
    EXPECT_EQ(last["cautions"].size(), 4U);
}

TEST_F(PoolTest, AStandardOnEachPlateMovesThePlatesTogether) {
    // The second plate runs higher: its 0.60 is the first one's 0.50.
    const std::string spots = "fraction,plate,role,label,Rf\n,one,standard,vanillin,0.50\n"
                              ",two,standard,vanillin,0.60\n1,one,,,0.50\n2,one,,,0.50\n"
                              "3,two,,,0.60\n4,two,,,0.60\n";
    const auto lines = json(spots);
    EXPECT_EQ(lines[0]["one_spot"], (Numbers{1, 2, 3, 4}));
    EXPECT_NEAR(lines[0]["rf"], 0.5, 1e-9);
    EXPECT_HOLDS(unwrapped(pool(spots).out), "Plate two runs -0.176 in R_M against the plates "
                                             "before it (by 1 standard on both)");
    const auto unmoved = json("fraction,plate,Rf\n1,one,0.50\n2,one,0.50\n3,two,0.60\n"
                              "4,two,0.60\n");
    EXPECT_EQ(unmoved[0]["one_spot"], (Numbers{1, 2}));
}

TEST_F(PoolTest, AFaultyStandardIsNamed) {
    EXPECT_HOLDS(fault("fraction,role,Rf\n1,standard,0.5\n"), "column fraction");
    EXPECT_HOLDS(fault("fraction,role,Rf\n,standard,\n"), "where the standard ran");
    EXPECT_HOLDS(fault("fraction,role,Rf\n,standard,0.5\n"), "standards only");
    EXPECT_HOLDS(fault("fraction,role,signal\n1,standard,0.5\n"), "no standards in a trace");
    EXPECT_HOLDS(fault("fraction,role,Rf\n1,cospot,0.5\n"), "column role");
}

TEST_F(PoolTest, TheDataProposeATolerance) {
    std::string spots = "fraction,Rf\n";
    for (int i = 1; i <= 8; ++i) {
        spots += fmt::format("{},{}\n", i, i % 2 == 0 ? 0.44 : 0.40);
    }
    const auto lines = json(spots);
    EXPECT_NEAR(lines.back()["tolerance"], 3 * 1.4826 * 0.04, 1e-4); // hampel1974
    EXPECT_EQ(lines[0]["one_spot"].size(), 8U);
    EXPECT_HOLDS(unwrapped(pool(spots).out), "as the data propose: 7 pairs scatter by 0.059");
    EXPECT_NEAR(json(spots, {"--tolerance", "0.02"}).back()["tolerance"], 0.02, 1e-12);
}

TEST_F(PoolTest, DistancesGiveTheSameComponentsAndTheirOwnTolerance) {
    const auto lines = json("front_mm,distance_mm,fraction\n80,40,1\n80,41,2\n80,,3\n");
    EXPECT_NEAR(lines[0]["rf"], 0.50625, 1e-9);
    // jcgm100, 5.1.2: 3 sqrt(2) 0.5/80 sqrt(1.25), worked by hand.
    EXPECT_NEAR(lines.back()["tolerance"], 0.02965, 1e-5);
    EXPECT_EQ(lines.back()["no_spot"], (Numbers{3}));
}

TEST_F(PoolTest, AGapInsideABandIsNeverTakenForEmpty) {
    const Outcome outcome = pool("fraction,Rf\n5,0.5\n6,0.5\n9,0.5\n");
    EXPECT_EQ(outcome.code, kNeedsAttention);
    const std::string out = single_spaced(outcome.out);
    for (const char *expected :
         {"! Nobody looked at 7-8 within the band of A", "Combine A 5-6, 9 one spot seen",
          "Not looked at 7-8 nothing is known",
          "Look further 9 the last one looked at still shows A"}) {
        EXPECT_NE(out.find(expected), std::string::npos) << expected << outcome.out;
    }
    EXPECT_EQ(pool("fraction,Rf\n5,0.5\n6,0.5\n9,0.5\n", {"--target", "A"})
                  .out.find("Spot 7-8 first. Combine 5-6, 9 for the target A."),
              0U);
    EXPECT_NE(outcome.out.find("Rf 0.50    ██ ██  ? ██"), std::string::npos) << outcome.out;
}

TEST_F(PoolTest, AnOrderThatContradictsThePlatesNeedsAttention) {
    const std::string table = "fraction,Rf\n1,0.3\n2,0.3\n2,0.6\n3,0.6\n";
    EXPECT_EQ(pool(table).code, kNeedsAttention);
    EXPECT_EQ(kinds_of(json(table).back()), (std::vector<std::string>{"order"}));
    EXPECT_EQ(pool(table, {"--order", "open"}).code, kDone);
}

TEST_F(PoolTest, PlatesThatShareAFractionAreMovedOntoEachOther) {
    const std::string table = "plate,fraction,Rf\none,1,0.50\none,2,0.50\ntwo,2,0.60\ntwo,3,0.60\n";
    const Outcome outcome = pool(table);
    EXPECT_EQ(outcome.code, kDone) << outcome.out;
    EXPECT_NE(single_spaced(outcome.out)
                  .find("Plate two runs +0.100 in Rf against the plates before it (from 1 "
                        "fraction on both)"),
              std::string::npos)
        << outcome.out;
    EXPECT_EQ(json(table)[0]["one_spot"], (Numbers{1, 2, 3}));
    const Outcome apart =
        pool("plate,fraction,Rf\none,1,0.50\none,2,0.50\ntwo,3,0.57\ntwo,4,0.57\n");
    EXPECT_EQ(apart.code, kNeedsAttention);
    EXPECT_NE(single_spaced(apart.out).find("counts as read"), std::string::npos) << apart.out;
    EXPECT_NE(single_spaced(apart.out).find("Spot fraction 2 again beside 3"), std::string::npos)
        << apart.out;
}

TEST_F(PoolTest, TellsWhenNoFractionShowsTheTargetAlone) {
    const std::string table = "fraction,Rf\n1,0.6\n2,0.6\n2,0.4\n";
    const Outcome outcome = pool(table, {"--target", "B"});
    EXPECT_EQ(outcome.code, kNeedsAttention);
    EXPECT_NE(single_spaced(outcome.out).find("No fraction shows the target B alone: re-run 2."),
              std::string::npos);
    EXPECT_EQ(pool(table, {"--target", "A"}).code, kDone);
    EXPECT_EQ(json(table, {"--target", "0.9"}).back()["target"]["fault"],
              "No component fits the target 0.9.");
}

TEST_F(PoolTest, NamesComponentsByTheLibrary) {
    std::string values = "compound,smiles,system,quantity,value,run\n";
    const std::vector<std::pair<std::string, double>> known{
        {"CCO", 0.10}, {"CCCO", 0.20}, {"CCCCO", 0.41}, {"CCCCCO", 0.62}, {"CCCCCCO", 0.80}};
    for (const auto &[smiles, rf] : known) {
        for (const char *run : {"r1", "r2", "r3"}) {
            values += smiles + "," + smiles + ",plate,Rf," + std::to_string(rf) + "," + run + "\n";
        }
    }
    ASSERT_EQ(cospot({"learn", "--systems",
                      file("systems.csv", "system,technique,stationary_phase,mobile_phase\n"
                                          "plate,tlc,silica gel,hexane:ethyl acetate 4:1\n"
                                          "oven,gc,polyethylene glycol,helium\n"),
                      file("values.csv", values)})
                  .code,
              kDone);
    const auto lines = json(kColumn, {"--system", "plate", "--target", "CCCCO"});
    EXPECT_EQ(lines[1]["candidates"][0]["compound"], "CCCCO");
    EXPECT_EQ(lines[1]["groups"][0]["compounds"][0], "CCCCO");
    EXPECT_GT(lines[1]["unlisted"], 0.0);
    EXPECT_TRUE(lines[1]["target"]);
    EXPECT_GT(lines.back()["target"]["probability"], 0.3);
    const Outcome absent = pool(kColumn, {"--system", "plate", "--target", "CCO"});
    EXPECT_EQ(absent.code, kNeedsAttention);
    EXPECT_NE(single_spaced(absent.out).find("B CCCCO 0."), std::string::npos) << absent.out;
    EXPECT_NE(single_spaced(absent.out).find("Retention alone is no proof"), std::string::npos);
    expect_fits_screen(absent.out);
    EXPECT_NE(fault(kColumn, {"--system", "oven"}).find("shows no R_F"), std::string::npos);
    EXPECT_NE(fault(kColumn, {"--system", "none"}).find("--system"), std::string::npos);
}

TEST_F(PoolTest, ATraceGivesBandsAndSaysWhatItCannotTell) {
    const std::string table = "volume_mL,signal\n5,0\n15,50\n25,100\n35,20\n45,70\n55,10\n65,0\n";
    const auto lines = json(table, {"--fraction-ml", "10"});
    ASSERT_EQ(lines.size(), 3U);
    EXPECT_EQ(lines[0]["rf"], nullptr);
    EXPECT_EQ(lines[2]["source"], "trace");
    EXPECT_EQ(lines[2]["fractions"][2]["signal"], 100.0);
    EXPECT_TRUE(lines[0]["recovery"]["lower_bound"]);
    const Outcome text = pool(table, {"--fraction-ml", "10", "--baseline", "5"});
    EXPECT_NE(single_spaced(text.out).find("A trace shows where something leaves"),
              std::string::npos);
    EXPECT_NE(text.out.find("as given"), std::string::npos);
    expect_fits_screen(text.out);
    EXPECT_NE(fault(table).find("--fraction-ml"), std::string::npos);
    EXPECT_NE(fault(table, {"--fraction-ml", "0.001"}).find("10000 fractions"), std::string::npos);
    EXPECT_NE(fault("fraction,signal\n1,2\n", {"--system", "x"}).find("no Rf"), std::string::npos);
    EXPECT_EQ(pool("fraction,signal\n1,0\n2,5\n3,0\n").code, kDone);
}

TEST_F(PoolTest, FaultsNamePlaceFoundAndExpected) {
    const std::vector<std::pair<std::string, std::string>> faults{
        {"", "an empty file"},
        {"fraction,Rf\n", "a header without rows"},
        {"fraction\n1\n", "a header without the columns of a kind"},
        {"fraction,Rf,distance_mm\n1,0.1,2\n", "more than one of them"},
        {"fraction,Rf\n0,0.1\n", "line:2, column fraction: found \"0\""},
        {"fraction,Rf\n-1,0.1\n", "a whole number from 1"},
        {"fraction,Rf\n1.5,0.1\n", "a whole number from 1"},
        {"fraction,Rf\nseven,0.1\n", "a whole number from 1"},
        {"fraction,Rf\n,0.1\n", "column fraction"},
        {"fraction,Rf\n1e9,0.1\n", "a whole number from 1 to 10000"},
        {"fraction,Rf\n1,0.1\n2,1.2\n", "column Rf: found 1.2"},
        {"fraction,Rf\n1,62\n", "hR_F divided by 100"},
        {"fraction,Rf\n1,-0.1\n", "an R_F from 0 to 1"},
        {"fraction,Rf\n1,nan\n", "column Rf"},
        {"fraction,Rf,intensity\n1,0.1,-3\n", "column intensity: found -3"},
        {"fraction,Rf,intensity\n1,,3\n", "nothing where no spot was seen"},
        {"fraction,Rf,mass_mg\n1,0.1,3\n1,0.2,4\n", "column mass_mg: found 4; expected 3"},
        {"fraction,Rf,volume_mL\n1,0.1,0\n", "a volume above 0 mL"},
        {"fraction,Rf\n1,0.1\n1,\n", "both with and without a spot"},
        {"fraction,Rf\n1,\n1,0.1\n", "both with and without a spot"},
        {"fraction,Rf\n1,0.1\n1,0.10\n", "again"},
        {"fraction,distance_mm,front_mm\n1,81,80\n", "column distance_mm"},
        {"fraction,distance_mm,front_mm\n1,3,8\n", "not cm"},
        {"fraction,distance_mm,front_mm\n1,3,\n", "column front_mm"},
        {"fraction,signal\n1,3\n1,4\n", "fraction 1 again"},
        {"fraction,signal\n1,\n", "column signal"}};
    for (const auto &[content, expected] : faults) {
        std::string message = fault(content);
        // The file's name is the test's own.
        if (const auto at = message.find("fractions.csv:"); at != std::string::npos) {
            message.replace(at, 14, "line:");
        }
        EXPECT_NE(message.find(expected), std::string::npos) << expected << " in " << message;
        EXPECT_NE(message.find("expected"), std::string::npos) << message;
    }
}

TEST_F(PoolTest, OptionsThatCannotBeAreRefused) {
    const std::vector<std::vector<std::string>> wrong{
        {"--tolerance", "0"},  {"--tolerance", "nan"},       {"--tolerance", "1"},
        {"--order", "any"},    {"--reading-error-mm", "-1"}, {"--loaded-mg", "0"},
        {"--loaded-mg", "inf"}};
    for (const auto &options : wrong) {
        EXPECT_NE(fault(kColumn, options).find(options.front()), std::string::npos)
            << options.front();
    }
    EXPECT_NE(fault("fraction,signal\n1,2\n", {"--baseline", "nan"}).find("--baseline"),
              std::string::npos);
    EXPECT_EQ(cospot({"pool"}).code, kBadInput);
}

TEST_F(PoolTest, SumsOfWhichAPartIsNotKnownAreLowerBounds) {
    const std::string table = "fraction,Rf,mass_mg\n1,0.5,12.5\n2,0.5,\n";
    const std::string out = single_spaced(pool(table).out);
    EXPECT_NE(out.find("Combine A 1-2 one spot seen ≥ 12.5 mass known for 1 of 2 fractions"),
              std::string::npos)
        << out;
    EXPECT_NE(out.find("12.5 mg (1 of 2 weighed)"), std::string::npos) << out;
}

TEST_F(PoolTest, NumbersOfAnyRunFitTheScreenUncut) {
    std::string table = "fraction,Rf,intensity,mass_mg,volume_mL\n";
    for (int i = 9001; i < 9100; i += 2) { // every other one holds both
        table += fmt::format("{},0.5,{},1234.5,1234.5\n{},0.5,90,1234.5,1234.5\n{},0.25,3,,\n", i,
                             i < 9010 ? 1 : 90, i + 1, i + 1);
    }
    const Outcome outcome = pool(table, {"--target", "A"});
    expect_fits_screen(outcome.out);
    EXPECT_EQ(outcome.out.find("…"), std::string::npos) << outcome.out;
    EXPECT_NE(outcome.out.find("A, target"), std::string::npos);
    EXPECT_NE(outcome.out.find(" 61725 "), std::string::npos) << outcome.out;
}

TEST_F(PoolTest, NothingSeenAnywhereIsSaid) {
    const Outcome outcome = pool("fraction,Rf\n1,\n2,\n");
    EXPECT_EQ(outcome.code, kDone);
    EXPECT_NE(outcome.out.find("Nothing was seen in any fraction"), std::string::npos);
}

TEST_F(PoolTest, EscapeCodesInPlateNamesAreNotPrinted) {
    const Outcome outcome = pool("fraction,Rf,plate\n1,0.5,\x1b[31mred\n2,0.5,\x1b[2J\n");
    EXPECT_EQ(outcome.out.find('\x1b'), std::string::npos);
}

} // namespace
} // namespace cospot
