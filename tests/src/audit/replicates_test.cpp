#include "audit/replicates.h"

#include "audited_systems.h"

#include <gtest/gtest.h>

#include <random>

namespace cospot {
namespace {

/// Six compounds with three indices each, 2 units apart.
SystemBuilder ordinary_system() {
    SystemBuilder builder("gc", Quantity::RI);
    for (std::int64_t compound = 1; compound <= 6; ++compound) {
        for (const double deviation : {-2.0, 0.0, 2.0}) {
            builder.add(compound, 900.0 + 50.0 * static_cast<double>(compound) + deviation);
        }
    }
    return builder;
}

TEST(Replicates, OrdinaryScatterIsNoFinding) {
    EXPECT_TRUE(replicate_findings(ordinary_system().system()).empty());
}

TEST(Replicates, NamesTheOutlyingValueAndTheOthersOfItsCompound) {
    SystemBuilder builder = ordinary_system();
    const auto outlier = builder.add(3, 1090.0);
    const auto findings = replicate_findings(builder.system());
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_EQ(findings[0].subject, "compound 3 on gc");
    ASSERT_EQ(findings[0].rows.size(), 4U);
    EXPECT_EQ(findings[0].rows[0].measurement, outlier);
    EXPECT_TRUE(findings[0].rows[0].is_suspect);
    EXPECT_FALSE(findings[0].rows[1].is_suspect);
    EXPECT_NE(findings[0].text.find("1090.0 lies far from the median"), std::string::npos);
    EXPECT_NE(findings[0].text.find("modified z-score"), std::string::npos);
}

TEST(Replicates, OfTwoThatDisagreeBothAreSuspect) {
    SystemBuilder builder = ordinary_system();
    builder.add(7, 1400.0);
    builder.add(7, 1440.0);
    const auto findings = replicate_findings(builder.system());
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_TRUE(findings[0].rows[0].is_suspect && findings[0].rows[1].is_suspect);
}

TEST(Replicates, OfTwoBothAreSuspectAtTheLimitToo) {
    SystemBuilder builder("gc", Quantity::RI);
    builder.add(1, 476.69128955669083); // the scores of these two round to both sides of the limit
    builder.add(1, 491.5405319616083);
    const auto findings = replicate_findings(builder.system());
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_TRUE(findings[0].rows[0].is_suspect && findings[0].rows[1].is_suspect);
    EXPECT_NE(findings[0].text.find("476.7 and 491.5 disagree"), std::string::npos);
}

TEST(Replicates, FewReplicatesAreJudgedByTheAssumedSpread) {
    SystemBuilder builder("plate", Quantity::Rf);
    builder.add(1, 0.40);
    builder.add(1, 0.44);
    EXPECT_TRUE(replicate_spread(builder.system()).is_assumed);
    EXPECT_TRUE(replicate_findings(builder.system()).empty());
    builder.add(2, 0.30);
    builder.add(2, 0.70);
    EXPECT_EQ(replicate_findings(builder.system()).size(), 1U);
}

TEST(Replicates, SpotsAtTheFrontAgree) {
    SystemBuilder builder("plate", Quantity::Rf);
    builder.add(1, 0.96);
    builder.add(1, 1.00);
    builder.add(2, 0.00);
    builder.add(2, 0.03);
    EXPECT_TRUE(replicate_findings(builder.system()).empty());
}

TEST(Replicates, SpreadIsThatOfTheScatterDespiteOutliers) {
    std::mt19937 engine(1);
    std::normal_distribution<double> normal(0.0, 4.0);
    SystemBuilder builder("gc", Quantity::RI);
    for (std::int64_t compound = 1; compound <= 2000; ++compound) {
        for (std::int64_t i = 0; i < 2 + compound % 4; ++i) {
            builder.add(compound,
                        1000.0 + normal(engine) +
                            (compound % 50 == 0 ? 300.0 : 0.0) * static_cast<double>(i % 2));
        }
    }
    EXPECT_NEAR(replicate_spread(builder.system()).spread, 4.0, 0.3);
}

} // namespace
} // namespace cospot
