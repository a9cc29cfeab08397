// How candidates are grouped, ordered and cut, and what is said where there are none.
#include "program_fixture.h"

#include <fmt/format.h>

namespace cospot {
namespace {

using Json = nlohmann::json;

/// Invented: three alkanols that lie so close that they cannot be told apart, beside one that is
/// nearer to what is observed; a system with retention factors, and an empty one.
class CandidateLinesTest : public ProgramTest {
protected:
    CandidateLinesTest() {
        std::string values = "compound,smiles,system,quantity,value,run\n";
        const auto add = [&](int carbons, const std::string &system, const std::string &quantity,
                             double value, double step) {
            for (int run = 0; run < 3; ++run) {
                values += fmt::format("alkanol {0},{1}O,{2},{3},{4:.5f},r{5}\n", carbons,
                                      std::string(static_cast<std::size_t>(carbons), 'C'), system,
                                      quantity, value + step * (run - 1), run);
            }
        };
        const std::vector<double> indices{1000.0, 1006.0, 1006.0, 1006.0, 1100, 1200, 1300};
        for (std::size_t i = 0; i < indices.size(); ++i) {
            add(static_cast<int>(i) + 3, "gc", "RI", indices[i], 2.0);
            add(static_cast<int>(i) + 3, "rp", "k", 0.2134 + 0.1 * static_cast<double>(i), 0.0011);
        }
        const Outcome learned = cospot({"learn", "--systems",
                                        file("systems.csv", "system,technique,scale,programme\n"
                                                            "gc,gc,n-alkane,\"50 C, 5 C/min\"\n"
                                                            "rp,hplc,alkyl aryl ketone,isocratic\n"
                                                            "empty,tlc,,\n"),
                                        file("values.csv", values)});
        EXPECT_EQ(learned.code, kDone) << learned.err;
    }

    std::string table(const std::string &rows) const {
        return file("u.csv", "sample,feature,system,quantity,value\n" + rows);
    }
    Json identify(const std::string &rows, const std::string &top) const {
        return cospot({"--json", "identify", table(rows), "--top", top}).lines().at(0);
    }
};

std::vector<std::string> names_of(const Json &feature) {
    std::vector<std::string> names;
    for (const Json &candidate : feature["candidates"]) {
        names.push_back(candidate["compound"]);
    }
    return names;
}

const std::string kBetween = "s,1,gc,RI,1002.6\n";

TEST_F(CandidateLinesTest, TheLikeliestGroupComesFirstForEveryTop) {
    const Json all = identify(kBetween, "10");
    const std::vector<std::string> order{"alkanol 5", "alkanol 4", "alkanol 6",
                                         "alkanol 3"}; // equal ones by InChIKey
    const auto names = names_of(all);
    ASSERT_GE(names.size(), 4U);
    EXPECT_EQ(std::vector(names.begin(), names.begin() + 4), order);
    const auto &candidates = all["candidates"];
    ASSERT_GT(candidates[3]["probability"], candidates[0]["probability"]); // by itself
    ASSERT_EQ(all["groups"].size(), 1U);
    for (const char *top : {"1", "2", "3", "4", "5"}) {
        const Json feature = identify(kBetween, top);
        const auto listed = names_of(feature);
        ASSERT_EQ(listed.size(), static_cast<std::size_t>(top[0] - '0'));
        EXPECT_EQ(listed, std::vector(names.begin(), names.begin() + (top[0] - '0')));
        ASSERT_EQ(feature["groups"].size(), 1U) << top;
        EXPECT_EQ(feature["groups"][0]["probability"], all["groups"][0]["probability"]) << top;
        double sum = feature["unlisted"].get<double>() + feature["other"].get<double>();
        for (const Json &candidate : feature["candidates"]) {
            sum += candidate["probability"].get<double>();
        }
        EXPECT_NEAR(sum, 1.0, 1e-9);
    }
    EXPECT_EQ(identify(kBetween, "2")["groups"][0]["more"], 1);
    EXPECT_FALSE(identify(kBetween, "3")["groups"][0].contains("more"));
    // A later group is listed whole or not at all.
    const Json near_single = identify("s,1,gc,RI,1000\n", "2");
    EXPECT_EQ(names_of(near_single), std::vector<std::string>{"alkanol 3"});
    EXPECT_TRUE(near_single["groups"].empty());
}

TEST_F(CandidateLinesTest, TextCountsTheMembersThatItLeavesOut) {
    const std::string text = cospot({"identify", table(kBetween), "--top", "2"}).out;
    EXPECT_HOLDS(text, "or alkanol 4 or 1 more (cannot be told apart here)");
    expect_fits_screen(text);
}

TEST_F(CandidateLinesTest, ThePageListsTheLinesOfTheText) {
    ASSERT_EQ(cospot({"identify", table(kBetween), "--report", path("page.html")}).code, kDone);
    const std::string page = content("page.html");
    const std::string glance = "alkanol 5 or alkanol 4 or alkanol 6";
    const std::size_t table = page.find("<table");
    EXPECT_LT(page.find(glance), table); // of the bar
    std::size_t last = table;
    for (const char *words :
         {">alkanol 5<", "or alkanol 4, alkanol 6 (cannot be told apart here)", ">alkanol 3<"}) {
        const std::size_t place = page.find(words, last);
        ASSERT_NE(place, std::string::npos) << words;
        last = place;
    }
    EXPECT_HOLDS(page, "of its group&#39;s");
}

TEST_F(CandidateLinesTest, EquallyLikelyCandidatesStayInOrderUnderANeutralPrior) {
    const std::string at = table("s,1,gc,RI,1006\ns,2,gc,RI,1003.1\ns,3,gc,RI,1150\n");
    const auto plain = cospot({"--json", "identify", at}).lines();
    const auto neutral = cospot({"--json", "identify", at, "--prior",
                                 file("prior.csv", "compound,weight\nalkanol 3,1\n")})
                             .lines();
    for (std::size_t i = 0; i < plain.size(); ++i) {
        EXPECT_EQ(names_of(plain[i]), names_of(neutral.at(i)));
    }
}

TEST_F(CandidateLinesTest, WithNoCompoundToCompareThereAreNoCandidates) {
    const std::string unknown = table("s,1,gc,tR,3.2\ns,2,empty,Rf,0.3\n");
    const Outcome outcome = cospot({"--json", "identify", unknown});
    EXPECT_EQ(outcome.code, kNeedsAttention);
    for (const Json &feature : outcome.lines()) {
        EXPECT_TRUE(feature["candidates"].empty());
        EXPECT_EQ(feature["unlisted"], 1.0);
        EXPECT_EQ(feature["other"], 0.0);
    }
    const std::string text = cospot({"identify", unknown}).out;
    EXPECT_HOLDS(text, "No candidates: no compound is known there.");
    EXPECT_EQ(text.find("others"), std::string::npos) << text;
    EXPECT_EQ(text.find("unlisted:"), std::string::npos) << text;
    EXPECT_HOLDS(unwrapped(text), "the library holds no tR on gc, but retention indices");
    EXPECT_EQ(cospot({"advise", unknown}).code, kNeedsAttention);
}

TEST_F(CandidateLinesTest, SaysWhichOptionMakesPeaksComparable) {
    const std::string peaks = file("peaks.csv", "peak,tR\n1,3.2\n");
    const auto warning = [&](const std::string &system, const std::vector<std::string> &options) {
        std::vector<std::string> arguments{"--json", "identify", peaks, "--system", system};
        arguments.insert(arguments.end(), options.begin(), options.end());
        const Outcome outcome = cospot(arguments);
        EXPECT_EQ(outcome.code, kNeedsAttention) << outcome.err;
        return outcome.lines().at(0)["warnings"].dump();
    };
    EXPECT_HOLDS(warning("gc", {"--hold-up", "1"}),
                 "the library holds no k on gc, but retention indices: give --ladder FILE");
    EXPECT_HOLDS(warning("rp", {"--ladder", file("l.csv", "carbon,tR\n8,2\n9,3\n10,5\n11,9\n")}),
                 "no RI on rp, but retention factors: give --hold-up MIN, no --ladder");
}

TEST_F(CandidateLinesTest, FeaturesWithNothingToCompareDoNotChangeOthers) {
    const std::string known = "s,1,gc,RI,1002.6\ns,2,gc,RI,1101\ns,3,gc,RI,1150\n";
    std::string unknown;
    for (int i = 4; i < 12; ++i) {
        unknown += fmt::format("s,{},empty,Rf,0.{}\n", i, i);
    }
    const auto alone = cospot({"--json", "identify", table(known)}).lines();
    const auto beside = cospot({"--json", "identify", table(known + unknown)}).lines();
    for (std::size_t i = 0; i < alone.size(); ++i) {
        EXPECT_EQ(alone[i]["unlisted"], beside.at(i)["unlisted"]);
        EXPECT_EQ(alone[i]["candidates"], beside.at(i)["candidates"]);
    }
}

TEST_F(CandidateLinesTest, RetentionFactorsShowTheDigitsOfTheirSpread) {
    const std::string text = cospot({"identify", table("s,1,rp,k,0.2134\n")}).out;
    EXPECT_HOLDS(text, "k 0.213 on rp");
    EXPECT_HOLDS(text, "0.2134 ± 0.00");
    expect_fits_screen(text);
    EXPECT_HOLDS(cospot({"show", "alkanol 3"}).out, "0.213");
}

} // namespace
} // namespace cospot
