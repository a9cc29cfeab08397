#include "program_fixture.h"

#include <sqlite3.h>

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

namespace cospot {
namespace {

const char *const kAuditSystems = "system,technique,stationary_phase,mobile_phase\n"
                                  "first,tlc,silica gel,hexane:ethyl acetate 3:1\n"
                                  "second,tlc,silica gel,hexane:ethyl acetate 1:1\n";

/// Five homologous alcohols on two systems in two runs, all in good order.
std::string sound_values() {
    std::string rows = "compound,smiles,system,quantity,value,run,date\n";
    std::string chain = "CC";
    for (int i = 0; i < 5; ++i) {
        chain += "C";
        for (int run = 1; run <= 2; ++run) {
            for (const char *system : {"first", "second"}) {
                rows += fmt::format("alcohol {},{}O,{},Rf,{:.2f},p{},2024-01-0{}\n", i, chain,
                                    system, 0.2 + 0.1 * i + 0.01 * run, run, run);
            }
        }
    }
    return rows;
}

class AuditTest : public ProgramTest {
protected:
    AuditTest() {
        cospot({"learn", "--systems", file("systems.csv", kAuditSystems),
                file("values.csv", sound_values())});
    }

    void learn(const std::string &rows) const {
        const Outcome outcome = cospot({"learn", "--accept", file("more.csv", rows)});
        ASSERT_NE(outcome.code, kBadInput) << outcome.err;
    }

    void execute(const char *sql) const {
        sqlite3 *connection = nullptr;
        ASSERT_EQ(sqlite3_open((folder_ / "library.db").c_str(), &connection), SQLITE_OK);
        EXPECT_EQ(sqlite3_exec(connection, sql, nullptr, nullptr, nullptr), SQLITE_OK);
        sqlite3_close(connection);
    }
};

constexpr const char *kFaulty = "compound,smiles,system,quantity,value,run,date\n"
                                "alcohol 1,,first,Rf,0.90,p3,2024-02-01\n"
                                "alcohol 4,,first,Rf,1.01,p3,2024-02-01\n";

TEST_F(AuditTest, ASoundLibraryHasNoFindings) {
    const Outcome outcome = cospot({"audit"});
    EXPECT_NE(outcome.code, kBadInput) << outcome.out << outcome.err;
    EXPECT_EQ(outcome.out, "No findings.\n");
    EXPECT_EQ(cospot({"--json", "audit"}).out, "");
}

TEST_F(AuditTest, FindingsComeWithTheirRowsAndExitCodeOne) {
    learn(kFaulty);
    const Outcome outcome = cospot({"--json", "audit"});
    EXPECT_EQ(outcome.code, kNeedsAttention);
    const auto findings = outcome.lines();
    ASSERT_EQ(findings.size(), 3U) << outcome.out;
    EXPECT_EQ(findings[0]["kind"], "replicates");
    EXPECT_EQ(findings[0]["subject"], "alcohol 1 on first");
    const auto &row = findings[0]["rows"][0];
    EXPECT_EQ(row["compound"], "alcohol 1");
    EXPECT_EQ(row["system"], "first");
    EXPECT_EQ(row["run"], "p3");
    EXPECT_EQ(row["date"], "2024-02-01");
    EXPECT_EQ(row["value"], 0.9);
    EXPECT_EQ(row["suspect"], true);
    EXPECT_FALSE(findings[0]["advice"].get<std::string>().empty());
    EXPECT_EQ(findings[2]["kind"], "physical-range");
    EXPECT_EQ(findings[2]["rows"].size(), 1U);
}

TEST_F(AuditTest, OnlyAndSkipChooseTheChecks) {
    learn(kFaulty);
    EXPECT_EQ(cospot({"--json", "audit", "--only", "physical-range"}).lines().size(), 1U);
    EXPECT_EQ(cospot({"--json", "audit", "--skip", "physical-range"}).lines().size(), 2U);
    const Outcome drift = cospot({"audit", "--only", "drift", "--only", "coverage"});
    EXPECT_EQ(drift.code, kDone) << drift.out;
    EXPECT_EQ(cospot({"audit", "--only", "nonsense"}).code, kBadInput);
    EXPECT_EQ(cospot({"audit", "--only", "drift", "--skip", "drift"}).code, kBadInput);
}

TEST_F(AuditTest, ValuesThatNoLongerHoldAreLeftOut) {
    learn(kFaulty);
    execute("UPDATE measurement SET retired_change_id = 1 WHERE value = 0.90");
    execute("UPDATE measurement SET superseded_by = 1 WHERE value = 1.01");
    EXPECT_EQ(cospot({"audit"}).out, "No findings.\n");
}

TEST_F(AuditTest, ARetiredSystemIsLeftOut) {
    learn(kFaulty);
    execute("UPDATE system SET retired_change_id = 1 WHERE name = 'first'");
    const auto findings = cospot({"--json", "audit", "--skip", "coverage"}).lines();
    EXPECT_TRUE(findings.empty());
}

TEST_F(AuditTest, OneNameForTwoStructuresNamesBoth) {
    learn("compound,smiles,system,quantity,value,run\n"
          "Alcohol 1,OCC1CC1,first,Rf,0.31,p1\nAlcohol 1,OCC1CC1,second,Rf,0.31,p2\n");
    const auto findings = cospot({"--json", "audit"}).lines();
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_EQ(findings[0]["kind"], "identity");
    ASSERT_EQ(findings[0]["structures"].size(), 2U);
    EXPECT_EQ(findings[0]["structures"][0]["values"], 4);
    EXPECT_EQ(findings[0]["structures"][1]["values"], 2);
}

TEST_F(AuditTest, TextIsGroupedCountedAndEightyColumnsWide) {
    const std::string name(200, 'n');
    learn(kFaulty);
    learn("compound,smiles,system,quantity,value,run\n" + name + ",OCC1CCCCC1,first,Rf,0.1," +
          name + "\n" + name + ",OCC1CCCCC1,first,Rf,0.8," + name + "\n");
    const Outcome outcome = cospot({"audit"});
    EXPECT_EQ(outcome.code, kNeedsAttention);
    EXPECT_NE(outcome.out.find("Replicates that disagree\n"), std::string::npos);
    EXPECT_NE(outcome.out.find("suspect  #21  Rf"), std::string::npos) << outcome.out;
    EXPECT_NE(outcome.out.find("To do: "), std::string::npos);
    EXPECT_NE(outcome.out.find("5 findings: replicates 3, physical-range 1, coverage 1.\n"),
              std::string::npos)
        << outcome.out;
    expect_fits_screen(outcome.out);
}

/// The findings of a whole audit with a value or the structure of what is asked for.
std::vector<nlohmann::json> findings_about(const std::vector<nlohmann::json> &all, const char *kind,
                                           const std::string &name) {
    std::vector<nlohmann::json> found;
    for (const nlohmann::json &finding : all) {
        const auto is_about = [&](const nlohmann::json &one) {
            return one.value(kind, "") == name;
        };
        if (std::any_of(finding["rows"].begin(), finding["rows"].end(), is_about) ||
            std::any_of(finding["structures"].begin(), finding["structures"].end(), is_about)) {
            found.push_back(finding);
        }
    }
    return found;
}

TEST_F(AuditTest, OneCompoundOrSystemHasTheFindingsOfTheWholeAuditThatAreAboutIt) {
    learn(kFaulty);
    std::string rows = "compound,smiles,system,quantity,value,run,date\n"
                       "lone,c1ccccc1,second,Rf,0.5,p9,2024-03-01\n"
                       "late,Cc1ccccc1,first,Rf,0.5,p9,2024-03-01\n"
                       "late,Cc1ccccc1,second,Rf,1.02,p9,2024-03-01\n"
                       "alcohol 2,CCCCOC,third,Rf,0.4,p9,2024-03-01\n"; // a second structure
    for (int day = 1; day <= 9; ++day) {                                // a drift of a third system
        for (int i = 0; i < 5; ++i) {
            rows += fmt::format("alcohol {},{},third,Rf,{:.2f},q{},2024-05-0{}\n", i,
                                i == 2 ? "CCCCCO" : "",
                                (i == 0 ? 0.85 : 0.2 + 0.1 * i) + 0.01 * day, day, day);
        }
    }
    cospot({"learn", "--systems",
            file("third.csv", "system,technique,stationary_phase,mobile_phase\n"
                              "third,tlc,silica gel,toluene\n")});
    learn(rows);
    const auto all = cospot({"--json", "audit"}).lines();
    std::set<std::string> kinds;
    for (const char *system : {"first", "second", "third"}) {
        const auto expected = findings_about(all, "system", system);
        EXPECT_LT(expected.size(), all.size());
        const Outcome outcome = cospot({"--json", "audit", "--system", system});
        EXPECT_EQ(outcome.lines(), expected) << system;
        EXPECT_EQ(outcome.code, expected.empty() ? kDone : kNeedsAttention);
        for (const auto &finding : expected) {
            kinds.insert(finding["kind"]);
        }
    }
    for (const char *compound :
         {"alcohol 0", "alcohol 1", "alcohol 3", "alcohol 4", "late", "lone"}) {
        const auto expected = findings_about(all, "compound", compound);
        EXPECT_EQ(cospot({"--json", "audit", "--compound", compound}).lines(), expected)
            << compound;
        EXPECT_FALSE(expected.empty()) << compound;
        EXPECT_LT(expected.size(), all.size());
    }
    EXPECT_TRUE(kinds.contains("replicates") && kinds.contains("drift") &&
                kinds.contains("physical-range") && kinds.contains("coverage") &&
                kinds.contains("elution-order"))
        << kinds.size();
    const auto named = std::find_if(all.begin(), all.end(), [](const nlohmann::json &finding) {
        return finding["kind"] == "identity";
    });
    ASSERT_NE(named, all.end()) << "two structures are called alcohol 2";
    const std::string key = (*named)["structures"][0]["inchikey"];
    const auto of_key = cospot({"--json", "audit", "--compound", key}).lines();
    EXPECT_EQ(std::count(of_key.begin(), of_key.end(), *named), 1);
}

TEST_F(AuditTest, AnUnknownCompoundOrSystemIsRefused) {
    EXPECT_EQ(cospot({"audit", "--compound", "nobody"}).code, kBadInput);
    EXPECT_EQ(cospot({"audit", "--system", "nowhere"}).code, kBadInput);
    EXPECT_EQ(cospot({"audit", "--system", "first", "--compound", "alcohol 1"}).code, kBadInput);
}

} // namespace
} // namespace cospot
