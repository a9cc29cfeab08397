// A column of one's own: its runs are learned, kept, exported and merged, and `column` uses them.
#include "program_fixture.h"

namespace cospot {
namespace {

using Json = nlohmann::json;

constexpr const char *kHeader = "column,silica_g,compound,Rf,start_mL,peak_mL,end_mL,amount_mg,"
                                "load_mL,run,date,source,note\n";

/// An invented cartridge of 12 g on which three compounds ran in two runs.
const std::string kRuns = std::string(kHeader) +
                          "blue 12,12,ketone,0.52,38,47,66,60,0.5,r1,2026-03-02,book 4,\n"
                          "blue 12,,alcohol,0.31,70,92,140,,,r1,2026-03-02,,\"slow, odd\"\n"
                          "blue 12,,arene,0.9,22,26,33,,,r2,2026-03-05,,\n";

constexpr const char *kPlate = "compound,Rf,role\nester,0.4,\nnitrile,0.3,target\n";

class OwnColumn : public ProgramTest {
protected:
    void learn() const {
        const Outcome learned = cospot({"learn", file("runs.csv", kRuns)});
        ASSERT_EQ(learned.code, kDone) << learned.err;
        EXPECT_NE(learned.out.find("Bands          3"), std::string::npos) << learned.out;
    }

    std::vector<Json> plan(const std::string &plate, std::vector<std::string> options) const {
        options.insert(options.begin(), {"--json", "column", file("plate.csv", plate)});
        const Outcome outcome = cospot(options);
        EXPECT_NE(outcome.code, kBadInput) << outcome.err;
        return outcome.lines();
    }

    std::string fault(const std::string &rows) const {
        const Outcome outcome = cospot({"learn", file("bad.csv", rows)});
        EXPECT_EQ(outcome.code, kBadInput) << rows;
        return outcome.err;
    }
};

TEST_F(OwnColumn, LearnedRunsNarrowThePlannedBands) {
    learn();
    const auto blind = plan(kPlate, {"--silica-g", "12"});
    const auto own = plan(kPlate, {"--column", "Blue 12"}); // case does not count
    EXPECT_EQ(own[1]["volume_basis"], "calibrated");
    EXPECT_LT(own[1]["middle_factor"], 0.95 * blind[1]["middle_factor"].get<double>());
    EXPECT_EQ(own[2]["own_column"]["name"], "blue 12");
    EXPECT_EQ(own[2]["own_column"]["runs"], 2);
    EXPECT_EQ(own[2]["own_column"]["bands"], 3);
    EXPECT_EQ(own[2]["own_column"]["held_out"]["bands"], 3);
    const auto origin = [&](std::size_t row) { return own[2]["band_model"][row]["origin"]; };
    EXPECT_EQ(origin(0), "learned");
    const std::string text =
        unwrapped(cospot({"column", file("plate.csv", kPlate), "--column", "blue 12"}).out);
    for (const char *words : {"Column blue 12 is calibrated with 3 bands from 2 runs",
                              "Cross-validation, each run predicted from the others",
                              "With one more run of this column learned"}) {
        EXPECT_NE(text.find(words), std::string::npos) << words << '\n' << text;
    }
    expect_fits_screen(cospot({"column", file("plate.csv", kPlate), "--column", "blue 12"}).out);
}

// Mass and bed may both stand in a table of runs.
TEST_F(OwnColumn, MassAndBedAreBothShown) {
    ASSERT_EQ(
        cospot({"learn", file("both.csv", "column,silica_g,diameter_mm,bed_mm,compound,Rf,start_mL,"
                                          "end_mL\nboth,12,14,150,ketone,0.52,38,66\n")})
            .code,
        kDone);
    const Outcome outcome = cospot({"column", file("plate.csv", kPlate), "--column", "both"});
    EXPECT_NE(outcome.code, kBadInput) << outcome.err;
    EXPECT_EQ(outcome.err, "");
    expect_fits_screen(outcome.out);
    const auto object = plan(kPlate, {"--column", "both"}).back();
    EXPECT_EQ(object["diameter_mm"], 14.0);
    EXPECT_EQ(object["bed_mm"], 150.0);
}

TEST_F(OwnColumn, ACompoundThatRanOnItIsExpectedThere) {
    learn();
    const auto again =
        plan("compound,Rf\nAlcohol,0.32\nalcohol too,0.32\n", {"--column", "blue 12"});
    EXPECT_EQ(again[0]["volume_basis"], "measured");
    EXPECT_NEAR(again[0]["middle_mL"], 105.0, 3.0);
    EXPECT_EQ(again[1]["volume_basis"], "calibrated");
    EXPECT_LT(again[0]["middle_factor"], again[1]["middle_factor"]);
    // In another eluent it has another Rf, and counts as any compound.
    EXPECT_EQ(plan("compound,Rf\nalcohol,0.6\n", {"--column", "blue 12"})[0]["volume_basis"],
              "calibrated");
}

TEST_F(OwnColumn, IsKeptOnceAndInOneTransaction) {
    learn();
    const Outcome again = cospot({"learn", file("runs.csv", kRuns)});
    EXPECT_NE(again.out.find("Bands          0              3"), std::string::npos);
    const std::string before = cospot({"export", "columns"}).out;
    fault(std::string(kHeader) + "blue 12,,new,0.4,50,,70,,,,,,\nblue 12,,new,2,50,,70,,,,,,\n");
    EXPECT_EQ(cospot({"export", "columns"}).out, before);
    const auto listed = cospot({"--json", "list", "columns"}).lines();
    ASSERT_EQ(listed.size(), 1U);
    EXPECT_EQ(listed[0]["bands"], 3);
    EXPECT_EQ(listed[0]["silica_g"], 12.0);
    expect_fits_screen(cospot({"list", "columns"}).out);
}

TEST_F(OwnColumn, ShowListsItsBands) {
    learn();
    const auto shown = cospot({"--json", "show", "Blue 12"}).lines();
    ASSERT_EQ(shown.size(), 4U);
    EXPECT_EQ(shown[0]["bands"], 3);
    EXPECT_EQ(shown[1]["Rf"], 0.52);
    EXPECT_TRUE(shown[1]["start_mL"].is_number());
    const std::string out = cospot({"show", "blue 12"}).out;
    EXPECT_HOLDS(out, "3 bands");
    EXPECT_HOLDS(out, "12 g");
    expect_fits_screen(out);
    EXPECT_EQ(cospot({"show", "blue 13"}).code, kBadInput);
}

TEST_F(OwnColumn, GoesFromLibraryToLibrary) {
    learn();
    const std::string exported = cospot({"export", "columns"}).out;
    const auto other = [&](std::vector<std::string> arguments) {
        arguments.insert(arguments.begin(), {"--library", path("other.db")});
        return cospot(arguments);
    };
    ASSERT_EQ(other({"init"}).code, kDone);
    ASSERT_EQ(other({"learn", file("exported.csv", exported)}).code, kDone);
    EXPECT_EQ(other({"export", "columns"}).out, exported);
    ASSERT_EQ(other({"learn", file("more.csv", std::string(kHeader) +
                                                   "blue 12,,later,0.4,50,,80,,,r3,,,\n"
                                                   "red,40,later,0.4,150,,280,,,r3,,,\n")})
                  .code,
              kDone);
    const auto merged = cospot({"--json", "merge", path("other.db")}).lines();
    EXPECT_EQ(merged[0]["columns_added"], 1);
    EXPECT_EQ(merged[0]["bands_added"], 2);
    EXPECT_EQ(cospot({"export", "columns"}).out, other({"export", "columns"}).out);
}

TEST_F(OwnColumn, ASameNamedColumnOfAnotherSizeIsNotMerged) {
    learn();
    const auto other = [&](std::vector<std::string> arguments) {
        arguments.insert(arguments.begin(), {"--library", path("other.db")});
        return cospot(arguments);
    };
    ASSERT_EQ(other({"init"}).code, kDone);
    ASSERT_EQ(other({"learn", file("other.csv",
                                   std::string(kHeader) + "BLUE 12,24,later,0.4,50,,80,,,r3,,,\n")})
                  .code,
              kDone);
    const Outcome merged = cospot({"--json", "merge", path("other.db")});
    EXPECT_EQ(merged.code, kNeedsAttention);
    EXPECT_EQ(merged.lines()[0]["bands_added"], 0);
    EXPECT_EQ(merged.lines()[0]["findings"][0]["kind"], "column");
    EXPECT_EQ(merged.lines()[0]["findings"][0]["there"], "24 g of silica");
}

TEST_F(OwnColumn, FaultsNamePlaceFoundAndExpected) {
    learn();
    const std::string bed = "column,diameter_mm,bed_mm,column_volume_mL,outside_mL,compound,Rf,"
                            "start_mL,end_mL\n";
    const std::vector<std::pair<std::string, std::string>> faults{
        {std::string(kHeader) + "blue 12,13,a,0.4,50,,70,,,,,,\n",
         "bad.csv:2, column silica_g: found 13; expected 12, as column \"blue 12\" has"},
        {std::string(kHeader) + "new,,a,0.4,50,,70,,,,,,\n", "\"new\" without a size"},
        {std::string(kHeader) + ",12,a,0.4,50,,70,,,,,,\n", "the name of your column"},
        {std::string(kHeader) + "x,12,,0.4,50,,70,,,,,,\n", "the name of the compound"},
        {std::string(kHeader) + "x,12,a,1,50,,70,,,,,,\n", "column Rf: found 1"},
        {std::string(kHeader) + "x,12,a,0,50,,70,,,,,,\n", "column Rf: found 0"},
        {std::string(kHeader) + "x,12,a,0.4,,,70,,,,,,\n", "where the band started"},
        {std::string(kHeader) + "x,12,a,0.4,70,,50,,,,,,\n", "column end_mL: found 50"},
        {std::string(kHeader) + "x,12,a,0.4,50,80,70,,,,,,\n", "column peak_mL: found 80"},
        {std::string(kHeader) + "x,12,a,0.4,50,,70,0,,,,,\n", "column amount_mg: found 0"},
        {std::string(kHeader) + "x,12,a,0.4,50,,70,,,,March,,\n", "column date"},
        {bed + "x,20,,,,a,0.4,50,70\n", "column bed_mm"},
        {bed + "x,20,150,30,40,a,0.4,50,70\n", "column outside_mL: found 40"}};
    for (const auto &[rows, expected] : faults) {
        const std::string message = fault(rows);
        EXPECT_NE(message.find(expected), std::string::npos) << expected << " in " << message;
    }
    EXPECT_NE(cospot({"column", file("p.csv", kPlate), "--column", "green"})
                  .err.find("cospot list columns"),
              std::string::npos);
    EXPECT_NE(cospot({"column", file("p.csv", kPlate), "--column", "blue 12", "--silica-g", "12"})
                  .err.find("--silica-g"),
              std::string::npos);
}

} // namespace
} // namespace cospot
