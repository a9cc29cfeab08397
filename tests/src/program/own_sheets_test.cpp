// Tables as laboratories keep them: many plates and runs in a file, many files in a call, a front
// that is written down once or not at all, faulty lanes beside good ones. All values are invented.
#include "program_fixture.h"

#include <algorithm>

namespace cospot {
namespace {

class OwnSheets : public ProgramTest {
protected:
    OwnSheets() {
        const Outcome learned = cospot(
            {"learn", "--systems",
             file("s.csv", "system,technique,stationary_phase,mobile_phase,scale\n"
                           "silica,tlc,silica gel,hexane:ethyl acetate 3:1,\n"
                           "column,gc,dimethylsilicone,helium,n-alkane\n"),
             file("v.csv", "compound,smiles,system,quantity,value,run\n"
                           "ethanol,CCO,silica,Rf,0.30,p1\nbenzene,c1ccccc1,silica,Rf,0.80,p1\n"
                           "toluene,Cc1ccccc1,silica,Rf,0.60,p1\n"
                           "ethanol,CCO,column,RI,900,r1\nbenzene,c1ccccc1,column,RI,950,r1\n")});
        EXPECT_EQ(learned.code, kDone) << learned.err;
    }

    std::vector<nlohmann::json> identified(const std::vector<std::string> &files,
                                           const std::vector<std::string> &options,
                                           int code = kDone) const {
        std::vector<std::string> arguments{"--json", "identify"};
        arguments.insert(arguments.end(), files.begin(), files.end());
        arguments.insert(arguments.end(), options.begin(), options.end());
        const Outcome outcome = cospot(arguments);
        EXPECT_EQ(outcome.code, code) << outcome.err;
        return outcome.lines();
    }

    static double value_of(const nlohmann::json &feature) {
        return feature.at("observations").at(0).at("value");
    }
};

TEST_F(OwnSheets, PlatesOfAFileAreReadEachWithItsOwnFront) {
    const auto features =
        identified({file("plates.csv", "plate,lane,label,distance_mm,front_mm\nA,1,x,21,70\n"
                                       "A,1,x,42,\nB,1,x,16,\nB,2,y,8,80\n")},
                   {"--system", "silica"});
    ASSERT_EQ(features.size(), 4U);
    EXPECT_EQ(features[0].at("sample"), "A: x");
    EXPECT_EQ(features[1].at("feature"), "2"); // numbered, since no column names the spots
    EXPECT_NEAR(value_of(features[1]), 0.6, 1e-12);
    EXPECT_EQ(features[2].at("sample"), "B: x");
    EXPECT_NEAR(value_of(features[2]), 0.2, 1e-12);
    EXPECT_EQ(features[2].at("plate").at("name"), "B");
}

TEST_F(OwnSheets, SeveralPlatesAnswerAsEachAlone) {
    const std::string head = "lane,label,spot,distance_mm,front_mm,role\n";
    const std::string first = file("first.csv", head + "1,x,1,21,70,sample\n"
                                                       "2,ethanol,1,22,70,standard\n");
    const std::string second = file("second.csv", head + "1,x,1,48,80,sample\n");
    const auto together = identified({first, second}, {"--system", "silica"});
    ASSERT_EQ(together.size(), 2U);
    EXPECT_EQ(together[0].at("sample"), "first: x");
    EXPECT_EQ(together[0].at("candidates"),
              identified({first}, {"--system", "silica"})[0].at("candidates"));
    EXPECT_EQ(together[1].at("candidates"),
              identified({second}, {"--system", "silica"})[0].at("candidates"));
    EXPECT_TRUE(together[1].at("standards").empty()); // ethanol ran on the other plate
    EXPECT_NE(cospot({"identify", first, first, "--system", "silica"}).err.find("again"),
              std::string::npos);
    const Outcome judged =
        cospot({"--json", "purity", first, second, "--declared", "ethanol", "--system", "silica"});
    EXPECT_EQ(judged.lines().at(1).at("sample"), "second: x") << judged.err;
}

TEST_F(OwnSheets, APlateWithoutAFrontIsScaledByStandardsOfTheLibrary) {
    const std::string head = "lane,label,distance_mm,role\n1,x,42,\n";
    const auto features =
        identified({file("p.csv", head + "2,ethanol,21,standard\n3,benzene,56,standard\n")},
                   {"--system", "silica"});
    EXPECT_NEAR(value_of(features.at(0)), 0.6, 1e-9); // 21 / 0.30 = 56 / 0.80 = 70
    EXPECT_GT(features[0].at("observations").at(0).at("uncertainty").get<double>(), 0.01);
    const Outcome refused =
        cospot({"identify", file("q.csv", head + "2,water,21,standard\n"), "--system", "silica"});
    EXPECT_EQ(refused.code, kBadInput);
    EXPECT_NE(refused.err.find("q.csv:2, column front_mm: found no front"), std::string::npos)
        << refused.err;
    const Outcome beyond = cospot(
        {"identify", file("r.csv", "lane,label,distance_mm,role\n1,x,99,\n2,ethanol,21,standard\n"),
         "--system", "silica"});
    EXPECT_NE(beyond.err.find("r.csv:2, column distance_mm: found 99 mm"), std::string::npos)
        << beyond.err;
}

TEST_F(OwnSheets, WithPartialTheGoodLanesAreJudged) {
    const std::string plate = file("p.csv", "lane;label;distance (cm);front (cm)\n1;x;2,1;7,0\n"
                                            "2;y;4,2 cm;7,0\n3;z;9,9;7,0\n");
    const Outcome refused = cospot({"identify", plate, "--system", "silica"});
    EXPECT_EQ(refused.code, kBadInput);
    EXPECT_NE(refused.err.find("2 faults"), std::string::npos) << refused.err;
    const auto features = identified({plate}, {"--system", "silica", "--partial"}, kNeedsAttention);
    ASSERT_EQ(features.size(), 1U);
    EXPECT_EQ(features[0].at("sample"), "x");
    EXPECT_NEAR(value_of(features[0]), 0.3, 1e-12);
    const Outcome shown = cospot({"identify", plate, "--system", "silica", "--partial"});
    EXPECT_NE(shown.out.find("! lane 2 is left out: "), std::string::npos) << shown.out;
}

TEST_F(OwnSheets, ARowOfNoKnownLaneRefusesTheFileWithPartialToo) {
    for (const std::string row : {"y", "y,70,21,1,1", "\x81,70,21,2"}) {
        const Outcome outcome =
            cospot({"identify", "--partial", "--system", "silica",
                    file("p.csv", "label,front_mm,distance_mm,lane\nx,70,21,1\n" + row + "\n")});
        EXPECT_EQ(outcome.code, kBadInput) << outcome.out;
        EXPECT_NE(outcome.err.find("p.csv:3"), std::string::npos) << outcome.err;
    }
}

TEST_F(OwnSheets, RunsOfAFileAreReadEachByItself) {
    const std::string ladder = file("l.csv", "carbon,tR (s)\n8,300\n9,600\n10,900\n");
    const std::string runs = file("r.csv", "run,tR (s),area\nb1,600,10\nb1,750,5\nb2,600,7\n");
    const auto features = identified({runs}, {"--system", "column", "--ladder", ladder});
    ASSERT_EQ(features.size(), 3U);
    EXPECT_EQ(features[2].at("sample"), "b2");
    EXPECT_NEAR(value_of(features[2]), 900.0, 1e-6);
    EXPECT_NEAR(features[1].at("tR").get<double>(), 12.5, 1e-9);
    const Outcome purity = cospot({"--json", "purity", runs, "--declared", "ethanol", "--system",
                                   "column", "--ladder", ladder});
    const auto samples = purity.lines();
    ASSERT_EQ(samples.size(), 3U) << purity.err; // two runs and their trend
    EXPECT_EQ(samples[1].at("sample"), "b2");
}

/// A plate of two lanes and one of one lane, with their standards.
constexpr const char *kTwoPlates = "plate,lane,label,distance_mm,front_mm,role\n"
                                   "A,1,ethanol,21,70,standard\nA,2,x,21,70,sample\n"
                                   "A,3,y,60,70,sample\nB,1,ethanol,24,80,standard\n"
                                   "B,2,z,24,80,sample\n";

TEST_F(OwnSheets, SamplesComeFirstInOneRowEach) {
    const std::string plates = file("p.csv", kTwoPlates);
    const Outcome shown = cospot({"identify", plates, "--system", "silica"});
    const std::size_t table = shown.out.find("To look at (No.)");
    ASSERT_NE(table, std::string::npos) << shown.out;
    EXPECT_LT(table, shown.out.find("1. A: x / 1"));
    EXPECT_NE(shown.out.find("\nB      z"), std::string::npos) << shown.out;
}

TEST_F(OwnSheets, EachSamplePrintsOnASheetOfItsOwn) {
    const std::string plates = file("p.csv", kTwoPlates);
    const auto sheets_of = [](const std::string &page) {
        std::size_t count = 0;
        for (std::size_t at = page.find("class=\"sheet\""); at != std::string::npos;
             at = page.find("class=\"sheet\"", at + 1)) {
            ++count;
        }
        return count;
    };
    const std::string page = path("p.html");
    ASSERT_LT(cospot({"identify", plates, "--system", "silica", "--sheets", "--report", page}).code,
              kBadInput);
    EXPECT_EQ(sheets_of(content("p.html")), 3U);
    const std::string runs = file("r.csv", "run,tR,area\nb1,5,10\nb2,5,7\n");
    const std::string ladder = file("l.csv", "carbon,tR\n8,4\n9,6\n10,8\n");
    const std::string purity = path("q.html");
    const Outcome judged = cospot({"purity", runs, "--declared", "ethanol", "--system", "column",
                                   "--ladder", ladder, "--sheets", "--report", purity});
    ASSERT_LT(judged.code, kBadInput) << judged.err;
    EXPECT_EQ(sheets_of(content("q.html")), 2U);
    EXPECT_EQ(cospot({"identify", plates, "--system", "silica", "--sheets"}).code, kBadInput);
}

TEST_F(OwnSheets, LampAndStainsOfAPlateAreFurtherEvidence) {
    const std::string head = "lane,label,distance_mm,front_mm,uv254\n1,x,49,70,";
    const auto dark = identified({file("d.csv", head + "yes\n")}, {"--system", "silica"});
    const auto bright = identified({file("b.csv", head + "no\n")}, {"--system", "silica"});
    EXPECT_NE(dark[0].at("candidates"), bright[0].at("candidates"));
}

TEST_F(OwnSheets, PlatesAreLearnedUnderTheirNamesAndDates) {
    const Outcome learned = cospot(
        {"learn", "--system", "silica",
         file("p.csv", "plate,date,lane,label,distance_mm,front_mm,role\n"
                       "A,2026-03-01,1,ethanol,21,70,standard\nB,,1,ethanol,25,80,standard\n")});
    EXPECT_EQ(learned.code, kDone) << learned.err;
    const Outcome values = cospot({"export", "values"});
    EXPECT_NE(values.out.find(",A,2026-03-01,"), std::string::npos) << values.out;
    EXPECT_NE(values.out.find(",B,,"), std::string::npos) << values.out;
}

TEST_F(OwnSheets, WordsInCellsAreMappedAsHeadersAre) {
    const std::string plate = file("p.csv", "lane;Probe;distance_mm;front_mm;Rolle;uv254;date\n"
                                            "1;ethanol;21;70;Standard;;02.03.2026\n"
                                            "2;x;21;;Probe;ja;\n");
    const auto features =
        identified({plate}, {"--system", "silica", "--map", "label=Probe", "--map", "role=Rolle",
                             "--map", "sample=Probe", "--map", "yes=ja"});
    ASSERT_EQ(features.size(), 1U);
    EXPECT_EQ(features[0]["sample"], "x");
    EXPECT_EQ(features[0]["evidence"][0]["value"], true);
    EXPECT_EQ(features[0]["date"], "2026-03-02");
    const Outcome refused = cospot(
        {"identify", plate, "--system", "silica", "--map", "label=Probe", "--map", "role=Rolle"});
    EXPECT_EQ(refused.code, kBadInput);
    EXPECT_NE(refused.err.find("--map standard=WORD"), std::string::npos) << refused.err;
}

TEST_F(OwnSheets, AColumnNamesTheSystemOfEachPlate) {
    cospot({"learn", "--systems",
            file("s2.csv", "system,technique,stationary_phase,mobile_phase\n"
                           "other,tlc,silica gel,dichloromethane:methanol 20:1\n"),
            file("v2.csv", "compound,smiles,system,quantity,value,run\n"
                           "benzene,c1ccccc1,other,Rf,0.30,p1\n")});
    const std::string plates = file("p.csv", "plate,system,lane,label,distance_mm,front_mm\n"
                                             "A,silica,1,x,21,70\nB,Other,1,y,21,70\n"
                                             "B,,1,y,40,\n");
    const auto features = identified({plates}, {});
    ASSERT_EQ(features.size(), 3U);
    EXPECT_EQ(features[0]["observations"][0]["system"], "silica");
    EXPECT_EQ(features[2]["observations"][0]["system"], "other"); // said once for the plate
    const Outcome contrary = cospot({"identify", plates, "--system", "silica"});
    EXPECT_EQ(contrary.code, kBadInput);
    EXPECT_NE(contrary.err.find("\"silica\" as --system says"), std::string::npos) << contrary.err;
    const Outcome none = cospot({"identify", file("q.csv", kTwoPlates)});
    EXPECT_EQ(none.code, kBadInput) << "with standards, too: the library has systems for plates";
}

TEST_F(OwnSheets, ADateIsSaidOnceForAPlate) {
    ASSERT_EQ(cospot({"learn", "--system", "silica",
                      file("p.csv", "plate,date,lane,label,distance_mm,front_mm,role\n"
                                    "A,2026-03-01,1,ethanol,21,70,standard\n"
                                    "A,,2,benzene,56,,standard\n")})
                  .code,
              kDone);
    const auto values = cospot({"--json", "export", "values"}).lines();
    const auto dated = std::count_if(values.begin(), values.end(), [](const auto &value) {
        return value.at("run") == "A" && value.at("date") == "2026-03-01";
    });
    EXPECT_EQ(dated, 2);
}

TEST_F(OwnSheets, WithPartialTheGoodStandardsAreLearned) {
    const std::string plates =
        file("p.csv", "plate,lane,label,distance_mm,front_mm,role\nA,1,ethanol,21,70,standard\n"
                      "A,2,x,\"l,7\",,sample\nC,1,ethanol,22,,standard\n");
    EXPECT_EQ(cospot({"learn", "--system", "silica", plates}).code, kBadInput);
    const Outcome learned = cospot({"learn", "--system", "silica", plates, "--partial"});
    EXPECT_EQ(learned.code, kNeedsAttention) << learned.err;
    EXPECT_NE(learned.err.find("lane 2 of plate A is left out"), std::string::npos) << learned.err;
    EXPECT_NE(learned.err.find("plate C is left out: "), std::string::npos) << learned.err;
    EXPECT_NE(cospot({"show", "ethanol"}).out.find("3 values on 2 systems"), std::string::npos);
}

TEST_F(OwnSheets, ARefusedFileLeavesNoColumnsBehind) {
    const std::string good = file("good.csv", "Bahn,Probe,Weg,Front\n1,x,21,70\n");
    const std::string faulty = file("faulty.csv", "Bahn,Probe,Weg,Front\n1,x,99,70\n");
    const auto identify = [&](const std::string &plate, std::vector<std::string> more) {
        std::vector<std::string> arguments{"identify", plate, "--system", "silica", "--as", "s"};
        arguments.insert(arguments.end(), more.begin(), more.end());
        return cospot(arguments);
    };
    const std::vector<std::string> most{"--map",       "lane=Bahn", "--map",
                                        "label=Probe", "--map",     "distance_mm=Weg"};
    EXPECT_EQ(identify(faulty, most).code, kBadInput);
    EXPECT_EQ(identify(good, {}).code, kBadInput) << "nothing was remembered";
    EXPECT_EQ(identify(good, {"--map", "lane=Bahn"}).code, kBadInput); // the others are not known
    EXPECT_EQ(identify(good, most).code, kBadInput);                   // no front
    std::vector<std::string> all = most;
    all.insert(all.end(), {"--map", "front_mm=Front"});
    EXPECT_EQ(identify(good, all).code, kDone);
    // One more column: what is remembered stays.
    EXPECT_EQ(identify(good, {"--map", "label=Probe"}).code, kDone);
    EXPECT_EQ(identify(good, {}).code, kDone);
}

TEST_F(OwnSheets, ColumnsAreRememberedUnderANameOfTheSheet) {
    const std::string plate = file("p.csv", "Bahn,Probe,Weg,Front\n1,x,21,70\n");
    const std::vector<std::string> maps{"--map", "lane=Bahn",       "--map", "label=Probe",
                                        "--map", "distance_mm=Weg", "--map", "front_mm=Front",
                                        "--as",  "class sheet"};
    std::vector<std::string> first{"--json", "identify", plate, "--system", "silica"};
    first.insert(first.end(), maps.begin(), maps.end());
    const Outcome mapped = cospot(first);
    EXPECT_EQ(mapped.code, kDone) << mapped.err;
    EXPECT_NE(mapped.err.find("--as \"class sheet\" next time"), std::string::npos) << mapped.err;
    const Outcome again =
        cospot({"--json", "identify", plate, "--system", "silica", "--as", "Class Sheet"});
    EXPECT_EQ(again.out, mapped.out) << again.err;
    const Outcome unknown =
        cospot({"identify", plate, "--system", "silica", "--as", "monday sheet"});
    EXPECT_EQ(unknown.code, kBadInput);
    EXPECT_NE(unknown.err.find("remembers: \"class sheet\""), std::string::npos) << unknown.err;
    const Outcome told = cospot({"history"});
    EXPECT_NE(told.out.find("columns of the sheet \"class sheet\""), std::string::npos) << told.out;
}

using EmptyLibrary = ProgramTest;

TEST_F(EmptyLibrary, AFirstPlateSaysHowItsStandardsAreKept) {
    const std::string plate = file("p.csv", "lane,label,distance_mm,front_mm,role\n1,x,21,70,\n"
                                            "2,vanillin,21,70,standard\n");
    std::string text = cospot({"identify", plate}).out;
    std::replace(text.begin(), text.end(), '\n', ' ');
    EXPECT_NE(text.find("cospot learn /"), std::string::npos) << text;
    EXPECT_NE(text.find("--systems SYSTEMS.csv"), std::string::npos) << text;
}

} // namespace
} // namespace cospot
