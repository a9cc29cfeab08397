// purity: one sample against its declaration. The library and the samples are invented.
#include "program_fixture.h"

#include "report/checksum.h"

namespace cospot {
namespace {

using Json = nlohmann::json;

/// An invented HPLC system with times of six benzoates and a phenol, three runs each.
class PurityTest : public ProgramTest {
protected:
    PurityTest() {
        std::string values = "compound,smiles,system,quantity,value,run\n";
        const std::vector<std::tuple<std::string, std::string, double>> compounds{
            {"methyl benzoate", "COC(=O)c1ccccc1", 4.0},
            {"ethyl benzoate", "CCOC(=O)c1ccccc1", 5.0},
            {"propyl benzoate", "CCCOC(=O)c1ccccc1", 6.5},
            {"butyl benzoate", "CCCCOC(=O)c1ccccc1", 8.5},
            {"phenol", "Oc1ccccc1", 2.5},
            {"decane", "CCCCCCCCCC", 11.0},
            {"isobutyl benzoate", "CC(C)COC(=O)c1ccccc1", 8.1}};
        for (int run = 1; run <= 3; ++run) {
            for (const auto &[name, smiles, time] : compounds) {
                values += name + "," + smiles + ",C18,tR," +
                          std::to_string(time + 0.01 * (run - 2)) + ",r" + std::to_string(run) +
                          "\n";
            }
        }
        const Outcome learned =
            cospot({"learn", "--systems",
                    file("systems.csv", "system,technique,stationary_phase,mobile_phase,scale\n"
                                        "C18,hplc,C18,water:acetonitrile 1:1,\n"),
                    file("values.csv", values)});
        EXPECT_EQ(learned.code, kDone) << learned.err;
    }

    Outcome purity(const std::string &peaks, std::vector<std::string> further = {}) const {
        std::vector<std::string> arguments{"--json",     "purity",         file("s.csv", peaks),
                                           "--declared", "butyl benzoate", "--system",
                                           "C18"};
        arguments.insert(arguments.end(), further.begin(), further.end());
        return cospot(arguments);
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

const std::string kClean = "peak,tR,area,width_half,symmetry\n1,6.51,30,0.15,1.1\n"
                           "2,8.50,99970,0.18,1.2\n";
const std::string kDirty = "peak,tR,area,width_half\n1,2.50,200,0.08\n2,6.51,130,0.15\n"
                           "3,8.50,99970,0.18\n4,9.40,400,0.2\n";

TEST_F(PurityTest, ACleanSampleIsInOrderOnceItsIdentityIsConfirmed) {
    const Outcome outcome =
        purity(kClean, {"--dose-mg-per-day", "500", "--confirmed", "butyl benzoate"});
    ASSERT_EQ(outcome.code, kDone) << outcome.out << outcome.err;
    const Json sample = outcome.lines().at(0);
    EXPECT_EQ(sample["main"], "2");
    EXPECT_GT(sample["probability"], 0.9);
    EXPECT_TRUE(sample["in_order"]);
    EXPECT_EQ(sample["features"][0]["role"], "disregarded");
    EXPECT_EQ(sample["disregarded"]["count"], 1);
    EXPECT_NEAR(sample["disregarded"]["per_cent"], 0.03, 1e-9);
    EXPECT_EQ(rule(sample, "symmetry factor of the declared compound")["verdict"], "meets");
}

TEST_F(PurityTest, VerdictsFollowThresholdsAndIdentity) {
    const Outcome outcome =
        purity(kDirty, {"--dose-mg-per-day", "500", "--expected", "propyl benzoate"});
    ASSERT_EQ(outcome.code, kNeedsAttention) << outcome.err;
    const Json sample = outcome.lines().at(0);
    // 200 of 100700 is 0.199 %, 130 is 0.129 %, 400 is 0.397 %.
    EXPECT_EQ(sample["features"][0]["reported_per_cent"], "0.20");
    EXPECT_EQ(sample["features"][1]["reported_per_cent"], "0.13");
    EXPECT_EQ(sample["features"][3]["reported_per_cent"], "0.40");
    EXPECT_EQ(sample["features"][3]["identity"]["name"], "unlisted");
    double sum = 0.0;
    for (const Json &feature : sample["features"]) {
        sum += feature["per_cent"].get<double>();
    }
    EXPECT_NEAR(sum, 100.0, 1e-9);
    std::map<std::string, int> verdicts;
    for (const Json &one : sample["rules"]) {
        if (one["rule"] == "identification threshold") {
            ++verdicts[one["verdict"]];
            EXPECT_EQ(one["limit"], "0.10 %");
        }
    }
    EXPECT_EQ(verdicts["open"], 2);          // propyl benzoate and phenol, by retention only
    EXPECT_EQ(verdicts["does not meet"], 1); // unlisted
    // 0.15 %, or 1.0 mg of 500 mg, which is more: 0.20 and 0.40 exceed it.
    EXPECT_EQ(sample["features"][1]["actions"].size(), 2U); // report, confirm
    EXPECT_EQ(sample["features"][3]["actions"], Json({"report", "identify", "qualify"}));
}

TEST_F(PurityTest, OwnRulesWithLimitsOfTheirOwn) {
    const std::string rules =
        file("rules.json", R"({"name": "house rules", "reporting": [{"percent": "0.05"}],
             "specified": [{"compound": "propyl benzoate", "percent": "0.2"}],
             "any_other": "0.30", "total": "0.5", "declared_at_least": "99.0"})");
    const Json sample = purity(kDirty, {"--rules", rules}).lines().at(0);
    EXPECT_EQ(rule(sample, "limit of propyl benzoate")["verdict"], "meets"); // as any other
    EXPECT_EQ(rule(sample, "any other impurity")["verdict"], "does not meet");
    EXPECT_EQ(rule(sample, "all impurities together")["verdict"], "does not meet"); // 0.73
    EXPECT_EQ(rule(sample, "declared compound")["verdict"], "open");                // 99.27
}

const std::string kByName = R"({"name": "house rules", "reporting": [{"percent": "0.05"}],
    "identification": [{"percent": "0.10"}],
    "specified": [{"compound": "propyl benzoate", "percent": "0.2"}], "any_other": "0.10",
    "declared_at_least": "99.0"})";
const std::string kNamed = "peak,tR,area\n1,6.51,130\n2,8.50,99870\n";

TEST_F(PurityTest, WhatIsMetByANameFromRetentionAloneStaysOpenUntilItIsConfirmed) {
    const std::string rules = file("rules.json", kByName);
    const Outcome open = purity(kNamed, {"--rules", rules});
    EXPECT_EQ(open.code, kNeedsAttention);
    const Json sample = open.lines().at(0);
    EXPECT_FALSE(sample["in_order"]);
    for (const auto &[name, compound] : {std::pair("butyl benzoate is there", "butyl benzoate"),
                                         std::pair("identification threshold", "propyl benzoate"),
                                         std::pair("limit of propyl benzoate", "propyl benzoate"),
                                         std::pair("declared compound", "butyl benzoate")}) {
        EXPECT_EQ(rule(sample, name)["verdict"], "open") << name;
        EXPECT_EQ(rule(sample, name)["reason"],
                  std::string("open until ") + compound +
                      " is confirmed by a reference standard or an independent method");
    }
    EXPECT_EQ(rule(sample, "any other impurity")["verdict"], "meets"); // whatever they are
    EXPECT_EQ(sample["features"][0]["actions"], Json({"report", "confirm propyl benzoate"}));
    const Outcome text = cospot({"purity", path("s.csv"), "--declared", "butyl benzoate",
                                 "--system", "C18", "--rules", rules});
    EXPECT_HOLDS(unwrapped(text.out), "s, declared butyl benzoate: open. Open until confirmed: ");
    expect_fits_screen(text.out);
}

TEST_F(PurityTest, WhatTheUserConfirmedIsMetAndRecordedAsStated) {
    const std::string rules = file("rules.json", kByName);
    const Json half =
        purity(kNamed, {"--rules", rules, "--confirmed", "butyl benzoate"}).lines()[0];
    EXPECT_EQ(rule(half, "butyl benzoate is there")["verdict"], "meets");
    EXPECT_EQ(rule(half, "declared compound")["verdict"], "meets");
    EXPECT_EQ(rule(half, "limit of propyl benzoate")["verdict"], "open");
    const Outcome whole = purity(kNamed, {"--rules", rules, "--confirmed", "butyl benzoate",
                                          "--confirmed", "propyl benzoate"});
    EXPECT_EQ(whole.code, kDone) << whole.out;
    const Json sample = whole.lines().at(0);
    EXPECT_TRUE(sample["in_order"]);
    EXPECT_EQ(sample["confirmed"], Json({"butyl benzoate", "propyl benzoate"}));
    EXPECT_TRUE(sample["features"][0]["identity"]["confirmed"]);
    EXPECT_EQ(rule(sample, "limit of propyl benzoate")["reason"],
              "identity confirmed, as stated with --confirmed");
    EXPECT_HOLDS(sample["notes"].dump(),
                 "propyl benzoate: identity confirmed, as stated with --confirmed: peak 1");
}

TEST_F(PurityTest, ALimitOfItsOwnQualifiesAnImpurityOnlyOnceItIsConfirmed) {
    const std::string rules = file("q.json", R"({"name": "x",
        "qualification": [{"percent": "0.10"}], "any_other": "0.50",
        "specified": [{"compound": "propyl benzoate", "percent": "0.2"}]})");
    const Json open = purity(kNamed, {"--rules", rules}).lines()[0];
    EXPECT_EQ(rule(open, "qualification threshold")["verdict"], "open");
    EXPECT_EQ(rule(open, "limit of propyl benzoate")["verdict"], "meets"); // as any other
    const Json confirmed =
        purity(kNamed, {"--rules", rules, "--confirmed", "propyl benzoate"}).lines()[0];
    EXPECT_EQ(rule(confirmed, "qualification threshold")["verdict"], "meets");
}

TEST_F(PurityTest, AConfirmedCompoundThatNoPeakFitsConfirmsNothing) {
    const Json sample =
        purity(kNamed, {"--rules", file("rules.json", kByName), "--confirmed", "decane"})
            .lines()[0];
    EXPECT_EQ(sample["confirmed"], Json::array());
    EXPECT_HOLDS(sample["notes"].dump(), "likeliest nowhere in the sample: decane");
    EXPECT_EQ(rule(sample, "limit of propyl benzoate")["verdict"], "open");
    const Json two =
        purity("peak,tR,area\n1,8.485,50000\n2,8.515,50000\n", {"--confirmed", "butyl benzoate"})
            .lines()[0];
    EXPECT_HOLDS(two["notes"].dump(), "it stays open which one it is: peak ");
    EXPECT_EQ(rule(two, "butyl benzoate is there")["verdict"], "can't be told");
}

TEST_F(PurityTest, TooMuchOfANamedImpurityDoesNotMeetItsLimitConfirmedOrNot) {
    const std::string rules = file("r.json", R"({"name": "x",
        "specified": [{"compound": "propyl benzoate", "percent": "0.10"}]})");
    const Json sample = purity(kNamed, {"--rules", rules}).lines()[0];
    EXPECT_EQ(rule(sample, "limit of propyl benzoate")["verdict"], "does not meet");
    EXPECT_HOLDS(rule(sample, "limit of propyl benzoate")["reason"].dump(),
                 "known by its retention only");
    const Json confirmed =
        purity(kNamed, {"--rules", rules, "--confirmed", "propyl benzoate"}).lines()[0];
    EXPECT_EQ(rule(confirmed, "limit of propyl benzoate")["verdict"], "does not meet");
}

TEST_F(PurityTest, ResponseFactorsOfTheLibraryCorrectAreas) {
    const std::string factors = "compound,relative_to,system,response_factor,source\n"
                                "propyl benzoate,butyl benzoate,C18,0.5,invented\n";
    EXPECT_EQ(cospot({"learn", file("r.csv", factors)}).code, kDone);
    const Json feature =
        purity(kDirty, {"--expected", "propyl benzoate"}).lines().at(0)["features"][1];
    EXPECT_EQ(feature["response_factor"], 0.5);
    EXPECT_EQ(feature["response_factor_basis"], "library");
    EXPECT_NEAR(feature["per_cent"], 100.0 * 260 / 100830, 1e-6);
    // And what was learned can be exported and learned again.
    EXPECT_NE(cospot({"export", "responses"}).out.find("propyl benzoate,butyl benzoate,C18,0.5"),
              std::string::npos);
}

TEST_F(PurityTest, AResponseFactorRestsOnANameToo) {
    const std::string factors = "compound,relative_to,system,response_factor,source\n"
                                "propyl benzoate,butyl benzoate,C18,2,invented\n";
    ASSERT_EQ(cospot({"learn", file("r.csv", factors)}).code, kDone);
    const std::string rules = file("f.json", R"({"name": "x", "any_other": "0.10",
                                                 "total": "0.10"})");
    // 130 of 100000 are 0.13 %, with the factor 0.07 %.
    const Json open = purity(kNamed, {"--rules", rules}).lines()[0];
    for (const char *name : {"any other impurity", "all impurities together"}) {
        EXPECT_EQ(rule(open, name)["verdict"], "open") << name;
        EXPECT_HOLDS(rule(open, name)["reason"].dump(), "without its response factor it is 0.13 %");
    }
    const Json confirmed =
        purity(kNamed, {"--rules", rules, "--confirmed", "propyl benzoate"}).lines()[0];
    EXPECT_EQ(rule(confirmed, "any other impurity")["verdict"], "meets");
    EXPECT_EQ(rule(confirmed, "all impurities together")["verdict"], "meets");
}

TEST_F(PurityTest, TheBlankIsTakenOff) {
    const std::string blank = file("blank.csv", "peak,tR,area\n1,2.51,198\n2,9.41,100\n");
    const Json sample = purity(kDirty, {"--blank", blank}).lines().at(0);
    EXPECT_EQ(sample["features"][0]["role"], "blank");
    EXPECT_EQ(sample["features"][0]["area"], 0.0);
    EXPECT_EQ(sample["features"][3]["role"], "impurity");
    EXPECT_EQ(sample["features"][3]["area"], 300.0);
}

TEST_F(PurityTest, TwoPeaksThatFitTheDeclaredCompoundCannotBeTold) {
    const Outcome outcome = purity("peak,tR,area\n1,8.485,50000\n2,8.515,50000\n");
    EXPECT_EQ(outcome.code, kNeedsAttention);
    const Json sample = outcome.lines().at(0);
    EXPECT_EQ(rule(sample, "butyl benzoate is there")["verdict"], "can't be told");
    EXPECT_EQ(rule(sample, "impurities")["verdict"], "can't be told");
}

TEST_F(PurityTest, AMissingDeclaredCompoundDoesNotMeetItsRule) {
    const Outcome outcome = purity("peak,tR,area\n1,4.0,50000\n");
    EXPECT_EQ(outcome.code, kNeedsAttention);
    const Json sample = outcome.lines().at(0);
    EXPECT_TRUE(sample["main"].is_null());
    EXPECT_EQ(rule(sample, "butyl benzoate is there")["verdict"], "does not meet");
}

TEST_F(PurityTest, OnePeakIsNeverCalledPure) {
    const Outcome outcome = cospot({"purity", file("s.csv", "peak,tR,area\n1,8.5,100\n"),
                                    "--declared", "butyl benzoate", "--system", "C18"});
    EXPECT_EQ(outcome.code, kNeedsAttention) << outcome.out;
    EXPECT_NE(outcome.out.find("One peak was seen in this system"), std::string::npos);
    EXPECT_NE(outcome.out.find("area per cent is not mass per cent"), std::string::npos);
    EXPECT_NE(outcome.out.find("Retention alone is no proof"), std::string::npos);
}

TEST_F(PurityTest, SaysWhatTheDetectorCannotSee) {
    const Json sample =
        purity(kClean, {"--detector", "uv", "--expected", "decane", "--detection-limit-percent",
                        "0.2", "--dose-mg-per-day", "500"})
            .lines()
            .at(0);
    EXPECT_NE(sample["hidden"].dump().find("decane: no group that absorbs"), std::string::npos)
        << sample["hidden"];
    EXPECT_EQ(rule(sample, "detection limit")["verdict"], "does not meet");
}

TEST_F(PurityTest, SaysWhatADetectorOfGasChromatographyCannotSee) {
    const std::string systems = file("gc.csv", "system,technique,stationary_phase,mobile_phase\n"
                                               "wax,gc,PEG,helium\n");
    const std::string values = file("gc_values.csv", "compound,smiles,system,quantity,value\n"
                                                     "ethanol,CCO,wax,tR,3.0\n"
                                                     "water,O,wax,tR,4.5\n");
    ASSERT_EQ(cospot({"learn", "--systems", systems, values}).code, kDone);
    const auto judged = [&](const std::string &detector, const std::string &system) {
        return cospot({"--json", "purity", file("g.csv", "peak,tR,area\n1,3.00,100\n"),
                       "--declared", "ethanol", "--expected", "water", "--system", system,
                       "--detector", detector});
    };
    const std::string hidden = judged("fid", "wax").lines().at(0)["hidden"].dump();
    EXPECT_HOLDS(hidden, "water: a flame ionisation detector hardly sees it");
    EXPECT_HOLDS(hidden, "hardly sees what has no C-H bond");
    EXPECT_EQ(judged("tcd", "wax").lines().at(0)["hidden"].dump().find("water:"),
              std::string::npos);
    const Outcome wrong = judged("uv", "wax");
    EXPECT_EQ(wrong.code, kBadInput);
    EXPECT_HOLDS(wrong.err, "fid, tcd, ecd, npd, fpd, ms-scan or ms-sim");
    EXPECT_HOLDS(purity(kClean, {"--detector", "eye"}).err, "uv, fid, tcd");
}

TEST_F(PurityTest, FollowsSeveralSamples) {
    const std::string more = file("t.csv", "peak,tR,area\n1,6.51,300\n2,8.50,99700\n3,9.41,90\n");
    const auto lines = purity(kDirty, {more}).lines();
    ASSERT_EQ(lines.size(), 3U);
    const Json &trend = lines[2];
    EXPECT_EQ(trend["kind"], "trend");
    EXPECT_EQ(trend["samples"], Json({"s", "t"}));
    EXPECT_EQ(trend["rows"][0]["name"], "butyl benzoate");
    const auto row = [&](const std::string &name) {
        for (const Json &one : trend["rows"]) {
            if (one["name"] == name) {
                return one["per_cent"];
            }
        }
        return Json();
    };
    EXPECT_NEAR(row("propyl benzoate")[1], 100.0 * 300 / 100090, 1e-6);
    EXPECT_TRUE(row("phenol")[1].is_null());
    EXPECT_NEAR(row("unknown at RRT 1.11")[1], 100.0 * 90 / 100090, 1e-6);
}

TEST_F(PurityTest, ABatchBelowTheReportingThresholdShowsItsFigure) {
    const std::string little = "peak,tR,area\n1,6.51,40\n2,8.50,99960\n";
    const std::string less = file("u.csv", "peak,tR,area\n1,6.51,2\n2,8.50,99998\n");
    const std::string none = file("v.csv", "peak,tR,area\n2,8.50,99960\n");
    const std::string rules = file("r.json", R"({"name": "x", "any_other": "0.2"})");
    const auto lines =
        purity(kNamed, {file("t.csv", little), less, none, "--rules", rules}).lines();
    const Json &row = lines.back()["rows"][1];
    EXPECT_EQ(row["name"], "propyl benzoate");
    EXPECT_NEAR(row["per_cent"][1], 0.04, 1e-9);
    EXPECT_NEAR(row["per_cent"][2], 0.002, 1e-9);
    EXPECT_TRUE(row["per_cent"][3].is_null());
    EXPECT_EQ(row["below_reporting"], Json({false, true, true, false}));
    EXPECT_EQ(rule(lines[1], "any other impurity")["found"],
              "no impurity; peak 1, 0.04 % is not above the reporting threshold");
    const Outcome text =
        cospot({"purity", path("s.csv"), path("t.csv"), path("u.csv"), path("v.csv"), "--declared",
                "butyl benzoate", "--system", "C18", "--rules", rules});
    expect_fits_screen(text.out);
    const std::string all = unwrapped(text.out);
    EXPECT_HOLDS(all, "in brackets: at or below the reporting threshold");
    std::istringstream words(all.substr(all.find("Over the samples")));
    std::vector<std::string> cells;
    for (std::string word; words >> word && word != "Sample";) {
        cells.push_back(word);
    }
    const auto end = std::find(cells.begin(), cells.end(), "0.13");
    ASSERT_LT(std::distance(end, cells.end()), 5) << all;
    EXPECT_EQ((std::vector<std::string>{end, cells.end()}),
              (std::vector<std::string>{"0.13", "(0.04)", "(0.002)", "-"}));
    EXPECT_HOLDS(text.out, "Disregarded %");
}

TEST_F(PurityTest, AShareThatRoundsToNothingShowsItsFigure) {
    const Outcome outcome =
        cospot({"purity", file("s.csv", "peak,tR,area\n1,6.51,30\n2,8.50,99970\n"), "--declared",
                "butyl benzoate", "--system", "C18", "--for", "product", "--dose-mg-per-day", "1"});
    // Reported with one decimal it would be 0.0.
    EXPECT_HOLDS(outcome.out, "0.03  disregarded");
}

TEST_F(PurityTest, BadInputIsNamed) {
    const auto fault = [&](const std::string &peaks, const std::vector<std::string> &further = {}) {
        const Outcome outcome = purity(peaks, further);
        EXPECT_EQ(outcome.code, kBadInput) << outcome.out;
        return outcome.err;
    };
    EXPECT_NE(fault("peak,tR,area\n1,8.5,-3\n").find("s.csv:2, column area"), std::string::npos);
    EXPECT_NE(fault("peak,tR,area\n1,8.5,0\n2,4,0\n").find("all 0"), std::string::npos);
    EXPECT_NE(fault("peak,tR,area\n1,8.5,5\n2,4,\n").find("s.csv:3"), std::string::npos);
    EXPECT_NE(fault(kClean, {"--rules", file("r.json", "{\"name\":\"x\",\"reporting\":"
                                                       "[{\"dose_up_to\":\"1 g\",\"percent\":"
                                                       "\"0.1\"}]}")})
                  .find("gap"),
              std::string::npos);
    EXPECT_NE(fault(kClean, {"--for", "product", "--dose-mg-per-day", "0"}).find("above 0"),
              std::string::npos);
    const Outcome unknown =
        cospot({"purity", file("s.csv", kClean), "--declared", "nobody", "--system", "C18"});
    EXPECT_EQ(unknown.code, kBadInput);
    EXPECT_NE(unknown.err.find("measure its"), std::string::npos) << unknown.err;
}

TEST_F(PurityTest, AReportTracesTheFileOfExpectedImpurities) {
    const std::string names = "propyl benzoate\nphenol\n";
    const Outcome outcome = purity(kDirty, {"--expected", file("names.txt", names), "--expected",
                                            "decane", "--report", path("p.json")});
    ASSERT_NE(outcome.code, kBadInput) << outcome.err;
    const Json inputs = Json::parse(content("p.json"))["trace"]["inputs"];
    ASSERT_EQ(inputs.size(), 2U) << inputs; // the name is no file
    EXPECT_EQ(inputs[1]["name"], path("names.txt"));
    EXPECT_EQ(inputs[1]["sha256"], sha256_hex(names));
}

TEST_F(PurityTest, TheTextFitsTheScreen) {
    const Outcome outcome =
        cospot({"purity", file("s.csv", kDirty), file("t.csv", kDirty), "--declared",
                "butyl benzoate", "--system", "C18", "--dose-mg-per-day", "500"});
    expect_fits_screen(outcome.out);
    EXPECT_HOLDS(outcome.out, "Declared butyl benzoate: 2 of 2 samples not in order.");
    EXPECT_HOLDS(unwrapped(outcome.out),
                 "limit at least 1.5 (common practice)"); // nobody asked for it
    const Outcome one = cospot({"purity", path("s.csv"), "--declared", "butyl benzoate", "--system",
                                "C18", "--dose-mg-per-day", "500"});
    expect_fits_screen(one.out);
    EXPECT_HOLDS(one.out, "s, declared butyl benzoate: not in order. Not met: ");
    EXPECT_HOLDS(one.out, "All impurities together: ");
}

TEST_F(PurityTest, WhatHoldsForAllSamplesIsSaidOnce) {
    const std::string more = "peak,tR,area\n1,8.50,99970\n2,9.40,400\n";
    const Outcome outcome = cospot({"purity", file("s.csv", kDirty), file("t.csv", more),
                                    "--declared", "butyl benzoate", "--system", "C18", "--blank",
                                    file("blank.csv", "peak,tR,area\n1,9.41,100\n")});
    const std::string text = on_one_line(outcome.out);
    const auto count = [&](const std::string &words) {
        std::size_t found = 0;
        for (std::size_t at = text.find(words); at != std::string::npos;
             at = text.find(words, at + 1)) {
            ++found;
        }
        return found;
    };
    EXPECT_EQ(count("The detection limit was not given"), 1U);
    EXPECT_EQ(count("not yet validated for one HPLC system (run cospot prove)"), 1U);
    EXPECT_EQ(count("the blank is compared by retention time;"), 1U);
    // What holds for one of them only has its name.
    EXPECT_EQ(count("- s: peak 4: the area of the blank was subtracted"), 1U) << text;
    EXPECT_EQ(count("- t: peak 2: the area of the blank was subtracted"), 1U) << text;
}

TEST_F(PurityTest, ThePageOfSeveralSamplesBeginsWithTheVerdictAndEndsWithLinesToSign) {
    const std::string rules = file("rules.json", R"({"name": "house rules", "any_other": "0.30"})");
    const Outcome outcome =
        cospot({"purity", file("batch 1.csv", kDirty), file("batch 2.csv", kClean), "--declared",
                "butyl benzoate", "--system", "C18", "--rules", rules, "--confirmed",
                "butyl benzoate", "--report", path("page.html")});
    EXPECT_EQ(outcome.code, kNeedsAttention) << outcome.err;
    const std::string page = content("page.html");
    std::size_t at = 0;
    for (const char *part :
         {"<h1>Purity of 2 samples, batch 1 to batch 2, declared butyl benzoate</h1>",
          "1 of 2 samples in order, 1 not in order", "href=\"#sample-1\"", "Over the samples",
          "class=\"limit\"", "broken line: limit 0.30 %", "id=\"sample-1\"", "id=\"sample-2\"",
          "What this does not show", "<th scope=\"col\">Signature</th>"}) {
        at = page.find(part, at);
        ASSERT_NE(at, std::string::npos) << part;
    }
}

} // namespace
} // namespace cospot
