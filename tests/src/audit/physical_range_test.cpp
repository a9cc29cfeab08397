#include "audit/physical_range.h"

#include "audited_systems.h"

#include <gtest/gtest.h>

#include <limits>

namespace cospot {
namespace {

std::size_t findings_for(Quantity quantity, double value) {
    SystemBuilder builder("system", quantity);
    builder.add(1, value);
    return physical_range_findings(builder.system()).size();
}

TEST(PhysicalRange, EndsAreAllowedAndBeyondIsNot) {
    EXPECT_EQ(findings_for(Quantity::Rf, 0.0) + findings_for(Quantity::Rf, 1.0), 0U);
    EXPECT_EQ(findings_for(Quantity::Rf, -0.01), 1U);
    EXPECT_EQ(findings_for(Quantity::Rf, 1.01), 1U);
    EXPECT_EQ(findings_for(Quantity::k, 0.0), 0U);
    EXPECT_EQ(findings_for(Quantity::k, -0.1), 1U);
    EXPECT_EQ(findings_for(Quantity::RI, 100.0) + findings_for(Quantity::tR, 0.1), 0U);
    EXPECT_EQ(findings_for(Quantity::RI, 0.0), 1U);
    EXPECT_EQ(findings_for(Quantity::tR, -1.0), 1U);
    EXPECT_EQ(findings_for(Quantity::tR, std::numeric_limits<double>::infinity()), 1U);
}

TEST(PhysicalRange, NamesOnlyTheImpossibleValue) {
    SystemBuilder builder("plate", Quantity::Rf);
    builder.add(1, 0.98);
    const auto impossible = builder.add(1, 1.015);
    const auto findings = physical_range_findings(builder.system());
    ASSERT_EQ(findings.size(), 1U);
    ASSERT_EQ(findings[0].rows.size(), 1U);
    EXPECT_EQ(findings[0].rows[0].measurement, impossible);
    EXPECT_NE(findings[0].text.find("1.015"), std::string::npos);
}

} // namespace
} // namespace cospot
