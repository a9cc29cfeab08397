#include "model/transfer/transfer.h"

#include "simulated_compounds.h"

#include <boost/math/distributions/students_t.hpp>

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <ostream>

namespace cospot::transfer {
namespace {

constexpr double kNormal = std::numeric_limits<double>::infinity();

/// Two systems that show a property of the compounds, and a target that follows from it.
struct Scenario {
    const char *name;
    double bend;    ///< of the target's dependence
    double freedom; ///< of the Student t of the errors on the target
};

void PrintTo(const Scenario &scenario, std::ostream *out) {
    *out << scenario.name;
}

Eigen::MatrixXd simulated(Draws &draws, Eigen::Index count, const Scenario &scenario) {
    Eigen::MatrixXd values(count, 3);
    for (Eigen::Index c = 0; c < count; ++c) {
        const double property = draws.normal();
        values.row(c) << property + 0.1 * draws.normal(), 0.5 * property + 0.1 * draws.normal(),
            2.0 + property + scenario.bend * property * property +
                0.3 * draws.student(scenario.freedom);
    }
    return values;
}

/// Two targets that depend on something that the first system does not show.
Eigen::MatrixXd with_hidden_property(Draws &draws, Eigen::Index count, double sign) {
    Eigen::MatrixXd values(count, 3);
    for (Eigen::Index c = 0; c < count; ++c) {
        const double property = draws.normal();
        const double hidden = 0.5 * draws.normal();
        values.row(c) << property, property + hidden + 0.3 * draws.normal(),
            property + sign * hidden + 0.3 * draws.normal();
    }
    return values;
}

class TransferCoverage : public testing::TestWithParam<Scenario> {};

TEST_P(TransferCoverage, NinetyPercentIntervalsHoldNineInTen) {
    Draws draws(1);
    const Eigen::VectorXd noise = Eigen::Vector3d::Constant(0.01);
    const TransferModel model = fit_transfer(simulated(draws, 300, GetParam()), noise, {2});
    ASSERT_EQ(model.targets.size(), 1U);
    const Eigen::MatrixXd fresh = simulated(draws, 2000, GetParam());
    int inside = 0;
    for (Eigen::Index c = 0; c < fresh.rows(); ++c) {
        Eigen::VectorXd known = fresh.row(c);
        known[2] = kMissing;
        const Transferred reading = transfer(model, known).readings.at(0);
        const double reach =
            reading.scale * boost::math::quantile(boost::math::students_t(reading.freedom), 0.95);
        inside += std::abs(fresh(c, 2) - reading.location) < reach ? 1 : 0;
    }
    const double coverage = inside / 2000.0;
    EXPECT_GT(coverage, 0.86);
    EXPECT_LT(coverage, 0.94);
}

INSTANTIATE_TEST_SUITE_P(Relations, TransferCoverage,
                         testing::Values(Scenario{"StraightNormal", 0.0, kNormal},
                                         Scenario{"StraightHeavyTailed", 0.0, 3.0},
                                         Scenario{"BentNormal", 0.5, kNormal},
                                         Scenario{"BentHeavyTailed", 0.5, 3.0}),
                         [](const auto &scenario) { return scenario.param.name; });

TEST(Transfer, ABentRelationIsFollowed) {
    Draws draws(2);
    const TransferModel model = fit_transfer(simulated(draws, 300, {"", 0.5, kNormal}),
                                             Eigen::Vector3d::Constant(0.01), {2});
    ASSERT_EQ(model.targets.size(), 1U);
    for (const double property : {-1.5, 0.0, 1.5}) {
        const auto compound = transfer(model, Eigen::Vector3d(property, 0.5 * property, kMissing));
        EXPECT_NEAR(compound.readings.at(0).location, 2.0 + property + 0.5 * property * property,
                    0.25)
            << property;
    }
}

TEST(Transfer, HeavyTailsAreSeen) {
    Draws draws(3);
    const Eigen::VectorXd noise = Eigen::Vector3d::Constant(0.01);
    const auto freedom = [&](double of_errors) {
        return fit_transfer(simulated(draws, 250, {"", 0.0, of_errors}), noise, {2})
            .targets.at(0)
            .freedom;
    };
    EXPECT_LE(freedom(2.0), 4.0);
    EXPECT_GE(freedom(kNormal), 7.0);
}

/// Six systems that show one property of the compounds, each in its own way; the last may be bent.
Eigen::MatrixXd one_property(Draws &draws, Eigen::Index count, double scatter, double bend) {
    Eigen::MatrixXd values(count, 6);
    for (Eigen::Index c = 0; c < count; ++c) {
        const double property = draws.normal();
        for (Eigen::Index s = 0; s < 6; ++s) {
            const double slope = 0.6 + 0.2 * static_cast<double>(s);
            values(c, s) = slope * property + scatter * draws.normal();
        }
        values(c, 5) += bend * property * property;
    }
    return values;
}

double error_of(const TransferModel &model, const Eigen::MatrixXd &known,
                const Eigen::MatrixXd &truth, Eigen::Index target) {
    double squares = 0.0;
    double count = 0.0;
    for (Eigen::Index c = 0; c < known.rows(); ++c) {
        if (std::isnan(known(c, target))) {
            const double location = transfer(model, known.row(c)).readings.at(0).location;
            squares += std::pow(location - truth(c, target), 2);
            count += 1.0;
        }
    }
    return std::sqrt(squares / count);
}

TEST(Transfer, TwelveCompoundsOnANewSystemDoAsWellAsALine) {
    // Of 250 compounds twelve were measured on the last system. The mean of the other five systems
    // tells the property to 0.1 / (1.0 sqrt 5) or so; on the last it counts 1.6 times, and its own
    // readings scatter by 0.1: no line can miss by less than about 0.13.
    double sum = 0.0;
    for (std::uint32_t seed = 1; seed <= 5; ++seed) {
        Draws draws(seed);
        const Eigen::MatrixXd truth = one_property(draws, 250, 0.1, 0.0);
        Eigen::MatrixXd known = truth;
        known.col(5).tail(238).setConstant(kMissing);
        const TransferModel model = fit_transfer(known, Eigen::VectorXd::Constant(6, 0.01), {5});
        ASSERT_EQ(model.targets.size(), 1U) << seed;
        sum += error_of(model, known, truth, 5) / 5.0;
    }
    EXPECT_LT(sum, 0.2);
}

TEST(Transfer, NearlyIdenticalColumnsTransferWithoutShrinkage) {
    // Two nearly identical systems, far out: the expectation is the value itself.
    Draws draws(9);
    Eigen::MatrixXd values(60, 2);
    for (Eigen::Index c = 0; c < values.rows(); ++c) {
        const double index = 1000.0 + 300.0 * draws.normal();
        values.row(c) << index, index + 2.0 + draws.normal();
    }
    values(0, 0) = 1900.0;
    values(0, 1) = kMissing;
    const TransferModel model = fit_transfer(values, Eigen::Vector2d::Constant(1.0), {1});
    ASSERT_EQ(model.targets.size(), 1U);
    const Transferred reading = transfer(model, values.row(0)).readings.at(0);
    EXPECT_NEAR(reading.location, 1902.0, 2.0);
    EXPECT_LT(reading.scale, 4.0);
}

TEST(Transfer, ASystemHalfOfWhoseCompoundsRunWithTheFrontIsNotRefused) {
    // More than half of the readings are equal, but the others follow the property.
    Draws draws(10);
    Eigen::MatrixXd values = one_property(draws, 120, 0.1, 0.0);
    for (double &value : values.col(5)) {
        value = std::min(value, -0.2);
    }
    const TransferModel model = fit_transfer(values, Eigen::VectorXd::Constant(6, 0.01), {5});
    EXPECT_EQ(model.targets.size(), 1U);
    EXPECT_TRUE(model.refused.empty());
}

TEST(Transfer, NothingFromUnrelatedSystems) {
    for (std::uint32_t seed = 1; seed <= 6; ++seed) {
        Draws draws(seed);
        const Eigen::MatrixXd values = draws.compounds(60, Eigen::Matrix3d::Identity(), kNormal);
        EXPECT_TRUE(
            fit_transfer(values, Eigen::Vector3d::Constant(0.01), {0, 1, 2}).targets.empty())
            << seed;
    }
}

TEST(Transfer, NothingBelowTenCommonCompounds) {
    // Twenty compounds, all on the target, nine or ten of them elsewhere too.
    const auto targets_of = [](Eigen::Index common) {
        Draws draws(4);
        Eigen::MatrixXd values = simulated(draws, 20, {"", 0.0, kNormal});
        values.bottomLeftCorner(20 - common, 2).setConstant(kMissing);
        return fit_transfer(values, Eigen::Vector3d::Constant(0.01), {2}).targets.size();
    };
    EXPECT_EQ(targets_of(9), 0U);
    EXPECT_EQ(targets_of(10), 1U);
}

TEST(Transfer, ErrorsWithACommonCauseAreCorrelated) {
    // Given the property, the errors have variance 0.25 + 0.09, of which 0.25 is common.
    constexpr double right = 0.25 / 0.34;
    for (const double sign : {1.0, -1.0}) {
        Draws draws(5);
        const TransferModel model = fit_transfer(with_hidden_property(draws, 300, sign),
                                                 Eigen::Vector3d::Constant(1e-4), {1, 2});
        ASSERT_EQ(model.targets.size(), 2U);
        const auto compound = transfer(model, Eigen::Vector3d(0.4, kMissing, kMissing));
        ASSERT_EQ(compound.correlation.rows(), 2);
        EXPECT_NEAR(compound.correlation(0, 1), sign * right, 0.1);
        EXPECT_NEAR(compound.correlation(1, 0), compound.correlation(0, 1), 1e-9);
        EXPECT_NEAR(compound.correlation(0, 0), 1.0, 1e-12);
    }
}

TEST(Transfer, ErrorsOfTargetsThatShareNothingDoNotGoTogether) {
    Draws draws(6);
    Eigen::MatrixXd values(300, 3);
    for (Eigen::Index c = 0; c < values.rows(); ++c) {
        const double property = draws.normal();
        values.row(c) << property, property + 0.5 * draws.normal(), property + 0.5 * draws.normal();
    }
    const TransferModel model = fit_transfer(values, Eigen::Vector3d::Constant(1e-4), {1, 2});
    const auto compound = transfer(model, Eigen::Vector3d(0.4, kMissing, kMissing));
    ASSERT_EQ(compound.correlation.rows(), 2);
    EXPECT_NEAR(compound.correlation(0, 1), 0.0, 0.12);
}

TEST(Transfer, OnlyWhatWasNotMeasuredIsTransferred) {
    Draws draws(7);
    const TransferModel model = fit_transfer(with_hidden_property(draws, 100, 1.0),
                                             Eigen::Vector3d::Constant(1e-4), {1, 2});
    ASSERT_EQ(model.targets.size(), 2U);
    const auto compound = transfer(model, Eigen::Vector3d(0.4, 0.9, kMissing));
    ASSERT_EQ(compound.readings.size(), 1U);
    EXPECT_EQ(compound.readings[0].system, 2);
    EXPECT_TRUE(transfer(model, Eigen::Vector3d::Constant(kMissing)).readings.empty());
    EXPECT_TRUE(transfer(model, Eigen::Vector3d(0.4, 0.9, 0.8)).readings.empty());
}

TEST(Transfer, SourcesThatInformMostComeFirst) {
    Draws draws(8);
    Eigen::MatrixXd values(100, 4);
    for (Eigen::Index c = 0; c < values.rows(); ++c) {
        const double property = draws.normal();
        values.row(c) << property, property + 2.0 * draws.normal(),
            -property + 0.3 * draws.normal(), kMissing;
    }
    values.col(2).tail(40).setConstant(kMissing);
    const TransferModel model = fit_transfer(values, Eigen::Vector4d::Constant(0.01), {0});
    ASSERT_EQ(model.targets.size(), 1U);
    const auto &sources = model.targets[0].sources;
    ASSERT_EQ(sources.size(), 2U); // nothing was measured on the last
    EXPECT_EQ(sources[0].system, 2);
    EXPECT_EQ(sources[0].common, 60U);
    EXPECT_LT(sources[0].correlation, -0.8);
    EXPECT_EQ(sources[1].system, 1);
    EXPECT_EQ(sources[1].common, 100U);
}

TEST(Transfer, CorrelationOfReadingsIsWeakenedByTheirScatter) {
    Relation relation;
    relation.mean = Eigen::Vector2d::Zero();
    relation.covariance = Eigen::Matrix2d{{4.0, 3.0}, {3.0, 9.0}};
    relation.noise = Eigen::Vector2d(5.0, 7.0);
    const Eigen::MatrixXd correlation = reading_correlation(relation);
    EXPECT_NEAR(correlation(0, 1), 3.0 / (3.0 * 4.0), 1e-12);
    EXPECT_NEAR(correlation(0, 0), 1.0, 1e-12);
}

} // namespace
} // namespace cospot::transfer
