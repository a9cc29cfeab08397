#include "audit/coverage.h"

#include "audited_systems.h"

#include <gtest/gtest.h>

namespace cospot {
namespace {

AuditedSystem covered_system(const std::string &name, std::int64_t compounds) {
    SystemBuilder builder(name, Quantity::RI);
    for (std::int64_t compound = 1; compound <= compounds; ++compound) {
        builder.add(compound, 900.0);
        builder.add(compound, 901.0);
    }
    AuditedSystem system = builder.system();
    for (AuditedCompound &compound : system.compounds) {
        compound.values[0].date = "2026-01-05";
        compound.values[1].date = "2026-01-06";
    }
    return system;
}

std::vector<Finding> coverage_findings_of(const std::vector<AuditedSystem> &systems) {
    CoverageTally tally;
    for (const AuditedSystem &system : systems) {
        add_to_coverage(tally, system);
    }
    return coverage_findings(tally);
}

TEST(Coverage, TwoWellCoveredSystemsAreFine) {
    EXPECT_TRUE(coverage_findings_of({covered_system("a", 5), covered_system("b", 5)}).empty());
}

TEST(Coverage, CompoundsOnASingleSystemAreOneFinding) {
    const auto findings = coverage_findings_of({covered_system("a", 8), covered_system("b", 6)});
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_EQ(findings[0].subject, "a");
    EXPECT_EQ(findings[0].rows.size(), 2U);
    EXPECT_NE(findings[0].text.find("2 compounds are"), std::string::npos);
}

TEST(Coverage, TwoQuantitiesOnOneSystemAreOneSystem) {
    AuditedSystem times = covered_system("a", 5);
    times.quantity = Quantity::tR;
    const auto findings = coverage_findings_of({covered_system("a", 5), times});
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_NE(findings[0].text.find("5 compounds are measured on no other"), std::string::npos);
}

TEST(Coverage, ASystemWithFewCompoundsIsAFinding) {
    const auto findings = coverage_findings_of({covered_system("a", 4), covered_system("b", 5)});
    ASSERT_EQ(findings.size(), 2U);
    EXPECT_NE(findings[0].text.find("Only 4 compounds"), std::string::npos);
}

TEST(Coverage, ManyRunsWithoutADateAreAFinding) {
    AuditedSystem system = covered_system("a", 5);
    for (AuditedCompound &compound : system.compounds) {
        compound.values[0].date.clear();
        compound.values[1].date.clear();
    }
    const auto findings = coverage_findings_of({system, covered_system("b", 5)});
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_EQ(findings[0].subject, "a");
    EXPECT_NE(findings[0].text.find("10 of 10 runs have no date"), std::string::npos);
    // Half of them are dated, and values whose run nobody wrote down say what is missing
    // themselves.
    for (AuditedCompound &compound : system.compounds) {
        compound.values[0].date = "2026-01-05";
    }
    EXPECT_TRUE(coverage_findings_of({system, covered_system("b", 5)}).empty());
    for (AuditedCompound &compound : system.compounds) {
        compound.values[0].date.clear();
        compound.values[0].run_is_named = compound.values[1].run_is_named = false;
    }
    EXPECT_TRUE(coverage_findings_of({system, covered_system("b", 5)}).empty());
}

TEST(Coverage, ASystemWithNoCompoundInTwoRunsIsAFinding) {
    AuditedSystem system = covered_system("a", 5);
    for (AuditedCompound &compound : system.compounds) {
        for (AuditedValue &value : compound.values) {
            value.run = library::RunId{1};
        }
    }
    auto findings = coverage_findings_of({system, covered_system("b", 5)});
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_NE(findings[0].text.find("two runs"), std::string::npos);
    // Where nobody wrote down the run, each value counts as one.
    system.compounds[0].values[1].run_is_named = false;
    EXPECT_TRUE(coverage_findings_of({system, covered_system("b", 5)}).empty());
}

} // namespace
} // namespace cospot
