// prove: the library asked for its own values, and what identify makes of the answer.
#include "library/database.h"
#include "program_fixture.h"

#include <cmath>
#include <random>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace cospot {
namespace {

/// An invented library of 36 compounds on an invented GC system, in eight runs with a scatter of
/// two index units.
class ProveTest : public ProgramTest {
protected:
    void learn(int runs) const {
        std::mt19937 engine(11);
        std::normal_distribution<double> normal;
        std::string values = "compound,smiles,system,quantity,value,run\n";
        const std::vector<std::pair<std::string, std::string>> groups{
            {"alkanol", "O"}, {"alkanal", "=O"}, {"alkyl chloride", "Cl"}};
        for (int run = 1; run <= runs; ++run) {
            for (std::size_t group = 0; group < groups.size(); ++group) {
                for (int carbons = 3; carbons <= 14; ++carbons) {
                    const double index =
                        100.0 * carbons + 10.0 * static_cast<double>(group) + 2.0 * normal(engine);
                    values += groups[group].first + " " + std::to_string(carbons) + "," +
                              std::string(static_cast<std::size_t>(carbons), 'C') +
                              groups[group].second + ",gc,RI," + std::to_string(index) + ",r" +
                              std::to_string(run) + "\n";
                }
            }
        }
        const Outcome learned = cospot(
            {"learn", "--systems",
             file("systems.csv", "system,technique,stationary_phase,mobile_phase,scale,programme\n"
                                 "gc,gc,dimethylsilicone,helium,n-alkane,\"50 C, 5 C/min\"\n"),
             file("values.csv", values)});
        EXPECT_EQ(learned.code, kDone) << learned.err;
    }

    Outcome identify(const std::vector<std::string> &further = {}) const {
        std::vector<std::string> arguments{
            "--json", "identify",
            file("u.csv", "sample,feature,system,quantity,value\nf,1,gc,RI,803\n")};
        arguments.insert(arguments.end(), further.begin(), further.end());
        Outcome outcome = cospot(arguments);
        EXPECT_EQ(outcome.code, kDone) << outcome.err;
        return outcome;
    }
};

constexpr const char *kCorrected = "corrected by the proof of";

double log_odds_of_unlisted(const Outcome &outcome) {
    const double unlisted = outcome.lines().at(0)["unlisted"];
    return std::log(unlisted / (1.0 - unlisted));
}

TEST_F(ProveTest, PrintsWhatItFoundAsJson) {
    learn(8);
    const Outcome outcome = cospot({"--json", "prove"});
    ASSERT_EQ(outcome.code, kDone) << outcome.err;
    ASSERT_EQ(outcome.lines().size(), 1U) << outcome.out;
    const nlohmann::json proof = outcome.lines()[0];
    EXPECT_EQ(proof["technique"], "gc");
    EXPECT_EQ(proof["question"], "run");
    EXPECT_EQ(proof["systems"], 1);
    EXPECT_EQ(proof["several_systems"], false);
    EXPECT_EQ(proof["too_sure"], false);
    EXPECT_EQ(proof["questions"], 8 * 36);
    EXPECT_GT(proof["absent"], 0);
    EXPECT_GT(proof["first_right"], 0.9); // 10 units apart, with a scatter of two
    EXPECT_GT(proof["exponent"], 0.0);
    ASSERT_EQ(proof["by_basis"].size(), 1U);
    EXPECT_EQ(proof["by_basis"][0]["basis"], "measured");
    EXPECT_EQ(proof["by_basis"][0]["questions"], 8 * 36 - proof["absent"].get<int>());
    EXPECT_EQ(proof["by_basis"][0]["exponent"], proof["exponent"]);
    EXPECT_EQ(proof["absent_compounds"]["questions"], proof["absent"]);
    EXPECT_GT(proof["absent_compounds"]["unlisted"], proof["absent_compounds"]["unlisted_of_held"]);
    for (const char *which : {"as_stated", "corrected"}) {
        const nlohmann::json &reliability = proof[which];
        EXPECT_LT(reliability["calibration_error"], 0.1) << which;
        EXPECT_GT(reliability["set_coverage"], 0.85) << which;
        for (const auto &bin : reliability["reliability"]) {
            EXPECT_GT(bin["n"], 0);
            EXPECT_LE(bin["right"], 1.0);
        }
    }
}

TEST_F(ProveTest, StoresTheCorrectionForIdentify) {
    learn(8);
    const Outcome before = identify();
    EXPECT_EQ(before.err.find(kCorrected), std::string::npos);
    EXPECT_NE(before.err.find("not yet validated"), std::string::npos) << before.err;
    const Outcome proved = cospot({"--json", "prove"});
    EXPECT_NE(proved.err.find("stored"), std::string::npos) << proved.err;
    const Outcome after = identify();
    EXPECT_NE(after.err.find(kCorrected), std::string::npos) << after.err;
    EXPECT_EQ(after.err.find("not yet validated"), std::string::npos) << after.err;
    EXPECT_NE(after.err.find("288 questions"), std::string::npos) << after.err;
    const auto proof = proved.lines().at(0);
    ASSERT_EQ(proof["is_corrected"], true);
    // Odds between the first two candidates and odds of unlisted, corrected as the proof says.
    const auto log_odds = [](const Outcome &outcome) {
        const auto feature = outcome.lines().at(0);
        return std::log(feature["candidates"][0]["probability"].get<double>() /
                        feature["candidates"][1]["probability"].get<double>());
    };
    EXPECT_NEAR(log_odds(after), proof["exponent"].get<double>() * log_odds(before), 1e-6);
    const double offset = proof["absent_compounds"]["log_odds_offset"];
    EXPECT_NEAR(log_odds_of_unlisted(after), log_odds_of_unlisted(before) + offset, 1e-6);
}

TEST_F(ProveTest, WithoutRecalibrationProbabilitiesAreThoseAsComputed) {
    learn(8);
    const Outcome before = identify();
    ASSERT_EQ(cospot({"prove"}).code, kDone);
    EXPECT_NE(identify().out, before.out);
    const Outcome plain = identify({"--no-recalibration"});
    EXPECT_EQ(plain.out, before.out);
    EXPECT_EQ(plain.err.find(kCorrected), std::string::npos);
}

TEST_F(ProveTest, EachFeatureIsCorrectedByTheProofOfItsOwnTechnique) {
    learn(8);
    ASSERT_EQ(cospot({"prove"}).code, kDone);
    const Outcome learned =
        cospot({"learn", "--systems", file("plates.csv", "system,technique\nsilica,tlc\n"),
                file("spots.csv", "compound,smiles,system,quantity,value\n"
                                  "butanol,CCCCO,silica,Rf,0.3\nbutanal,CCCC=O,silica,Rf,0.31\n")});
    ASSERT_EQ(learned.code, kDone) << learned.err;
    const std::string head = "sample,feature,system,quantity,value\n";
    const std::string peak = "f,1,gc,RI,803\n";
    const std::string spot = "p,2,silica,Rf,0.3\n";
    const std::string both = "b,3,silica,Rf,0.3\nb,3,gc,RI,803\n";
    const auto answers = [&](const std::string &name, const std::string &rows) {
        return cospot({"--json", "identify", file(name, head + rows)});
    };
    const auto peak_alone = answers("peak.csv", peak).lines().at(0);
    const auto spot_alone = answers("spot.csv", spot).lines().at(0);
    const Outcome peak_first = answers("peak_first.csv", peak + spot + both);
    const Outcome spot_first = answers("spot_first.csv", spot + peak + both);
    EXPECT_EQ(peak_first.lines().at(0)["candidates"], peak_alone["candidates"]);
    EXPECT_EQ(spot_first.lines().at(1)["candidates"], peak_alone["candidates"]);
    EXPECT_EQ(peak_first.lines().at(1)["candidates"], spot_alone["candidates"]);
    EXPECT_EQ(spot_first.lines().at(0)["candidates"], spot_alone["candidates"]);
    for (const Outcome *outcome : {&peak_first, &spot_first}) {
        const std::string notes = on_one_line(outcome->err);
        EXPECT_HOLDS(notes, "features seen on one GC system are corrected by the proof of");
        EXPECT_HOLDS(notes, "not yet validated for one TLC system");
        EXPECT_HOLDS(notes, "seen by several techniques stay as computed");
    }
    const Outcome plain =
        cospot({"--json", "identify", "--no-recalibration", path("peak_first.csv")});
    EXPECT_EQ(plain.lines().at(1)["candidates"], spot_alone["candidates"]);
    EXPECT_EQ(plain.lines().at(2)["candidates"], peak_first.lines().at(2)["candidates"]);
    EXPECT_NE(plain.lines().at(0)["candidates"], peak_alone["candidates"]);
}

TEST_F(ProveTest, ADryRunStoresNothing) {
    learn(8);
    const Outcome before = identify();
    const Outcome dry = cospot({"--json", "prove", "--dry-run"});
    EXPECT_EQ(dry.code, kDone);
    EXPECT_EQ(dry.err.find("stored"), std::string::npos);
    EXPECT_EQ(identify().out, before.out);
    EXPECT_EQ(dry.out, cospot({"--json", "prove"}).out);
}

TEST_F(ProveTest, TooLittleNeedsAttentionAndSaysWhy) {
    learn(1); // every compound once: only those left out on purpose can be asked for
    const Outcome json = cospot({"--json", "prove"});
    EXPECT_EQ(json.code, kNeedsAttention);
    EXPECT_TRUE(json.out.empty()) << json.out;
    for (const std::string &words : {cospot({"prove"}).out, json.err}) {
        EXPECT_HOLDS(words, "Nothing to prove: no technique has 50 values");
        EXPECT_HOLDS(on_one_line(words), "compounds that the library holds in further runs");
    }
    EXPECT_EQ(identify().err.find(kCorrected), std::string::npos);
}

TEST_F(ProveTest, SaysWhatItDidNotTryAndWhatThatWouldNeed) {
    learn(8);
    std::string values = "compound,smiles,system,quantity,value,run\n"; // too few for panels
    for (int carbons = 3; carbons <= 8; ++carbons) {
        values += "alkanol " + std::to_string(carbons) + "," +
                  std::string(static_cast<std::size_t>(carbons), 'C') + "O,gc2,RI," +
                  std::to_string(100 * carbons + 400) + ",w1\n";
    }
    ASSERT_EQ(cospot({"learn", "--create-systems", file("wax.csv", values)}).code, kDone);
    const std::string both = file("two.csv", "sample,feature,system,quantity,value\n"
                                             "f,1,gc,RI,803\nf,1,gc2,RI,1203\n");
    EXPECT_HOLDS(on_one_line(cospot({"identify", both}).out),
                 "not yet validated for two GC systems (run cospot prove)");
    const Outcome proved = cospot({"prove"});
    ASSERT_EQ(proved.code, kDone) << proved.err;
    EXPECT_HOLDS(on_one_line(proved.out), "Not tried - GC, features seen on several systems.");
    EXPECT_HOLDS(on_one_line(proved.out), "run the same standards on both systems on the");
    EXPECT_EQ(proved.out.find("features seen on one system"), std::string::npos) << proved.out;
    EXPECT_HOLDS(on_one_line(cospot({"--json", "prove"}).err), "Not tried: GC, features seen on");
    const std::string note = on_one_line(cospot({"identify", both}).out);
    EXPECT_EQ(note.find("(run cospot prove)"), std::string::npos) << note;
    EXPECT_HOLDS(note, "not yet validated for two GC systems: the proof of");
    EXPECT_HOLDS(note, "had too few values to ask for");
}

TEST_F(ProveTest, CalibratedProbabilitiesAreReportedAsProved) {
    learn(8);
    ASSERT_EQ(cospot({"prove"}).code, kDone);
    library::Database(folder_ / "library.db", library::Access::write)
        .execute("UPDATE proved_question SET measured_exponent = 1.0, unlisted_offset = 0.0");
    const std::string note = on_one_line(identify().err);
    EXPECT_HOLDS(note, "were proved on");
    EXPECT_HOLDS(note, "and need no correction (288 questions");
    EXPECT_EQ(note.find(kCorrected), std::string::npos) << note;
}

TEST_F(ProveTest, TheTextFitsTheScreenAndGivesAVerdict) {
    learn(8);
    const Outcome outcome = cospot({"prove", "--dry-run"});
    EXPECT_HOLDS(on_one_line(outcome.out), "A measured compound: when this library says");
    EXPECT_HOLDS(on_one_line(outcome.out), "All compounds and unlisted together: when this");
    EXPECT_NE(outcome.out.find("Retention alone is no proof"), std::string::npos);
    const nlohmann::json proof = cospot({"--json", "prove", "--dry-run"}).lines().at(0);
    const bool is_corrected = proof["is_corrected"];
    EXPECT_EQ(is_corrected, proof["corrected"]["log_loss"] < proof["as_stated"]["log_loss"]);
    EXPECT_EQ(is_corrected,
              proof["exponent"] != 1.0 || proof["absent_compounds"]["log_odds_offset"] != 0.0);
    EXPECT_HOLDS(outcome.out,
                 is_corrected ? "Corrected: " : "No correction: none is clearly better");
    EXPECT_HOLDS(outcome.out, "GC: a run like the library's own, features on one system");
    EXPECT_HOLDS(on_one_line(outcome.out), "A compound the library lacks: ");
    expect_fits_screen(outcome.out);
}

TEST_F(ProveTest, UnlistedOffsetAddsTheSameForEveryUserPrior) {
    learn(8);
    ASSERT_EQ(cospot({"prove"}).code, kDone);
    const auto set_offset = [&](const std::string &offset) {
        library::Database(folder_ / "library.db", library::Access::write)
            .execute("UPDATE proved_question SET unlisted_offset = " + offset);
    };
    for (const char *prior : {"0.01", "0.2", "0.8"}) {
        set_offset("0.0");
        const double before = log_odds_of_unlisted(identify({"--prior-unlisted", prior}));
        set_offset("0.7");
        const double after = log_odds_of_unlisted(identify({"--prior-unlisted", prior}));
        EXPECT_NEAR(after, before + 0.7, 1e-6) << prior;
    }
}

TEST_F(ProveTest, AnEarlierVersionsProofIsReportedAndNotUsed) {
    learn(8);
    const Outcome before = identify();
    library::Database(folder_ / "library.db", library::Access::write)
        .execute("INSERT INTO proof (technique, several_systems, questions, exponent, "
                 "least_in_set, calibration_error, change_id) SELECT 'gc', 0, 300, 0.1, 0.05, "
                 "0.01, max(id) FROM change");
    const Outcome outdated = identify();
    EXPECT_EQ(outdated.out, before.out);
    EXPECT_HOLDS(on_one_line(outdated.err), "an earlier version learned one correction for all "
                                            "questions; prove the library again (cospot prove)");
    ASSERT_EQ(cospot({"prove"}).code, kDone);
    EXPECT_EQ(identify().err.find("earlier version"), std::string::npos);
}

/// Invented compounds on three plates of one kind; on the fourth a few of them.
class ProveSystems : public ProgramTest {
protected:
    void SetUp() override {
        std::mt19937 engine(17);
        std::normal_distribution<double> normal;
        std::string values = "compound,smiles,system,quantity,value,run\n";
        for (int c = 0; c < 45; ++c) {
            const std::string smiles =
                std::string(static_cast<std::size_t>(c / 3 + 1), 'C') +
                std::vector<std::string>{"O", "N", "Cl"}[static_cast<std::size_t>(c % 3)];
            const double property = normal(engine);
            for (const char *system : {"p1", "p2", "p3", "new"}) {
                for (int run = 0; run < 4; ++run) {
                    const double rf =
                        1.0 / (1.0 + std::exp(property + 0.04 * normal(engine) +
                                              (std::string(system) == "p2" ? 0.4 : 0.0)));
                    if (std::string(system) != "new" || c < 15) {
                        values += "c" + std::to_string(c) + "," + smiles + "," + system + ",Rf," +
                                  std::to_string(rf) + ",r" + std::to_string(run) + "\n";
                    }
                }
            }
        }
        const Outcome learned =
            cospot({"learn", "--systems",
                    file("systems.csv", "system,technique,stationary_phase,mobile_phase\n"
                                        "p1,tlc,silica,hexane:ethyl acetate 1:1\n"
                                        "p2,tlc,silica,hexane:ethyl acetate 2:1\n"
                                        "p3,tlc,silica,hexane:ethyl acetate 3:1\n"
                                        "new,tlc,silica,hexane:ethyl acetate 4:1\n"),
                    file("values.csv", values)});
        ASSERT_EQ(learned.code, kDone) << learned.err;
        proved_ = cospot({"--json", "prove"});
        ASSERT_LE(proved_.code, kNeedsAttention) << proved_.err;
    }

    Outcome identify(const std::string &rows) const {
        return cospot(
            {"--json", "identify", file("u.csv", "sample,feature,system,quantity,value\n" + rows)});
    }

    void set(const std::string &assignment, const std::string &where) const {
        library::Database(folder_ / "library.db", library::Access::write)
            .execute("UPDATE proved_question SET " + assignment + " WHERE " + where);
    }

    Outcome proved_;
};

TEST_F(ProveSystems, EachQuestionHasItsVerdict) {
    std::set<std::pair<std::string, int>> questions;
    for (const auto &proof : proved_.lines()) {
        questions.emplace(proof["question"].get<std::string>(), proof["systems"].get<int>());
        EXPECT_FALSE(proof["verdict"].get<std::string>().empty());
        EXPECT_FALSE(proof["absent_compounds"]["verdict"].get<std::string>().empty());
        if (proof["question"] == "new_system") {
            // Those of the fourth plate itself are measured, most others are not.
            const auto &last = proof["by_basis"].back();
            EXPECT_EQ(last["basis"], "transferred");
            EXPECT_GT(2 * last["questions"].get<int>(), proof["questions"].get<int>());
            EXPECT_GT(last["corrected"]["set_coverage"], 0.92);
        }
    }
    EXPECT_TRUE(questions.contains({"run", 1}));
    EXPECT_TRUE(questions.contains({"new_system", 1}));
    const Outcome text = cospot({"prove", "--dry-run"});
    EXPECT_HOLDS(text.out, "TLC: a system of which little is measured, features on one system");
    expect_fits_screen(text.out);
}

TEST_F(ProveSystems, ACorrectionIsUsedForItsQuestionOnly) {
    const std::string measured = "f,1,p1,Rf,0.41\n";
    const std::string little = "f,1,new,Rf,0.41\n";
    const std::string both = "f,1,p1,Rf,0.41\nf,1,p2,Rf,0.33\n";
    const Outcome before_measured = identify(measured);
    const Outcome before_little = identify(little);
    const Outcome before_both = identify(both);
    EXPECT_HOLDS(on_one_line(before_measured.err), "which asked about further runs");
    EXPECT_HOLDS(on_one_line(before_little.err),
                 "features seen on one TLC system of which little is measured");
    set("unlisted_offset = unlisted_offset + 1, transferred_exponent = 0.4 * transferred_exponent",
        "question = 'new_system' AND systems = 1");
    EXPECT_EQ(identify(measured).out, before_measured.out);
    EXPECT_EQ(identify(both).out, before_both.out);
    EXPECT_NEAR(log_odds_of_unlisted(identify(little)), log_odds_of_unlisted(before_little) + 1.0,
                1e-6);
    set("unlisted_offset = unlisted_offset + 1", "question = 'run' AND systems = 1");
    EXPECT_NEAR(log_odds_of_unlisted(identify(measured)),
                log_odds_of_unlisted(before_measured) + 1.0, 1e-6);
    EXPECT_EQ(identify(both).out, before_both.out);
}

} // namespace
} // namespace cospot
