// --report: what is written, and what is refused before any work is done.
#include "program_fixture.h"

#include "report/checksum.h"

#include <filesystem>

namespace cospot {
namespace {

constexpr const char *kHostileName = "</script><script>alert(1)</script>";

/// An invented library on an invented plate system, and one plate with a standard.
class ReportTest : public ProgramTest {
protected:
    ReportTest() {
        const Outcome learned = cospot(
            {"learn", "--systems",
             file("systems.csv", "system,technique,stationary_phase,mobile_phase\n"
                                 "plate,tlc,silica gel,hexane:ethyl acetate 4:1\n"),
             file("values.csv", std::string("compound,smiles,system,quantity,value,run\n"
                                            "anisole,COc1ccccc1,plate,Rf,0.70,r1\n"
                                            "anisole,COc1ccccc1,plate,Rf,0.71,r2\n"
                                            "anisole,COc1ccccc1,plate,Rf,0.30,r3\n"
                                            "vanillin,COc1cc(C=O)ccc1O,plate,Rf,0.13,r1\n"
                                            "vanillin,COc1cc(C=O)ccc1O,plate,Rf,0.14,r2\n"
                                            "thymol,Cc1ccc(C(C)C)c(O)c1,plate,Rf,0.45,r1\n"
                                            "thymol,Cc1ccc(C(C)C)c(O)c1,plate,Rf,0.46,r2\n"
                                            "carvone,CC1=CCC(CC1=O)C(C)=C,plate,Rf,0.44,r1\n") +
                                    kHostileName + ",OCc1ccccc1,plate,Rf,0.20,r1\n" +
                                    "=1+1,CCO,plate,Rf,0.10,r2\n")});
        EXPECT_EQ(learned.code, kDone) << learned.err;
        plate_ = file("plate.csv", "lane,label,spot,distance_mm,front_mm,role\n"
                                   "1,thymol,1,32,70,standard\n"
                                   "2,flask,1,9.5,70,sample\n"
                                   "2,flask,2,31.5,70,sample\n"
                                   "3,@jar,1,14,70,sample\n");
    }

    Outcome identify(const std::string &report) const {
        return cospot({"identify", plate_, "--system", "plate", "--report", path(report)});
    }

    /// Files in the folder beside those of the fixture.
    [[nodiscard]] std::size_t file_count() const {
        return static_cast<std::size_t>(
            std::distance(std::filesystem::directory_iterator(folder_ / ""), {}));
    }

    std::string plate_;
};

TEST_F(ReportTest, IsAPageWithPictureAndTableBesideTheUsualOutput) {
    const Outcome plain = cospot({"identify", plate_, "--system", "plate"});
    const Outcome outcome = identify("page.html");
    ASSERT_EQ(outcome.code, kDone) << outcome.err;
    EXPECT_EQ(outcome.out, plain.out);
    const std::string page = content("page.html");
    EXPECT_TRUE(page.starts_with("<!doctype html>"));
    for (const char *part :
         {"Retention alone is no proof of identity", "class=\"plate\"", "data-key=\"3\"",
          "standard: thymol", "measured", "class=\"structure\"", "currentColor"}) {
        EXPECT_NE(page.find(part), std::string::npos) << part;
    }
    EXPECT_EQ(page.find("<script>alert"), std::string::npos);
    EXPECT_EQ(page.find("<?xml"), std::string::npos);
}

TEST_F(ReportTest, TraceNamesLibraryInputsAndArguments) {
    ASSERT_EQ(identify("report.json").code, kDone);
    const auto trace = nlohmann::json::parse(content("report.json")).at("trace");
    EXPECT_EQ(trace.at("verb"), "identify");
    EXPECT_EQ(trace.at("library").at("sha256"), sha256_of_file(folder_ / "library.db"));
    ASSERT_EQ(trace.at("inputs").size(), 1U);
    EXPECT_EQ(trace.at("inputs")[0].at("name"), plate_);
    EXPECT_EQ(trace.at("inputs")[0].at("sha256"), sha256_hex(content("plate.csv")));
    EXPECT_EQ(trace.at("arguments")[0], plate_);
}

TEST_F(ReportTest, TraceHasTheChecksumOfStandardInput) {
    const Outcome outcome = cospot(
        {"identify", "-", "--system", "plate", "--report", path("r.json")}, content("plate.csv"));
    ASSERT_EQ(outcome.code, kDone) << outcome.err;
    const auto trace = nlohmann::json::parse(content("r.json")).at("trace");
    EXPECT_EQ(trace.at("inputs")[0].at("name"), "standard input");
    EXPECT_EQ(trace.at("inputs")[0].at("sha256"), sha256_hex(content("plate.csv")));
}

TEST_F(ReportTest, HoldsTheObjectsThatJsonPrints) {
    const Outcome printed =
        cospot({"--json", "identify", plate_, "--system", "plate", "--report", path("r.json")});
    ASSERT_EQ(printed.code, kDone) << printed.err;
    const auto results = nlohmann::json::parse(content("r.json")).at("results");
    ASSERT_EQ(results.size(), printed.lines().size());
    for (std::size_t i = 0; i < results.size(); ++i) {
        EXPECT_EQ(results[i], printed.lines()[i]);
    }
    EXPECT_EQ(results[0].at("plate").at("distance_mm"), 9.5);
    EXPECT_EQ(results[0].at("plate").at("standards")[0].at("label"), "thymol");
    EXPECT_FALSE(results[0].at("candidates")[0].at("smiles").get<std::string>().empty());
}

TEST_F(ReportTest, IsATableWithARowForEachCandidateAndForUnlisted) {
    ASSERT_EQ(identify("r.csv").code, kDone);
    const std::string table = content("r.csv");
    EXPECT_TRUE(table.starts_with("sample,feature,"));
    EXPECT_NE(table.find("\n'@jar,1,"), std::string::npos);
    EXPECT_NE(table.find(",'=1+1,"), std::string::npos);
    std::size_t rows = 0;
    std::size_t unlisted = 0;
    std::istringstream in(table);
    for (std::string line; std::getline(in, line); ++rows) {
        unlisted += line.find(",unlisted,") != std::string::npos ? 1 : 0;
    }
    EXPECT_EQ(unlisted, 3U);
    EXPECT_EQ(rows, 1 + 3 * (6 + 1U)); // six compounds
}

TEST_F(ReportTest, RefusesOtherEndingsBeforeAnyWork) {
    for (const char *name : {"r.pdf", "r", "r.html.txt", ".html"}) {
        const Outcome outcome = identify(name);
        EXPECT_EQ(outcome.code, kBadInput) << name;
        EXPECT_TRUE(outcome.out.empty()) << name;
        EXPECT_NE(outcome.err.find(".html, .csv or .json"), std::string::npos) << outcome.err;
    }
    // Even where the library is missing: nothing was opened.
    std::istringstream in;
    std::ostringstream out;
    std::ostringstream err;
    EXPECT_EQ(run_command_line({"--library", path("none.db"), "prove", "--report", "r.pdf"}, in,
                               out, err),
              kBadInput);
    EXPECT_NE(err.str().find("r.pdf"), std::string::npos) << err.str();
}

TEST_F(ReportTest, NeverOverwritesAFile) {
    file("r.html", "mine");
    EXPECT_EQ(identify("r.html").code, kBadInput);
    EXPECT_EQ(content("r.html"), "mine");
    EXPECT_EQ(identify("nowhere/r.html").code, kBadInput);
}

TEST_F(ReportTest, ReplacesOnlyAPageThatItMadeAndOnlyWhenAsked) {
    const std::string page = path("r.html");
    ASSERT_EQ(cospot({"list", "--report", page}).code, kDone);
    const Outcome again = cospot({"list", "--report", page});
    EXPECT_EQ(again.code, kBadInput);
    EXPECT_NE(again.err.find("--replace"), std::string::npos) << again.err;
    EXPECT_EQ(cospot({"list", "systems", "--report", page, "--replace"}).code, kDone);
    const std::string own = file("own.html", "<p>written by hand</p>");
    EXPECT_EQ(cospot({"list", "--report", own, "--replace"}).code, kBadInput);
    EXPECT_EQ(content("own.html"), "<p>written by hand</p>");
}

TEST_F(ReportTest, LeavesNothingBehindWhereTheWorkFails) {
    const std::size_t before = file_count();
    const Outcome outcome = cospot({"identify", file("plate.csv", "lane,label\n1,2\n"), "--system",
                                    "plate", "--report", path("r.html")});
    EXPECT_EQ(outcome.code, kBadInput);
    EXPECT_EQ(file_count(), before);
}

TEST_F(ReportTest, SaysWhereThereIsNothingToCompareWith) {
    ASSERT_EQ(cospot({"learn", "--systems",
                      file("bare.csv", "system,technique,stationary_phase,mobile_phase\n"
                                       "bare,tlc,silica gel,toluene\n")})
                  .code,
              kDone);
    const std::string alone = file("alone.csv", "lane,label,spot,distance_mm,front_mm\n"
                                                "2,flask,1,9.5,70\n2,flask,2,31.5,70\n");
    EXPECT_EQ(cospot({"identify", alone, "--system", "bare", "--report", path("b.html")}).code,
              kNeedsAttention);
    const std::string page = content("b.html");
    EXPECT_NE(page.find("nothing to compare"), std::string::npos);
    EXPECT_EQ(page.find("mark spot unlisted"), std::string::npos);
    EXPECT_EQ(page.find("class=\"bar\""), std::string::npos);
}

TEST_F(ReportTest, ShowsFurtherEvidenceAndTheCandidateSet) {
    const Outcome outcome =
        cospot({"identify",
                file("long.csv", "sample,feature,system,quantity,value,uv254,molar_mass\n"
                                 "flask,A,plate,Rf,0.45,yes,150.1\n"),
                "--report", path("l.html")});
    ASSERT_EQ(outcome.code, kDone) << outcome.err;
    EXPECT_NE(content("l.html").find("Also seen: dark at 254 nm, molar mass 150.1 ± 0.5 g/mol"),
              std::string::npos);
    EXPECT_NE(content("l.html").find("Candidate set"), std::string::npos);
}

TEST_F(ReportTest, OfAnAuditShowsReplicatesAndHowGraveAFindingIs) {
    ASSERT_EQ(cospot({"audit", "--report", path("a.html")}).code, kNeedsAttention);
    const std::string page = content("a.html");
    for (const char *part : {"class=\"replicates\"", "class=\"badge\">doubtful", "mark value odd",
                             "Retention alone is no proof of identity"}) {
        EXPECT_NE(page.find(part), std::string::npos) << part;
    }
    ASSERT_EQ(cospot({"audit", "--report", path("a.csv")}).code, kNeedsAttention);
    EXPECT_NE(content("a.csv").find("replicates,doubtful,anisole on plate"), std::string::npos);
}

TEST_F(ReportTest, OfAPredictionShowsIntervals) {
    const Outcome outcome = cospot({"predict", "anisole", "--report", path("p.html")});
    ASSERT_EQ(outcome.code, kDone) << outcome.err;
    EXPECT_NE(content("p.html").find("class=\"range\""), std::string::npos);
    ASSERT_EQ(cospot({"predict", "anisole", "CCCCO", "--report", path("p.csv")}).code, kDone);
    EXPECT_NE(content("p.csv").find("\nanisole,COc1ccccc1,"), std::string::npos);
    EXPECT_NE(content("p.csv").find("\nCCCCO,CCCCO,"), std::string::npos);
}

TEST_F(ReportTest, OfAProofSaysWhereThereIsNothingToProve) {
    ASSERT_EQ(cospot({"prove", "--report", path("p.html")}).code, kNeedsAttention);
    EXPECT_NE(content("p.html").find("Nothing to prove"), std::string::npos);
}

} // namespace
} // namespace cospot
