#include "program_fixture.h"

#include <sqlite3.h>

#include <fmt/format.h>

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

} // namespace
} // namespace cospot
