#include "model/matcher/dependence.h"

#include "shared/student_t.h"

#include <boost/math/distributions/normal.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace cospot::matcher {

namespace {

/// A reading that is less likely than this counts as one of this probability.
constexpr double kSmallestTail = 1e-6;
/// Correlations are known to so much only.
constexpr double kTrust = 0.95;
/// Share of compounds whose readings do not go together as those of the library do (assumed).
constexpr double kUnlike = 0.1;

/// Logarithm of the kernel of a Student t of `count` dimensions; `squared` is the squared distance
/// from the centre, `log_volume` the logarithm of the determinant of the scale.
double log_student(double squared, double log_volume, double count, double freedom) {
    return student_t_constant(freedom, count) - 0.5 * log_volume -
           0.5 * (freedom + count) * std::log1p(squared / freedom);
}

} // namespace

double log_together(const JointReadings &joint, const std::vector<PlacedReading> &readings) {
    std::vector<Eigen::Index> rows;
    std::vector<double> deviations;
    std::vector<double> errors; // variances
    double apart = 0.0;
    for (std::size_t row = 0; row < joint.systems.size(); ++row) {
        const auto reading =
            std::find_if(readings.begin(), readings.end(), [&](const PlacedReading &candidate) {
                return candidate.system == joint.systems[row];
            });
        const auto at = static_cast<Eigen::Index>(row);
        const double error = reading == readings.end() ? 0.0 : reading->error * reading->error;
        if (reading != readings.end() && error < joint.covariance(at, at)) {
            const double variance = joint.covariance(at, at) + error;
            errors.push_back(error);
            rows.push_back(at);
            deviations.push_back(reading->place - joint.mean[at]);
            apart += log_student(deviations.back() * deviations.back() / variance,
                                 std::log(variance), 1.0, joint.freedom);
        }
    }
    if (rows.size() < 2) {
        return 0.0;
    }
    Eigen::MatrixXd covariance = joint.covariance(rows, rows);
    covariance.diagonal() += Eigen::Map<const Eigen::VectorXd>(errors.data(), std::ssize(errors));
    const Eigen::LLT<Eigen::MatrixXd> factor(covariance);
    const Eigen::VectorXd deviation =
        Eigen::Map<const Eigen::VectorXd>(deviations.data(), std::ssize(deviations));
    const double together = log_student(deviation.dot(factor.solve(deviation)),
                                        2.0 * factor.matrixLLT().diagonal().array().log().sum(),
                                        static_cast<double>(rows.size()), joint.freedom);
    return std::log((1.0 - kUnlike) * std::exp(together - apart) + kUnlike);
}

double log_dependence(const ErrorCorrelation &correlation,
                      const std::vector<RankedReading> &readings) {
    std::vector<Eigen::Index> rows;
    std::vector<double> scores;
    std::vector<double> certain;
    for (std::size_t row = 0; row < correlation.systems.size(); ++row) {
        const auto reading =
            std::find_if(readings.begin(), readings.end(), [&](const RankedReading &candidate) {
                return candidate.system == correlation.systems[row];
            });
        if (reading != readings.end()) {
            const double below =
                std::clamp(reading->probability_below, kSmallestTail, 1.0 - kSmallestTail);
            rows.push_back(static_cast<Eigen::Index>(row));
            certain.push_back(reading->certain);
            scores.push_back(boost::math::quantile(boost::math::normal(), below));
        }
    }
    if (rows.size() < 2) {
        return 0.0;
    }
    const Eigen::VectorXd share =
        Eigen::Map<const Eigen::VectorXd>(certain.data(), std::ssize(certain));
    Eigen::MatrixXd among = kTrust * share.cwiseSqrt().asDiagonal() *
                            correlation.correlation(rows, rows) * share.cwiseSqrt().asDiagonal();
    among.diagonal().setOnes();
    const Eigen::LLT<Eigen::MatrixXd> factor(among);
    const Eigen::VectorXd z =
        Eigen::Map<const Eigen::VectorXd>(scores.data(), static_cast<Eigen::Index>(scores.size()));
    const Eigen::MatrixXd lower = factor.matrixL();
    return -lower.diagonal().array().log().sum() - 0.5 * (z.dot(factor.solve(z)) - z.squaredNorm());
}

double dependence_of_kinds(const std::vector<ErrorCorrelation> &kinds,
                           const std::vector<RankedReading> &readings) {
    double sum = 0.0;
    for (const ErrorCorrelation &kind : kinds) {
        sum += log_dependence(kind, readings);
    }
    return sum;
}

} // namespace cospot::matcher
