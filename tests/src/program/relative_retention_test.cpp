// Values relative to a reference compound, from the table of systems to the judged sample. The
// compounds' times are invented.
#include "program_fixture.h"

namespace cospot {
namespace {

using Json = nlohmann::json;
using Texts = std::vector<std::string>;

const std::string kRelativeSystems = "system,technique,stationary_phase,mobile_phase,reference\n"
                                     "rel,hplc,C18,water:acetonitrile 1:1,butyl benzoate\n"
                                     "adj,hplc,C8,water:acetonitrile 1:1,butyl benzoate\n"
                                     "bare,hplc,C4,water:acetonitrile 1:1,\n"
                                     "timed,hplc,CN,water:acetonitrile 1:1,butyl benzoate\n"
                                     "silica,tlc,silica gel,hexane,\n";

/// A list as a monograph gives it: relative to butyl benzoate.
const std::string kList = "compound,smiles,system,quantity,value\n"
                          "phenol,Oc1ccccc1,rel,RRT,0.29\n"
                          "methyl benzoate,COC(=O)c1ccccc1,rel,RRT,0.47\n"
                          "ethyl benzoate,CCOC(=O)c1ccccc1,rel,RRT,0.59\n"
                          "propyl benzoate,CCCOC(=O)c1ccccc1,rel,RRT,0.76\n"
                          "butyl benzoate,CCCCOC(=O)c1ccccc1,rel,RRT,1\n"
                          "ethyl benzoate,,adj,r,0.54\n"
                          "propyl benzoate,,adj,r,0.74\n"
                          "butyl benzoate,,adj,r,1\n";

const std::string kSynonym = "compound,smiles,synonyms\n"
                             "butyl benzoate,CCCCOC(=O)c1ccccc1,benzoic butyl ester\n";

class RelativeRetentionTest : public ProgramTest {
protected:
    RelativeRetentionTest() {
        const Outcome learned = cospot({"learn", "--systems", file("systems.csv", kRelativeSystems),
                                        file("list.csv", kList), file("synonyms.csv", kSynonym)});
        EXPECT_EQ(learned.code, kDone) << learned.err;
    }

    std::vector<Json> identify(const std::string &content, Texts further = {}) const {
        further.insert(further.begin(), {"--json", "identify", file("run.csv", content)});
        const Outcome outcome = cospot(further);
        EXPECT_EQ(outcome.code, kDone) << outcome.err;
        return outcome.lines();
    }

    Json purity(const std::string &content, Texts further = {}) const {
        further.insert(further.begin(), {"--json", "purity", file("run.csv", content), "--declared",
                                         "butyl benzoate", "--system", "rel"});
        const Outcome outcome = cospot(further);
        EXPECT_NE(outcome.code, kBadInput) << outcome.err;
        return outcome.lines().at(0);
    }
};

TEST_F(RelativeRetentionTest, AListOfRelativeRetentionsIsALibrary) {
    // The column runs a fifth slower than any other: ratios do not change.
    const auto peaks = identify("peak,tR,compound\n1,4.80,\n2,6.02,\n3,10.20,butyl benzoate\n",
                                {"--system", "rel"});
    ASSERT_EQ(peaks.size(), 2U); // the named one is a standard
    EXPECT_EQ(peaks[0]["candidates"][0]["compound"], "methyl benzoate");
    EXPECT_GT(peaks[0]["candidates"][0]["probability"], 0.8);
    EXPECT_EQ(peaks[1]["candidates"][0]["compound"], "ethyl benzoate");
    const Json &seen = peaks[1]["observations"][0];
    EXPECT_EQ(seen["quantity"], "RRT");
    EXPECT_NEAR(seen["value"], 6.02 / 10.2, 1e-9);
    EXPECT_NEAR(seen["uncertainty"], 0.005 / 10.2 * std::hypot(1.0, 6.02 / 10.2), 1e-9);
    // Where only the user says which peak it is, it is a peak of the sample.
    const auto chosen = identify("peak,tR\n1,4.80\n2,6.02\n3,10.20\n",
                                 {"--system", "rel", "--reference-peak", "3"});
    ASSERT_EQ(chosen.size(), 3U);
    EXPECT_EQ(chosen[2]["candidates"][0]["compound"], "butyl benzoate");
    EXPECT_EQ(chosen[2]["observations"][0]["value"], 1.0);
    EXPECT_HOLDS(chosen[2]["warnings"].dump(), "1 whatever compound it is");
    const auto values =
        identify("sample,feature,system,quantity,value\ns,a,rel,RRT,0.762\ns,b,adj,r,0.538\n");
    EXPECT_EQ(values[0]["candidates"][0]["compound"], "propyl benzoate");
    EXPECT_EQ(values[1]["candidates"][0]["compound"], "ethyl benzoate");
}

// ettre1993 (R05277) and pheur2246, formulas read; numbers invented: times of 5.0 and 7.5 min with
// a hold-up time of 1.0 min give r = 6.5/4 = 1.625 and r_G = 7.5/5 = 1.5.
TEST_F(RelativeRetentionTest, ARunGivesThePublishedRatios) {
    const std::string run = "peak,tR,compound\n1,5.0,butyl benzoate\n2,7.5,\n";
    const Json plain = identify(run, {"--system", "rel"}).at(0)["observations"][0];
    EXPECT_EQ(plain["quantity"], "RRT");
    EXPECT_NEAR(plain["value"], 1.5, 1e-12);
    const Json adjusted =
        identify(run, {"--system", "adj", "--hold-up", "1.0"}).at(0)["observations"][0];
    EXPECT_EQ(adjusted["quantity"], "r");
    EXPECT_NEAR(adjusted["value"], 1.625, 1e-12);
}

TEST_F(RelativeRetentionTest, TheReferenceIsNamedInTheFileOrByTheUser) {
    const auto last = [&](const std::string &content, const Texts &options) {
        Texts all{"--system", "rel"};
        all.insert(all.end(), options.begin(), options.end());
        return identify(content, all).back()["observations"][0]["value"].get<double>();
    };
    EXPECT_NEAR(last("peak,tR,compound\n1,8,Benzoic Butyl Ester\n2,4,\n", {}), 0.5, 1e-12);
    EXPECT_NEAR(last("peak,tR\n1,8\n2,4\n", {"--reference-peak", "1"}), 0.5, 1e-12);
    EXPECT_NEAR(last("peak,tR,compound\n1,8,butyl benzoate\n2,4,\n", {"--reference-peak", "1"}),
                0.5, 1e-12);
}

TEST_F(RelativeRetentionTest, FaultsNameTheirPlaceAndWhatToGive) {
    const std::string run = "peak,tR,area\n1,4,10\n2,8,90\n";
    const std::string twice = "peak,tR,compound\n1,4,butyl benzoate\n2,8,benzoic butyl ester\n";
    const std::string named = "peak,tR,compound\n1,4,\n2,8,butyl benzoate\n";
    const std::string long_table = "sample,feature,system,quantity,value\ns,1,";
    const std::string values = "compound,smiles,system,quantity,value\nphenol,Oc1ccccc1,";
    const std::string ladder = file("ladder.csv", "carbon,tR\n8,2\n9,3\n10,5\n");
    struct Case {
        std::string content;
        Texts command;
        Texts parts;
    };
    const std::vector<Case> cases{
        {values + "bare,RRT,0.3\n",
         {"learn"},
         {"f.csv:2, column quantity", "\"bare\"", "reference"}},
        {values + "bare,r,0.3\n", {"learn"}, {"f.csv:2, column quantity", "column reference"}},
        {values + "silica,RRT,0.3\n", {"learn"}, {"f.csv:2, column quantity", "a tlc system"}},
        {"compound,smiles,system,quantity,value\nbenzoic butyl ester,,rel,RRT,0.9\n",
         {"learn"},
         {"f.csv:2, column value", "the reference of \"rel\""}},
        {values + "rel,RRT,0\n", {"learn"}, {"f.csv:2, column value", "above 0"}},
        {long_table + "bare,RRT,0.3\n", {"identify"}, {"f.csv:2, column quantity", "\"bare\""}},
        {long_table + "silica,r,0.3\n", {"identify"}, {"f.csv:2, column quantity", "a tlc system"}},
        {run, {"identify", "--system", "rel"}, {"f.csv", "butyl benzoate", "--reference-peak"}},
        {run,
         {"identify", "--system", "rel", "--reference-peak", "9"},
         {"--reference-peak", "\"9\"", "f.csv"}},
        {twice, {"identify", "--system", "rel"}, {"f.csv:3, column compound", "one row only"}},
        {named,
         {"identify", "--system", "rel", "--reference-peak", "1"},
         {"--reference-peak", "\"1\"", "\"2\""}},
        {run, {"identify", "--system", "bare", "--reference-peak", "1"}, {"names no reference"}},
        {run,
         {"identify", "--system", "rel", "--reference-peak", "1", "--ladder", ladder},
         {"--reference-peak with --ladder"}},
        {named, {"identify", "--system", "adj"}, {"no --hold-up", "relative retentions (r)"}},
        {named,
         {"identify", "--system", "adj", "--hold-up", "8", "--reference-peak", "2"},
         {"f.csv:3, column tR", "after the hold-up time"}},
        {"peak,tR,compound\n1,8,butyl benzoate\n2,9,\n",
         {"identify", "--system", "adj", "--hold-up", "8"},
         {"f.csv:2, column tR", "after the hold-up time"}},
        {"system,technique,reference\nplate,tlc,vanillin\n",
         {"learn", "--systems"},
         {"f.csv:2, column reference", "in columns"}},
        {"system,technique,reference\nrel,hplc,phenol\n",
         {"learn", "--systems"},
         {"f.csv:2, column reference", "another system"}},
        {run,
         {"purity", "--declared", "phenol", "--system", "rel"},
         {"f.csv", "butyl benzoate", "--reference-peak"}}};
    for (const Case &one : cases) {
        Texts arguments = one.command;
        arguments.push_back(file("f.csv", one.content));
        const std::string before = library_content();
        const Outcome outcome = cospot(arguments);
        EXPECT_EQ(outcome.code, kBadInput) << one.content << outcome.out;
        for (const std::string &part : one.parts) {
            EXPECT_HOLDS(on_one_line(outcome.err), part);
        }
        EXPECT_EQ(library_content(), before);
    }
}

TEST_F(RelativeRetentionTest, RunsAreLearnedAndTheReferenceOnce) {
    const std::string first =
        file("a.csv", "peak,tR,compound\n1,4.2,phenol\n2,8,butyl benzoate\n3,9,\n");
    const std::string second = file("b.csv", "peak,tR,compound\n1,4.3,phenol\n2,8.1,butyl "
                                             "benzoate\n");
    ASSERT_EQ(cospot({"learn", "--systems",
                      file("new.csv", "system,technique,reference\nnew,gc,butyl benzoate\n")})
                  .code,
              kDone);
    ASSERT_EQ(cospot({"learn", first, "--system", "new"}).code, kDone);
    const Outcome again = cospot({"learn", second, "--system", "new"});
    ASSERT_EQ(again.code, kDone) << again.err;
    EXPECT_HOLDS(again.err, "butyl benzoate is the reference");
    const auto shown = cospot({"--json", "show", "new"}).lines();
    EXPECT_EQ(shown[0]["reference"], "butyl benzoate");
    EXPECT_EQ(shown[0]["values"], 3);
    std::size_t of_phenol = 0;
    for (std::size_t i = 1; i < shown.size(); ++i) {
        EXPECT_EQ(shown[i]["quantity"], "RRT");
        of_phenol += shown[i]["compound"] == "phenol" ? 1 : 0;
    }
    EXPECT_EQ(of_phenol, 2U);
    EXPECT_HOLDS(cospot({"show", "new"}).out, "RRT 0.525");
    EXPECT_HOLDS(cospot({"show", "new"}).out, "Reference  butyl benzoate");
}

TEST_F(RelativeRetentionTest, TimesOfTheLibraryServeWhereTheRunHasNoReference) {
    ASSERT_EQ(cospot({"learn", file("t.csv", "compound,smiles,system,quantity,value\n"
                                             "phenol,,timed,tR,2.5\nphenol,,timed,RRT,0.29\n"
                                             "butyl benzoate,,timed,tR,8.5\n")})
                  .code,
              kDone);
    const Texts on_timed{"--system", "timed"};
    EXPECT_EQ(identify("peak,tR\n1,2.5\n", on_timed)[0]["observations"][0]["quantity"], "tR");
    EXPECT_EQ(identify("peak,tR,compound\n1,2.5,\n2,8.5,butyl benzoate\n",
                       on_timed)[0]["observations"][0]["quantity"],
              "RRT");
}

const std::string kBatch = "peak,tR,area\n1,2.96,300\n2,6.00,400\n3,7.77,200\n4,10.20,99100\n";

TEST_F(RelativeRetentionTest, TheLargestPeakOfADeclaredSampleIsTheReferenceButNotProvenSo) {
    const Json sample = purity(kBatch);
    EXPECT_EQ(sample["main"], "4");
    EXPECT_EQ(sample["features"][0]["identity"]["name"], "phenol");
    EXPECT_EQ(sample["features"][1]["identity"]["name"], "ethyl benzoate");
    EXPECT_EQ(sample["features"][2]["identity"]["name"], "propyl benzoate");
    EXPECT_HOLDS(sample["notes"].dump(), "assumed, since it is the largest");
    EXPECT_EQ(sample["rules"][0]["verdict"], "can't be told");
    EXPECT_HOLDS(sample["rules"][0]["reason"].dump(), "--reference-peak");
    EXPECT_EQ(purity(kBatch, {"--reference-peak", "4"})["rules"][0]["verdict"], "open");
    EXPECT_EQ(purity(kBatch, {"--reference-peak", "4", "--confirmed",
                              "butyl benzoate"})["rules"][0]["verdict"],
              "meets");
}

TEST_F(RelativeRetentionTest, PuritySaysWhichRatioItShows) {
    const Json sample = purity(kBatch);
    EXPECT_EQ(sample["relative_retention_is"]["symbol"], "RRT");
    EXPECT_EQ(sample["relative_retention_is"]["definition"], "t_R/t_R(declared), unadjusted");
    EXPECT_NEAR(sample["features"][1]["relative_retention"], 6.0 / 10.2, 1e-9);
    const Json adjusted = purity(kBatch, {"--hold-up", "1.2"});
    EXPECT_EQ(adjusted["relative_retention_is"]["symbol"], "r");
    EXPECT_NEAR(adjusted["features"][1]["relative_retention"], 4.8 / 9.0, 1e-9);
    const Texts call{"purity",
                     file("run.csv", kBatch),
                     file("more.csv", kBatch),
                     "--declared",
                     "butyl benzoate",
                     "--system",
                     "rel",
                     "--report",
                     path("page.html")};
    const Outcome text = cospot(call);
    EXPECT_HOLDS(text.out, "RRT: t_R/t_R(declared), unadjusted");
    EXPECT_HOLDS(text.out, "unknowns are followed by RRT");
    expect_fits_screen(text.out);
    EXPECT_HOLDS(content("page.html"), "RRT: t_R/t_R(declared), unadjusted");
}

TEST_F(RelativeRetentionTest, OfAReferenceThatCannotBeToldTheNextStepIsSaid) {
    ASSERT_EQ(cospot({"learn", "--systems",
                      file("one.csv", "system,technique,stationary_phase,mobile_phase,reference\n"
                                      "one,hplc,C18,water:methanol 3:1,phenol\n"),
                      file("one_values.csv", "compound,smiles,system,quantity,value\n"
                                             "phenol,Oc1ccccc1,one,RRT,1.00\n")})
                  .code,
              kDone);
    const auto reason = [&](const Texts &further) {
        Texts call{"--json",
                   "purity",
                   file("s.csv", "peak,tR,area\n1,4.31,3\n2,7.845,5120\n3,8.92,12\n"),
                   "--declared",
                   "phenol",
                   "--system",
                   "one"};
        call.insert(call.end(), further.begin(), further.end());
        const Outcome outcome = cospot(call);
        EXPECT_EQ(outcome.code, kNeedsAttention) << outcome.err;
        const Json rule = outcome.lines().at(0)["rules"][0];
        EXPECT_EQ(rule["verdict"], "can't be told");
        return rule["reason"].get<std::string>();
    };
    for (const Texts &further : {Texts{}, Texts{"--reference-peak", "2"}}) {
        EXPECT_HOLDS(reason(further),
                     "another system, or its standard in a run beside it, would tell");
    }
}

TEST_F(RelativeRetentionTest, ABlankThatRanSlowerIsStillTakenOff) {
    // The blank runs 3 % slower, more than any peak is wide.
    const std::string sample = "peak,tR,area,compound\n1,2.96,300,\n2,4.50,200,\n3,6.00,400,\n"
                               "4,7.77,200,\n5,10.20,98900,butyl benzoate\n";
    struct Case {
        std::string blank;
        Texts options;
        std::string note;
    };
    const std::vector<Case> cases{
        {"peak,tR,area,compound\n1,3.05,300,\n2,6.18,400,\n3,10.51,20,butyl benzoate\n",
         {},
         "unadjusted relative retention"},
        {"peak,tR,area\n1,3.05,300\n2,6.18,400\n",
         {"--hold-up", "1.00", "--blank-hold-up", "1.03"},
         "by retention factor"},
        {"peak,tR,area\n1,3.05,300\n2,6.18,400\n3,8.00,20\n", {}, "3 peaks that both runs"}};
    for (const Case &one : cases) {
        Texts options{"--blank", file("blank.csv", one.blank)};
        options.insert(options.end(), one.options.begin(), one.options.end());
        const Json judged = purity(sample, options);
        EXPECT_EQ(judged["features"][0]["role"], "blank") << one.note;
        EXPECT_EQ(judged["features"][1]["role"], "impurity") << one.note;
        EXPECT_EQ(judged["features"][2]["role"], "blank") << one.note;
        EXPECT_HOLDS(judged["notes"].dump(), one.note);
    }
    const Json unscaled =
        purity(sample, {"--blank", file("blank.csv", "peak,tR,area\n1,3.05,300\n2,6.18,400\n")});
    EXPECT_EQ(unscaled["features"][0]["role"], "impurity");
    EXPECT_HOLDS(unscaled["notes"].dump(), "compared by retention time;");
}

TEST_F(RelativeRetentionTest, ABlankWithALadderOfItsOwnIsComparedByIndex) {
    const std::string systems = file("ri.csv", "system,technique,scale,programme\n"
                                               "indexed,gc,n-alkane,\"60 C, 5 C/min\"\n");
    const std::string values = file("ri_values.csv", "compound,smiles,system,quantity,value\n"
                                                     "butyl benzoate,,indexed,RI,1050\n"
                                                     "phenol,,indexed,RI,950\n");
    ASSERT_EQ(cospot({"learn", "--systems", systems, values}).code, kDone);
    const std::string ladder = file("own.csv", "carbon,tR\n9,4.00\n10,6.00\n11,8.00\n");
    const std::string slower = file("slower.csv", "carbon,tR\n9,4.12\n10,6.18\n11,8.24\n");
    const std::string blank = file("blank.csv", "peak,tR,area\n1,5.15,300\n");
    const auto judged = [&](const Texts &further) {
        Texts call{"--json",
                   "purity",
                   file("s.csv", "peak,tR,area\n1,5.00,300\n2,7.00,900\n"),
                   "--declared",
                   "butyl benzoate",
                   "--system",
                   "indexed",
                   "--ladder",
                   ladder,
                   "--blank",
                   blank};
        call.insert(call.end(), further.begin(), further.end());
        return cospot(call).lines().at(0);
    };
    const Json indexed = judged({"--blank-ladder", slower});
    EXPECT_EQ(indexed["features"][0]["role"], "blank");
    EXPECT_HOLDS(indexed["notes"].dump(), "by retention index");
    EXPECT_EQ(judged({})["features"][0]["role"], "impurity"); // the sample's ladder is not its own
}

TEST_F(RelativeRetentionTest, OptionsOfABlankNeedTheBlank) {
    for (const char *option : {"--blank-hold-up", "--blank-ladder"}) {
        const Outcome outcome = cospot({"purity", file("run.csv", kBatch), "--declared",
                                        "butyl benzoate", "--system", "rel", option, "1"});
        EXPECT_EQ(outcome.code, kBadInput);
        EXPECT_HOLDS(outcome.err, "no --blank");
    }
}

} // namespace
} // namespace cospot
