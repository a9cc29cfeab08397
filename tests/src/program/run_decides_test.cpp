#include "program_fixture.h"

#include <fmt/format.h>

#include <cmath>

namespace cospot {
namespace {

using nlohmann::json;

constexpr const char *kPlateHeader = "lane,label,spot,distance_mm,front_mm,role\n";

/// An invented laboratory whose plates and columns do not always run as its library's did.
class RunDecidesTest : public ProgramTest {
protected:
    /// Twenty-four alcohols on a column: indices 40 apart from 700 on in six runs that scatter by a
    /// unit or so, and times that grow with the index.
    void learn_gas_chromatography() const {
        std::string values = "compound,smiles,system,quantity,value,run,date\n";
        for (int run = 0; run < 6; ++run) {
            for (int i = 0; i < 24; ++i) {
                const double scatter = 0.8 * std::sin(1.7 * i + 2.9 * run);
                const std::string head = fmt::format(
                    "alcohol {},{}O", i, std::string(static_cast<std::size_t>(i) + 1, 'C'));
                values += fmt::format("{},polar,RI,{:.2f},g{},2024-03-{:02}\n", head,
                                      index_of(i) + scatter, run, run + 1);
                values += fmt::format("{},timed,tR,{:.4f},t{},2024-04-{:02}\n", head,
                                      time_of(i) + 0.004 * scatter, run, run + 1);
            }
        }
        const Outcome learned =
            cospot({"learn", "--systems",
                    file("systems.csv", "system,technique,stationary_phase,mobile_phase,scale\n"
                                        "polar,gc,polyethylene glycol,helium,n-alkane\n"
                                        "timed,gc,polyethylene glycol,helium,\n"),
                    file("values.csv", values)});
        ASSERT_EQ(learned.code, kDone) << learned.err;
    }
    static double index_of(int i) { return 700.0 + 40.0 * i + 13.0 * std::sin(5.0 * i); }
    static double time_of(int i) { return 2.0 + 0.8 * i + 0.2 * std::sin(3.0 * i); }

    /// Every other compound of one run, moved.
    Outcome identify_moved(const std::string &system, const std::string &quantity, double factor,
                           double shift) const {
        std::string table = "sample,feature,system,quantity,value\n";
        for (int i = 0; i < 24; i += 2) {
            const double value = quantity == "RI" ? index_of(i) : time_of(i);
            table +=
                fmt::format("flask,{},{},{},{:.4f}\n", i, system, quantity, factor * value + shift);
        }
        return cospot({"--json", "identify", file("moved.csv", table)});
    }

    static int first_right(const std::vector<json> &features) {
        int right = 0;
        for (const json &feature : features) {
            const auto &candidates = feature["candidates"];
            right += !candidates.empty() && candidates[0]["compound"] ==
                                                "alcohol " + feature["feature"].get<std::string>();
        }
        return right;
    }
};

TEST_F(RunDecidesTest, AShiftedRunIsIdentifiedAndReported) {
    learn_gas_chromatography();
    for (const double shift : {0.0, 5.0, -10.0, 15.0}) {
        const Outcome outcome = identify_moved("polar", "RI", 1.0, shift);
        const auto features = outcome.lines();
        EXPECT_EQ(first_right(features), 12) << shift;
        const json run = features.at(0)["run"].at(0);
        EXPECT_NEAR(run["shift"].get<double>(), shift, 1.0);
        EXPECT_EQ(run["moved"], shift != 0.0) << shift;
        EXPECT_EQ(outcome.code, shift == 0.0 ? kDone : kNeedsAttention);
        if (shift != 0.0) {
            EXPECT_HOLDS(on_one_line(outcome.err),
                         shift > 0 ? "above the library" : "below the library");
            EXPECT_HOLDS(on_one_line(outcome.err), "Usual causes: a leak");
        }
    }
}

TEST_F(RunDecidesTest, TimesOfAnotherFlowAreAnsweredAsWell) {
    learn_gas_chromatography();
    for (const double factor : {0.94, 1.0, 1.06}) {
        const Outcome outcome = identify_moved("timed", "tR", factor, 0.0);
        const auto features = outcome.lines();
        EXPECT_EQ(first_right(features), 12) << factor;
        EXPECT_NEAR(1.0 + features.at(0)["run"].at(0)["slope"].get<double>(), factor, 0.005);
        EXPECT_EQ(outcome.code, factor == 1.0 ? kDone : kNeedsAttention);
    }
}

TEST_F(RunDecidesTest, OnePeakOfAShiftedRunIsNeverCertain) {
    learn_gas_chromatography();
    for (int i = 2; i < 22; ++i) {
        const auto features =
            cospot({"--json", "identify",
                    file("one.csv", fmt::format("sample,feature,system,quantity,value\n"
                                                "flask,1,polar,RI,{:.1f}\n",
                                                index_of(i) + 15.0))})
                .lines();
        for (const json &candidate : features.at(0)["candidates"]) {
            EXPECT_LT(candidate["probability"].get<double>(), 0.9) << i;
        }
    }
}

TEST_F(RunDecidesTest, ARunThatFitsNothingIsSaidToFitNothing) {
    learn_gas_chromatography();
    std::string table = "sample,feature,system,quantity,value\n";
    for (int i = 0; i < 23; ++i) { // in the middle of each gap, the wrong way round
        table += fmt::format("flask,{},polar,RI,{:.2f}\n", i,
                             0.5 * (index_of(i) + index_of(i + 1)) + 9.0 * std::cos(4.0 * i));
    }
    const Outcome outcome = cospot({"--json", "identify", file("foreign.csv", table)});
    EXPECT_EQ(outcome.code, kNeedsAttention);
    EXPECT_HOLDS(on_one_line(outcome.err), "this run does not fit what the library holds on polar");
    EXPECT_EQ(outcome.lines().at(0)["run"].at(0)["fits"], false);
}

TEST_F(RunDecidesTest, AnEmptyLibraryComparesWithTheStandardsOfThePlate) {
    const std::string plate =
        file("plate.csv", std::string(kPlateHeader) + "1,starting material,1,24.2,55,standard\n"
                                                      "2,flask 7,1,30.1,55,sample\n"
                                                      "3,product,1,30.4,55,standard\n");
    for (const std::vector<std::string> &system :
         {std::vector<std::string>{}, {"--system", "silica"}}) {
        std::vector<std::string> arguments{"--json", "identify", plate};
        arguments.insert(arguments.end(), system.begin(), system.end());
        const Outcome outcome = cospot(arguments);
        EXPECT_EQ(outcome.code, kDone) << outcome.err;
        const json feature = outcome.lines().at(0);
        const json &first = feature["candidates"].at(0);
        EXPECT_EQ(first["compound"], "product");
        EXPECT_EQ(first["basis"], "same_run");
        EXPECT_GT(first["probability"].get<double>(), 0.8);
        EXPECT_EQ(feature["standards"].at(0)["verdict"], "runs with");
        EXPECT_NEAR(feature["standards"].at(0)["distance"].get<double>(), -0.3, 1e-6);
        EXPECT_EQ(feature["standards"].at(1)["words"],
                  "differs from starting material: 5.9 mm above the standard on lane 1");
    }
    const Outcome text = cospot({"identify", plate});
    EXPECT_HOLDS(text.out, "0.3 mm below the standard on lane 3");
    EXPECT_HOLDS(on_one_line(text.out), "Retention alone is no proof of identity");
    expect_fits_screen(text.out);
}

TEST_F(RunDecidesTest, WithoutStandardsASystemIsRequired) {
    const Outcome outcome = cospot(
        {"identify", file("plate.csv", std::string(kPlateHeader) + "2,flask,1,30,55,sample\n")});
    EXPECT_EQ(outcome.code, kBadInput);
    EXPECT_HOLDS(outcome.err, "no --system");
}

TEST_F(RunDecidesTest, ACoSpotSaysOneSpotOrTwo) {
    const auto features = cospot({"--json", "identify",
                                  file("plate.csv", std::string(kPlateHeader) +
                                                        "1,vanillin,1,24.2,55,standard\n"
                                                        "2,flask,1,30.1,55,sample\n"
                                                        "3,product,1,30.4,55,standard\n"
                                                        "4,flask + product,1,30.2,55,cospot\n"
                                                        "5,flask + vanillin,1,30.2,55,cospot\n"
                                                        "5,flask + vanillin,2,24.1,55,cospot\n")})
                              .lines();
    ASSERT_EQ(features.size(), 1U);
    const json &cospots = features[0]["cospots"];
    ASSERT_EQ(cospots.size(), 2U);
    EXPECT_EQ(cospots[0]["spots"], 1);
    EXPECT_EQ(cospots[1]["spots"], 2);
    EXPECT_NEAR(cospots[1]["apart_mm"].get<double>(), 6.1, 1e-9);
    EXPECT_EQ(features[0]["candidates"].at(0)["compound"], "product");
}

TEST_F(RunDecidesTest, StandardsOfALongTableBelongToTheirSample) {
    learn_gas_chromatography();
    const auto features = cospot({"--json", "identify",
                                  file("u.csv", "sample,feature,system,quantity,value,compound\n"
                                                "a,1,polar,RI,1111.0,\n"
                                                "a,s,polar,RI,1110.8,internal standard\n"
                                                "b,1,polar,RI,1111.0,\n")})
                              .lines();
    ASSERT_EQ(features.size(), 2U);
    EXPECT_EQ(features[0]["candidates"].at(0)["compound"], "internal standard");
    EXPECT_EQ(features[0]["candidates"].at(0)["basis"], "same_run");
    EXPECT_TRUE(features[1]["standards"].empty());
}

TEST_F(RunDecidesTest, NamedPeaksOfAChromatogramAreItsStandards) {
    learn_gas_chromatography();
    const Outcome outcome = cospot(
        {"--json", "identify", "--system", "timed",
         file("run.csv",
              fmt::format("peak,tR,compound\n1,{0:.3f},alcohol 4\n2,{1:.3f},\n3,{2:.3f},\n",
                          1.05 * time_of(4), 1.05 * time_of(4) + 0.002, 1.05 * time_of(12)))});
    const auto features = outcome.lines();
    ASSERT_EQ(features.size(), 2U) << outcome.err;
    EXPECT_EQ(features[0]["candidates"].at(0)["compound"], "alcohol 4");
    EXPECT_EQ(features[0]["standards"].at(0)["unit"], "s");
    EXPECT_NEAR(features[0]["standards"].at(0)["distance"].get<double>(), 0.12, 0.07);
    EXPECT_EQ(features[1]["candidates"].at(0)["compound"], "alcohol 12"); // one factor for the run
}

class LabelledPlateTest : public ProgramTest {
protected:
    LabelledPlateTest() {
        std::string values = "compound,smiles,system,quantity,value,run,date\n";
        for (int run = 0; run < 3; ++run) {
            const double day = 0.01 * (run - 1);
            values += fmt::format(
                "vanillin,COc1cc(C=O)ccc1O,silica,Rf,{0:.2f},p{1},2024-01-0{1}\n"
                "coumarin,O=c1ccc2ccccc2o1,silica,Rf,{2:.2f},p{1},2024-01-0{1}\n"
                "benzoin,O=C(C(O)c1ccccc1)c1ccccc1,silica,Rf,{3:.2f},p{1},2024-01-0{1}\n"
                "anisole,COc1ccccc1,silica,Rf,{4:.2f},p{1},2024-01-0{1}\n",
                0.20 + day, run + 1, 0.35 + day, 0.50 - day, 0.70 + day);
        }
        cospot({"learn", "--systems",
                file("s.csv", "system,technique,stationary_phase,mobile_phase\n"
                              "silica,tlc,silica gel,hexane:ethyl acetate 3:1\n"),
                file("v.csv", values)});
    }

    std::string plate(const std::string &second, const std::string &third) const {
        return file(
            "plate.csv",
            std::string(kPlateHeader) + "1,vanillin,1,12.2,60,standard\n" +
                fmt::format("2,{},1,21.3,60,standard\n3,{},1,30.1,60,standard\n", second, third) +
                "4,anisole,1,42.1,60,standard\n5,flask,1,30.4,60,sample\n");
    }
};

TEST_F(LabelledPlateTest, ExchangedLabelsAreNotLearnedUnlessAccepted) {
    const std::string exchanged = plate("benzoin", "coumarin");
    const std::string before = library_content();
    const Outcome refused = cospot({"learn", exchanged, "--system", "silica"});
    EXPECT_EQ(refused.code, kNeedsAttention);
    EXPECT_HOLDS(refused.err, "seem exchanged");
    EXPECT_HOLDS(refused.err, "benzoin (lane 2) runs as coumarin");
    EXPECT_HOLDS(refused.out, "--accept");
    EXPECT_EQ(library_content(), before);
    const Outcome accepted =
        cospot({"--json", "learn", exchanged, "--system", "silica", "--accept"});
    EXPECT_EQ(accepted.code, kNeedsAttention);
    EXPECT_EQ(accepted.lines().at(0)["values_added"], 4);
    EXPECT_EQ(accepted.lines().at(0)["doubts"].size(), 1U);
}

TEST_F(LabelledPlateTest, ExchangedLabelsAreReportedAndNotUsed) {
    const Outcome outcome =
        cospot({"--json", "identify", plate("benzoin", "coumarin"), "--system", "silica"});
    EXPECT_EQ(outcome.code, kNeedsAttention);
    EXPECT_HOLDS(on_one_line(outcome.err), "benzoin (lane 2) and coumarin (lane 3)");
    EXPECT_HOLDS(on_one_line(outcome.err), "lane 2 runs as coumarin; lane 3 runs as benzoin");
    EXPECT_EQ(outcome.lines().at(0)["candidates"].at(0)["compound"], "benzoin");
    EXPECT_EQ(outcome.lines().at(0)["standards"].size(), 2U); // vanillin and anisole
}

TEST_F(LabelledPlateTest, RightLabelsAreLearnedWithoutAWord) {
    const Outcome outcome = cospot({"learn", plate("coumarin", "benzoin"), "--system", "silica"});
    EXPECT_EQ(outcome.code, kDone) << outcome.err;
    EXPECT_EQ(outcome.err, "");
}

TEST_F(LabelledPlateTest, FaultyStandardsAreNamedByTheirPlace) {
    struct Case {
        const char *row;
        const char *found;
        const char *expected;
    };
    for (const auto &[row, found, expected] :
         {Case{"1,vanillin,1,x,60,standard", "distance_mm", "the distance of the spot in mm"},
          Case{"1,,1,12,60,standard", "label", "the name of the standard's compound"},
          Case{"1,vanillin,1,12,60,cospot", "label", "as in flask 7 + vanillin"},
          Case{"1,flask 9 + vanillin,1,12,60,cospot", "label", "a lane with the role sample"},
          Case{"1,vanillin,1,12,60,control", "role", "sample, standard or cospot"}}) {
        const Outcome outcome = cospot(
            {"identify", "--system", "silica",
             file("faulty.csv", std::string(kPlateHeader) + row + "\n5,flask,1,30.4,60,sample\n")});
        EXPECT_EQ(outcome.code, kBadInput) << row;
        EXPECT_HOLDS(outcome.err, found);
        EXPECT_HOLDS(outcome.err, expected);
        EXPECT_HOLDS(outcome.err, "faulty.csv:2");
    }
}

} // namespace
} // namespace cospot
