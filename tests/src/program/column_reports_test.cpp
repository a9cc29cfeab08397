// --report on pool, column and advise: pages, tables, and what they were drawn from.
#include "report_fixture.h"

#include "report/checksum.h"

#include <algorithm>
#include <filesystem>

namespace cospot {
namespace {

constexpr const char *kHostileName = "</script><script>alert(1)</script>";

/// An invented column with two components that overlap; nobody looked at fraction 5.
constexpr const char *kFractions = "fraction,Rf,intensity,mass_mg,volume_mL,plate\n"
                                   "1,,,,,P1\n"
                                   "2,0.62,40,6.1,15,P1\n"
                                   "3,0.61,240,31,15,P1\n"
                                   "4,0.62,90,13.2,15,P1\n"
                                   "4,0.41,20,,,P1\n"
                                   "6,0.41,260,36.9,15,P1\n"
                                   "7,0.40,120,17.4,15,P1\n"
                                   "8,,,,,P1\n";

constexpr const char *kTrace = "fraction,signal\n1,0\n2,10\n3,400\n4,300\n5,8\n6,0\n";

class ColumnReportsTest : public ReportsTest {
protected:
    void learn_plates() const {
        const Outcome learned =
            cospot({"learn", "--systems",
                    file("systems.csv", "system,technique,stationary_phase,mobile_phase\n"
                                        "ea10,tlc,silica gel,hexane:ethyl acetate 90:10\n"
                                        "ea40,tlc,silica gel,hexane:ethyl acetate 60:40\n"),
                    file("values.csv", std::string("compound,smiles,system,quantity,value,run\n"
                                                   "ether,CCOCC,ea10,Rf,0.14,r1\n"
                                                   "ether,CCOCC,ea10,Rf,0.15,r2\n"
                                                   "ether,CCOCC,ea40,Rf,0.62,r1\n"
                                                   "ether,CCOCC,ea40,Rf,0.61,r2\n"
                                                   "alcohol,CCCO,ea10,Rf,0.15,r1\n"
                                                   "alcohol,CCCO,ea10,Rf,0.16,r2\n"
                                                   "alcohol,CCCO,ea40,Rf,0.30,r1\n"
                                                   "alcohol,CCCO,ea40,Rf,0.31,r2\n") +
                                           kHostileName + ",OCc1ccccc1,ea10,Rf,0.60,r1\n" +
                                           kHostileName + ",OCc1ccccc1,ea10,Rf,0.61,r2\n")});
        ASSERT_EQ(learned.code, kDone) << learned.err;
    }
};

TEST_F(ColumnReportsTest, OfFractionsShowTheRunAndWhatToDo) {
    const std::string plates = file("f.csv", kFractions);
    const Outcome plain = cospot({"pool", plates, "--target", "B"});
    const Outcome outcome = cospot({"pool", plates, "--target", "B", "--report", path("f.html")});
    EXPECT_EQ(outcome.code, plain.code) << outcome.err;
    EXPECT_EQ(outcome.out, plain.out);
    const std::string page = main_of("f.html");
    expect_parts(page, {"class=\"fractions\"", "mark fraction mixed\" data-key=\"4\"",
                        "<tr data-key=\"4\">", "Combine A", "Keep apart", "A and B together",
                        "class=\"dash\"", "Nobody looked at 5", "one spot seen",
                        "no proof of purity", "Dry silica", "pressure burst", "vapour"});
    EXPECT_EQ(page.find(" pure"), std::string::npos);
}

TEST_F(ColumnReportsTest, OfATraceShowTheSignal) {
    const Outcome outcome = cospot({"pool", file("t.csv", kTrace), "--report", path("t.html")});
    ASSERT_NE(outcome.code, kBadInput) << outcome.err;
    const std::string page = main_of("t.html");
    expect_parts(page, {"class=\"signal\"", "one band: A", "Check every pool on a plate"});
    EXPECT_EQ(page.find(" pure"), std::string::npos);
}

TEST_F(ColumnReportsTest, WithoutASystemNeedNoLibrary) {
    std::filesystem::remove(folder_ / "library.db");
    expect_same_objects({"pool", "-"}, kFractions);
    const auto trace = nlohmann::json::parse(content("same.json")).at("trace");
    EXPECT_TRUE(trace.at("library").is_null());
    EXPECT_EQ(trace.at("inputs")[0].at("sha256"), sha256_hex(kFractions));
    EXPECT_FALSE(std::filesystem::exists(folder_ / "library.db"));
}

TEST_F(ColumnReportsTest, WithASystemNameComponentsAndTheLibrary) {
    learn_plates();
    const Outcome outcome =
        cospot({"pool", file("f.csv", kFractions), "--system", "ea10", "--report", path("f.html")});
    ASSERT_NE(outcome.code, kBadInput) << outcome.err;
    expect_parts(main_of("f.html"), {"May be", "&lt;/script&gt;", "unlisted"});
    expect_parts(content("f.html"), {"<dt>Library</dt>"});
    EXPECT_EQ(content("f.html").find("<script>alert"), std::string::npos);
}

TEST_F(ColumnReportsTest, OfFractionsAreATableWithARowForEach) {
    const std::string plates = file("f.csv", kFractions);
    ASSERT_NE(cospot({"pool", plates, "--report", path("f.out.csv")}).code, kBadInput);
    const std::string table = content("f.out.csv");
    expect_parts(table, {"fraction,state,to_do,components,rf,intensity,plates,signal,mass_mg,"
                         "volume_mL\n",
                         "\n1,no spot,,,,,P1,,,\n", "\n2,one spot,combine A,A,0.62,40,P1,,6.1,15\n",
                         "\n4,mixed,keep apart,\"A;B\",\"0.62;0.41\",\"90;20\",P1,"});
    EXPECT_EQ(std::count(table.begin(), table.end(), '\n'), 8); // heading and seven fractions
}

TEST_F(ColumnReportsTest, OfAPlanShowTheRunTheTableAndItsSource) {
    const std::string sample =
        file("s.csv", std::string("compound,Rf,role,amount_mg\n") + kHostileName +
                          ",0.62,impurity,80\n"
                          "alcohol,0.31,target,300\n"
                          "salt,0,,20\n");
    expect_same_objects({"column", sample, "--eluent", "hexane:ethyl acetate 4:1"});
    ASSERT_EQ(cospot({"column", sample, "--report", path("c.html")}).code, kNeedsAttention);
    const std::string page = main_of("c.html");
    expect_parts(page, {"class=\"rack\"", "mark tube one wanted", ">CV</th>", ">mL</th>",
                        ">Fractions</th>", "J. Org. Chem. 1978, 43, 2923", "Inner diameter",
                        "salt stays at the start", "&lt;/script&gt;", "Dry silica",
                        "pressure burst", "In 95 of 100 runs", "Intervals hold in 95",
                        "What the bands are computed with", "volume outside the bed"});
    EXPECT_EQ(page.find("<script>"), std::string::npos);
    ASSERT_EQ(cospot({"column", sample, "--report", path("c.csv")}).code, kNeedsAttention);
    expect_parts(content("c.csv"), {"compound,role,rf,", "\nalcohol,target,0.31,,,,", "\nsalt,,0"});
}

TEST_F(ColumnReportsTest, OfAPlanFromTheLibraryShowMixtures) {
    learn_plates();
    const Outcome outcome = cospot({"column", "--compounds", "ether,alcohol", "--system", "ea10",
                                    "--target", "ether", "--report", path("c.html")});
    ASSERT_NE(outcome.code, kBadInput) << outcome.err;
    expect_parts(main_of("c.html"),
                 {"hexane:ethyl acetate 60:40", "9 of 10 values", "measured", "stronger eluent",
                  "Rf 0.30 is expected in about", "No column is advised"});
    expect_parts(content("c.html"), {"<dt>Library</dt>"});
}

TEST_F(ColumnReportsTest, OfAdviceShowWhatIsOpenAndBitsAsBars) {
    learn_plates();
    const std::string spots = file("u.csv", "sample,feature,system,quantity,value\n"
                                            "flask,A,ea10,Rf,0.15\n"
                                            "flask,B,ea10,Rf,0.60\n");
    expect_same_objects({"advise", spots});
    ASSERT_EQ(cospot({"advise", spots, "--report", path("a.html")}).code, kDone);
    const std::string page = main_of("a.html");
    expect_parts(page,
                 {"bits are open", "class=\"filling\"", "class=\"bar\"", ">ea40</th>",
                  "What tells about all features at once", "not a promise", "Lamps harm eyes"});
    EXPECT_EQ(page.find("<script>"), std::string::npos);
    ASSERT_EQ(cospot({"advise", spots, "--report", path("a.csv")}).code, kDone);
    expect_parts(content("a.csv"), {"sample,feature,measurement,kind,known,bits,",
                                    "\nflask,A,ea40,tlc,2,", "\nflask,,"});
}

TEST_F(ColumnReportsTest, OfSystemsShowSetsAndPairs) {
    learn_plates();
    expect_same_objects({"advise", "--all"});
    const std::string list = file("names.txt", "ether\nalcohol\n");
    ASSERT_EQ(cospot({"advise", "--compounds", list, "--report", path("s.html")}).code, kDone);
    expect_parts(main_of("s.html"),
                 {"Discriminating power", "Mean list length", "ea40", "not a promise"});
    expect_parts(content("s.html"), {sha256_hex("ether\nalcohol\n")});
    ASSERT_EQ(cospot({"advise", "--all", "--report", path("s.csv")}).code, kDone);
    expect_parts(content("s.csv"), {"list,systems,count,discriminating_power,mean_list_length\n",
                                    "\nsets,", "\nalone,ea40,1,"});
}

TEST_F(ColumnReportsTest, AreRefusedBeforeAnyWork) {
    for (const std::vector<std::string> &arguments :
         {std::vector<std::string>{"pool", "no such file"},
          {"column", "no such file"},
          {"advise", "no such file"}}) {
        std::vector<std::string> words = arguments;
        words.insert(words.end(), {"--report", path("x.txt")});
        const Outcome outcome = cospot(words);
        EXPECT_EQ(outcome.code, kBadInput);
        EXPECT_NE(outcome.err.find(".html, .csv or .json"), std::string::npos) << outcome.err;
    }
}

} // namespace
} // namespace cospot
