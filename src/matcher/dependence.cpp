#include "matcher/dependence.h"

#include <boost/math/distributions/normal.hpp>

#include <algorithm>

namespace cospot::matcher {

namespace {

/// A reading that is less likely than this counts as one of this probability.
constexpr double kSmallestTail = 1e-6;
/// Correlations are known to so much only.
constexpr double kTrust = 0.95;

} // namespace

double log_dependence(const ErrorCorrelation &correlation,
                      const std::vector<RankedReading> &readings) {
    std::vector<Eigen::Index> rows;
    std::vector<double> scores;
    for (std::size_t row = 0; row < correlation.systems.size(); ++row) {
        const auto reading =
            std::find_if(readings.begin(), readings.end(), [&](const RankedReading &candidate) {
                return candidate.system == correlation.systems[row];
            });
        if (reading != readings.end()) {
            const double below =
                std::clamp(reading->probability_below, kSmallestTail, 1.0 - kSmallestTail);
            rows.push_back(static_cast<Eigen::Index>(row));
            scores.push_back(boost::math::quantile(boost::math::normal(), below));
        }
    }
    if (rows.size() < 2) {
        return 0.0;
    }
    Eigen::MatrixXd among = kTrust * correlation.correlation(rows, rows);
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
