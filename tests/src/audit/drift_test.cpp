#include "audit/drift.h"

#include "audit/date_shifts.h"
#include "audited_systems.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <functional>
#include <random>

namespace cospot {
namespace {

constexpr int kDates = 30;
constexpr int kStandards = 6;

/// Six control standards on every third day; indices scatter by 0.5 in a run and 0.7 between dates.
/// `change(date, standard)` is added.
SystemBuilder control_system(const std::function<double(int, int)> &change, unsigned seed = 1) {
    std::mt19937 engine(seed);
    std::normal_distribution<double> normal;
    SystemBuilder builder("gc", Quantity::RI);
    for (int date = 0; date < kDates; ++date) {
        const double shift = 0.7 * normal(engine);
        const std::string day =
            fmt::format("2023-{:02}-{:02}", 1 + date * 3 / 28, 1 + date * 3 % 28);
        for (int standard = 0; standard < kStandards; ++standard) {
            builder.add(standard + 1,
                        800.0 + 100.0 * standard + shift + 0.5 * normal(engine) +
                            change(date, standard),
                        day);
        }
    }
    return builder;
}

/// Measurements of all standards on the dates, as control_system() numbers them.
bool is_on_dates(const Finding &finding, int first, int last) {
    for (const FindingRow &row : finding.rows) {
        const auto date = static_cast<int>((library::as_number(row.measurement) - 1) / kStandards);
        if (date < first || date > last) {
            return false;
        }
    }
    return finding.rows.size() == static_cast<std::size_t>((last - first + 1) * kStandards);
}

// With this limit for outliers about one steady system in sixteen has a date flagged (2000 of them
// simulated), 0.25 % of all dates.
TEST(Drift, OrdinaryScatterIsSeldomAFinding) {
    int found = 0;
    for (unsigned seed = 1; seed <= 100; ++seed) {
        SystemBuilder builder = control_system([](int, int) { return 0.0; }, seed);
        found += drift_findings(builder.system()).empty() ? 0 : 1;
    }
    EXPECT_LE(found, 12);
}

TEST(Drift, ALeakOnNeighbouringDatesIsOneFinding) {
    SystemBuilder builder =
        control_system([](int date, int) { return date >= 10 && date <= 12 ? 8.0 : 0.0; });
    const auto findings = drift_findings(builder.system());
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_TRUE(is_on_dates(findings[0], 10, 12));
    EXPECT_NE(findings[0].text.find("shifted together"), std::string::npos) << findings[0].text;
}

TEST(Drift, ScatterOfStandardsAgainstEachOtherIsAFinding) {
    SystemBuilder builder = control_system(
        [](int date, int standard) { return date == 20 ? (standard % 2 == 0 ? 9.0 : -9.0) : 0.0; });
    const auto findings = drift_findings(builder.system());
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_TRUE(is_on_dates(findings[0], 20, 20));
    EXPECT_NE(findings[0].text.find("scatter"), std::string::npos) << findings[0].text;
}

TEST(Drift, AfterAStepTheShorterStretchIsTheFinding) {
    SystemBuilder builder = control_system([](int date, int) { return date < 8 ? 6.0 : 0.0; });
    const auto findings = drift_findings(builder.system());
    ASSERT_FALSE(findings.empty());
    EXPECT_TRUE(is_on_dates(findings[0], 0, 7)) << findings[0].text;
}

TEST(Drift, SlowDriftIsATrend) {
    SystemBuilder builder = control_system([](int date, int) { return 0.3 * date; });
    const auto findings = drift_findings(builder.system());
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_NE(findings[0].text.find("Mann-Kendall"), std::string::npos) << findings[0].text;
    EXPECT_EQ(findings[0].rows.size(), static_cast<std::size_t>(kDates * kStandards));
}

TEST(Drift, MostDatesOnOutlyingLevelsAreOneFinding) {
    SystemBuilder builder = control_system([](int date, int) { return 20.0 * (date / 5 % 4); });
    const auto findings = drift_findings(builder.system());
    ASSERT_FALSE(findings.empty());
    EXPECT_NE(findings[0].text.find("no usual level"), std::string::npos) << findings[0].text;
}

/// Two control standards on a plate, of which `moved` standards have another R_F on one date.
std::vector<Finding> findings_of_two(int moved) {
    std::mt19937 engine(5);
    std::normal_distribution<double> normal(0.0, 0.008);
    SystemBuilder builder("plate", Quantity::Rf);
    for (int date = 1; date <= 12; ++date) {
        for (int standard = 1; standard <= 2; ++standard) {
            const double off = date == 6 && standard <= moved ? 0.15 : 0.0;
            builder.add(standard, 0.3 * standard + off + normal(engine),
                        fmt::format("2024-02-{:02}", date));
        }
    }
    return drift_findings(builder.system());
}

TEST(Drift, OfTwoStandardsTheOneThatMovedAloneIsNamed) {
    const auto findings = findings_of_two(1);
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_EQ(findings[0].subject, "compound 1 on plate");
    EXPECT_NE(findings[0].text.find("On 2024-02-06 the control standard compound 1 is off alone"),
              std::string::npos)
        << findings[0].text;
    ASSERT_EQ(findings[0].rows.size(), 2U);
    EXPECT_EQ(findings[0].rows[0].measurement,
              library::MeasurementId{11}); // the first value of the sixth date
    EXPECT_TRUE(findings[0].rows[0].is_suspect);
    EXPECT_FALSE(findings[0].rows[1].is_suspect);
}

TEST(Drift, TwoStandardsThatMovedTogetherAreAShift) {
    const auto findings = findings_of_two(2);
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_NE(findings[0].text.find("shifted together"), std::string::npos) << findings[0].text;
    EXPECT_EQ(findings[0].advice.find("leak"), std::string::npos) << findings[0].advice;
    EXPECT_EQ(findings[0].advice.find("ladder"), std::string::npos) << findings[0].advice;
    EXPECT_NE(findings[0].advice.find("plate lot"), std::string::npos) << findings[0].advice;
}

TEST(Drift, FewDatesSayNothing) {
    SystemBuilder builder("gc", Quantity::RI);
    for (const auto &[date, value] : {std::pair("2023-01-01", 900.0),
                                      {"2023-01-02", 900.0},
                                      {"2023-01-03", 900.0},
                                      {"2023-01-04", 990.0}}) {
        builder.add(1, value, date);
    }
    EXPECT_TRUE(drift_findings(builder.system()).empty());
}

TEST(DateShifts, DoNotDependOnWhichStandardsRanOnADate) {
    SystemBuilder builder("gc", Quantity::RI);
    // Standard 2 was added on the last dates, which are shifted by 5.
    for (int date = 1; date <= 9; ++date) {
        const double shift = date >= 7 ? 5.0 : 0.0;
        const std::string day = fmt::format("2023-01-0{}", date);
        builder.add(1, 900.0 + shift, day);
        if (date >= 5) {
            builder.add(2, 1200.0 + shift, day);
        }
    }
    const auto dates = control_series(builder.system()).dates;
    ASSERT_EQ(dates.size(), 9U);
    EXPECT_NEAR(dates[8].shift - dates[0].shift, 5.0, 1e-9);
    EXPECT_NEAR(dates[5].shift - dates[0].shift, 0.0, 1e-9);
}

TEST(DateShifts, ScatterOfOneStandardIsFoundDespiteOutliers) {
    std::mt19937 engine(3);
    std::normal_distribution<double> normal(0.0, 2.0);
    SystemBuilder builder("gc", Quantity::RI);
    for (int date = 0; date < 300; ++date) {
        const std::string day = fmt::format("20{:02}-{:02}-01", 10 + date / 12 % 25, 1 + date % 12);
        for (std::int64_t standard = 1; standard <= 4; ++standard) {
            builder.add(standard, 900.0 + normal(engine) + (date == 7 ? 500.0 : 0.0), day);
        }
    }
    EXPECT_NEAR(control_series(builder.system()).standard_deviation, 2.0, 0.2);
}

TEST(DateShifts, DayNumbersCountDays) {
    EXPECT_EQ(day_number("1970-01-02"), 1);
    EXPECT_EQ(day_number("2024-03-01").value() - day_number("2024-02-28").value(), 2);
    EXPECT_EQ(day_number("2024-03"), day_number("2024-03-15"));
    EXPECT_FALSE(day_number("2024"));
    EXPECT_FALSE(day_number(""));
}

} // namespace
} // namespace cospot
