// How far measured values are trusted: blunders, stated uncertainties, dates, readings of times.
#include "program_fixture.h"

#include "shared/date.h"

#include <fmt/format.h>

#include <cmath>
#include <filesystem>

namespace cospot {
namespace {

const char *const kMeasuredSystems =
    "system,technique,stationary_phase,mobile_phase,scale,programme\n"
    "silica,tlc,silica gel,hexane:ethyl acetate 3:1,,\n"
    "gc,gc,dimethylsilicone,helium,n-alkane,10 K/min\n"
    "iso,gc,dimethylsilicone,helium,n-alkane,isothermal 120 C\n"
    "bromo,gc,dimethylsilicone,helium,own series: 1-bromoalkane,10 K/min\n"
    "quick,gc,dimethylsilicone,helium,,\n";

/// Names and structures of invented samples.
const std::vector<std::pair<std::string, std::string>> kCompounds{
    {"ethanol", "CCO"},     {"propanol", "CCCO"},   {"butanol", "CCCCO"},
    {"pentanol", "CCCCCO"}, {"hexanol", "CCCCCCO"}, {"heptanol", "CCCCCCCO"}};

class MeasuredValuesTest : public ProgramTest {
protected:
    MeasuredValuesTest() { begin_anew(); }

    /// An empty library with the systems.
    void begin_anew() const {
        std::filesystem::remove(folder_ / "library.db");
        cospot({"init"});
        cospot({"learn", "--systems", file("systems.csv", kMeasuredSystems)});
    }

    /// Rows: compound's number, system, quantity, value, run, date, uncertainty.
    struct Row {
        std::size_t compound;
        std::string system, quantity;
        double value;
        std::string run{}, date{}, uncertainty{};
    };

    [[nodiscard]] Outcome learn(const std::vector<Row> &rows,
                                std::vector<std::string> options = {}) const {
        std::string table = "compound,smiles,system,quantity,value,run,date,uncertainty\n";
        for (const Row &row : rows) {
            const auto &[name, smiles] = kCompounds.at(row.compound);
            table += fmt::format("{},{},{},{},{},{},{},{}\n", name, smiles, row.system,
                                 row.quantity, row.value, row.run, row.date, row.uncertainty);
        }
        options.insert(options.begin(), {"learn", file("values.csv", table)});
        return cospot(options);
    }

    /// The one feature of a table.
    [[nodiscard]] nlohmann::json feature(const std::string &system, const std::string &quantity,
                                         double value) const {
        return cospot({"--json", "identify",
                       file("asked.csv",
                            fmt::format("sample,feature,system,quantity,value\ns,1,{},{},{}\n",
                                        system, quantity, value))})
            .lines()
            .at(0);
    }

    [[nodiscard]] std::vector<nlohmann::json> peaks(const std::string &system,
                                                    const std::string &ladder,
                                                    const std::string &table,
                                                    std::vector<std::string> further = {}) const {
        std::vector<std::string> arguments{"--json",
                                           "identify",
                                           "--system",
                                           system,
                                           "--ladder",
                                           file("ladder.csv", ladder),
                                           file("peaks.csv", table)};
        arguments.insert(arguments.end(), further.begin(), further.end());
        return cospot(arguments).lines();
    }

    static double probability_of(const nlohmann::json &answer, const std::string &compound) {
        for (const auto &candidate : answer["candidates"]) {
            if (candidate["compound"] == compound) {
                return candidate["probability"];
            }
        }
        return 0.0;
    }
    static double spread_of(const nlohmann::json &answer, const std::string &compound) {
        for (const auto &candidate : answer["candidates"]) {
            if (candidate["compound"] == compound) {
                return candidate["spread"];
            }
        }
        return 0.0;
    }
};

TEST_F(MeasuredValuesTest, LearnAndIdentifyPointAtAMislabelledReplicate) {
    const std::vector<Row> sound{{0, "silica", "Rf", 0.76, "p1", "2026-01-05"},
                                 {1, "silica", "Rf", 0.41, "p1", "2026-01-05"},
                                 {1, "silica", "Rf", 0.42, "p2", "2026-02-05"},
                                 {2, "silica", "Rf", 0.30, "p1", "2026-01-05"},
                                 {3, "silica", "Rf", 0.20, "p1", "2026-01-05"},
                                 {4, "silica", "Rf", 0.60, "p1", "2026-01-05"}};
    const Outcome first = learn(sound);
    EXPECT_EQ(first.err.find("lies far"), std::string::npos) << first.err;
    const double before = spread_of(feature("silica", "Rf", 0.30), "butanol");
    const std::vector<Row> wrong{{0, "silica", "Rf", 0.11, "p3", "2026-03-05"}};
    const std::string content = library_content();
    const Outcome refused = learn(wrong);
    EXPECT_EQ(refused.code, kNeedsAttention);
    EXPECT_EQ(library_content(), content);
    const Outcome second = learn(wrong, {"--accept"});
    EXPECT_HOLDS(second.err, "values.csv:2: Rf 0.11 of ethanol on \"silica\" lies far from 0.76");
    // The others keep their spreads.
    EXPECT_LT(spread_of(feature("silica", "Rf", 0.30), "butanol"), 1.2 * before);
    const auto odd = feature("silica", "Rf", 0.76);
    EXPECT_HOLDS(odd["warnings"].dump(), "values of ethanol on silica lie too far apart");
    EXPECT_EQ(feature("silica", "Rf", 0.30)["warnings"].dump().find("butanol on silica lie"),
              std::string::npos);
}

TEST_F(MeasuredValuesTest, AStatedUncertaintyOfALearnedValueCounts) {
    ASSERT_EQ(learn({{0, "gc", "RI", 900, "r1", "2026-01-05"},
                     {1, "gc", "RI", 1000, "r1", "2026-01-05", "15"},
                     {2, "gc", "RI", 1100, "r1", "2026-01-05"}})
                  .code,
              kDone);
    EXPECT_NEAR(spread_of(feature("gc", "RI", 900), "ethanol"), std::sqrt(18.0), 0.1);
    EXPECT_NEAR(spread_of(feature("gc", "RI", 1000), "propanol"), std::sqrt(18.0 + 225.0), 0.1);
    EXPECT_LT(probability_of(feature("gc", "RI", 1003), "propanol"),
              probability_of(feature("gc", "RI", 903), "ethanol") - 0.05);
}

TEST_F(MeasuredValuesTest, OldOrUndatedTimesGiveLessCertainAnswers) {
    const auto today = utc_now().substr(0, 10);
    const auto asked_with = [&](const std::string &run, const std::string &date) {
        begin_anew();
        EXPECT_EQ(learn({{0, "quick", "tR", 2.00, run, date},
                         {1, "quick", "tR", 3.25, run, date},
                         {2, "quick", "tR", 3.40, run, date},
                         {3, "quick", "tR", 3.55, run, date},
                         {4, "quick", "tR", 6.20, run, date}})
                      .code,
                  kDone);
        return probability_of(feature("quick", "tR", 3.40), "butanol");
    };
    const double fresh = asked_with("r", today);
    EXPECT_GT(fresh, 0.9);
    EXPECT_LT(asked_with("", ""), 0.75);
    EXPECT_LT(asked_with("r", ""), 0.75);
    EXPECT_LT(asked_with("r", "2019-05-04"), 0.75);
}

TEST_F(MeasuredValuesTest, TheAssumedSpreadOfTimesGrowsWithTheLengthOfTheRun) {
    const std::string today = utc_now().substr(0, 10);
    const auto spread_with = [&](double length) {
        begin_anew();
        EXPECT_EQ(learn({{0, "quick", "tR", 0.2 * length, "r", today},
                         {1, "quick", "tR", 0.5 * length, "r", today},
                         {2, "quick", "tR", 0.8 * length, "r", today},
                         {3, "quick", "tR", length, "r", today}})
                      .code,
                  kDone);
        return spread_of(feature("quick", "tR", 0.5 * length), "propanol");
    };
    EXPECT_LT(spread_with(3.0), 0.03);
    EXPECT_GT(spread_with(60.0), 0.3);
}

TEST_F(MeasuredValuesTest, ManyUndatedRunsAreSaid) {
    std::vector<Row> rows;
    for (int run = 0; run < 6; ++run) {
        rows.push_back({0, "gc", "RI", 900.0 + run, fmt::format("r{}", run)});
        rows.push_back({1, "gc", "RI", 1000.0 - run, fmt::format("r{}", run)});
    }
    const Outcome outcome = learn(rows);
    EXPECT_HOLDS(outcome.err, "6 runs have no date");
    EXPECT_HOLDS(on_one_line(cospot({"audit", "--only", "coverage"}).out),
                 "6 of 6 runs have no date");
    for (std::size_t i = 0; i < rows.size(); ++i) {
        rows[i].date = fmt::format("2026-01-{:02}", 10 + i / 2);
    }
    begin_anew();
    EXPECT_EQ(learn(rows).err.find("no date"), std::string::npos);
    EXPECT_EQ(cospot({"audit", "--only", "coverage"}).out.find("no date"), std::string::npos);
}

TEST_F(MeasuredValuesTest, AnIndexInAGapOfTheLadderSaysHowFarItMayBeOff) {
    ASSERT_EQ(learn({{0, "gc", "RI", 900}, {1, "gc", "RI", 1050}, {2, "gc", "RI", 1100}}).code,
              kDone);
    // Invented: the steps grow, as they do before the programme has caught up.
    const std::string full = "carbon,tR\n7,2.00\n8,2.60\n9,3.60\n10,5.00\n11,6.80\n12,9.00\n";
    const std::string gappy = "carbon,tR\n7,2.00\n8,2.60\n11,6.80\n12,9.00\n";
    const std::string table = "peak,tR\n1,4.30\n2,2.30\n";
    const auto exact = peaks("gc", full, table);
    const auto guessed = peaks("gc", gappy, table, {"--ladder-gaps"});
    const auto observed = [](const nlohmann::json &answer) { return answer["observations"][0]; };
    const double error = std::abs(observed(exact[0])["value"].get<double>() -
                                  observed(guessed[0])["value"].get<double>());
    EXPECT_GT(error, 10.0);
    EXPECT_GT(observed(guessed[0])["uncertainty"].get<double>(), 0.5 * error);
    EXPECT_LT(observed(exact[0])["uncertainty"].get<double>(), 2.0);
    EXPECT_HOLDS(guessed[0]["warnings"].dump(),
                 "in a gap of the ladder: the index is interpolated");
    EXPECT_EQ(observed(guessed[1])["uncertainty"], observed(exact[1])["uncertainty"]);
}

TEST_F(MeasuredValuesTest, ReadingATimeCountsMoreNearTheHoldUpTime) {
    ASSERT_EQ(learn({{0, "iso", "RI", 520}, {1, "iso", "RI", 1050}}).code, kDone);
    // Isothermal, adjusted times that double from member to member: near the hold-up time of 1 min
    // a unit is 0.0002 min.
    std::string ladder = "carbon,tR\n";
    for (int carbon = 5; carbon <= 12; ++carbon) {
        ladder += fmt::format("{},{:.4f}\n", carbon, 1.0 + 0.03 * std::exp2(carbon - 5));
    }
    const auto uncertainty = [&](const std::string &table) {
        std::vector<double> found;
        for (const auto &answer : peaks("iso", ladder, table, {"--hold-up", "1"})) {
            found.push_back(answer["observations"][0]["uncertainty"]);
        }
        return found;
    };
    const auto plain = uncertainty("peak,tR\n1,1.0350\n2,2.9000\n");
    EXPECT_GT(plain[0], 20.0);
    EXPECT_LT(plain[1], 1.5);
    // A time that the data system printed to a tenth of a minute, and one whose uncertainty it
    // says.
    const auto coarse = uncertainty("peak,tR\n1,2.9\n2,3.1\n");
    EXPECT_GT(coarse[0], 2.0 * plain[1]);
    const auto stated = uncertainty("peak,tR,uncertainty\n1,2.90,0.1\n2,3.10,\n");
    EXPECT_GT(stated[0], 10.0 * stated[1]);
}

TEST_F(MeasuredValuesTest, RunsOfOneDayAreOneIndependentRunEverywhere) {
    // Two runs of one day, one without a date, one value without either: three.
    ASSERT_EQ(learn({{0, "silica", "Rf", 0.30, "p1", "2026-03-02"},
                     {0, "silica", "Rf", 0.31, "p2", "2026-03-02"},
                     {0, "silica", "Rf", 0.32, "p3"},
                     {0, "silica", "Rf", 0.33}})
                  .code,
              kDone);
    const auto answer = feature("silica", "Rf", 0.31);
    EXPECT_EQ(answer["candidates"][0]["systems"][0]["runs"], 3);
    const std::string shown = on_one_line(cospot({"show", "ethanol"}).out);
    EXPECT_HOLDS(shown, "4 values on 1 system, from 3 independent runs");
    EXPECT_HOLDS(shown, "Runs of one day on one system count as one independent run");
    const std::string why = on_one_line(cospot({"identify", path("asked.csv"), "--explain"}).out);
    EXPECT_HOLDS(why, "independent runs: ");
    EXPECT_HOLDS(why, "Runs of one day on one system count as one independent run");
}

TEST_F(MeasuredValuesTest, AHomologousSeriesOfItsOwnMakesAnIndexScale) {
    ASSERT_EQ(learn({{0, "bromo", "RI", 450}, {1, "bromo", "RI", 550}}).code, kDone);
    const auto answers = peaks("bromo", "carbon,tR\n4,2.00\n5,4.00\n6,6.00\n", "peak,tR\n1,3.00\n");
    EXPECT_NEAR(answers.at(0)["observations"][0]["value"].get<double>(), 450.0, 1e-9);
    const Outcome text = cospot(
        {"identify", "--system", "bromo", "--ladder", path("ladder.csv"), path("peaks.csv")});
    EXPECT_HOLDS(on_one_line(text.out + text.err), "1-bromoalkane scale");

    const Outcome refused = cospot({"identify", "--system", "bromo", "--ladder",
                                    file("l.csv", "standard,tR\nbutane,2.00\npentane,4.00\n"),
                                    file("p.csv", "peak,tR\n1,3.00\n")});
    EXPECT_EQ(refused.code, kBadInput);
    EXPECT_HOLDS(refused.err, "a column carbon with the carbon numbers");
}

} // namespace
} // namespace cospot
