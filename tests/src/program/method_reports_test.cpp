// --report on resolve and distil. All readings, peaks and names are invented.
#include "report_fixture.h"

#include "document/html.h"
#include "report/checksum.h"

#include <algorithm>
#include <filesystem>

namespace cospot {
namespace {

const std::string kReadings = "compound,percent,k\n"
                              "caffeine,20,5.9\ncaffeine,35,2.2\ncaffeine,50,0.93\n"
                              "vanillin,20,4.8\nvanillin,35,2.4\nvanillin,50,1.25\n"
                              "</script><b>,20,11.2\n</script><b>,35,4.1\n</script><b>,50,1.52\n";
const std::string kLadder = "carbon,tR\n8,4\n9,5\n10,6\n11,7\n12,8\n14,10\n16,12\n";
const std::string kPeaks = "peak,tR,area\nsolvent,1,900\n</script><b>,4,10\n2,6.99,30\n3,9,20\n"
                           "4,12,30\n5,13,10\n";

class MethodReportsTest : public ReportsTest {
protected:
    void learn_system() const {
        const Outcome learned = cospot(
            {"learn", "--systems",
             file("y.csv", "system,technique,stationary_phase,mobile_phase,scale,programme\n"
                           "np,gc,dimethylsilicone,helium,n-alkane,\"50 C, 10 C/min to 300 C\"\n"),
             file("v.csv", "compound,smiles,system,quantity,value\n"
                           "octane,CCCCCCCC,np,RI,800\ndecane,CCCCCCCCCC,np,RI,1000\n"
                           "dodecane,CCCCCCCCCCCC,np,RI,1200\ntoluene,Cc1ccccc1,np,RI,765\n"
                           "wrong,CCCCCC,np,RI,1400\n")});
        ASSERT_EQ(learned.code, kDone) << learned.err;
    }
};

TEST_F(MethodReportsTest, OfAMapShowTheRunTheGradientAndTheCautions) {
    const std::string readings = file("r.csv", kReadings);
    const std::vector<std::string> words{"resolve",    readings,       "--hold-up",  "1.2",
                                         "--gradient", "0.05,0.95,20", "--wanted-k", "3",
                                         "--compound", "vanillin"};
    const Outcome plain = cospot(words);
    std::vector<std::string> with_report = words;
    with_report.insert(with_report.end(), {"--report", path("r.html")});
    const Outcome outcome = cospot(with_report);
    EXPECT_EQ(outcome.code, plain.code) << outcome.err;
    EXPECT_EQ(outcome.out, plain.out);
    const std::string page = main_of("r.html");
    expect_parts(page, {"class=\"windows\"", "the worst pair", "Worst pair there",
                        "class=\"reading\"", ">log k_w</th>", "Leaves first below",
                        "Times in the gradient", "in the gradient", "k 3 of vanillin: fraction 0.",
                        "Reversed phase", "flammable", "&lt;/script&gt;&lt;b&gt;"});
    EXPECT_EQ(page.find("<b>"), std::string::npos);
    EXPECT_EQ(page.find("#fff"), std::string::npos); // colours of the page only
    expect_same_objects(words);
}

/// The words of a text without the line breaks and blanks between them.
std::string words_of(const std::string &text) {
    std::istringstream in(text);
    std::string words;
    for (std::string word; in >> word;) {
        words += word + ' ';
    }
    return words;
}

TEST_F(MethodReportsTest, OfAMapSayWhatTheTextSays) {
    const std::vector<std::string> words{"resolve",      file("r.csv", kReadings),
                                         "--hold-up",    "1.2",
                                         "--gradient",   "0.05,0.95,20",
                                         "--wanted-k",   "3",
                                         "--compound",   "vanillin",
                                         "--resolution", "20"};
    const std::string text = words_of(cospot(words).out);
    expect_same_objects(words);
    std::vector<std::string> with_report = words;
    with_report.insert(with_report.end(), {"--report", path("w.html")});
    ASSERT_NE(cospot(with_report).code, kBadInput);
    const std::string page = main_of("w.html");
    const auto answer = nlohmann::json::parse(content("same.json")).at("results")[0];
    std::vector<std::string> sentences{answer["best"]["summary"], answer["wanted"]["summary"],
                                       answer["gradient"]["summary"]};
    for (const char *list : {"shortfalls", "remarks", "basis"}) {
        EXPECT_FALSE(answer[list].empty()) << list;
        sentences.insert(sentences.end(), answer[list].begin(), answer[list].end());
    }
    for (const std::string &sentence : sentences) {
        EXPECT_HOLDS(text, sentence);
        EXPECT_HOLDS(page, html::escaped(sentence));
    }
}

TEST_F(MethodReportsTest, OfAMapDrawWhatThePictureDraws) {
    const std::string readings = file("r.csv", kReadings);
    ASSERT_NE(
        cospot({"resolve", readings, "--picture", path("m.svg"), "--report", path("m.html")}).code,
        kBadInput);
    const auto curve = [](const std::string &text) {
        const std::size_t begin = text.find("<polyline class=\"curve");
        return text.substr(begin, text.find("/>", begin) - begin);
    };
    const std::string picture = content("m.svg");
    EXPECT_GT(curve(picture).size(), 100U);
    EXPECT_EQ(curve(picture), curve(main_of("m.html")));
    expect_parts(picture, {"<pattern id=\"hatch\"", "class=\"paper\"", "plate number 10000"});
    EXPECT_EQ(picture.find("var(--"), std::string::npos);
}

TEST_F(MethodReportsTest, OfAMapAreATableWithARowForEachCompound) {
    ASSERT_NE(cospot({"resolve", file("r.csv", kReadings), "--report", path("r.out.csv")}).code,
              kBadInput);
    const std::string table = content("r.out.csv");
    expect_parts(table, {"compound,log_k_w,S,measured_from,measured_to,readings,worst_factor,bent,"
                         "log_p,fraction,k,k_low,k_high,tR,",
                         "\ncaffeine,1.29", "\nvanillin,1.0", ",0.2,0.5,3,"});
    EXPECT_EQ(std::count(table.begin(), table.end(), '\n'), 4);
}

TEST_F(MethodReportsTest, OfOneCompoundHaveNoMap) {
    ASSERT_NE(cospot({"resolve", file("r.csv", kReadings), "--compounds", "caffeine", "--report",
                      path("o.html")})
                  .code,
              kBadInput);
    const std::string page = main_of("o.html");
    expect_parts(page, {"One compound", ">S</th>"});
    EXPECT_EQ(page.find("<svg"), std::string::npos);
}

TEST_F(MethodReportsTest, TraceTheLibraryOnlyWhereOneWasRead) {
    const std::string readings = file("r.csv", kReadings);
    const auto trace = [&] { return nlohmann::json::parse(content("same.json")).at("trace"); };
    expect_same_objects({"resolve", readings});
    EXPECT_FALSE(trace().at("library").is_null()); // it knows log P
    std::filesystem::remove(folder_ / "same.json");
    std::filesystem::remove(folder_ / "library.db");
    expect_same_objects({"resolve", "-"}, kReadings);
    EXPECT_TRUE(trace().at("library").is_null());
    EXPECT_EQ(trace().at("inputs")[0].at("sha256"), sha256_hex(kReadings));
    std::filesystem::remove(folder_ / "same.json");
    expect_same_objects({"distil", "-", "--ladder", file("l.csv", kLadder)}, kPeaks);
    EXPECT_TRUE(trace().at("library").is_null());
    ASSERT_EQ(trace().at("inputs").size(), 2U);
    EXPECT_EQ(trace().at("inputs")[1].at("sha256"), sha256_hex(kLadder));
    EXPECT_FALSE(std::filesystem::exists(folder_ / "library.db"));
}

TEST_F(MethodReportsTest, OfADistillationShowCurvePeaksAndCautions) {
    const std::vector<std::string> words{"distil",          file("s.csv", kPeaks),
                                         "--ladder",        file("l.csv", kLadder),
                                         "--solvent-until", "2"};
    expect_same_objects(words);
    std::vector<std::string> with_report = words;
    with_report.insert(with_report.end(), {"--report", path("d.html")});
    ASSERT_EQ(cospot(with_report).code, kNeedsAttention);
    const std::string page = main_of("d.html");
    expect_parts(page, {"class=\"distillation\"", "class=\"chromatogram\"", "boiling point, °C",
                        "10.00 % of the area lies behind the ladder", "Not drawn: 1 of the solvent",
                        "solvent, left out", "data-value=\"126\"", "behind the ladder",
                        "Area per cent is not mass per cent", "hydrogen", "hot oven",
                        "Interpolated across gaps: C12 to C14", "&lt;/script&gt;&lt;b&gt;"});
    EXPECT_EQ(page.find("<b>"), std::string::npos);
    with_report.back() = path("d.csv");
    ASSERT_EQ(cospot(with_report).code, kNeedsAttention);
    const std::string table = content("d.csv");
    expect_parts(table, {"peak,tR,area,per_cent,celsius,position,solvent\n",
                         "solvent,1,900,,,before the ladder,true\n",
                         "</script><b>,4,10,10,126,inside,false\n"});
    EXPECT_EQ(std::count(table.begin(), table.end(), '\n'), 7);
}

TEST_F(MethodReportsTest, OfASystemShowWhatLeavesEarlyOrLate) {
    learn_system();
    expect_same_objects({"distil", "--system", "np"});
    ASSERT_EQ(cospot({"distil", "--system", "np", "--report", path("n.html")}).code, kDone);
    expect_parts(main_of("n.html"), {"Order by boiling point on np", "<span class=\"badge\">late",
                                     "1 of 5 stands out", "Non-polar phase", "hydrogen"});
    expect_parts(content("n.html"), {"<dt>Library</dt>"});
    ASSERT_EQ(cospot({"distil", "--system", "np", "--report", path("n.csv")}).code, kDone);
    expect_parts(content("n.csv"), {"compound,index,celsius_by_index,", "\nwrong,1400,254,"});
    ASSERT_EQ(cospot({"distil", file("s.csv", kPeaks), "--ladder", file("l.csv", kLadder),
                      "--system", "np", "--report", path("b.html")})
                  .code,
              kNeedsAttention);
    expect_parts(main_of("b.html"), {"class=\"distillation\"", "Order by boiling point on np"});
}

TEST_F(MethodReportsTest, AreRefusedBeforeAnyWork) {
    for (const char *verb : {"resolve", "distil"}) {
        const Outcome outcome = cospot({verb, "no such file", "--report", path("x.txt")});
        EXPECT_EQ(outcome.code, kBadInput);
        EXPECT_NE(outcome.err.find("--report"), std::string::npos) << outcome.err;
    }
}

} // namespace
} // namespace cospot
